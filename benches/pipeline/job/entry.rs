//! Cells and rows of the tables of a made-up job.

/// A cell of the job's tables.
#[derive(Clone)]
pub(crate) enum Entry {
    Blank,
    Number(f64),
    Words(String),
}

impl From<&str> for Entry {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

impl From<String> for Entry {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<f64> for Entry {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<()> for Entry {
    fn from((): ()) -> Self {
        Self::Blank
    }
}

macro_rules! row {
    ($($entry:expr),* $(,)?) => { vec![$(Entry::from($entry)),*] };
}

/// The rows of a table.
pub(crate) type Rows = Vec<Vec<Entry>>;
