//! Quotation marks that take in more than one field: opened by a slip, as that of inches
//! in front of a measure, and closed lines later or never.
//!
//! Always true: a note of several lines within its own marks is no slip; marks are read
//! just as the CSV reader reads them.

/// A quoted field.
struct Quoted<'t> {
    /// Line and field where its mark opens, from zero.
    place: (u32, u32),
    /// What stands between its marks.
    inside: &'t str,
    /// How it ends.
    end: End,
}

/// How a quoted field ends.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    /// At a separator or the end of the line.
    Closed,
    /// At a mark with more words behind it.
    Within,
    /// Not at all.
    Never,
}

/// The places, line and field from zero, of quotation marks that take in what stands
/// after their own field.
pub(super) fn swallowing(text: &str, delimiter: u8) -> Vec<(u32, u32)> {
    let mut found = Vec::new();
    let mut width = None;
    let mut rows = Rows {
        text,
        delimiter,
        at: 0,
        line: 0,
    };
    while let Some((fields, quoted)) = rows.row() {
        let width = *width.get_or_insert(fields);
        for field in quoted {
            let lines = field.inside.contains('\n');
            let takes_in = match field.end {
                End::Never => true,
                End::Within => lines,
                End::Closed => {
                    lines && (fields > width || looks_like_rows(field.inside, delimiter, width))
                }
            };
            if takes_in {
                found.push(field.place);
            }
        }
    }
    found
}

/// Whether what stands between two marks looks like rows: as many separators as a row has,
/// and one of them neither before a blank, as in prose, nor inside a number.
fn looks_like_rows(inside: &str, delimiter: u8, width: u32) -> bool {
    let bytes = inside.as_bytes();
    let at = |index: usize| bytes.get(index).copied().unwrap_or(b' ');
    let separators: Vec<usize> = (0..bytes.len())
        .filter(|index| bytes[*index] == delimiter)
        .collect();
    let parts = |index: &usize| {
        let digits = |from: usize| (from..from + 3).all(|index| at(index).is_ascii_digit());
        let in_number = *index > 0
            && at(index - 1).is_ascii_digit()
            && digits(index + 1)
            && !at(index + 4).is_ascii_digit();
        !at(index + 1).is_ascii_whitespace() && !in_number
    };
    width > 1 && separators.len() + 1 >= width as usize && separators.iter().any(parts)
}

/// Walks through the rows of a text.
struct Rows<'t> {
    text: &'t str,
    delimiter: u8,
    at: usize,
    line: u32,
}

impl<'t> Rows<'t> {
    /// How many fields the next row has, and those of them that are quoted.
    fn row(&mut self) -> Option<(u32, Vec<Quoted<'t>>)> {
        while self.byte() == Some(b'\n') {
            self.step();
        }
        self.byte()?;
        let (mut fields, mut quoted) = (0, Vec::new());
        loop {
            let place = (self.line, fields);
            if self.byte() == Some(b'"') {
                let (inside, end) = self.quoted();
                quoted.push(Quoted { place, inside, end });
            }
            self.skip_field();
            fields += 1;
            match self.byte() {
                Some(b'\n') | None => return Some((fields, quoted)),
                Some(_) => self.step(),
            }
        }
    }

    /// What stands between two marks, and how it ends.
    fn quoted(&mut self) -> (&'t str, End) {
        self.step();
        let start = self.at;
        loop {
            match self.byte() {
                None => return (&self.text[start..], End::Never),
                Some(b'"') if self.byte_after() == Some(b'"') => {
                    self.step();
                    self.step();
                }
                Some(b'"') => break,
                Some(_) => self.step(),
            }
        }
        let inside = &self.text[start..self.at];
        self.step();
        let closed = self.ends_field();
        (inside, if closed { End::Closed } else { End::Within })
    }

    fn skip_field(&mut self) {
        while !self.ends_field() {
            self.step();
        }
    }

    fn ends_field(&self) -> bool {
        self.byte()
            .is_none_or(|byte| byte == b'\n' || byte == self.delimiter)
    }

    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn byte_after(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at + 1).copied()
    }

    fn step(&mut self) {
        self.line += u32::from(self.byte() == Some(b'\n'));
        self.at += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::swallowing;

    /// The places found, with the delimiter `,`.
    fn places(text: &str) -> Vec<(u32, u32)> {
        swallowing(text, b',')
    }

    #[test]
    fn a_mark_that_is_never_closed_is_found_where_it_opens() {
        assert_eq!(places("a,b,c\n1,\"2,3\n4,5,6\n"), [(1, 1)]);
        // On the last line too, and whatever the width of the table is.
        assert_eq!(places("a,b\n1,\"2"), [(1, 1)]);
        assert_eq!(places("a\n\n\"2\n3\n"), [(2, 0)]);
    }

    #[test]
    fn a_mark_that_is_closed_in_another_row_is_found_where_it_opens() {
        // Closed in the same column, before it and behind it.
        assert_eq!(places("a,b,c\n1,\"2,3\n4,5\",6\n"), [(1, 1)]);
        assert_eq!(places("a,b,c\n1,2,\"3\n5\",4,6\n"), [(1, 2)]);
        assert_eq!(places("a,b,c\n\"1,2,3\n4,5,6\"\n"), [(1, 0)]);
        // With words behind the mark that closes it.
        assert_eq!(places("a,b,c\n1,2,\"3\n4 \"B\",5,6\n"), [(1, 2)]);
        // The line is that of the mark, not that of the row.
        assert_eq!(places("a,b,c\n\"two\nlines\",\"2,3\n4,5,6\",7\n"), [(2, 1)]);
    }

    #[test]
    fn notes_of_several_lines_are_no_slip() {
        assert!(places("Key,Value\nNote,\"Mud, then clay.\nAbout 1,250 gal, left\"\n").is_empty());
        assert!(places("a,b,c\n1,\"two\nlines\",3\n").is_empty());
        assert!(places("a,b\n1,\"12\"\" and 6\"\"\"\n").is_empty());
        assert!(places("a,b\n1,\"Big\" pool\n").is_empty());
        assert!(places("").is_empty());
    }

    #[test]
    fn other_separators_count_too() {
        assert_eq!(swallowing("a;b;c\n1;\"2;3\n4;5;6\";7\n", b';'), [(1, 1)]);
    }
}
