//! The look of the workbook: one table of formats.

use std::collections::BTreeMap;

use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder};

use crate::graph::ColumnInfo;
use crate::graph::Kind;
use crate::graph::words::decimals;
use crate::units;

const INK: Color = Color::RGB(0x26_32_38);
const HEADING: Color = Color::RGB(0xDD_E5_DB);
const INPUT: Color = Color::RGB(0xFF_FA_E6);
const LINE: Color = Color::RGB(0xB8_C4_B8);

/// What a cell is for, which decides its look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Role {
    /// A computed cell.
    Computed,
    /// A cell to fill in.
    Input,
    /// A total.
    Total,
}

/// The formats in use, made once each.
pub(super) struct Styles {
    money: String,
    numbers: BTreeMap<(Role, String), Format>,
    words: BTreeMap<Role, Format>,
    /// Title of a sheet.
    pub(super) title: Format,
    /// A line below a title, or a remark.
    pub(super) about: Format,
    /// Title of a block.
    pub(super) block: Format,
    /// Heading of a column.
    pub(super) heading: Format,
    /// Heading of a column of numbers.
    pub(super) heading_number: Format,
    /// Unit below a heading.
    pub(super) unit: Format,
    /// Unit below the heading of a column of numbers.
    pub(super) unit_number: Format,
    /// Long text.
    pub(super) wrapped: Format,
    /// Small grey text, such as a working.
    pub(super) small: Format,
    /// The bid's total.
    pub(super) grand: Format,
    /// The status line.
    pub(super) status: Format,
}

impl Styles {
    pub(super) fn new(currency: &str) -> Self {
        let base = || {
            Format::new()
                .set_font_color(INK)
                .set_font_size(10)
                .set_align(FormatAlign::Top)
        };
        // A number format holds 255 letters at most; a sign is a few.
        let plain = |letter: &char| !letter.is_control() && *letter != '"';
        let sign: String = currency.chars().filter(plain).take(8).collect();
        let money = format!("\"{sign}\"#,##0.00;[Red]-\"{sign}\"#,##0.00");
        let heading = base()
            .set_bold()
            .set_background_color(HEADING)
            .set_text_wrap()
            .set_border_bottom(FormatBorder::Thin)
            .set_border_bottom_color(LINE);
        let unit = base()
            .set_italic()
            .set_font_size(9)
            .set_background_color(HEADING)
            .set_font_color(Color::RGB(0x5F_6B_61));
        Self {
            grand: base()
                .set_bold()
                .set_font_size(14)
                .set_num_format(&money)
                .set_border_top(FormatBorder::Thin),
            numbers: BTreeMap::new(),
            words: BTreeMap::new(),
            title: base().set_bold().set_font_size(16),
            about: base().set_italic().set_font_color(Color::RGB(0x5F_6B_61)),
            block: base().set_bold().set_font_size(12),
            unit_number: unit.clone().set_align(FormatAlign::Right),
            unit,
            heading_number: heading.clone().set_align(FormatAlign::Right),
            heading,
            wrapped: base().set_text_wrap(),
            small: base()
                .set_font_size(8)
                .set_text_wrap()
                .set_font_color(Color::RGB(0x5F_6B_61)),
            status: base()
                .set_bold()
                .set_font_size(12)
                .set_text_wrap()
                .set_border(FormatBorder::Thin)
                .set_background_color(INPUT),
            money,
        }
    }

    fn base(role: Role) -> Format {
        let format = Format::new()
            .set_font_color(INK)
            .set_font_size(10)
            .set_align(FormatAlign::Top);
        match role {
            Role::Computed => format,
            Role::Input => format
                .set_background_color(INPUT)
                .set_border(FormatBorder::Hair)
                .set_border_color(LINE),
            Role::Total => format.set_bold().set_border_top(FormatBorder::Thin),
        }
    }

    /// The format of a number of a column.
    pub(super) fn number(&mut self, column: &ColumnInfo, role: Role) -> &Format {
        let pattern = self.pattern(column);
        self.pattern_format(pattern, role)
    }

    pub(super) fn pattern_format(&mut self, pattern: impl Into<String>, role: Role) -> &Format {
        self.numbers
            .entry((role, pattern.into()))
            .or_insert_with_key(|(role, pattern)| Self::base(*role).set_num_format(pattern))
    }

    /// A number that stands under words, at the left.
    pub(super) fn left(pattern: &str) -> Format {
        Self::base(Role::Computed)
            .set_num_format(pattern)
            .set_align(FormatAlign::Left)
            .set_indent(1)
    }

    /// The format of an amount of money.
    pub(super) fn money(&mut self, role: Role) -> &Format {
        let pattern = self.money.clone();
        self.pattern_format(pattern, role)
    }

    /// The format of words; computed words stand a little off the numbers before them.
    pub(super) fn words(&mut self, role: Role) -> &Format {
        self.words.entry(role).or_insert_with_key(|role| {
            let format = Self::base(*role).set_text_wrap();
            if *role == Role::Input {
                format
            } else {
                format.set_align(FormatAlign::Left).set_indent(1)
            }
        })
    }

    fn pattern(&self, column: &ColumnInfo) -> String {
        if matches!(column.kind, Kind::Limit(..)) {
            return "[=0]\"ok\";[=1]\"CHECK\";General".to_owned();
        }
        if column.unit == units::MONEY || column.unit == units::MONEY_H {
            return self.money.clone();
        }
        if column.unit == units::DATE {
            return DAY_OR_NONE.to_owned();
        }
        match column.name.as_str() {
            "sessions held"
            | "working days"
            | "working days more"
            | "working days before it"
            | "people in the crew"
            | "held in dollars" => "#,##0;-#,##0".to_owned(),
            "quantity" | "taken off" | "bought" | "needed" | "ordered" | "item quantity" => {
                grouped(2)
            }
            name if name.starts_with("factor of safety") => "0.00;-0.00;\"–\"".to_owned(),
            // No loads is said of what needs none, and of what nobody has counted yet.
            "loads" => "#,##0;-#,##0;".to_owned(),
            name if name.ends_with("row") || name.ends_with("kind") => "0".to_owned(),
            // A blank measure shown elsewhere is zero to a spreadsheet program.
            _ if matches!(column.kind, Kind::Measured(_)) => {
                "#,##0.0###;-#,##0.0###;\"–\"".to_owned()
            }
            _ => grouped(decimals(column.unit)),
        }
    }
}

/// The pattern of a number with so many decimals.
pub(super) fn grouped(places: usize) -> String {
    match places {
        0 => WHOLE.to_owned(),
        places => format!("{WHOLE}.{}", "0".repeat(places)),
    }
}

/// The pattern of a whole number, its thousands set apart.
pub(super) const WHOLE: &str = "#,##0";
/// The pattern of a measure as it was written.
pub(super) const MEASURE: &str = "#,##0.####";
/// The pattern of a length of time.
pub(super) const LENGTH_OF_TIME: &str = "[h]:mm:ss";
/// The pattern of a day.
pub(super) const DAY: &str = "yyyy-mm-dd";
/// The same, blank where there is none.
pub(super) const DAY_OR_NONE: &str = "yyyy-mm-dd;;";
