//! Why an output is not written, as it is told.

use std::path::Path;

use super::End;
use super::printing::report;
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;

/// What stands against an output, and what to do.
#[derive(Debug)]
pub(super) struct Refusal {
    code: Code,
    what: String,
    hint: String,
}

impl Refusal {
    /// The output is there, and something in it would be lost.
    pub(super) fn not_replaced(what: String, hint: String) -> Self {
        let code = Code::NotReplaced;
        Self { code, what, hint }
    }

    /// The output is open in another program.
    pub(super) fn in_use(what: String, hint: String) -> Self {
        let code = Code::InUse;
        Self { code, what, hint }
    }

    /// The output has changed or come up since this run has looked at it.
    pub(super) fn changed_meanwhile() -> Self {
        let what = "the file was changed while this run was at work, and stays as it is now";
        Self::not_replaced(what.to_owned(), "run the command again".to_owned())
    }

    /// The output cannot be written, for another next step than that of most.
    pub(super) fn unwritable(what: String, hint: &str) -> Self {
        Self {
            code: Code::NotWritable,
            what,
            hint: hint.to_owned(),
        }
    }

    /// Tells of it; the program has failed.
    pub(super) fn tell(self, output: &Path) -> End {
        let place = Place::file(&output.to_string_lossy());
        report(&[Diagnostic::error(self.code, place, self.what).hint(self.hint)]);
        End::Failed
    }
}

/// Words alone say why a file cannot be written.
impl From<String> for Refusal {
    fn from(what: String) -> Self {
        let hint = "choose a folder that is there and that you may write to";
        Self::unwritable(what, hint)
    }
}

/// The whole text of such an error would name a file that nobody asked for.
impl From<std::io::Error> for Refusal {
    fn from(error: std::io::Error) -> Self {
        Self::from(format!("the file cannot be written: {}", error.kind()))
    }
}
