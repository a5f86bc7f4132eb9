//! `completions`: what a shell needs to complete commands and options.

use clap::{Args, CommandFactory};
use clap_complete::Shell;

use super::End;
use super::printing::say;

/// What `completions` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The shell to write for
    #[arg(value_enum)]
    shell: Shell,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let mut commands = super::Arguments::command();
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut commands, "groundsheet", &mut script);
        say(&String::from_utf8_lossy(&script), End::Done)
    }
}
