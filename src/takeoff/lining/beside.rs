//! What goes with a sheet: tape on its seams, battens, boots, ground picked clean under it,
//! and the test before it is trimmed.

use super::sheet::{BASIN, FALL};
use super::strips::SEAMS;
use super::{developed, pieces};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, ColumnId, Condition, Link, Rules, Text, when};
use crate::job::tables::{Layers, Materials, ProductionRates as Works};
use crate::takeoff::basis::Basis;
use crate::takeoff::supply::{Amounts, Bought, Needed, Wanted, bought, named_or_usual, worked};
use crate::units::{EACH, PERCENT, Unit};

/// Something that goes with a sheet, as it is bought and worked.
#[derive(Clone, Copy, Debug)]
pub(super) struct Beside {
    /// Quantity in the unit that its line counts.
    pub(super) quantity: Column<Layers>,
    /// What that was worked out as, where it is bought.
    pub(super) amount: Option<Column<Layers>>,
    /// The unit, where it is bought.
    pub(super) unit: Option<Text<Layers>>,
    /// Row of the material, where it is bought.
    pub(super) material: Option<Link<Layers, Materials>>,
    /// The material's own waste, where it is bought.
    pub(super) waste: Option<Column<Layers>>,
    /// Row of the work and what is worked, where it is work.
    pub(super) work: Option<(Link<Layers, Works>, Column<Layers>)>,
}

/// All that goes with sheets.
#[derive(Clone, Copy, Debug)]
pub(super) struct AllBeside {
    pub(super) tape: Beside,
    pub(super) battens: Beside,
    pub(super) boots: Beside,
    pub(super) picking: Beside,
    pub(super) test: Beside,
}

/// Adds all that goes with the sheets.
pub(super) fn beside(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>) -> AllBeside {
    let (inputs, system) = (basis.inputs, basis.system);
    let is_taped = inputs.words(Layers::Seam).is("taped");
    let tape = when(is_taped, SEAMS, 0.0);
    let tape = rules.from_job("taped seams", system.length(), tape);
    let battens = inputs.number(Layers::Battens);
    let battens = rules.from_job("battens along walls", system.length(), battens);
    let boots = inputs.number(Layers::Boots);
    let boots = rules.from_job("boots at penetrations", EACH, boots);
    let says = |field: Layers| inputs.words(field).is("yes");
    let ground = when(
        FALL.found_none(),
        BASIN.of(developed::SURFACE),
        FALL.of(pieces::ALL),
    );
    let ground = when(says(Layers::Picking), ground, 0.0);
    let ground = rules.from_job("ground picked clean", system.area(), ground);
    let test = when(says(Layers::LeakTest), 1.0, 0.0);
    let test = rules.from_job("leak tests", EACH, test);
    full_of_water(rules, inputs.id(Layers::LeakTest), says(Layers::LeakTest));
    AllBeside {
        tape: along(rules, basis, tape, &TAPE, inputs.id(Layers::Seam)),
        battens: along(rules, basis, battens, &BATTENS, inputs.id(Layers::Battens)),
        boots: counted(rules, basis, boots),
        picking: work_only(
            rules,
            basis,
            ("picking", PICKING, inputs.id(Layers::Picking)),
            (
                ground,
                Amounts {
                    area: Some(ground),
                    ..Amounts::default()
                },
            ),
        ),
        test: work_only(
            rules,
            basis,
            ("testing", TESTING, inputs.id(Layers::LeakTest)),
            (
                test,
                Amounts {
                    each: Some(test),
                    ..Amounts::default()
                },
            ),
        ),
    }
}

