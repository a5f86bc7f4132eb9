//! The workbook of the client's copy: one sheet of values, written from the copy alone.
//!
//! Always true: no formula, name, comment, drop-down or hidden cell is written; each cell
//! is a field of the copy or a fixed label; the same copy gives the same bytes.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use rust_xlsxwriter::{Format, FormatAlign, FormatBorder, Worksheet};

use super::{ClientCopy, ClientItem, ClientList, ClientRow};
use crate::write::error::WriteError;
use crate::write::fingerprint::{self, Covers};
use crate::write::heights::{LINE, TALLEST, lines_of_text as lines};
use crate::write::styles::{Role, Styles, grouped};
use crate::write::workbook::new_book;

/// Its one sheet.
const SHEET: &str = "Bid";
/// Widths of the columns of a bid by unit price: item, description, quantity, unit, unit
/// price, amount.
const BY_UNIT_PRICE: &[f64] = &[12.0, 44.0, 11.0, 15.0, 13.0, 16.0];
/// The same of a lump-sum bid: item, description, amount.
const LUMP_SUM: &[f64] = &[12.0, 78.0, 18.0];
/// Letters of a name that the foot of a page shows.
const AT_THE_FOOT: usize = 60;
/// Paper sizes as workbooks number them.
const LETTER: u8 = 1;
const A4: u8 = 9;

/// The client's copy as the bytes of an xlsx file.
///
/// # Errors
///
/// Where it holds more rows than a sheet has, or a text longer than a cell holds.
pub fn client_workbook(copy: &ClientCopy) -> Result<Vec<u8>, WriteError> {
    let mut book = new_book(Covers::Everything, [SHEET])?;
    let sheet = book.add_worksheet();
    sheet.set_name(SHEET)?;
    let widths = if copy.by_unit_price {
        BY_UNIT_PRICE
    } else {
        LUMP_SUM
    };
    let mut page = Page {
        sheet,
        styles: Styles::new(&copy.currency),
        widths,
        numbered: copy.rows.iter().any(is_numbered),
        row: 0,
    };
    page.paper(copy)?;
    page.head(copy)?;
    page.table(copy)?;
    for list in &copy.lists {
        page.list(list)?;
    }
    page.sign_off()?;
    fingerprint::sealed(book.save_to_buffer()?)
}

/// A page as it is written from the top down.
struct Page<'s> {
    sheet: &'s mut Worksheet,
    styles: Styles,
    widths: &'static [f64],
    /// Whether items have numbers; where not, descriptions take their room too.
    numbered: bool,
    row: u32,
}

