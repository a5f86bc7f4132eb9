//! The input tables: what a measurement workbook holds.
//!
//! Each table is an enum of its columns, and serves as the type of its rows in the
//! graph. Ranges are in the US customary unit of the measure.

pub use super::columns::EachTable;
use super::columns::{Fields, Holds, InputColumn, InputTable, Measure, input_tables};
use crate::graph::Table;
use crate::units::System;
use Holds::{Choice, Date, Name, Number, RowOf, UnitName, Words};
use Measure::{
    Area, Count, Cycle, Density, Flow, Length, Money, MoneyAnHour, PerHour, Percent, Slope, Swell,
    Thickness, Volume, Water, Weight,
};

/// Outlines that a basin can have.
pub const SHAPES: &[&str] = &["rectangle", "ellipse", "circle"];
/// Kinds of ground.
pub const SOILS: &[&str] = &["sand", "loam", "clay", "rock"];
/// What a mark-up can be a percentage of.
pub const BASES: &[&str] = &[
    "material",
    "labor",
    "equipment",
    "subcontract",
    "direct cost",
    "running total",
    "bid",
];
/// The two systems of units.
pub const SYSTEMS: &[&str] = &[System::Us.name(), System::Metric.name()];
/// The two kinds of bid.
pub const BID_KINDS: &[&str] = &["lump sum", "unit price"];

/// Sheets that the program writes itself, and passes over when it reads them back.
pub const PAGES: &[&str] = &[
    "Bid",
    "Bid schedule",
    "Take-off",
    "Cost",
    "Summary",
    "Mark-ups priced",
    "Earthwork",
    "Sections",
    "Hours",
    "Order list",
    "Cautions",
    "Basins working",
    "Shelves working",
    "Items working",
    "Lines working",
    "Price book",
    "Small tables",
    "Checks",
    "Changes",
    "Sources",
    "Guide",
];

const YES_NO: &[&str] = &["yes", "no"];
const ELEVATION: Holds = Number(Length, -1500.0, 30_000.0);
const ROD: Holds = Number(Length, -30.0, 60.0);