/// Usual names of a material and of its work, and what is said where they are missing.
struct Usual {
    what: &'static str,
    material: &'static str,
    no_material: &'static str,
    work: Option<(&'static str, &'static str, &'static str)>,
}

const TAPE: Usual = Usual {
    what: "tape",
    material: "Seam tape",
    no_material: "the tape is not in the book, so it is excluded",
    work: None,
};
const BATTENS: Usual = Usual {
    what: "batten",
    material: "Batten",
    no_material: "the batten is not in the book, so it is excluded",
    work: Some((
        "fixing battens",
        "Fix batten",
        "its work is not in the book, so its hours are excluded",
    )),
};
const BOOTS: Usual = Usual {
    what: "boot",
    material: "Boot",
    no_material: "the boot is not in the book, so it is excluded",
    work: Some((
        "fitting boots",
        "Fit boot",
        "its work is not in the book, so its hours are excluded",
    )),
};
const PICKING: (&str, &str) = (
    "Pick subgrade",
    "its work is not in the book, so its hours are excluded",
);
const TESTING: (&str, &str) = (
    "Test liner",
    "its work is not in the book, so its hours are excluded",
);

/// What is bought and worked by length.
fn along(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    length: Column<Layers>,
    usual: &Usual,
    at: ColumnId,
) -> Beside {
    let amounts = Amounts {
        length: Some(length),
        ..Amounts::default()
    };
    let natural = (basis.system.length(), length);
    supplied(rules, basis, usual, (natural, at), &amounts)
}

/// What is bought and worked by the piece.
fn counted(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, count: Column<Layers>) -> Beside {
    let amounts = Amounts {
        each: Some(count),
        ..Amounts::default()
    };
    let at = basis.inputs.id(Layers::Boots);
    supplied(rules, basis, &BOOTS, ((EACH, count), at), &amounts)
}

/// What is bought under its usual name and worked under that of its work.
fn supplied(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    usual: &Usual,
    (natural, at): ((Unit, Column<Layers>), ColumnId),
    amounts: &Amounts<Layers>,
) -> Beside {
    let material = named_or_usual(rules, usual.what, None, usual.material);
    let wanted = Wanted {
        what: usual.what,
        material,
        at,
        missing: usual.no_material,
        natural,
    };
    let bought = bought(rules, basis, &wanted, amounts);
    let work = usual.work.map(|(what, work, missing)| {
        let work = named_or_usual(rules, what, None, work);
        let needed = Needed {
            what,
            work,
            at,
            missing,
        };
        (work, worked(rules, basis, &needed, amounts))
    });
    Beside {
        quantity: bought.quantity,
        amount: Some(bought.amount),
        unit: Some(bought.unit),
        material: Some(material),
        waste: Some(own_waste(rules, basis, usual.what, &bought)),
        work,
    }
}

/// What is worked and not bought.
fn work_only(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    (what, (usual, missing), at): (&str, (&str, &'static str), ColumnId),
    (quantity, amounts): (Column<Layers>, Amounts<Layers>),
) -> Beside {
    let work = named_or_usual(rules, what, None, usual);
    let needed = Needed {
        what,
        work,
        at,
        missing,
    };
    let worked = worked(rules, basis, &needed, &amounts);
    Beside {
        quantity,
        amount: None,
        unit: None,
        material: None,
        waste: None,
        work: Some((work, worked)),
    }
}

/// What is bought beyond the measure: only what the material itself says, because laps,
/// slack and edges are counted one by one.
pub(super) fn own_waste(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    what: &str,
    bought: &Bought<Layers>,
) -> Column<Layers> {
    let own = basis.inputs.number(Materials::MaterialWaste);
    let name = format!("{what} waste");
    rules.from_job(&name, PERCENT, bought.material.of(own))
}

/// A caution: a lined pool that stands full for a test can drown someone.
fn full_of_water(rules: &mut Rules<'_, Layers>, at: ColumnId, is_tested: Condition) {
    rules.limit(
        "pool full for a test",
        is_tested,
        Breach::caution(
            Code::OpenWater,
            at,
            "a lined pool stands full for the leak test, and wet liner gives no hold to climb out",
            "fence it, keep a ladder or a rope at its edge, and let nobody work beside it alone",
        ),
    );
}
