//! The defaults that move the bid most: what a tenth more of each would make of it.
//!
//! Always true: each figure is what a whole new run with that one override would give, to
//! the cent; the job itself is not changed. A factor that the job overrides is no default,
//! and a default of zero has no tenth.

use super::Estimate;
use crate::bid;
use crate::graph::Again;
use crate::money;
use crate::parameters::{Factor, OverrideOf};
use crate::takeoff::job_wide::BY_UNIT_PRICE;

/// How many defaults are told.
const MOST: usize = 5;

/// One default, and what another value of it does to the bid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Which default.
    pub factor: Factor,
    /// Its value, in the factor's unit.
    pub default: f64,
    /// The value tried: a tenth more, or as much more as its limits allow; where it stands
    /// at its greatest already, a tenth less.
    pub tried: f64,
    /// The bid with that value, less the bid as it is.
    pub change: f64,
}

/// The defaults that move the bid most, the one that moves it most first.
pub(super) fn swings(estimate: &Estimate) -> Vec<Swing> {
    let by_unit_price = estimate.number(BY_UNIT_PRICE, 0) > 0.0;
    // A lump sum is known before it is shared out among the lines.
    let total = if by_unit_price {
        estimate.graph.id(bid::TOTAL)
    } else {
        estimate.graph.id(bid::LUMP_SUM)
    };
    let again = Again::toward(&estimate.graph, &estimate.results, &[total]);
    let change = |factor: Factor, tried: f64| {
        let own = estimate.graph.id(OverrideOf(factor));
        let other = again.with(&[(own.at(0), tried.into())]);
        money::round(other.number(total.at(0)) - estimate.bid(), 2)
    };
    let swing = |factor: &Factor| {
        let (default, tried) = tried(estimate, *factor)?;
        let change = change(*factor, tried);
        let moves = change.is_finite() && change != 0.0;
        moves.then_some(Swing {
            factor: *factor,
            default,
            tried,
            change,
        })
    };
    let mut all: Vec<Swing> = Factor::ALL.iter().filter_map(swing).collect();
    all.sort_by(|one, two| two.change.abs().total_cmp(&one.change.abs()));
    all.truncate(MOST);
    all
}

/// A default in use, and the other value that is tried; `None` where it is not in use, or
/// has no tenth.
fn tried(estimate: &Estimate, factor: Factor) -> Option<(f64, f64)> {
    let system = estimate.job.system();
    if !estimate.job.factor(factor).value.is_nan() {
        return None;
    }
    let default = factor.default(system);
    let (least, most) = factor.limits(system);
    let more = (default * 1.1).min(most);
    let less = (default * 0.9).max(least);
    let tried = if more > default { more } else { less };
    let has_tenth = default != 0.0 && (more > default || less < default);
    has_tenth.then_some((default, money::round(tried, 9)))
}
