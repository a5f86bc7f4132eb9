//! The program: arguments in, files and text out, an exit code.
//!
//! Here is the one table of commands, from which the parser, the help, the completions and
//! the manual come; each command is a file of its own. Exit codes: 0 the work is done;
//! 1 the job has problems that block; 2 the program failed: wrong arguments, a job that is
//! not there, a file that cannot be written. A job with problems is not a failure of the
//! program.

mod bid;
mod check;
mod client;
mod compare;
mod completions;
mod existing;
mod explain;
mod export;
mod folder;
mod leftovers;
mod manual;
mod output;
mod printing;
mod reading;
mod refusal;
mod replacing;
mod schema;
mod takeoff;
mod template;

use clap::{Parser, Subcommand, ValueEnum};

/// Quantity take-off and estimating for builders of lined ponds, rock waterfalls and
/// planted gravel filters.
#[derive(Debug, Parser)]
#[command(name = "groundsheet", version, about, after_help = EXIT_CODES)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

const EXIT_CODES: &str = "Exit codes: 0 done; 1 the job has problems that block; 2 the program failed: wrong arguments, a job that is not there, an output that cannot be written or that would be lost.\n\
JOB is a workbook (xlsx, xlsm, xls, xlsb, ods), a CSV file, a folder of CSV files, a folder with one workbook, or - for a workbook from standard input.";

/// Every command, in the order in which a job meets them.
#[derive(Debug, Subcommand)]
enum Command {
    /// Write a blank measurement workbook with guidance and drop-downs
    Template(template::Arguments),
    /// Report every problem, open point and caution of a job; write nothing
    Check(check::Arguments),
    /// Print every quantity of a job
    Takeoff(takeoff::Arguments),
    /// Write the priced workbook of a job and print a summary
    Bid(bid::Arguments),
    /// Print the scenarios of a job side by side, and if partners do not turn up
    Compare(compare::Arguments),
    /// Follow one quantity or price back to cells and sources
    Explain(explain::Arguments),
    /// Write every result as CSV tables and one JSON file, with its schema, into a folder
    Export(export::Arguments),
    /// Print the JSON Schema of every JSON result
    Schema,
    /// Print what a shell needs to complete commands and options
    Completions(completions::Arguments),
    /// Print the manual page, as roff
    Manual,
}

/// How results are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people
    Text,
    /// For programs
    Json,
    /// For spreadsheets
    Csv,
}

/// How a run ended, from good to bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum End {
    Done,
    ProblemsInJob,
    Failed,
}

/// Runs the program with the arguments of the process; gives the exit code.
#[must_use]
pub fn run() -> u8 {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            let failed = error.use_stderr();
            // A closed pipe is the reader's wish.
            let _ = error.print();
            return if failed { 2 } else { 0 };
        }
    };
    match arguments.command.run() {
        End::Done => 0,
        End::ProblemsInJob => 1,
        End::Failed => 2,
    }
}

impl Command {
    fn run(self) -> End {
        match self {
            Command::Template(arguments) => arguments.run(),
            Command::Check(arguments) => arguments.run(),
            Command::Takeoff(arguments) => arguments.run(),
            Command::Bid(arguments) => arguments.run(),
            Command::Compare(arguments) => arguments.run(),
            Command::Explain(arguments) => arguments.run(),
            Command::Export(arguments) => arguments.run(),
            Command::Schema => schema::run(),
            Command::Completions(arguments) => arguments.run(),
            Command::Manual => manual::run(),
        }
    }
}
