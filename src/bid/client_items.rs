//! Which lines of the bid belong to which item of the client's own form.
//!
//! Always true: a line's own row comes before that of its section, and a row names a line
//! or a section that is there. Not here: what the client's copy shows of it (`write`).

use super::amounts;
use crate::graph::prelude::*;
use crate::job::tables::ClientItems;
use crate::pricing::lines as taken;
use crate::tables::{Lines, Sections};

/// The links between lines and the client's items; what is given an item number is a line or
/// a section that is there.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<ClientItems>::fault(
        "line or section that is not there",
        Code::UnknownReference,
        ClientItems::ClientLine.at(),
        || LINE.found_none().and(WHOLE_SECTION.found_none()),
        "no line and no section of the bid has this name",
        "copy the name from the sheet Take-off, such as Dig: Main pool or Earthwork",
    )
    .meaning(Meaning::NoLineNorSection),
    &BY_LINE,
    &BY_SECTION,
];

/// The line that a row names.
const LINE: LookUp<ClientItems, Lines> = LookUp::new("line row", || ClientItems::ClientLine.key());

/// The section that a row names.
const WHOLE_SECTION: LookUp<ClientItems, Sections> =
    LookUp::new("section row", || ClientItems::ClientLine.key()).among(|| amounts::SECTION.key());

/// The row that names the line itself.
pub const BY_LINE: LookUp<Lines, ClientItems> =
    LookUp::new("client item row", || taken::NAME.key());

/// The row that names the line's section.
pub const BY_SECTION: LookUp<Lines, ClientItems> =
    LookUp::new("client item row of its section", || taken::SECTION.key());
