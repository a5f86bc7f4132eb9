//! Which column of a sheet is which column of a table, and in what unit.

use super::cells::nearest;
use super::cells::numbers::{TON_OR_TONNE, is_ton_or_tonne, measures_same};
use super::columns::{Holds, InputTable};
use super::natural_unit;
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;
use crate::shown::shown;
use crate::units::{System, Unit};

/// The heading of the column that keeps field notation.
pub(crate) const AS_MEASURED: &str = "As measured";

/// The heading of the column that says where a row was made from, if not by hand.
pub(crate) const ROW_FROM: &str = "Row from";

/// What one heading stands for.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum StandsFor {
    /// A column of the table, in a unit.
    Column(usize, Unit),
    /// The column of field notation.
    AsMeasured,
    /// The column that says where rows were made from.
    RowFrom,
    /// None of ours.
    Extra,
}

/// Letters and digits of a heading in lower case: what headings are matched by.
pub(super) fn plain(text: &str) -> String {
    text.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// A heading without the unit in brackets at its end, and that unit's text.
fn split(text: &str) -> (&str, Option<&str>) {
    let text = text.trim();
    match (text.strip_suffix(')'), text.rfind('(')) {
        (Some(inner), Some(open)) => (text[..open].trim(), Some(inner[open + 1..].trim())),
        _ => (text, None),
    }
}

/// The names of headings or keys, without their units, as they are matched.
pub(super) fn plain_names<'t>(texts: impl Iterator<Item = &'t str>) -> Vec<String> {
    texts
        .flat_map(|text| [plain(text), plain(split(text).0)])
        .collect()
}

/// What a heading, or a key of an upright table, stands for; with what is wrong with it.
/// `there` are the [`plain_names`] of all headings of the sheet.
pub(super) fn meaning(
    table: &InputTable,
    system: System,
    text: &str,
    there: &[String],
    place: &Place,
) -> (StandsFor, Option<Diagnostic>) {
    let find = |wanted: &str| {
        table
            .columns
            .iter()
            .position(|column| plain(column.heading) == plain(wanted))
    };
    if plain(text) == plain(AS_MEASURED) {
        return (StandsFor::AsMeasured, None);
    }
    if plain(text) == plain(ROW_FROM) && !table.upright {
        return (StandsFor::RowFrom, None);
    }
    let (bare, unit) = split(text);
    let unit = unit.filter(|unit| !unit.is_empty());
    // Without its signs, `Side slope (%)` reads like `Side slope`.
    let by_name = find(text).filter(|position| unit.is_none() || !has_unit(table, *position, bare));
    if let Some(position) = by_name {
        return without_unit(table, position, system, place);
    }
    match (find(bare), unit) {
        (Some(position), Some(unit)) => with_unit(table, position, system, unit, place),
        _ => (
            StandsFor::Extra,
            unknown(table, system, (text, bare), there, place),
        ),
    }
}

/// Whether what stands in brackets behind this name is the unit of a measure.
fn has_unit(table: &InputTable, position: usize, bare: &str) -> bool {
    let column = &table.columns[position];
    let shown = matches!(column.holds, Holds::Number(measure, ..) if measure.shows_unit());
    shown && plain(bare) == plain(column.heading)
}

fn without_unit(
    table: &InputTable,
    position: usize,
    system: System,
    place: &Place,
) -> (StandsFor, Option<Diagnostic>) {
    let column = &table.columns[position];
    let unit = natural_unit(column, system);
    let finding = match column.holds {
        Holds::Number(measure, ..)
            if measure.shows_unit()
                && unit != crate::units::SLOPE
                && unit != crate::units::PERCENT =>
        {
            let what = format!("{} has no unit", column.heading);
            Some(
                Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(format!(
                    "write the unit in the heading, as in \"{}\"",
                    column.heading_with(unit)
                )),
            )
        }
        _ => None,
    };
    (StandsFor::Column(position, unit), finding)
}

fn with_unit(
    table: &InputTable,
    position: usize,
    system: System,
    unit: &str,
    place: &Place,
) -> (StandsFor, Option<Diagnostic>) {
    let column = &table.columns[position];
    let wrong = |what: String, wanted: Unit| {
        let hint = match column.holds {
            Holds::Number(measure, ..) if measure.shows_unit() => {
                format!("write \"{}\"", column.heading_with(wanted))
            }
            _ => format!("write \"{}\" alone", column.heading),
        };
        Some(Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(hint))
    };
    let natural = natural_unit(column, system);
    let is_measure = matches!(column.holds, Holds::Number(..));
    if is_measure && natural.measures_like(crate::units::T) && is_ton_or_tonne(unit, system) {
        let what = format!("{} is in \"{unit}\", {TON_OR_TONNE}", column.heading);
        let hint = format!("write \"{0} (ton)\" or \"{0} (tonne)\"", column.heading);
        let finding = Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(hint);
        return (StandsFor::Column(position, natural), Some(finding));
    }
    let Some(given) = Unit::parse(unit) else {
        let what = format!(
            "{} is in \"{}\", which is not a unit known here",
            column.heading,
            shown(unit)
        );
        return (StandsFor::Column(position, natural), wrong(what, natural));
    };
    if natural == crate::units::SLOPE && given == crate::units::PERCENT {
        let what = format!(
            "{} is in per cent, which may be rise over run or run over rise",
            column.heading
        );
        let finding = Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(format!(
            "write \"{}\" and how far it runs out for 1 of drop: 2 for 50 per cent of rise over run",
            column.heading_with(natural)
        ));
        return (StandsFor::Column(position, natural), Some(finding));
    }
    if !measures_same(given, natural) || !is_measure {
        let what = format!("{} cannot be measured in {given}", column.heading);
        return (StandsFor::Column(position, natural), wrong(what, natural));
    }
    (StandsFor::Column(position, given), None)
}

/// A heading that is nearly one of ours is probably a slip; others are simply carried.
/// It blocks where ours is not there and only a letter or two differ, because a measure
/// would be left out of the bid.
fn unknown(
    table: &InputTable,
    system: System,
    (text, bare): (&str, &str),
    there: &[String],
    place: &Place,
) -> Option<Diagnostic> {
    if bare.is_empty() {
        return None;
    }
    let near = nearest(bare, table.columns.iter().map(|column| column.heading))?;
    let column = table.columns.iter().find(|column| column.heading == near)?;
    let (kind, part) = if table.upright {
        ("key", "row")
    } else {
        ("heading", "column")
    };
    let what = format!("\"{}\" is not a {kind} of {}", shown(text), table.name);
    let finding = if is_slip(bare, near) && !there.contains(&plain(near)) {
        Diagnostic::error(Code::UnknownHeading, place.clone(), what)
    } else {
        let what = format!("{what}; the {part} is carried but not used");
        Diagnostic::warning(Code::UnknownHeading, place.clone(), what)
    };
    let wanted = column.heading_with(natural_unit(column, system));
    Some(finding.hint(format!("did you mean \"{wanted}\"?")))
}

/// Whether two names differ by a slip of the pen: one letter, or two in a longer name.
pub(super) fn is_slip(written: &str, name: &str) -> bool {
    let (written, name) = (plain(written), plain(name));
    let most = if name.len() < 6 { 1 } else { 2 };
    strsim::damerau_levenshtein(&written, &name) <= most
}
