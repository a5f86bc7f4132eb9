//! How much of the bid rests on measures that were assumed, paced, measured, quoted or set.
//!
//! Always true: every line has one grade, so that the amounts add up to the bid.

use super::{TOTAL, amounts};
use crate::graph::prelude::*;
use crate::job::tables::GRADES;
use crate::pricing::cents;
use crate::pricing::lines as taken;
use crate::tables::{Bid, Grades, Lines};
use crate::units::System;

/// The bid by grade, the least certain first.
pub const RULES: &[&dyn Rule] = &[&GRADE, &AMOUNT, &SHARE];

/// The grade.
pub const GRADE: Wording<Grades> = Wording::brought("grade", |_| GRADES.to_vec()).naming_rows();

/// The grade of each line.
const GRADE_OF: LookUp<Lines, Grades> =
    LookUp::new("grade row", || taken::GRADE.key()).among(|| GRADE.key());

/// What lines of this grade amount to in the bid.
pub const AMOUNT: Step<Grades> = Step::arithmetic("amount in the bid", System::money, || {
    cents(GRADE_OF.sum(amounts::AMOUNT))
});

/// The same as a share of the bid; zero where there is no bid.
pub const SHARE: Step<Grades> = Step::arithmetic("share of the bid", System::percent, || {
    let bid = only::<Grades, Bid>(TOTAL);
    when(bid.clone().above(0.0), AMOUNT / bid, 0.0)
});
