//! What a line takes and costs: the quantity used, material bought, hours, four kinds of cost.

use super::cents;
use super::lines::{MATERIAL, NAME, PRICE, TABLE, TAKEN_OFF, UNIT, WASTE, WORK, WORKED, by_whom};
use crate::graph::Table;
use crate::graph::prelude::*;
use crate::job::tables::{ProductionRates as Works, SetQuantities};
use crate::sources;
use crate::tables::{Earthwork, Lines, UnitBook};
use crate::takeoff::book;
use crate::takeoff::production::{
    CREW_OUTPUT, MACHINE_OUTPUT, MATERIAL_KIND, MATERIAL_PRICE, MATERIAL_SIZE, MATERIAL_WEIGHT,
    WORK_CREW_RATE, WORK_KIND, WORK_MACHINE_RATE, WORK_SIZE,
};
use crate::units::{H, ONE, System};

/// Quantities, hours and costs of lines, and the limits of what nothing prices and of what is
/// set by hand.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Lines>::open(
        "earthwork that nothing prices",
        Code::MissingRate,
        Works::Work.at(),
        || {
            let unpriced = WORK.found_none().and(MATERIAL.found_none());
            let unpriced = unpriced.and(PRICE.same_as(0.0));
            let dug = TABLE.is(Earthwork::NAME).and(QUANTITY.above(0.0));
            dug.and(unpriced)
        },
        "nothing prices this earthwork, so it is excluded",
        "add a row to Production rates with the name of the work, such as Dig; for imported fill, name the material in Job",
    )
    .meaning(Meaning::NoWork),
    &Limit::<SetQuantities>::fault(
        "line that is not there",
        Code::UnknownReference,
        SetQuantities::SetLine.at(),
        || SET_LINE.found_none(),
        "no line of the take-off has this name",
        "copy the name from the sheet Take-off, such as Dig: Main pool",
    )
    .meaning(Meaning::NoLine),
    &Limit::<SetQuantities>::fault(
        "lines of one name",
        Code::DuplicateKey,
        SetQuantities::SetLine.at(),
        || SET.sum(ONE_LINE).above(1.0),
        "two lines have this name, one of the program's own and one of the job, so that it is not known which is meant",
        "give the row of the job another name, and write that here if it is meant",
    ),
    &QUANTITY,
    &REASON,
    &UNIT_SHOWN,
    &DIRECT_COST,
];

/// The line that a quantity is set for by hand.
const SET_LINE: LookUp<SetQuantities, Lines> =
    LookUp::new("line row", || SetQuantities::SetLine.key()).among(|| NAME.key());

/// The quantity that is set by hand for a line.
pub const SET: LookUp<Lines, SetQuantities> = LookUp::new("set row", || NAME.key());

const ONE_LINE: Step<Lines> = Step::arithmetic("one line", System::number, || 1.0.into());

/// The quantity used, to the thousandth: as taken off, or set by hand with a reason.
pub const QUANTITY: Step<Lines> = Step::from_job("quantity", System::number, || {
    let by_hand = SET.of(SetQuantities::SetQuantity);
    when(SET.found_none(), TAKEN_OFF, by_hand).round_in(ONE, 3)
});

/// Why the quantity was set by hand.
pub const REASON: Wording<Lines> = Wording::new("set by hand because", || {
    SET.words_of(SetQuantities::Reason)
});

const UNIT_ROW: LookUp<Lines, UnitBook> =
    LookUp::new("unit row", || UNIT.key()).among(|| book::UNIT.key());

/// The unit as people write it: yd³ for yd3.
pub const UNIT_SHOWN: Wording<Lines> =
    Wording::new("measured in", || UNIT_ROW.words_of(book::SHOWN));

const UNIT_SIZE: Step<Lines> = Step::new("unit size", System::number, &sources::UNITS, || {
    UNIT_ROW.of(book::SIZE)
});

