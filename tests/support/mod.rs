//! What several tests share: builders and comparisons.

pub(crate) mod recalculate;
