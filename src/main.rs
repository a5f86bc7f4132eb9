//! The program `groundsheet`: arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(groundsheet::cli::run())
}
