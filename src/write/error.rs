//! Why a workbook could not be made.

use std::fmt;

use rust_xlsxwriter::XlsxError;

/// The workbook could not be made.
#[derive(Debug)]
pub struct WriteError(String);

impl From<XlsxError> for WriteError {
    fn from(error: XlsxError) -> Self {
        Self(error.to_string())
    }
}

impl From<zip::result::ZipError> for WriteError {
    fn from(error: zip::result::ZipError) -> Self {
        Self(error.to_string())
    }
}

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the workbook could not be made: {}", self.0)
    }
}

impl std::error::Error for WriteError {}
