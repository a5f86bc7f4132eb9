//! One test program; each module proves one thing.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "test code: what should be there and is not is a failed test"
)]

mod agree; // three readings of one expression agree
mod built; // structures, loose stone, timber, plants, edges, water by hand
mod by_hand; // small jobs worked out with pencil and paper
mod cli; // exit codes, files left behind, formats
mod client_copy; // the client's copy holds a whitelist and nothing else
mod errors; // bad jobs, each with its exact message
mod every_rule; // every rule has a source, a case where it is a limit, an edit that is followed
mod exported; // results for programs, completions, the manual
mod graph; // the heart by itself
mod jobs; // the sample jobs by hand
mod labour; // the same bid in other hands
mod lining; // liner and fabric by hand
mod orders; // orders, loads, deliveries, grades by hand
mod properties; // what holds for every job, on random ones
mod published; // figures printed in cited sources
mod quick; // the quick page by hand and against the same job in detail
mod reading; // our reader against another
mod round_trip; // a written workbook is a job file
mod safe_output; // what the input says stays words
mod stone; // stone by course by hand
mod support; // builders and comparisons
mod sweep; // every input cell typed over
mod tidy; // the shape of the source
mod typed; // what is typed into every input column
mod usual; // the usual names of materials and works
mod walk_through; // the walk-through of the contributors' guide
mod watched; // what a workbook cannot follow by itself is seen there
mod workbook; // the written workbook as a file
