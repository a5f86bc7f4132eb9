//! Writes tables that are not of the graph.

use rust_xlsxwriter::{Format, Worksheet};

use super::{Entry, FixedColumn, FixedTable, Form, Look};
use crate::graph::Cell;
use crate::graph::formula;
use crate::write::error::WriteError;
use crate::write::fact::Fact;
use crate::write::heights::{PLAIN, SMALL};
use crate::write::painter::{Painter, Value};
use crate::write::styles::{MEASURE, Role, Styles, WHOLE};

/// The headings of a table, and the widths of its columns. Those of numbers stand at the
/// right where `is_right` is set.
pub(in crate::write) fn headings(
    (sheet, styles): (&mut Worksheet, &Styles),
    row: u32,
    form: &Form,
    is_right: bool,
) -> Result<(), WriteError> {
    for (at, column) in (0u16..).zip(form.columns) {
        let format = if is_right && column.look.is_number() {
            &styles.heading_number
        } else {
            &styles.heading
        };
        sheet.write_with_format(row, at, column.heading, format)?;
        sheet.set_column_width(at, column.width)?;
    }
    Ok(())
}

/// A row of entries, without formulas.
pub(in crate::write) fn constants(
    (sheet, styles): (&mut Worksheet, &mut Styles),
    row: u32,
    columns: &[FixedColumn],
    entries: &[Entry<'_>],
) -> Result<(), WriteError> {
    for (at, (column, entry)) in (0u16..).zip(columns.iter().zip(entries)) {
        constant(sheet, (row, at), entry, &Formats::of(styles, column.look))?;
    }
    Ok(())
}

/// The formats of numbers and of words in one column.
struct Formats {
    number: Format,
    words: Format,
}

impl Formats {
    fn of(styles: &mut Styles, look: Look) -> Self {
        let both = |format: &Format| Self {
            number: format.clone(),
            words: format.clone(),
        };
        let mut number = |pattern: &str, role| both(styles.pattern_format(pattern, role));
        match look {
            Look::Words => both(styles.words(Role::Computed)),
            Look::Bold => both(&styles.block),
            Look::Long => both(&styles.wrapped),
            Look::Small => both(&styles.small),
            Look::WordsToFill => both(styles.words(Role::Input)),
            Look::Number => number(MEASURE, Role::Computed),
            Look::NumberToFill => number(MEASURE, Role::Input),
            Look::Count => number(WHOLE, Role::Computed),
            Look::Money => both(styles.money(Role::Computed)),
            Look::Flag => number("[=0]\"same\";[=1]\"CHANGED\";General", Role::Computed),
            Look::Either => Self {
                number: number("General", Role::Computed).number,
                words: styles.words(Role::Computed).clone(),
            },
        }
    }
}

/// One cell that is no formula.
fn constant(
    sheet: &mut Worksheet,
    (row, at): (u32, u16),
    entry: &Entry<'_>,
    formats: &Formats,
) -> Result<(), WriteError> {
    match entry {
        Entry::Set(Fact::Number(number)) => {
            sheet.write_number_with_format(row, at, *number, &formats.number)?;
        }
        Entry::Set(Fact::Words(words)) => {
            sheet.write_string_with_format(row, at, &**words, &formats.words)?;
        }
        Entry::Unit(unit) => {
            sheet.write_string_with_format(row, at, unit.to_string(), &formats.words)?;
        }
        Entry::Blank => {
            sheet.write_blank(row, at, &formats.words)?;
        }
        Entry::Live(..) | Entry::Cell(_) | Entry::Nothing => {}
    }
    Ok(())
}

impl Painter<'_> {
    /// The rows of a table, from one on.
    pub(in crate::write) fn rows(
        &mut self,
        first: u32,
        table: &FixedTable<'_>,
    ) -> Result<(), WriteError> {
        let columns = table.form.columns;
        let looks = columns.iter().map(|column| column.look);
        let formats: Vec<Formats> = looks.map(|look| Formats::of(self.styles, look)).collect();
        for (row, entries) in (first..).zip(&table.rows) {
            self.fit_entries(row, columns, entries)?;
            for (at, (entry, formats)) in (0u16..).zip(entries.iter().zip(&formats)) {
                match entry {
                    Entry::Live(formula, Fact::Number(number)) => {
                        self.formula(row, at, formula, Value::Number(*number), &formats.number)?;
                    }
                    Entry::Live(formula, Fact::Words(words)) => {
                        self.formula(row, at, formula, Value::Words(words), &formats.words)?;
                    }
                    Entry::Cell(cell) => self.living_here(row, at, *cell)?,
                    _ => constant(self.sheet, (row, at), entry, formats)?,
                }
            }
        }
        Ok(())
    }

    /// The height that the words of a row need.
    fn fit_entries(
        &mut self,
        row: u32,
        columns: &[FixedColumn],
        entries: &[Entry<'_>],
    ) -> Result<(), WriteError> {
        let mut size = PLAIN;
        let mut words = Vec::new();
        for (column, entry) in columns.iter().zip(entries) {
            if let (Some(width), Entry::Set(Fact::Words(said))) = (column.fit, entry) {
                words.push((&**said, width));
                size = if column.look == Look::Small {
                    SMALL
                } else {
                    PLAIN
                };
            }
        }
        self.fit(row, &words, size)
    }

    /// The cell of a column of the graph that lives here.
    fn living_here(&mut self, row: u32, at: u16, cell: Cell) -> Result<(), WriteError> {
        let graph = &self.estimate.graph;
        let mut text = String::new();
        if let Some(template) = formula::template(graph, self.layout, cell.column) {
            template.splice(0, &mut text);
        }
        let format = self
            .styles
            .number(graph.column(cell.column), Role::Computed);
        let format = format.clone();
        self.formula(row, at, &text, self.value(cell), &format)
    }
}