/// What is bought, in the unit the material is sold in: quantity × (1 + waste).
///
/// A volume of a material sold by weight is weighed. Zero without a material.
pub const BOUGHT: Step<Lines> = Step::new("bought", System::number, &sources::WASTE, || {
    let kind = UNIT_ROW.of(book::KIND);
    let volume = kind.clone().same_as(book::VOLUME);
    let volume = volume.or(kind.same_as(book::LOOSE));
    let by_weight = volume.and(MATERIAL.of(MATERIAL_KIND).same_as(book::WEIGHT));
    let weighed = when(by_weight, MATERIAL.of(MATERIAL_WEIGHT), 1.0);
    let sold_in = MATERIAL.of(MATERIAL_SIZE);
    let needed = QUANTITY * UNIT_SIZE * weighed / sold_in * (1.0 + WASTE.here());
    when(MATERIAL.found_none(), 0.0, needed.round_in(ONE, 3))
})
.said_after(by_whom);

/// What is worked, in the unit of the work: the quantity itself, or what the take-off says
/// is worked for it, in the same proportion where the quantity was set by hand. Zero where
/// the line and its work are counted in different kinds of units.
const TO_WORK: Step<Lines> = Step::new("to work", System::number, &sources::UNITS, || {
    let alike = UNIT_ROW.of(book::KIND).same_as(WORK.of(WORK_KIND));
    let in_work_units = QUANTITY * UNIT_SIZE / WORK.of(WORK_SIZE);
    let in_work_units = when(alike, in_work_units, 0.0);
    let kept = when(TAKEN_OFF.above(0.0), QUANTITY / TAKEN_OFF, 0.0);
    let worked = when(WORKED.above(0.0), WORKED * kept, in_work_units);
    when(WORK.found_none(), 0.0, worked)
});

/// Hours of a line: what is worked ÷ output, to the hundredth; zero without a work or an
/// output.
fn hours(output: Step<Works>) -> Term<Lines> {
    let an_hour = WORK.of(output);
    let hours = (TO_WORK / an_hour.clone()).round_in(H, 2);
    when(an_hour.above(0.0), hours, 0.0)
}

/// Hours of the crew.
pub const CREW_HOURS: Step<Lines> =
    Step::new("crew hours", System::hours, &sources::MAN_HOURS, || {
        hours(CREW_OUTPUT)
    })
    .said_after(by_whom);

/// Hours of the machine.
pub const MACHINE_HOURS: Step<Lines> =
    Step::new("machine hours", System::hours, &sources::MAN_HOURS, || {
        hours(MACHINE_OUTPUT)
    })
    .said_after(by_whom);

/// Hours of a line as the crew does all of it: the longer of crew and machine.
pub const HOURS: Step<Lines> = Step::arithmetic("hours of the line", System::hours, || {
    highest(CREW_HOURS, MACHINE_HOURS)
})
.said_after(by_whom);

/// Cost of material.
pub const MATERIAL_COST: Step<Lines> = Step::from_job("material cost", System::money, || {
    cents(BOUGHT * MATERIAL.of(MATERIAL_PRICE))
})
.said_after(by_whom);

/// Cost of labor.
pub const LABOR_COST: Step<Lines> = Step::from_job("labor cost", System::money, || {
    cents(CREW_HOURS * WORK.of(WORK_CREW_RATE))
})
.said_after(by_whom);

/// Cost of equipment.
pub const EQUIPMENT_COST: Step<Lines> = Step::from_job("equipment cost", System::money, || {
    cents(MACHINE_HOURS * WORK.of(WORK_MACHINE_RATE))
})
.said_after(by_whom);

/// Cost of subcontracts.
pub const SUBCONTRACT_COST: Step<Lines> = Step::from_job("subcontract cost", System::money, || {
    cents(QUANTITY * PRICE)
})
.said_after(by_whom);

/// Direct cost.
pub const DIRECT_COST: Step<Lines> = Step::arithmetic("direct cost", System::money, || {
    cents(MATERIAL_COST + LABOR_COST + EQUIPMENT_COST + SUBCONTRACT_COST)
})
.said_after(by_whom);
