//! One test program; each module proves one thing.

mod by_hand; // small jobs worked out with pencil and paper
mod cli; // exit codes, files left behind, formats
mod errors; // bad jobs, each with its exact message
mod properties; // what holds for every job, on random ones
mod published; // figures printed in cited sources
mod safe_output; // what the input says stays words
mod support; // builders and comparisons

// Three readings of one expression agree.
mod agree;
// A written workbook is a job file.
mod graph; // the heart by itself
mod jobs;
mod reading;
mod round_trip;
mod tidy; // the shape of the source
mod workbook; // the written workbook as a file // our reader against another // the sample jobs by hand
