//! Why reading a file ends early: one reason, which concerns the file as a whole.

use std::fmt::Display;

use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;

const SAVE_AGAIN: &str = "open it in a spreadsheet program and save it again as .xlsx";

/// A reason to stop reading; the file is named when it becomes a diagnostic.
#[derive(Debug)]
pub(super) struct Stop {
    code: Code,
    message: String,
    hint: &'static str,
}

impl Stop {
    /// The content contradicts its own format.
    pub(super) fn damaged(why: impl Display) -> Self {
        let message = format!("the file is damaged or incomplete: {why}");
        let hint = "copy or save it again; a spreadsheet program may be able to mend it";
        Self::not_readable(message, hint)
    }

    /// There is no content.
    pub(super) fn empty() -> Self {
        Self {
            code: Code::EmptyFile,
            message: "the file is empty: nothing was saved in it".to_owned(),
            hint: "save the measurement workbook again, and name that file here",
        }
    }

    /// The content is of a kind that is not read here.
    pub(super) fn foreign(what: impl Display) -> Self {
        Self::not_readable(
            format!("this is not a workbook or a table: {what}"),
            SAVE_AGAIN,
        )
    }

    /// The content is locked.
    pub(super) fn password() -> Self {
        let hint = "save a copy without a password";
        Self::not_readable("the workbook is protected by a password".to_owned(), hint)
    }

    /// The file cannot be read, with the next step.
    pub(super) fn not_readable(message: String, hint: &'static str) -> Self {
        Self {
            code: Code::NotReadable,
            message,
            hint,
        }
    }

    /// There is nothing at that place, or it cannot be opened: no fault of a job.
    pub(super) fn cannot_open(message: String, hint: &'static str) -> Self {
        Self {
            code: Code::CannotOpen,
            message,
            hint,
        }
    }

    /// A limit of [`limits`](super::limits) is passed.
    pub(super) fn too_large(message: String) -> Self {
        let hint = "keep in the file only what belongs to the job";
        Self {
            code: Code::TooLarge,
            message,
            hint,
        }
    }

    /// The reason as a finding about a file.
    pub(super) fn about(self, file: &str) -> Diagnostic {
        Diagnostic::error(self.code, Place::file(file), self.message).hint(self.hint)
    }
}
