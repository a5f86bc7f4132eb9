//! Tables that rules make: what one row of each is.
//!
//! Input tables are declared with their columns in `job::tables`; a table here has the
//! columns that rules give it. It stands here and not beside its rules because rules of
//! several stages read one table, and most add to it.

use crate::graph::Table;

macro_rules! tables {
    ($($(#[doc = $doc:literal])+ $table:ident $name:literal $row:literal $($rows:literal)?;)+) => {
        $(
            $(#[doc = $doc])+
            #[derive(Debug)]
            pub enum $table {}

            impl Table for $table {
                const NAME: &'static str = $name;
                const ROW: &'static str = $row;
                $(const ROWS: usize = $rows;)?
            }
        )+
    };
}

tables! {
    /// The one-row table of factors.
    Factors "Factors" "factor" 1;

    /// One unit of measure.
    UnitBook "Units" "unit";
    /// One kind of ground.
    Soils "Soils" "soil";
    /// One outline.
    Shapes "Shapes" "shape";
    /// One kind of rock.
    Rocks "Rocks" "rock";
    /// One kind of wood.
    Woods "Woods" "wood";

    /// One point of a cross-section.
    SectionPoints "Section points" "point";
    /// One point of the long section of a fall.
    FallPoints "Fall points" "fall point";
    /// The water of the whole system: one row.
    SystemWater "System water" "system" 1;
    /// One kind of earthwork.
    EarthWorks "Earthworks" "kind of earthwork";
    /// The earthwork of the whole job: one row.
    Earthwork "Earthwork" "job" 1;
    /// One cut.
    Cuts "Cuts" "cut";
    /// One lift.
    Lifts "Lifts" "lift";
    /// One lift at one radius of one machine's chart.
    LiftSteps "Lift steps" "lift step";
    /// One course on the list of deliveries.
    Deliveries "Deliveries" "delivery";
    /// One level that is dug or built to.
    DigSheet "Dig sheet" "level";
    /// One level of which the job gives the elevation and the height of the instrument.
    RodReadings "Rod readings" "level";

    /// One priced thing.
    Lines "Lines" "line";

    /// The usual works with what can hurt the untrained in them.
    UsualWorks "Usual works" "usual work";
    /// One way of sharing the work out: the crew alone first, then the scenarios of the job.
    Compared "Scenarios compared" "scenario";
    /// One partner in one scenario.
    Parties "Partners by scenario" "partner in a scenario";
    /// One line, or a share of it, done by one partner in one scenario.
    Tasks "Tasks" "task";
    /// One material that a partner brings in one scenario.
    Gifts "Materials brought" "material brought";
    /// One material in one scenario.
    ScenarioMaterials "Orders by scenario" "material in a scenario";

    /// The bid as a whole: one row.
    Bid "Bid" "bid" 1;
    /// One heading of the bid.
    Sections "Bid sections" "section";
    /// One way of coming by a measure.
    Grades "Grades" "grade";
    /// One supplier.
    Suppliers "Suppliers" "supplier";
    /// One material on the order list.
    OrderList "Orders" "order";
    /// One mark-up in one scenario.
    ScenarioMarkUps "Mark-ups by scenario" "mark-up in a scenario";
    /// One scenario where part of the work is delivered.
    TurnUp "If they do not turn up" "delivery";
}
