//! What a column rests on, and what rests on it.

use super::expr::Expr;
use super::{ColumnId, Graph, Kind, Piece};

impl Graph {
    /// The columns that a column is directly made from.
    #[must_use]
    pub fn made_from(&self, id: ColumnId) -> Vec<ColumnId> {
        let mut found = Vec::new();
        let mut add = |column: ColumnId| {
            if column != id && !found.contains(&column) {
                found.push(column);
            }
        };
        match &self.column(id).kind {
            Kind::Step(expr) => expr.each_column(&mut |column| add(*column)),
            Kind::Limit(condition, _) => condition.each_column(&mut |column| add(*column)),
            Kind::Lookup { key, parent } => {
                add(*key);
                self.table(*parent).label.into_iter().for_each(add);
            }
            Kind::Gathered(cells) => cells.iter().flatten().for_each(|cell| add(cell.column)),
            Kind::WordStep(text) => text.each_column(&mut |column| add(*column)),
            Kind::GatheredWords(rows) => {
                for piece in rows.iter().flatten() {
                    if let Piece::Cell(cell) = piece {
                        add(cell.column);
                    }
                }
            }
            Kind::Solved(solve) => solve.inputs.iter().copied().for_each(add),
            Kind::Measured(_) | Kind::Brought(_) | Kind::Words { .. } => {
                self.following(id)
                    .for_each(|(_, source)| add(source.column));
            }
        }
        found
    }

    /// Every column that rests, directly or not, on one of those given.
    #[must_use]
    pub fn reach(&self, from: &[ColumnId]) -> Vec<bool> {
        let mut reached = vec![false; self.columns.len()];
        for id in self.columns() {
            reached[id.0] =
                from.contains(&id) || self.made_from(id).iter().any(|source| reached[source.0]);
        }
        reached
    }

    /// Whether a column reads itself from below, so that its last row is worked out first.
    pub(super) fn runs_up(&self, id: ColumnId) -> bool {
        let Kind::Step(expr) = &self.column(id).kind else {
            return false;
        };
        let mut up = false;
        expr.walk(&mut |part| {
            up |= matches!(
                part,
                Expr::RowBelow { column, .. } | Expr::NamingBelow { column, .. }
                    if *column == id
            );
        });
        up
    }
}