impl Page<'_> {
    /// The last column.
    fn last(&self) -> u16 {
        u16::try_from(self.widths.len()).map_or(0, |columns| columns.saturating_sub(1))
    }

    /// Paper, margins, widths and the foot of each page.
    fn paper(&mut self, copy: &ClientCopy) -> Result<(), WriteError> {
        let plain = |letter: &char| !letter.is_control();
        let name: String = copy.title.chars().filter(plain).take(AT_THE_FOOT).collect();
        let foot = format!("&L{}&RPage &P of &N", name.replace('&', "&&"));
        self.sheet
            .set_portrait()
            .set_paper_size(if copy.metric_paper { A4 } else { LETTER })
            .set_print_fit_to_pages(1, 0)
            .set_screen_gridlines(false)
            .set_footer(foot)
            .set_margins(0.7, 0.7, 0.7, 0.8, 0.3, 0.4);
        for (column, width) in (0u16..).zip(self.widths) {
            self.sheet.set_column_width(column, *width)?;
        }
        Ok(())
    }

    /// A draft's warning, the title, and who, where and when.
    fn head(&mut self, copy: &ClientCopy) -> Result<(), WriteError> {
        if let Some(draft) = &copy.draft {
            let format = self.styles.status.clone();
            self.across(
                0,
                draft,
                &format.set_align(FormatAlign::VerticalCenter),
                1.6,
            )?;
            self.row += 1;
        }
        let (title, about) = (self.styles.title.clone(), self.styles.about.clone());
        self.across(0, &copy.title, &title.set_text_wrap(), 1.7)?;
        self.across(0, copy.about, &about, 1.0)?;
        self.row += 1;
        let label = self.styles.words(Role::Total).clone();
        let label = label.set_border_top(FormatBorder::None);
        let words = self.styles.wrapped.clone();
        for (name, value) in &copy.facts {
            self.words(0, name, &label)?;
            self.across(1, value, &words, 1.0)?;
        }
        self.row += 1;
        Ok(())
    }

    /// The table of items, with the total below.
    fn table(&mut self, copy: &ClientCopy) -> Result<(), WriteError> {
        let (heading, number) = (
            self.styles.heading.clone(),
            self.styles.heading_number.clone(),
        );
        if self.numbered {
            self.words(0, "Item", &heading)?;
        }
        self.described("Description", &heading)?;
        if copy.by_unit_price {
            let unit = heading.set_align(FormatAlign::Left).set_indent(1);
            self.words(2, "Quantity", &number)?;
            self.words(3, "Unit", &unit)?;
            self.words(4, "Unit price", &number)?;
        }
        self.words(self.last(), "Amount", &number)?;
        self.row += 1;
        for row in &copy.rows {
            match row {
                ClientRow::Section(name) => self.section(name)?,
                ClientRow::Item(item) => self.item(item, copy.by_unit_price)?,
                ClientRow::Part(words) => self.part(words)?,
            }
        }
        let grand = self.styles.grand.clone();
        let last = self.last();
        let blank = if self.numbered { 0..last } else { 2..last };
        for column in blank {
            self.sheet.write_blank(self.row, column, &grand)?;
        }
        self.described(copy.total_label, &grand)?;
        self.money(last, copy.total, &grand)?;
        self.height(22.0)?;
        self.row += 2;
        Ok(())
    }

    fn section(&mut self, name: &str) -> Result<(), WriteError> {
        let format = self.styles.block.clone().set_text_wrap();
        self.across(0, name, &format.set_align(FormatAlign::Bottom), 1.4)
    }

    fn item(&mut self, item: &ClientItem, by_unit_price: bool) -> Result<(), WriteError> {
        let words = self.styles.wrapped.clone();
        let description = if by_unit_price {
            words.clone()
        } else {
            words.clone().set_bold()
        };
        let money = self.styles.money(Role::Computed).clone();
        if self.numbered {
            self.words(0, &item.number, &words)?;
        }
        self.described(&item.description, &description)?;
        let mut fits = vec![
            (&*item.number, self.widths[0]),
            (&*item.description, self.room()),
        ];
        if let Some(extent) = &item.extent {
            let is_whole = extent.quantity.fract() == 0.0;
            let pattern = grouped(if is_whole { 0 } else { 3 });
            let number = self.styles.pattern_format(pattern, Role::Computed);
            self.sheet
                .write_number_with_format(self.row, 2, extent.quantity, number)?;
            let unit = words.set_align(FormatAlign::Left).set_indent(1);
            self.words(3, &extent.unit, &unit)?;
            self.money(4, extent.unit_price, &money)?;
            fits.push((&extent.unit, self.widths[3]));
        }
        let total = if by_unit_price {
            money
        } else {
            money.set_bold()
        };
        self.money(self.last(), item.amount, &total)?;
        let lines = fits.iter().map(|(words, width)| lines(words, *width));
        self.height(lines.fold(1.0, f64::max) * LINE)?;
        self.row += 1;
        Ok(())
    }

    fn part(&mut self, words: &str) -> Result<(), WriteError> {
        let format = self.styles.wrapped.clone();
        self.described(words, &format.set_align(FormatAlign::Left).set_indent(2))?;
        self.height(lines(words, self.room() - 4.0) * LINE)?;
        self.row += 1;
        Ok(())
    }

    /// One list of terms under its heading.
    fn list(&mut self, list: &ClientList) -> Result<(), WriteError> {
        let heading = self.styles.block.clone();
        self.across(0, list.heading, &heading, 1.4)?;
        let format = self.styles.wrapped.clone();
        for entry in &list.entries {
            self.across(0, entry, &format, 1.0)?;
        }
        self.row += 1;
        Ok(())
    }

    /// Room for the client's signature.
    fn sign_off(&mut self) -> Result<(), WriteError> {
        let words = self.styles.wrapped.clone();
        let line = Format::new().set_border_bottom(FormatBorder::Thin);
        for label in ["Accepted by", "Date"] {
            self.words(0, label, &words.clone().set_align(FormatAlign::Bottom))?;
            self.sheet.write_blank(self.row, 1, &line)?;
            self.height(30.0)?;
            self.row += 1;
        }
        Ok(())
    }

    /// Words from a column to the last one, and on to the next row; `size` is that of the
    /// words, as a share of plain ones.
    fn across(
        &mut self,
        from: u16,
        words: &str,
        format: &Format,
        size: f64,
    ) -> Result<(), WriteError> {
        let last = self.last();
        self.sheet
            .merge_range(self.row, from, self.row, last, words, format)?;
        let room: f64 = self.widths.iter().skip(usize::from(from)).sum();
        self.height(lines(words, room / size) * LINE * size)?;
        self.row += 1;
        Ok(())
    }

    /// Words in the column of descriptions, and in that of item numbers where there are none.
    fn described(&mut self, words: &str, format: &Format) -> Result<(), WriteError> {
        if self.numbered {
            return self.words(1, words, format);
        }
        self.sheet
            .merge_range(self.row, 0, self.row, 1, words, format)?;
        Ok(())
    }

    /// How wide a description may be.
    fn room(&self) -> f64 {
        let from = usize::from(self.numbered);
        self.widths.iter().take(2).skip(from).sum()
    }

    /// Words in a cell of this row; none where they are empty.
    fn words(&mut self, column: u16, words: &str, format: &Format) -> Result<(), WriteError> {
        if words.is_empty() {
            self.sheet.write_blank(self.row, column, format)?;
        } else {
            self.sheet
                .write_string_with_format(self.row, column, words, format)?;
        }
        Ok(())
    }

    fn money(&mut self, column: u16, amount: Decimal, format: &Format) -> Result<(), WriteError> {
        let number = amount.to_f64().unwrap_or(f64::NAN);
        self.sheet
            .write_number_with_format(self.row, column, number, format)?;
        Ok(())
    }

    fn height(&mut self, points: f64) -> Result<(), WriteError> {
        self.sheet.set_row_height(self.row, points.min(TALLEST))?;
        Ok(())
    }
}

/// Whether a row is an item of the client's own form.
fn is_numbered(row: &ClientRow) -> bool {
    matches!(row, ClientRow::Item(item) if !item.number.is_empty())
}
