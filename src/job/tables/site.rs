//! What is measured of the site and its basins.

use super::choices::{BID_KINDS, GRADES, GROUNDS, SHAPES, SOILS, SYSTEMS, TREATMENTS, YES_NO};
use crate::graph::Table;
use crate::job::columns::{
    Fields, Fill, Holds, InputColumn, InputTable, Measure, Role, input_tables,
};
use Holds::{Choice, Date, Name, Number, PartOf, RowOf, Words};
use Measure::{
    Area, Count, Cycle, Flow, Hours, Length, Money, Percent, RodReading, Slope, Swell, Thickness,
    Volume, Water,
};
use Role::{Calls, Decides, Prose, ReadingOf};

const ELEVATION: Holds = Number(Length, -1500.0, 30_000.0);
const ROD: Holds = Number(RodReading, -30.0, 60.0);

input_tables! {
    /// One job: a key and a value a row.
    JobKeys "Job", "job", true, "The job as a whole: one key and its value a row. Leave a value blank to use the default." {
        JobName "Name" Words, Needed, "What the job is called, on every page.";
        Client "Client" Words, Free, "Who the bid is for.";
        Site "Site" Words, Free, "Where the work is.";
        PreparedBy "Prepared by" Words, Free, "Who answers for the bid.";
        BidDate "Bid date" Date, Free, "Day of the bid: quotes are checked against it.";
        ValidDays "Valid for (days)" Number(Count, 1.0, 365.0), Free, "How long the bid stands.";
        Units "Units" Choice(SYSTEMS), Needed, "Which units the take-off is shown in. Any heading may use another unit.", Decides;
        Currency "Currency" Words, Free, "Sign of the money; $ where blank.", Decides;
        BidKind "Bid kind" Choice(BID_KINDS), Free, "Lump sum, or the sum of rounded unit prices.";
        Soil "Soil" Choice(SOILS), Needed, "The usual ground. A basin can say another.";
        Scenario "Scenario" RowOf("Scenarios"), Free, "Who does the work in this bid; the crew alone where blank.";
        MatchingShare "Matching share" Number(Percent, 0.0, 100.0), Free, "Share of the whole cost that a grant wants matched in kind.";
        StartDate "Start date" Date, Free, "First day of work.";
        HoursADay "Hours a day" Number(Hours, 1.0, 24.0), Free, "Working hours in a day; 8 where blank.";
        DaysAWeek "Days a week" Number(Count, 1.0, 7.0), Free, "Working days in a week; 5 where blank.";
        WeatherDays "Weather days" Number(Count, 0.0, 365.0), Free, "Days lost to weather, added to the schedule.";
        Benchmark "Benchmark" ELEVATION, Arises, "Elevation of the benchmark that rod readings start from.";
        Backsight "Backsight" ROD, Arises, "Rod reading on the benchmark.";
        TipFee "Tip fee per load" Number(Money, 0.0, 100_000.0), Free, "What the tip charges for a load of surplus earth.";
        SedimentFee "Sediment fee per load" Number(Money, 0.0, 100_000.0), Free, "What the tip charges for a load of sediment.";
        FillMaterial "Imported fill" RowOf("Materials"), Free, "Material bought if the dig gives too little fill.";
        UsualGrade "Usual grade" Choice(GRADES), Free, "How measures were come by where a row does not say; assumed where blank.";
        JobNote "Note" Words, Free, "Anything to be remembered; printed on our own bid page, and not on the client's copy.", Prose;
    }

    /// A first bid from one page.
    QuickMeasure "Quick measure", "quick measure", true, "A first bid from one page. What is filled in becomes rows of the other tables; a row of the same name written there replaces them." {
        QuickPool "Pool" Words, Free, "What the pool is called; Pool where blank.", Decides;
        QuickGrade "Grade" Choice(GRADES), Free, "How this page was come by; paced where blank.";
        QuickShape "Shape" Choice(SHAPES), Free, "Outline of the pool seen from above; rectangle where blank.";
        QuickLength "Length" Number(Length, 0.5, 5000.0), Arises, "Along the rim.";
        QuickWidth "Width" Number(Length, 0.5, 5000.0), Free, "Across the rim; blank for the same as the length.";
        QuickDepth "Depth" Number(Length, 0.05, 60.0), Free, "From the rim to the floor; or give the rods of rim and floor.";
        QuickSlope "Side slope" Number(Slope, 0.0, 20.0), Free, "Horizontal run for 1 of drop.";
        QuickShelfDepth "Shelf depth" Number(Length, 0.0, 60.0), Arises, "From the rim to a planted shelf all the way round.";
        QuickShelfWidth "Shelf width" Number(Length, 0.0, 200.0), Free, "How far it reaches in.";
        QuickGravelArea "Gravel bed area" Number(Area, 0.0, 5_000_000.0), Arises, "A planted gravel filter beside the pool.";
        QuickGravelDepth "Gravel bed depth" Number(Length, 0.05, 20.0), Free, "Thickness of its gravel.";
        QuickRise "Fall rise" Number(Length, 0.05, 200.0), Arises, "From the water of the pool to the top of the fall.";
        QuickFace "Fall face" Number(Length, 0.1, 1000.0), Free, "Mean length of its courses, returns counted.";
        QuickCourses "Fall courses" Number(Count, 1.0, 100.0), Free, "How many courses of stone.", Decides;
        QuickStone "Largest stone" Number(Length, 0.1, 20.0), Free, "Longest side of the largest stone.";
        QuickSpill "Spill width" Number(Length, 0.1, 500.0), Free, "Width of the water at the top of the fall.";
        QuickFlow "Flow" Number(Flow, 0.1, 200_000.0), Free, "Water over the fall.";
        QuickStream "Stream length" Number(Length, 0.0, 50_000.0), Arises, "Of a lined stream above the fall.";
        QuickStreamWidth "Stream width" Number(Length, 0.0, 200.0), Free, "Across its bed.";
        QuickSedimentArea "Sediment area" Number(Area, 0.0, 5_000_000.0), Arises, "Area of old sediment.";
        QuickProbe1 "Sediment probe 1" Number(Thickness, 0.0, 240.0), Free, "Thickness of the sediment at one place.";
        QuickProbe2 "Sediment probe 2" Number(Thickness, 0.0, 240.0), Free, "At another place.";
        QuickProbe3 "Sediment probe 3" Number(Thickness, 0.0, 240.0), Free, "At a third place.";
        QuickStanding "Standing water" Number(Water, 0.0, 500_000_000.0), Arises, "Water to pump out before digging.";
        QuickInflow "Inflow" Number(Flow, 0.0, 50_000.0), Free, "Water that runs in while pumping.";
        QuickBenchmark "Benchmark" ELEVATION, Arises, "Elevation of the benchmark, where Job does not say it.";
        QuickBacksight "Backsight" ROD, Arises, "Rod reading on the benchmark.";
        QuickRimRod "Rim rod" ROD, Free, "Rod reading on the rim.";
        QuickLowRimRod "Lowest rim rod" ROD, Free, "Rod reading on the lowest place of the rim.";
        QuickFloorRod "Floor rod" ROD, Free, "Rod reading on the floor.";
        QuickWaterRod "Water rod" ROD, Free, "Rod reading on the water.";
        QuickFootRod "Fall foot rod" ROD, Free, "Rod reading at the foot of the fall.";
        QuickTopRod "Fall top rod" ROD, Arises, "Rod reading at the top of the fall: with that at its foot it stands for the rise.";
        QuickSoil "Soil" Choice(SOILS), Free, "The ground of the pool, where it differs from the job's.";
        QuickGate "Gate width" Number(Length, 1.0, 100.0), Free, "The narrowest place on the way in.";
        QuickCarry "Carry" Number(Length, 0.0, 5000.0), Arises, "From the unloading place to the work.";
        QuickGround "Ground" Choice(GROUNDS), Free, "Under the machines on the way in; firm where blank.";
        QuickToWater "Distance to water" Number(Length, 0.0, 10_000.0), Arises, "To the nearest supply of water.";
        QuickToPower "Distance to power" Number(Length, 0.0, 10_000.0), Arises, "To the nearest supply of power.";
        QuickHaul "Haul" Number(Cycle, 60.0, 86_400.0), Free, "One round trip of a truck to the tip, where Equipment does not say it.";
        QuickTip "Tip fee per load" Number(Money, 0.0, 100_000.0), Free, "What the tip charges, where Job does not say it.";
        QuickNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One pool, gravel bed or intake basin.
    Basins "Basins", "basin", false, "One pool, gravel bed or intake basin a row. Depths go down from the rim." {
        Basin "Basin" Name, Needed, "A short name, used by other sheets.";
        Shape "Shape" Choice(SHAPES), Needed, "Outline seen from above. For an ellipse the slope is the one on its axes.";
        BasinLength "Length" Number(Length, 0.5, 5000.0), Needed, "Along the rim; the diameter of a circle.";
        BasinWidth "Width" Number(Length, 0.5, 5000.0), Free, "Across the rim; blank for the same as the length.";
        Depth "Depth" Number(Length, 0.05, 60.0), Free, "From the rim to the finished floor; or give rim and floor elevations.";
        SideSlope "Side slope" Number(Slope, 0.0, 20.0), Needed, "Horizontal run for 1 of drop; 0 for upright walls.";
        RampSlope "Ramp slope" Number(Slope, 0.0, 50.0), Free, "Slope of one end, where it is flatter than the sides. Shelves run over it too.";
        BuildUp "Build-up" Number(Thickness, 0.0, 120.0), Free, "Everything between the dug and the finished surface (liner, fabric, sand, stone), measured plumb.";
        Rim "Rim" ELEVATION, Arises, "Elevation of the rim that depths start from.";
        RimRod "Rim rod" ROD, Arises, "The same as a rod reading.", ReadingOf(Basins::Rim as usize);
        FloorLevel "Floor" ELEVATION, Free, "Elevation of the finished floor.";
        FloorRod "Floor rod" ROD, Free, "The same as a rod reading.", ReadingOf(Basins::FloorLevel as usize);
        LowestRim "Lowest rim" ELEVATION, Free, "Elevation of the lowest place of the rim, where water would run over.";
        LowestRimRod "Lowest rim rod" ROD, Free, "The same as a rod reading.", ReadingOf(Basins::LowestRim as usize);
        WaterLevel "Water level" ELEVATION, Free, "Elevation of the water; or give the freeboard.";
        WaterLevelRod "Water level rod" ROD, Free, "The same as a rod reading.", ReadingOf(Basins::WaterLevel as usize);
        Freeboard "Freeboard" Number(Thickness, 0.0, 240.0), Free, "From the water up to the lowest rim.";
        BasinSoil "Soil" Choice(SOILS), Free, "Ground here, where it differs from the job's.";
        LoosePerBank "Loose per bank" Number(Swell, 1.0, 2.5), Free, "Swell here, where it differs from the soil's factor.";
        Topsoil "Topsoil" Number(Thickness, 0.0, 60.0), Arises, "Thickness stripped over the cut and under the berm.";
        TopsoilArea "Topsoil area" Number(Area, 0.0, 5_000_000.0), Free, "Where the cut has less topsoil than its whole area; the berm's comes on top.";
        SedimentArea "Sediment area" Number(Area, 0.0, 5_000_000.0), Arises, "Area of old sediment, as probed.";
        SedimentDepth "Sediment depth" Number(Thickness, 0.0, 240.0), Free, "Mean thickness of the sediment probes.";
        AlreadyOpen "Already open" Number(Volume, 0.0, 1_000_000.0), Free, "Volume of the old hollow inside the new cut, above its sediment.";
        StandingWater "Standing water" Number(Water, 0.0, 500_000_000.0), Arises, "Water to pump out before digging.";
        Inflow "Inflow" Number(Flow, 0.0, 50_000.0), Free, "Water that runs in while pumping.";
        Entered "Entered" Choice(YES_NO), Arises, "Whether people work in the cut: yes adds working room and lay-back.";
        WorkingRoom "Working room" Number(Length, 0.0, 20.0), Free, "Room to work around the floor, where it differs from the factor.";
        LayBack "Lay-back" Number(Slope, 0.0, 5.0), Free, "Slope of the cut above the floor, where it differs from the soil's factor.";
        BermLength "Berm length" Number(Length, 0.0, 50_000.0), Free, "Along the middle of the berm.";
        BermHeight "Berm height" Number(Length, 0.0, 30.0), Arises, "From stripped ground to finished top.";
        BermTop "Berm top" Number(Length, 0.0, 100.0), Free, "Width of the berm's top.";
        BermSlope "Berm slope" Number(Slope, 0.0, 20.0), Free, "Both sides of the berm.";
        Groundwater "Groundwater" Number(Length, 0.0, 60.0), Free, "From the rim down to groundwater at its highest, where it can lift the liner.";
        Ballast "Ballast" Number(Thickness, 0.0, 120.0), Free, "Thickness of the stone or soil that lies on the liner, part of the build-up: it holds the liner down, and the sheet runs below it. Gravel and loose stone buys it.";
        BasinGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        BasinNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One step of a basin's profile.
    Shelves "Shelves", "shelf", false, "One shelf a row, all the way round its basin; from the rim down." {
        ShelfBasin "Basin" PartOf("Basins"), Needed, "Which basin it belongs to.";
        Shelf "Shelf" Words, Free, "What it is called.", Calls;
        ShelfDepth "Depth" Number(Length, 0.0, 60.0), Needed, "From the rim to the shelf.";
        ShelfWidth "Width" Number(Length, 0.0, 200.0), Needed, "How far it reaches in.";
        SlopeAbove "Slope above" Number(Slope, 0.0, 50.0), Free, "Slope from the step above down to the shelf; blank for the basin's.";
        ShelfGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        ShelfNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One part of a basin's rim.
    Edges "Edges", "edge", false, "One part of a basin's rim a row, and what stands along it; together they make the perimeter." {
        Edge "Edge" Name, Needed, "A short name.";
        EdgeBasin "Basin" PartOf("Basins"), Needed, "Whose rim it is part of.";
        Treatment "Treatment" Choice(TREATMENTS), Needed, "What stands along it.";
        EdgeLength "Length" Number(Length, 0.0, 50_000.0), Needed, "Along the rim.";
        EdgeMaterial "Material" RowOf("Materials"), Arises, "What is bought for it, where no other table takes it off.";
        EdgeWork "Work" RowOf("Production rates"), Arises, "How it is done, where no other table takes it off.";
        EdgeGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        EdgeNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }
}
