//! Every input column, checked as it is typed.

use super::Look::{Count, Words};
use super::{Entry, Fact, Form, column};
use crate::estimate::Estimate;
use crate::write::layout::BookLayout;
use crate::write::sheets::ROWS;
use crate::write::typed_cells::{Checked, checked};

pub(super) const TYPED: Form = Form {
    title: "Typed cells",
    columns: &[
        column("Typed in", 40.0, Words),
        column("What a run takes", 70.0, Words).fitted(68.0),
        column("Refused", 10.0, Count),
        column("Any", 8.0, Count),
    ],
    exported: &[],
};

/// Every input column: what a run takes there, and how many of its cells it would refuse.
pub(super) fn typed(
    estimate: &Estimate,
    layout: &BookLayout,
    at: usize,
) -> Vec<Vec<Entry<'static>>> {
    let row = |(row, checked): (u32, Checked)| {
        let range = layout.range(at, checked.id, checked.rows);
        let refused = checked.refused(estimate, &range);
        vec![
            Entry::words(checked.name.clone()),
            Entry::words(checked.takes()),
            Entry::Live(refused, Fact::Number(0.0)),
            Entry::Live(format!("IF(C{}=0,0,1)", row + 1), Fact::Number(0.0)),
        ]
    };
    (ROWS..).zip(checked(estimate)).map(row).collect()
}
