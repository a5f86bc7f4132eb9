//! Columns whose words are known beforehand: a rule that asks for another word is a mistake.
//!
//! What a column of choices allows goes on to words that rules take from it. Where it
//! stops: words that a person may write freely, and words joined from pieces, may be any.

use super::expr::TextExpr;
use super::{ColumnId, Graph, Kind};

impl Graph {
    /// Holds that a column may say some words, ignoring case.
    pub(super) fn may_say(&self, column: ColumnId, words: &str) -> Result<(), String> {
        let Some(known) = self.known_words(column) else {
            return Ok(());
        };
        if known.iter().any(|known| known.eq_ignore_ascii_case(words)) {
            return Ok(());
        }
        let (name, known) = (&self.column(column).name, known.join(", "));
        Err(format!(
            "{name} is asked for \"{words}\", and can only be {known}"
        ))
    }

    /// Every word that a column can hold beside none; `None` where it may be any.
    fn known_words(&self, column: ColumnId) -> Option<Vec<&str>> {
        match &self.column(column).kind {
            Kind::Words { choices, .. } => choices.map(<[_]>::to_vec),
            Kind::WordStep(text) => self.known_wording(text),
            _ => None,
        }
    }

    fn known_wording<'g>(&'g self, text: &'g TextExpr) -> Option<Vec<&'g str>> {
        match text {
            TextExpr::Fixed(words) => Some(vec![words]),
            TextExpr::Here(column) | TextExpr::Only(column) | TextExpr::Linked(_, column) => {
                self.known_words(*column)
            }
            TextExpr::When(_, yes, no) => {
                let mut known = self.known_wording(yes)?;
                known.extend(self.known_wording(no)?);
                Some(known)
            }
        }
    }
}
