//! The blank measurement workbook: every input table, with guidance and drop-downs.

use super::error::WriteError;
use super::fingerprint::{self, Covers};
use super::fixed_tables::{self, Entry};
use super::inputs::{self, Filled};
use super::layout::factor_row;
use super::sheets::Fixed;
use super::styles::{Role, Styles};
use super::workbook::{new_book, page, print_wide};
use crate::graph::Table;
use crate::job::columns::{Fields, Fill, Holds, InputTable};
use crate::job::tables::{JobKeys, Materials, ProductionRates, TABLES};
use crate::parameters::Factor;
use crate::takeoff::usual;
use crate::units::{self, System};

/// The sheet of the factors.
const FACTORS: &str = "Factors";

/// The blank measurement workbook in one system of units, as the bytes of an xlsx file.
///
/// # Errors
///
/// Where the workbook cannot be made, which does not happen with the tables as they are.
pub fn template(system: System) -> Result<Vec<u8>, WriteError> {
    let mut styles = Styles::new("$");
    let tables = TABLES.iter().map(|table| table.name);
    let mut book = new_book(Covers::Typed, tables.chain([FACTORS]))?;
    let guide = book.add_worksheet();
    guide.set_name("Guide")?;
    page(guide);
    write_guide(guide, &mut styles, system)?;
    for table in TABLES {
        let sheet = book.add_worksheet();
        sheet.set_name(table.name)?;
        page(sheet);
        let filled = Filled {
            table,
            units: units_of(table, system),
            system,
            data: None,
            followed: Vec::new(),
        };
        inputs::write(sheet, &mut styles, &filled, &|_| 0)?;
        print_wide(sheet, table)?;
        sheet.set_freeze_panes(1, 1)?.set_repeat_rows(0, 0)?;
        first_rows(sheet, &mut styles, table, system)?;
    }
    let sheet = book.add_worksheet();
    sheet.set_name(FACTORS)?;
    page(sheet);
    let form = fixed_tables::form(Fixed::Factors);
    fixed_tables::headings((sheet, &styles), 0, form, false)?;
    for own in Factor::ALL {
        let entries = fixed_tables::factor(*own, system, (None, ""), Entry::Nothing);
        let row = factor_row(*own);
        fixed_tables::constants((sheet, &mut styles), row, form.columns, &entries)?;
    }
    sheet.set_freeze_panes(1, 1)?.set_repeat_rows(0, 0)?;
    fingerprint::sealed(book.save_to_buffer()?)
}

fn units_of(table: &InputTable, system: System) -> Vec<units::Unit> {
    let unit = |holds: Holds| match holds {
        Holds::Number(measure, ..) => measure.unit(system),
        _ => units::ONE,
    };
    table
        .columns
        .iter()
        .map(|column| unit(column.holds))
        .collect()
}

/// What the template fills in by itself: the units, and the works and materials that rows
/// look for where they name none.
fn first_rows(
    sheet: &mut rust_xlsxwriter::Worksheet,
    styles: &mut Styles,
    table: &InputTable,
    system: System,
) -> Result<(), WriteError> {
    if table.name == JobKeys::NAME {
        let row = u32::try_from(JobKeys::Units.index()).unwrap_or(0) + 1;
        sheet.write_string_with_format(row, 1, system.name(), styles.words(Role::Input))?;
    }
    let usual: Vec<(&str, &str)> = match table.name {
        ProductionRates::NAME => usual::works(system).collect(),
        Materials::NAME => usual::materials(system).collect(),
        _ => Vec::new(),
    };
    for (row, (name, unit)) in (1u32..).zip(usual) {
        sheet.write_string_with_format(row, 0, name, styles.words(Role::Input))?;
        sheet.write_string_with_format(row, 1, unit, styles.words(Role::Input))?;
    }
    Ok(())
}

fn write_guide(
    sheet: &mut rust_xlsxwriter::Worksheet,
    styles: &mut Styles,
    system: System,
) -> Result<(), WriteError> {
    sheet.write_with_format(0, 0, "How to fill this in", &styles.title)?;
    let advice = [
        "Fill in Job, and Quick measure for a first bid from one page, or any of the measured tables; leave blank what you do not need.",
        "The unit stands in the heading; change it there for a whole column, or write a measure with its unit: 12' 6 1/2\", 18 in, 3.8 m, rod 4.52.",
        "Per cent are written as 15, not 0.15. Dates are date cells, or 2026-11-20. Names are unique.",
        "Columns of your own may stand to the right: they are carried along. Then run: groundsheet bid THIS-FILE.xlsx -o BID.xlsx",
    ];
    for (row, line) in (1u32..).zip(advice) {
        sheet.write_with_format(row, 0, line, &styles.about)?;
    }
    for (column, (heading, width)) in (0u16..).zip([
        ("Sheet", 18.0),
        ("Column", 26.0),
        ("Needed", 9.0),
        ("What to write", 110.0),
    ]) {
        sheet.write_with_format(6, column, heading, &styles.heading)?;
        sheet.set_column_width(column, width)?;
    }
    let mut row = 7;
    for table in TABLES {
        sheet.write_with_format(row, 0, table.name, &styles.block)?;
        sheet.write_with_format(row, 3, table.guidance, &styles.about)?;
        row += 1;
        for (column, unit) in table.columns.iter().zip(units_of(table, system)) {
            let needed = if column.fill == Fill::Needed {
                "yes"
            } else {
                ""
            };
            for (at, words) in (1u16..).zip([
                &*column.heading_with(unit),
                needed,
                &*guidance(column.guidance, column.holds),
            ]) {
                sheet.write_with_format(row, at, words, styles.words(Role::Computed))?;
            }
            row += 1;
        }
    }
    sheet.set_freeze_panes(7, 0)?.set_repeat_rows(6, 6)?;
    Ok(())
}

fn guidance(words: &str, holds: Holds) -> String {
    match holds {
        Holds::Choice(choices) => format!("{words} One of: {}.", choices.join(", ")),
        Holds::RowOf(table) | Holds::PartOf(table) => format!("{words} A row of {table}."),
        _ => words.to_owned(),
    }
}
