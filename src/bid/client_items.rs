//! Which lines of the bid belong to which item of the client's own form.
//!
//! Always true: a line's own row comes before that of its section, and a row names a line
//! or a section that is there. Not here: what the client's copy shows of it (`write`).

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Graph, Link, Text};
use crate::job::tables::ClientItems;
use crate::tables::{Lines, Sections};
use crate::takeoff::inputs::AllInputs;

/// How lines find the client's items.
#[derive(Clone, Copy, Debug)]
pub struct ClientColumns {
    /// The row that names the line itself.
    pub by_line: Link<Lines, ClientItems>,
    /// The row that names the line's section.
    pub by_section: Link<Lines, ClientItems>,
}

/// Adds the links between lines and the client's items.
///
/// Limit: what is given an item number is a line or a section that is there.
pub fn client_items(
    graph: &mut Graph,
    inputs: &AllInputs,
    (name, section): (Text<Lines>, Text<Lines>),
) -> ClientColumns {
    let named = inputs.words(ClientItems::ClientLine);
    let mut rules = graph.rules::<ClientItems>();
    let line: Link<ClientItems, Lines> = rules.link("line row", named);
    let whole: Link<ClientItems, Sections> = rules.link("section row", named);
    rules.limit(
        "line or section that is not there",
        line.found_none().and(whole.found_none()),
        Breach::fault(
            Code::UnknownReference,
            named.id,
            "no line and no section of the bid has this name",
            "copy the name from the sheet Take-off, such as Dig: Main pool or Earthwork",
        )
        .meaning(Meaning::NoLineNorSection),
    );
    let mut rules = graph.rules::<Lines>();
    ClientColumns {
        by_line: rules.link("client item row", name),
        by_section: rules.link("client item row of its section", section),
    }
}
