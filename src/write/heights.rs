//! How tall a row must be for its words.

/// Height of a line of plain words, in points.
pub(super) const LINE: f64 = 13.5;
/// Height of the row of a page's title, in points.
pub(super) const TITLE: f64 = 22.0;
/// Size of plain words, in points.
pub(super) const PLAIN: f64 = 10.0;
/// Size that bold words take as much room as.
pub(super) const BOLD: f64 = 11.0;
/// Size of small words, in points.
pub(super) const SMALL: f64 = 8.0;
/// The tallest row that spreadsheet programs allow, in points.
pub(super) const TALLEST: f64 = 409.0;

/// How many lines words take in a column, guessed from their number of letters.
pub(super) fn lines(words: &str, width: f64, size: f64) -> f64 {
    if words.len() < 12 {
        return 1.0;
    }
    (letters(words) * size / PLAIN / (width * 1.08))
        .ceil()
        .clamp(1.0, 25.0)
}

/// How many lines a text of several paragraphs takes on a page to be printed.
pub(super) fn lines_of_text(text: &str, width: f64) -> f64 {
    let of = |paragraph: &str| (letters(paragraph) / (width * 1.15)).ceil().max(1.0);
    text.split('\n').map(of).sum::<f64>().max(1.0)
}

fn letters(words: &str) -> f64 {
    f64::from(u32::try_from(words.chars().count()).unwrap_or(u32::MAX))
}
