//! `manual`: the manual page, every command and option in one page of roff.

use std::io;

use clap::CommandFactory;
use clap_mangen::Man;

use super::End;
use super::printing::say;

/// Prints the manual page.
pub(super) fn run() -> End {
    match page() {
        Ok(page) => say(&String::from_utf8_lossy(&page), End::Done),
        Err(_) => End::Failed,
    }
}

/// The program's own page, then the same of each command below it.
fn page() -> io::Result<Vec<u8>> {
    let mut program = super::Arguments::command();
    program.build();
    let commands: Vec<clap::Command> = program.get_subcommands().cloned().collect();
    let man = Man::new(program);
    let mut page = Vec::new();
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    man.render_synopsis_section(&mut page)?;
    man.render_description_section(&mut page)?;
    man.render_options_section(&mut page)?;
    for command in commands
        .into_iter()
        .filter(|command| command.get_name() != "help")
    {
        page.extend(format!(".SH {}\n", command.get_name().to_uppercase()).into_bytes());
        page.extend(below(command)?.into_bytes());
    }
    man.render_extra_section(&mut page)?;
    Ok(page)
}

/// What one command takes, as parts of a section.
fn below(command: clap::Command) -> io::Result<String> {
    let man = Man::new(command);
    let mut parts = Vec::new();
    man.render_synopsis_section(&mut parts)?;
    man.render_description_section(&mut parts)?;
    man.render_options_section(&mut parts)?;
    Ok(String::from_utf8_lossy(&parts).replace(".SH ", ".SS "))
}
