//! Cells of a sheet that the two readers read differently, and what is no difference.
//!
//! The readers differ in what a cell is called, not in what it holds: a number that a
//! format shows as a date or in hundredths, an error as text, blanks around words. Such
//! a cell is the same. Where the other reader is known to leave something out, as its
//! format's arm in `same` says, what ours has found stands.

use std::cmp::Ordering;

use super::theirs::Cells;
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;
use crate::read::dates::percent;
use crate::read::prospect::Format;
use crate::read::{Content, Sheet};

/// Cells of a sheet that are told one by one; a sheet that differs all over is one fault.
const TOLD: usize = 10;

/// Characters of a text that a message shows.
const SHOWN: usize = 40;

/// Characters up to which the other reader surely reads texts of `.xls`: it does not
/// follow those of formulas into the next record.
const SURE_97: usize = 4_000;

/// All cells of a sheet that are read differently.
pub(super) fn of(ours: &Sheet, theirs: &Cells, format: Format) -> Vec<Diagnostic> {
    let compared = Compared {
        format,
        shift: theirs.shift,
    };
    let mut found = Vec::new();
    let mut more = 0_usize;
    for (place, ours_here, theirs_here) in side_by_side(ours, theirs) {
        if compared.same(ours_here, theirs_here) {
            continue;
        }
        if found.len() < TOLD {
            let place = ours.place.at(place.0, place.1);
            found.push(finding(place, ours_here, theirs_here));
        } else {
            more += 1;
        }
    }
    if more > 0 {
        let what = format!("{more} more cells of this sheet are read differently");
        found.push(
            Diagnostic::error(Code::ReadDifferently, ours.place.clone(), what).hint(SAVE_AGAIN),
        );
    }
    found
}

const SAVE_AGAIN: &str = "open the file in a spreadsheet program, see what the cell holds, and \
    save it as a new .xlsx; --read-once leaves this cross-check out";

fn finding(place: Place, ours: Option<&Content>, theirs: Option<&Content>) -> Diagnostic {
    let (ours, theirs) = (shown(ours), shown(theirs));
    let what = format!("two independent readings of this cell differ: {ours}, and {theirs}");
    Diagnostic::error(Code::ReadDifferently, place, what).hint(SAVE_AGAIN)
}

/// A place with what each reader found there.
type Pair<'a> = ((u32, u32), Option<&'a Content>, Option<&'a Content>);

/// Every place where either reader found something, in order.
fn side_by_side<'a>(ours: &'a Sheet, theirs: &'a Cells) -> impl Iterator<Item = Pair<'a>> {
    let cells = ours.rows.iter().flat_map(|row| {
        let cells = row.cells.iter();
        cells.map(move |cell| ((row.index, cell.column), &cell.content))
    });
    let mut ours = cells.peekable();
    let mut theirs = theirs
        .filled
        .iter()
        .map(|(place, content)| (*place, content))
        .peekable();
    std::iter::from_fn(move || {
        let order = match (ours.peek(), theirs.peek()) {
            (None, None) => return None,
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (Some((one, _)), Some((other, _))) => one.cmp(other),
        };
        let one = ours.next_if(|_| order.is_le());
        let other = theirs.next_if(|_| order.is_ge());
        let place = one.or(other)?.0;
        Some((place, one.map(|(_, it)| it), other.map(|(_, it)| it)))
    })
}

/// How two readings are compared.
struct Compared {
    format: Format,
    /// Days between the two date systems, where the file counts from 1904.
    shift: f64,
}

impl Compared {
    fn same(&self, ours: Option<&Content>, theirs: Option<&Content>) -> bool {
        match (ours, theirs) {
            (None, None) => true,
            (Some(ours), None) => self.may_be_left_out(ours),
            (None | Some(Content::NotCalculated), Some(Content::Text(text))) => {
                text.trim().is_empty()
            }
            (None, Some(_)) => false,
            (Some(ours), Some(theirs)) => self.alike(ours, theirs),
        }
    }

    /// What is nothing, and what the other reader is known not to read.
    fn may_be_left_out(&self, ours: &Content) -> bool {
        match ours {
            Content::NotCalculated => true,
            // A cell of an open document may hold text without saying that it does.
            Content::Text(text) => self.format == Format::OpenDocument || text.trim().is_empty(),
            // Errors of formulas in `.xlsb`.
            Content::Error(_) => self.format == Format::OfficeBinary,
            _ => false,
        }
    }

    #[expect(
        clippy::float_cmp,
        reason = "both readers turn the same digits or bits into a number"
    )]
    fn alike(&self, ours: &Content, theirs: &Content) -> bool {
        match (ours, theirs) {
            (Content::Number(ours), Content::Number(theirs))
            | (Content::Date(ours), Content::Date(theirs)) => ours == theirs,
            // Whether a number is a date is not stored; each reader tells it from the format.
            (Content::Date(date), Content::Number(number))
            | (Content::Number(number), Content::Date(date)) => *date == number + self.shift,
            // So it is with lengths of time, which have no first day to be counted from.
            (Content::Duration(days), Content::Number(number)) => days == number,
            (Content::Duration(days), Content::Date(date)) => *date == days + self.shift,
            (Content::Text(text), Content::Number(number)) => {
                percent(*number) == Content::Text(text.clone())
            }
            (Content::Text(ours), Content::Text(theirs)) => self.say_the_same(ours, theirs),
            (Content::Truth(ours), Content::Truth(theirs)) => ours == theirs,
            (Content::Error(ours), Content::Error(theirs)) => ours == theirs,
            // Open documents write errors as text, beside a number or none.
            (Content::Error(ours), Content::Text(theirs)) => {
                let alike = self.say_the_same(ours, theirs) || theirs.trim().is_empty();
                alike && self.format == Format::OpenDocument
            }
            (Content::Error(_), Content::Number(number)) => {
                !number.is_finite() || self.format == Format::OpenDocument
            }
            _ => false,
        }
    }

    /// Whether two texts have the same words, however many blanks are between them.
    fn say_the_same(&self, ours: &str, theirs: &str) -> bool {
        let sure = |text| match self.format {
            Format::Office97 => beginning(text, SURE_97),
            _ => text,
        };
        let (ours, theirs) = (sure(ours), sure(theirs));
        ours == theirs || ours.split_whitespace().eq(theirs.split_whitespace())
    }
}

/// The first characters of a text.
fn beginning(text: &str, characters: usize) -> &str {
    let end = text.char_indices().nth(characters);
    end.map_or(text, |(end, _)| &text[..end])
}

/// What a cell holds, for a message.
fn shown(content: Option<&Content>) -> String {
    match content {
        None => "nothing".to_owned(),
        Some(Content::Number(value)) => value.to_string(),
        Some(Content::Date(day)) => format!("day {day}"),
        Some(Content::Duration(days)) => format!("{days} days"),
        Some(Content::Truth(true)) => "TRUE".to_owned(),
        Some(Content::Truth(false)) => "FALSE".to_owned(),
        Some(Content::Error(name)) => name.clone(),
        Some(Content::NotCalculated) => "a formula without a value".to_owned(),
        Some(Content::Text(text)) => {
            let short = beginning(text, SHOWN);
            let rest = if short.len() < text.len() { "…" } else { "" };
            format!("\"{short}{rest}\"")
        }
    }
}
