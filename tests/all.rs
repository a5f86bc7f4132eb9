//! One test program; each module proves one thing.

mod by_hand; // small jobs worked out with pencil and paper
mod properties; // what holds for every job, on random ones
mod published; // figures printed in cited sources
mod support; // builders and comparisons

// Three readings of one expression agree.
mod agree;
// A written workbook is a job file.
mod round_trip;