input_tables! {
    /// One job: a key and a value a row.
    JobKeys "Job", "job", true, "The job as a whole: one key and its value a row. Leave a value blank to use the default." {
        JobName "Name" Words, true, "What the job is called, on every page.";
        Client "Client" Words, false, "Who the bid is for.";
        Site "Site" Words, false, "Where the work is.";
        PreparedBy "Prepared by" Words, false, "Who answers for the bid.";
        BidDate "Bid date" Date, false, "Day of the bid: quotes are checked against it.";
        ValidDays "Valid for (days)" Number(Count, 1.0, 365.0), false, "How long the bid stands.";
        Units "Units" Choice(SYSTEMS), true, "Which units the take-off is shown in. Any heading may use another unit.";
        Currency "Currency" Words, false, "Sign of the money; $ where blank.";
        BidKind "Bid kind" Choice(BID_KINDS), false, "Lump sum, or the sum of rounded unit prices.";
        Soil "Soil" Choice(SOILS), true, "The usual ground. A basin can say another.";
        HoursADay "Hours a day" Number(Count, 1.0, 24.0), false, "Working hours in a day; 8 where blank.";
        DaysAWeek "Days a week" Number(Count, 1.0, 7.0), false, "Working days in a week; 5 where blank.";
        WeatherDays "Weather days" Number(Count, 0.0, 365.0), false, "Days lost to weather, added to the schedule.";
        Benchmark "Benchmark" ELEVATION, false, "Elevation of the benchmark that rod readings start from.";
        Backsight "Backsight" ROD, false, "Rod reading on the benchmark.";
        TipFee "Tip fee per load" Number(Money, 0.0, 100_000.0), false, "What the tip charges for a load of surplus earth.";
        SedimentFee "Sediment fee per load" Number(Money, 0.0, 100_000.0), false, "What the tip charges for a load of sediment.";
        FillMaterial "Imported fill" RowOf("Materials"), false, "Material bought if the dig gives too little fill.";
        JobNote "Note" Words, false, "Anything to be remembered; printed on the bid.";
    }

    /// One pool, gravel bed or intake basin.
    Basins "Basins", "basin", false, "One pool, gravel bed or intake basin a row. Depths go down from the rim." {
        Basin "Basin" Name, true, "A short name, used by other sheets.";
        Shape "Shape" Choice(SHAPES), true, "Outline seen from above. For an ellipse the slope is the one on its axes.";
        BasinLength "Length" Number(Length, 0.5, 5000.0), true, "Along the rim; the diameter of a circle.";
        BasinWidth "Width" Number(Length, 0.5, 5000.0), false, "Across the rim; blank for the same as the length.";
        Depth "Depth" Number(Length, 0.05, 60.0), false, "From the rim to the finished floor; or give rim and floor elevations.";
        SideSlope "Side slope" Number(Slope, 0.0, 20.0), true, "Horizontal run for 1 of drop; 0 for upright walls.";
        RampSlope "Ramp slope" Number(Slope, 0.0, 50.0), false, "Slope of one end, where it is flatter than the sides. Shelves run over it too.";
        BuildUp "Build-up" Number(Thickness, 0.0, 120.0), false, "Everything between the dug and the finished surface (liner, fabric, sand, stone), measured plumb.";
        Rim "Rim" ELEVATION, false, "Elevation of the rim that depths start from.";
        RimRod "Rim rod" ROD, false, "The same as a rod reading.";
        FloorLevel "Floor" ELEVATION, false, "Elevation of the finished floor.";
        FloorRod "Floor rod" ROD, false, "The same as a rod reading.";
        LowestRim "Lowest rim" ELEVATION, false, "Elevation of the lowest place of the rim, where water would run over.";
        LowestRimRod "Lowest rim rod" ROD, false, "The same as a rod reading.";
        WaterLevel "Water level" ELEVATION, false, "Elevation of the water; or give the freeboard.";
        WaterLevelRod "Water level rod" ROD, false, "The same as a rod reading.";
        Freeboard "Freeboard" Number(Thickness, 0.0, 240.0), false, "From the water up to the lowest rim.";
        BasinSoil "Soil" Choice(SOILS), false, "Ground here, where it differs from the job's.";
        LoosePerBank "Loose per bank" Number(Swell, 1.0, 2.5), false, "Swell here, where it differs from the soil's factor.";
        Topsoil "Topsoil" Number(Thickness, 0.0, 60.0), false, "Thickness stripped over the cut and under the berm.";
        TopsoilArea "Topsoil area" Number(Area, 0.0, 5_000_000.0), false, "Where the cut has less topsoil than its whole area; the berm's comes on top.";
        SedimentArea "Sediment area" Number(Area, 0.0, 5_000_000.0), false, "Area of old sediment, as probed.";
        SedimentDepth "Sediment depth" Number(Thickness, 0.0, 240.0), false, "Mean thickness of the sediment probes.";
        AlreadyOpen "Already open" Number(Volume, 0.0, 1_000_000.0), false, "Volume of the old hollow inside the new cut, above its sediment.";
        StandingWater "Standing water" Number(Water, 0.0, 500_000_000.0), false, "Water to pump out before digging.";
        Inflow "Inflow" Number(Flow, 0.0, 50_000.0), false, "Water that runs in while pumping.";
        Entered "Entered" Choice(YES_NO), false, "Whether people work in the cut: yes adds working room and lay-back.";
        WorkingRoom "Working room" Number(Length, 0.0, 20.0), false, "Room to work around the floor, where it differs from the factor.";
        LayBack "Lay-back" Number(Slope, 0.0, 5.0), false, "Slope of the cut above the floor, where it differs from the soil's factor.";
        BermLength "Berm length" Number(Length, 0.0, 50_000.0), false, "Along the middle of the berm.";
        BermHeight "Berm height" Number(Length, 0.0, 30.0), false, "From stripped ground to finished top.";
        BermTop "Berm top" Number(Length, 0.0, 100.0), false, "Width of the berm's top.";
        BermSlope "Berm slope" Number(Slope, 0.0, 20.0), false, "Both sides of the berm.";
        BasinNote "Note" Words, false, "Anything to be remembered.";
    }

    /// One step of a basin's profile.
    Shelves "Shelves", "shelf", false, "One shelf a row, all the way round its basin; from the rim down." {
        ShelfBasin "Basin" RowOf("Basins"), true, "Which basin it belongs to.";
        Shelf "Shelf" Words, false, "What it is called.";
        ShelfDepth "Depth" Number(Length, 0.0, 60.0), true, "From the rim to the shelf.";
        ShelfWidth "Width" Number(Length, 0.0, 200.0), true, "How far it reaches in.";
        SlopeAbove "Slope above" Number(Slope, 0.0, 50.0), false, "Slope from the step above down to the shelf; blank for the basin's.";
        ShelfNote "Note" Words, false, "Anything to be remembered.";
    }

    /// Anything that has no table of its own: the plain dimension sheet.
    OtherItems "Other items", "item", false, "One measured item a row: times × length × width × depth − deduct, in the unit asked for." {
        Item "Item" Name, true, "A short name of the item, unique; the client's number with a letter in front, such as A-12.";
        Section "Section" Words, true, "Heading of the bid that it belongs under.";
        Description "Description" Words, true, "What it is, as it should read on the bid.";
        Times "Times" Number(Count, 0.0, 1_000_000.0), false, "How many times; 1 where blank beside a measure or for ls. Alone, it is the quantity.";
        ItemLength "Length" Number(Length, 0.0, 100_000.0), false, "First measure; fill from the left: a wall has its height under Width.";
        ItemWidth "Width" Number(Length, 0.0, 100_000.0), false, "Second measure, for areas and volumes.";
        ItemDepth "Depth" Number(Length, 0.0, 1000.0), false, "Third measure, for volumes.";
        Deduct "Deduct" Number(Count, 0.0, 10_000_000.0), false, "Taken off, in the item's unit.";
        Waste "Waste" Number(Percent, 0.0, 100.0), false, "Bought beyond the measure; blank for the material's.";
        ItemUnit "Unit" UnitName, true, "Unit of the quantity: ea, ft, ft2, yd3, ton, h, ls, …";
        ItemMaterial "Material" RowOf("Materials"), false, "What is bought for it.";
        ItemWork "Work" RowOf("Production rates"), false, "How it is done, which gives crew and machine hours.";
        Price "Price" Number(Money, 0.0, 10_000_000.0), false, "A subcontractor's or quoted price for one unit.";
        PlugPrice "Plug price" Number(Money, 0.0, 10_000_000.0), false, "An allowance until a price is in: the bid stays a draft.";
        ItemNote "Note" Words, false, "Anything to be remembered.";
    }

    /// One thing that is bought.
    Materials "Materials", "material", false, "One thing that is bought a row, in the unit it is sold in." {
        Material "Material" Name, true, "A short name, used by other sheets.";
        MaterialUnit "Unit" UnitName, true, "Unit it is sold in.";
        MaterialPrice "Price" Number(Money, 0.0, 1_000_000.0), false, "Price of one unit, delivered; of imported fill at the pit, if the work Bring fill hauls it.";
        MaterialPlug "Plug price" Number(Money, 0.0, 1_000_000.0), false, "An allowance until a price is in: the bid stays a draft.";
        SoldIn "Sold in" Number(Count, 0.0, 100_000.0), false, "Whole multiples: 1 for whole units, 12 for loads of 12.";
        Minimum "Minimum" Number(Count, 0.0, 1_000_000.0), false, "Least order.";
        BulkDensity "Weight" Number(Density, 0.1, 700.0), false, "Weight of a volume as delivered, where a volume is bought by weight.";
        MaterialWaste "Waste" Number(Percent, 0.0, 100.0), false, "Bought beyond the measure; blank for the factor.";
        Supplier "Supplier" Words, false, "Who it comes from.";
        Quote "Quote" Words, false, "Number of the quote.";
        ValidUntil "Valid until" Date, false, "Last day of the quote.";
        MaterialNote "Note" Words, false, "Anything to be remembered.";
    }

    /// One crew.
    Crews "Crews", "crew", false, "One crew a row." {
        Crew "Crew" Name, true, "A short name, used by other sheets.";
        People "People" Number(Count, 0.25, 100.0), true, "How many work together.";
        Wage "Wage per hour" Number(MoneyAnHour, 0.0, 1000.0), false, "Mean wage of one person.";
        Burden "Burden" Number(Percent, 0.0, 200.0), false, "Insurance, payroll tax and benefits on the wage.";
        PlugWage "Plug wage" Number(MoneyAnHour, 0.0, 1000.0), false, "An allowance until the wage is known: the bid stays a draft.";
        CrewNote "Note" Words, false, "Anything to be remembered.";
    }

    /// One machine.
    Equipment "Equipment", "machine", false, "One machine a row, with its operator and fuel in the rate." {
        Machine "Machine" Name, true, "A short name, used by other sheets.";
        Rate "Rate per hour" Number(MoneyAnHour, 0.0, 10_000.0), false, "What an hour costs.";
        PlugRate "Plug rate" Number(MoneyAnHour, 0.0, 10_000.0), false, "An allowance until the rate is known: the bid stays a draft.";
        Carries "Carries" Number(Volume, 0.01, 100.0), false, "Heaped bucket or truck body, loose.";
        Payload "Payload" Number(Weight, 0.05, 200.0), false, "Most it may carry.";
        CycleTime "Cycle" Number(Cycle, 1.0, 86_400.0), false, "One bucket; or one round trip with loading, waiting and tipping.";
        PumpFlow "Pump flow" Number(Flow, 0.1, 100_000.0), false, "Flow on the pump's plate at the lift of the site.";
        MachineNote "Note" Words, false, "Anything to be remembered.";
    }

    /// How fast one kind of work goes, and with whom.
    ProductionRates "Production rates", "work", false, "One kind of work a row: who and what does it, and how much in an hour." {
        Work "Work" Name, true, "A short name, used by Other items; earthwork looks for its own names.";
        WorkUnit "Unit" UnitName, true, "Unit that the outputs count.";
        WorkCrew "Crew" RowOf("Crews"), false, "Who does it.";
        CrewOutput "Crew output" Number(PerHour, 0.001, 100_000.0), false, "Units that the crew does in an hour.";
        WorkMachine "Machine" RowOf("Equipment"), false, "What machine is used.";
        MachineOutput "Machine output" Number(PerHour, 0.001, 100_000.0), false, "Units that the machine does in an hour; blank to work it out from its cycle, in the job's usual soil, where it digs or hauls.";
        WorkNote "Note" Words, false, "Anything to be remembered.";
    }

    /// One mark-up, in the order in which they apply.
    MarkUps "Mark-ups", "mark-up", false, "One mark-up a row, applied from the top down." {
        MarkUp "Mark-up" Name, true, "Overhead, profit, contingency, bond, tax, …";
        On "On" Choice(BASES), true, "What it is a percentage of. Percentages of the bid come last.";
        Share "Rate" Number(Percent, 0.0, 100.0), true, "Percentage: 15 for fifteen percent.";
        MarkUpNote "Note" Words, false, "Anything to be remembered.";
    }

    /// A final quantity set by hand.
    SetQuantities "Set quantities", "set quantity", false, "One line of the take-off a row, whose quantity is set by hand." {
        SetLine "Line" Name, true, "The line's name, as the take-off shows it.";
        SetQuantity "Quantity" Number(Count, 0.0, 100_000_000.0), true, "The quantity to use, in the line's unit. It changes this line only.";
        Reason "Reason" Words, true, "Why: it is printed.";
    }
}
