//! Every kind of finding, in one table: its stable name and what it means.

use serde::{Serialize, Serializer};

macro_rules! codes {
    ($($variant:ident $name:literal $meaning:literal,)*) => {
        /// The stable name of a kind of finding.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code {
            $(#[doc = $meaning] $variant,)*
        }

        impl Code {
            /// Every code, in the order of the table.
            pub const ALL: &'static [Code] = &[$(Code::$variant,)*];

            /// The name printed between brackets: stable, lower case.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Code::$variant => $name,)* }
            }

            /// What this kind of finding means.
            #[must_use]
            pub fn meaning(self) -> &'static str {
                match self { $(Code::$variant => $meaning,)* }
            }
        }
    };
}

codes! {
    CannotOpen "cannot-open" "There is no job at that place, or it cannot be opened.",
    NotReadable "not-readable" "The file is not a workbook or a table, or is damaged.",
    EmptyFile "empty-file" "The file holds no cells.",
    TooLarge "too-large" "The file is larger than groundsheet reads, or expands beyond reason.",
    FarCell "far-cell" "A cell lies far beyond the rows and columns that a job uses.",
    MergedCells "merged-cells" "Cells of an input table are merged, so that one value stands for several rows.",
    ReadDifferently "read-differently" "Two independent readers find different things in a cell of the workbook.",
    NoStoredValue "no-stored-value" "A formula was never calculated, so that its value is not in the file.",
    ErrorValue "error-value" "A cell holds a spreadsheet error such as #REF!.",
    MissingSheet "missing-sheet" "A table that every job needs is not there.",
    UnknownSheet "unknown-sheet" "A sheet is not a table of a job; it is not carried over.",
    MissingHeading "missing-heading" "A column that the table needs is not there.",
    UnknownHeading "unknown-heading" "A heading is nearly one of ours; the column is carried but not used.",
    DuplicateHeading "duplicate-heading" "Two columns have the same heading.",
    WrongUnit "wrong-unit" "A unit is unknown, or cannot measure this kind of thing.",
    MissingValue "missing-value" "A cell that must be filled is empty.",
    NotANumber "not-a-number" "A number was expected.",
    NotADate "not-a-date" "A date was expected, as a date cell or as year-month-day.",
    NotAChoice "not-a-choice" "The cell allows only certain words.",
    OutOfRange "out-of-range" "A number lies outside what is possible or sensible here.",
    PercentScale "percent-scale" "A percentage is written as a fraction.",
    BadKey "bad-key" "A name cannot serve as a reference: it looks like a number or holds a wild card.",
    DuplicateKey "duplicate-key" "Two rows have the same name.",
    UnknownReference "unknown-reference" "A cell names a row that is not there.",
    ConflictingValues "conflicting-values" "Two cells say different things about one measure.",
    DimensionMismatch "dimension-mismatch" "The measures given do not make the unit asked for.",
    ShapeImpossible "shape-impossible" "The measures do not make a solid: slopes meet, or a shelf lies too deep.",
    SteepSides "steep-sides" "The sides of a deep cut are steeper than its soil is laid back to.",
    PumpTooSmall "pump-too-small" "The water runs in faster than the pump takes it out.",
    BalanceImpossible "balance-impossible" "More is taken out of a cut than it holds.",
    MarkupOrder "markup-order" "Mark-ups stand in an order or on a base that cannot be worked out.",
    FactorUnknown "factor-unknown" "The table of factors has a row that is not a factor.",
    MissingPrice "missing-price" "Something is bought or used and has no price yet.",
    MissingRate "missing-rate" "A work has no production rate, crew or machine yet.",
    QuoteExpired "quote-expired" "A quote is no longer valid on the day of the bid.",
    NotCarried "not-carried" "Something in the file is not carried into the written workbook.",
    EdgesDoNotAdd "edges-do-not-add" "The parts of a basin's rim do not add up to its perimeter.",
    OrderOfRows "order-of-rows" "Rows that build on one another are numbered with a gap, or twice.",
    SheetTooSmall "sheet-too-small" "A roll or a sheet cannot cover what it is meant for.",
    BeyondFormula "beyond-formula" "A formula is used beyond the limits that its source gives.",
    FastOpening "fast-opening" "Water enters an opening faster than it should.",
    MayFloat "may-float" "Groundwater may lift a structure or a liner.",
    OverChart "over-chart" "A piece is heavier than the machine may lift at that radius, or nearly so.",
    NotOnChart "not-on-chart" "A lift cannot be checked: no machine, no radius or no chart for it.",
    GateTooNarrow "gate-too-narrow" "A machine does not pass the gate.",
    QuickBeside "quick-beside" "A row of Quick measure stands beside rows that may say the same.",
    QualificationMissing "qualification-missing" "Work that can hurt the untrained is given to people who state no qualification for it.",
    HazardNotStated "hazard-not-stated" "Work is given away, and it is not written what can hurt the untrained in it.",
    ShareOverWhole "share-over-whole" "More than the whole of a work or a material is given away.",
    HoursOverdrawn "hours-overdrawn" "A partner is given more work than its sessions hold.",
    ScenarioCircle "scenario-circle" "Scenarios are like one another in a circle.",
    GivesNothing "gives-nothing" "A row gives no work and no material.",
    LabourLaw "labour-law" "Minors or volunteers are at work: local law comes first.",
    Lifting "lifting" "Heavy pieces are lifted.",
    ConfinedSpace "confined-space" "People enter a vault or a pit with little air.",
    DeepCut "deep-cut" "People enter a cut that is deep enough to bury them.",
    WaterAndPower "water-and-power" "Electric pumps or tools are used beside water.",
    OpenWater "open-water" "An open pool or pit can drown someone.",
    BuriedLines "buried-lines" "Buried pipes and cables may cross the dig.",
    MachinesAndPeople "machines-and-people" "Machines work near people.",
    OutputIsInput "output-is-input" "The output would overwrite an input.",
    NotWritable "not-writable" "The output cannot be written.",
    NotReplaced "not-replaced" "The output is there and was edited since groundsheet wrote it, or is not of groundsheet: it stays.",
    InUse "in-use" "Another program has the output open.",
    UnknownName "unknown-name" "No quantity or price has this name.",
}

/// The schema of a code: one of the names.
pub(super) fn schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    let names: Vec<&str> = Code::ALL.iter().map(|code| code.name()).collect();
    schemars::json_schema!({ "type": "string", "enum": names })
}

impl Serialize for Code {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}
