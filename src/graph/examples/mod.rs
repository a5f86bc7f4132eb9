//! Three worked examples: what rules can say that at first looks as if no column could.
//!
//! - [`network`]: a column that reads itself in rows that are named, from above and from
//!   below: the early and the late times of activities, each after several others.
//! - [`pipes`]: a column that a solver fills, held to its inputs by limits that stay live: the
//!   flow in two loops of pipe.
//! - [`outline`]: the row above and the first row of a group: the area within corners.
//!
//! Each is whole: its tables, its rules, what they come to by hand, the three readings, and
//! evaluation again after a change.

pub mod network;
pub mod outline;
pub mod pipes;
