//! Facts: what a cell that is not of the graph holds, or comes to.

use std::borrow::Cow;

/// Words or a number.
#[derive(Clone, Debug)]
pub(super) enum Fact<'e> {
    Number(f64),
    Words(Cow<'e, str>),
}

impl<'e> Fact<'e> {
    pub(super) fn words(words: impl Into<Cow<'e, str>>) -> Self {
        Fact::Words(words.into())
    }
}
