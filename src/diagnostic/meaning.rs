//! What a finding means to those who tell of it, beyond its code and its words.

/// What a broken limit means beyond the kind of finding.
///
/// A limit says it where it is made, so that names, messages and hints may be reworded
/// freely: nobody reads a meaning out of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Meaning {
    /// Nothing beyond it.
    #[default]
    Plain,
    /// A plug stands in for a price or a rate, so that the cost is in the bid all the same.
    StandsIn,
    /// No work of the book prices the earthwork of the row: one row of the book mends all
    /// that lack the same work.
    NoWork,
    /// Nothing in the book prices the item of the row; a row of its own name would.
    NoPrice,
    /// The words in the cell name no line that is there.
    NoLine,
    /// The words in the cell name no line and no section that is there.
    NoLineNorSection,
    /// Another machine of the book may lift it: the smallest that would is named.
    OtherMachine,
}
