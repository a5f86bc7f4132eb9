//! The sheet of factors: which defaults are overridden, and why.

use super::Override;
use super::cells::{self, Habits, Value};
use super::columns::{Fill, Holds, InputColumn, Measure};
use super::headings::plain;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::money;
use crate::parameters::Factor;
use crate::read::{Content, Row, Sheet};
use crate::shown::shown;
use crate::units::{self, System, Unit};

/// Reads the overrides, one for each factor in the order of [`Factor::ALL`].
pub(super) fn read(
    sheet: &Sheet,
    habits: &Habits,
    findings: &mut Vec<Diagnostic>,
) -> Vec<Override> {
    let mut overrides: Vec<Override> = Factor::ALL.iter().map(|_| Override::NONE()).collect();
    let Some((heading, rows)) = sheet.rows.split_first() else {
        return overrides;
    };
    let column = |name: &str| {
        heading
            .cells
            .iter()
            .find(|cell| plain(&cells::text_of(&cell.content)) == name)
            .map(|cell| cell.column)
    };
    let (Some(name_at), Some(value_at)) = (column("factor"), column("override")) else {
        let what = "Factors needs the columns \"Factor\" and \"Override\"";
        findings.push(
            Diagnostic::error(Code::MissingHeading, sheet.place.at(heading.index, 0), what)
                .hint("name the columns Factor, Override and Reason in the first row"),
        );
        return overrides;
    };
    let columns = Columns {
        name_at,
        value_at,
        reason_at: column("reason"),
        default_at: column("default"),
    };
    let mut seen = Vec::new();
    for row in rows {
        columns.row(sheet, row, habits, &mut seen, &mut overrides, findings);
    }
    overrides
}

#[allow(clippy::struct_field_names)] // `name` alone would be the name itself
struct Columns {
    name_at: u32,
    value_at: u32,
    reason_at: Option<u32>,
    default_at: Option<u32>,
}

impl Columns {
    fn row(
        &self,
        sheet: &Sheet,
        row: &Row,
        habits: &Habits,
        seen: &mut Vec<Factor>,
        overrides: &mut [Override],
        findings: &mut Vec<Diagnostic>,
    ) {
        let content = |column: u32| {
            row.cells
                .iter()
                .find(|cell| cell.column == column)
                .map(|cell| &cell.content)
        };
        let Some(name) = content(self.name_at).map(cells::text_of) else {
            return;
        };
        let place = sheet.place.at(row.index, self.name_at);
        let Some(factor) = Factor::ALL
            .iter()
            .copied()
            .find(|factor| plain(factor.name()) == plain(&name))
        else {
            findings.push(unknown(&name, place));
            return;
        };
        if seen.contains(&factor) {
            let what = format!("the factor \"{}\" stands twice", factor.name());
            findings.push(
                Diagnostic::error(Code::DuplicateKey, place, what).hint("keep one of the two rows"),
            );
            return;
        }
        seen.push(factor);
        self.default_kept(sheet, row, habits.system, factor, findings);
        let slot = &mut overrides[factor as usize];
        if let Some(reason) = self.reason_at.and_then(content) {
            slot.reason = cells::text_of(reason).trim().into();
        }
        if let Some(content) = content(self.value_at) {
            let place = sheet.place.at(row.index, self.value_at);
            match cells::value(
                &column_of(factor),
                reading_unit(factor, habits.system),
                habits,
                content,
                &place,
            ) {
                Ok(Value::Number { number, .. }) => slot.value = number,
                Ok(Value::Word(_)) => {}
                // Where a factor may be as low as nothing, it may be below one percent too: it is
                // said, and the number stands.
                Err(finding) if finding.code == Code::PercentScale && factor.range().0 <= 0.0 => {
                    if let Content::Number(number) = content {
                        slot.value = *number;
                    }
                    findings.push(Diagnostic {
                        severity: Severity::Warning,
                        ..finding
                    });
                }
                Err(finding) => findings.push(finding),
            }
            slot.place = Some(place);
        }
    }

    /// A default typed over would be lost without a word: it is the program's own.
    fn default_kept(
        &self,
        sheet: &Sheet,
        row: &Row,
        system: System,
        factor: Factor,
        findings: &mut Vec<Diagnostic>,
    ) {
        let cell = row
            .cells
            .iter()
            .find(|cell| Some(cell.column) == self.default_at);
        let Some(Content::Number(found)) = cell.map(|cell| &cell.content) else {
            return;
        };
        let ours = factor.default(system);
        if (found - ours).abs() > 1e-9 {
            let place = sheet.place.at(row.index, self.default_at.unwrap_or(0));
            let what = format!(
                "the default of \"{}\" is {}, found {}",
                factor.name(),
                money::trimmed(ours),
                money::trimmed(*found)
            );
            findings.push(
                Diagnostic::error(Code::ConflictingValues, place, what)
                    .hint("put the default back, and write your own value under Override"),
            );
        }
    }
}

fn unknown(name: &str, place: crate::place::Place) -> Diagnostic {
    let finding = Diagnostic::error(
        Code::FactorUnknown,
        place,
        format!("\"{}\" is not a factor", shown(name)),
    );
    match cells::nearest(name, Factor::ALL.iter().map(|factor| factor.name())) {
        Some(near) => finding.hint(format!("did you mean \"{near}\"?")),
        None => finding.hint("`groundsheet template` lists every factor"),
    }
}

/// A factor read like a cell of an input column.
fn column_of(factor: Factor) -> InputColumn {
    let (low, high) = factor.range();
    let holds = Holds::Number(factor.measure(), low, high);
    InputColumn::new(factor.name(), holds, Fill::Free, "")
}

fn reading_unit(factor: Factor, system: System) -> Unit {
    if factor.measure() == Measure::Count {
        units::ONE
    } else {
        factor.unit(system)
    }
}
