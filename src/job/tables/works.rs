//! What is built into and around basins: structures, linings, stone, timber, plants.

use super::choices::{
    EDGES, FALL_KINDS, GRADES, ORDERED_AS, PATTERNS, ROCKS, SEAMS, SPECIES, STONE_SHAPES,
    STRIPS_RUN, STRUCTURE_KINDS, TONS_BY, YES_NO,
};
use crate::graph::Table;
use crate::job::columns::{
    Fields, Fill, Holds, InputColumn, InputTable, Measure, Role, input_tables,
};
use Holds::{Choice, Name, Number, PartOf, RowOf, UnitName, Words};
use Measure::{
    Area, Count, Flow, Length, Money, Percent, RodReading, Slope, Thickness, Volume, Weight,
};
use Role::{Decides, Prose, ReadingOf};

const ELEVATION: Holds = Number(Length, -1500.0, 30_000.0);
const ROD: Holds = Number(RodReading, -30.0, 60.0);

input_tables! {
    /// One vault, bank of crates, weir box or wall.
    Structures "Structures", "structure", false, "One vault, bank of void crates, weir box or wall that is kept a row." {
        Structure "Structure" Name, Needed, "A short name, used by other sheets.";
        StructureKind "Kind" Choice(STRUCTURE_KINDS), Needed, "What it is.";
        StructureBasin "Basin" PartOf("Basins"), Free, "Where it stands.";
        StandsIn "Stands in" RowOf("Gravel and loose stone"), Free, "The bed of loose stone that is less by it.";
        StructureTimes "Times" Number(Count, 1.0, 10_000.0), Free, "How many; 1 where blank.";
        StructureLength "Length" Number(Length, 0.1, 5000.0), Needed, "Outside, along it.";
        StructureWidth "Width" Number(Length, 0.0, 5000.0), Free, "Outside, across it; of a wall its thickness.";
        StructureHeight "Height" Number(Length, 0.0, 100.0), Needed, "Outside, from underside to top.";
        UnitLength "Crate length" Number(Thickness, 1.0, 240.0), Free, "Of one void crate: whole crates fill the length.";
        UnitWidth "Crate width" Number(Thickness, 1.0, 240.0), Free, "Of one void crate.";
        UnitHeight "Crate height" Number(Thickness, 1.0, 240.0), Free, "Of one void crate.";
        Void "Void" Number(Percent, 1.0, 100.0), Free, "Share of a crate that holds water; blank for the factor.";
        CutDepth "Cut depth" Number(Length, 0.0, 60.0), Arises, "From the ground to its underside, where a pit of its own is dug.";
        StructureEntered "Entered" Choice(YES_NO), Free, "Whether people work in its pit: yes adds working room and lay-back.";
        StructureBedding "Bedding" Number(Thickness, 0.0, 60.0), Arises, "Thickness of the bedding under it; blank for the factor.";
        OwnWeight "Weight" Number(Weight, 0.0, 1000.0), Arises, "Of one, empty: lifted by a machine, and what holds it down.";
        Cover "Cover" Number(Thickness, 0.0, 240.0), Free, "Thickness of the soil or stone that lies on it.";
        StructureGroundwater "Groundwater" Number(Length, 0.0, 60.0), Free, "From the ground down to groundwater at its highest.";
        OpeningWidth "Opening width" Number(Length, 0.0, 100.0), Free, "Of the opening that water enters by.";
        OpeningHeight "Opening height" Number(Length, 0.0, 50.0), Free, "Of the opening that water enters by.";
        OpeningFlow "Flow" Number(Flow, 0.0, 200_000.0), Free, "Water that enters by the opening.";
        StructureLifted "Lifted by" RowOf("Equipment"), Free, "Machine that sets it.";
        StructureRadius "Radius" Number(Length, 0.0, 300.0), Free, "How far that machine reaches to set it.";
        StructureMaterial "Material" RowOf("Materials"), Free, "What is bought; of void crates by the piece.";
        StructureWork "Work" RowOf("Production rates"), Free, "How it is set; of a wall, how it is protected. Set structure, Set crate or Protect wall where blank.";
        StructurePrice "Price" Number(Money, 0.0, 10_000_000.0), Free, "A subcontractor's or quoted price for one.";
        StructureGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        StructureNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One layer of a lining.
    Layers "Liner and fabric", "layer", false, "One layer of the lining of a basin or of a fall a row, from the soil up." {
        Layer "Layer" Name, Needed, "A short name, used by other sheets.";
        LayerBasin "Basin" PartOf("Basins"), Free, "The basin it lines; or name the fall.";
        LayerFall "Fall" PartOf("Waterfalls and streams"), Free, "The fall or stream it lines.";
        LayerMaterial "Material" RowOf("Materials"), Free, "What is bought, by area or by whole rolls.";
        LayerWork "Work" RowOf("Production rates"), Free, "How it is laid; Lay sheet where blank.";
        LayerTimes "Times" Number(Count, 1.0, 20.0), Free, "How many times it is laid; 1 where blank.";
        Slack "Slack" Number(Percent, 0.0, 50.0), Free, "Added to both measures so that it lies without strain; blank for the factor.";
        EdgeKind "Edge" Choice(EDGES), Arises, "How it ends at the rim; up and over where blank.";
        EdgeWidth "Edge width" Number(Length, 0.0, 50.0), Free, "How far it runs beyond the rim; of a wall, up it. Blank for the factor.";
        SetBack "Trench set-back" Number(Length, 0.0, 50.0), Free, "From the rim to the anchor trench; blank for the factor.";
        TrenchDepth "Trench depth" Number(Length, 0.0, 20.0), Free, "Of the anchor trench; blank for the factor.";
        TrenchWidth "Trench width" Number(Length, 0.0, 20.0), Free, "Of the anchor trench; blank for the factor.";
        OrderedAs "Ordered as" Choice(ORDERED_AS), Free, "One panel where blank.";
        StripsRun "Strips run" Choice(STRIPS_RUN), Free, "Which way strips or rolls lie; along the length where blank.";
        RollWidth "Roll width" Number(Length, 0.5, 200.0), Free, "Width of a strip.";
        RollLength "Roll length" Number(Length, 1.0, 5000.0), Free, "Length of a roll.";
        Seam "Seam" Choice(SEAMS), Arises, "How strips are joined; loose where blank.";
        Lap "Lap" Number(Thickness, 0.0, 120.0), Free, "Over the next strip; blank for the factor of the seam.";
        SheetLength "Sheet length" Number(Length, 0.5, 10_000.0), Free, "As taped through the hollow from rim to rim, in place of the length worked out.";
        SheetWidth "Sheet width" Number(Length, 0.5, 10_000.0), Free, "The same across.";
        DoubledArea "Doubled area" Number(Area, 0.0, 5_000_000.0), Free, "Where it lies double, as under heavy stone.";
        Battens "Battens" Number(Length, 0.0, 50_000.0), Arises, "Along walls.";
        Boots "Boots" Number(Count, 0.0, 1000.0), Arises, "At penetrations.";
        Picking "Pick subgrade" Choice(YES_NO), Arises, "Whether the ground is picked clean of stones under it.";
        LeakTest "Leak test" Choice(YES_NO), Arises, "Whether it is filled and watched before it is trimmed.";
        LayerGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        LayerNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One waterfall, stream or rock edge.
    Falls "Waterfalls and streams", "fall", false, "One waterfall, stream or rock edge a row; its courses of stone stand in Courses." {
        Fall "Fall" Name, Needed, "A short name, used by other sheets.";
        FallKind "Kind" Choice(FALL_KINDS), Needed, "What it is.";
        FallBasin "Basin" PartOf("Basins"), Free, "The basin that it spills into, or whose edge it makes.";
        Foot "Foot" ELEVATION, Arises, "Elevation of the ground or floor that the first course is set into.";
        FootRod "Foot rod" ROD, Arises, "The same as a rod reading.", ReadingOf(Falls::Foot as usize);
        PlannedRise "Planned rise" Number(Length, 0.0, 500.0), Free, "From the foot to the top of the last course, to check the courses against.";
        FallFlow "Flow" Number(Flow, 0.0, 200_000.0), Free, "Water that runs over it.";
        ReachLength "Reach length" Number(Length, 0.0, 50_000.0), Free, "Of a lined channel without courses; a layer lines it, its dig and stone go under Other items.";
        ReachWidth "Reach width" Number(Length, 0.0, 500.0), Free, "Across its bed.";
        ReachDepth "Reach depth" Number(Length, 0.0, 50.0), Free, "Up each of its sides, along the slope.";
        FallRock "Rock" Choice(ROCKS), Free, "Kind of rock; granite where blank.";
        GapFill "Gap fill" RowOf("Materials"), Free, "Stone for the gaps; River stone where blank.";
        FallBedding "Bedding" RowOf("Materials"), Free, "What courses are bedded on; Bedding where blank.";
        Foam "Foam" RowOf("Materials"), Free, "Seals the joints, by the can; Foam where blank.";
        FallLifted "Lifted by" RowOf("Equipment"), Free, "Machine that sets the stone.";
        FallRadius "Radius" Number(Length, 0.0, 300.0), Free, "How far that machine reaches to the stone furthest off.";
        FallGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        FallNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One course of stone.
    Courses "Courses", "course", false, "One course of stone a row, numbered from the bottom." {
        Course "Course" Name, Needed, "A short name.";
        CourseFall "Fall" PartOf("Waterfalls and streams"), Needed, "Which fall, stream or rock edge it belongs to.";
        CourseNumber "Number" Number(Count, 1.0, 1000.0), Needed, "1 for the lowest.";
        Face "Face" Number(Length, 0.1, 5000.0), Needed, "Length along the face.";
        Returns "Returns" Number(Length, 0.0, 5000.0), Free, "Length of both ends that turn into the bank.";
        StoneHeight "Height" Number(Thickness, 1.0, 240.0), Free, "Nominal height of its stone; or give the size range.";
        StoneDepth "Depth" Number(Thickness, 1.0, 240.0), Free, "Nominal depth of its stone, front to back; its height where blank.";
        StoneLength "Stone length" Number(Thickness, 1.0, 480.0), Free, "Mean length of a stone along the face; blank for the factor.";
        Smallest "Smallest" Number(Thickness, 1.0, 240.0), Free, "Size of the smallest stone, where stone comes by a size range.";
        Largest "Largest" Number(Thickness, 1.0, 240.0), Free, "Size of the largest stone, for the heaviest piece; where blank, a lift is checked with the usual piece.";
        Stone "Stone" PartOf("Materials"), Free, "What is bought; Boulders where blank.";
        CourseWork "Work" RowOf("Production rates"), Free, "How it is set, by the piece or the ton; Set stone where blank.";
        CourseRock "Rock" Choice(ROCKS), Free, "Kind of rock, where it differs from the fall's.";
        StoneShape "Shape" Choice(STONE_SHAPES), Free, "How much of its box a stone fills; where blank, rough, and rounded for stone that comes by a size range. Write rough or block for angular stone.";
        TonsBy "Tons by" Choice(TONS_BY), Free, "Whether tons are the course's volume less voids, or pieces times weight; course where blank.";
        Porosity "Porosity" Number(Percent, 0.0, 90.0), Free, "Voids in the volume of the course; blank for the factor.";
        Embedment "Embedment" Number(Thickness, 0.0, 120.0), Free, "How far its foot is set into what lies before it.";
        Setback "Setback" Number(Length, 0.0, 200.0), Free, "From the face of the course below back to this face.";
        Rise "Rise" Number(Thickness, 0.0, 240.0), Free, "From this bed up to the next; blank for the height less the factor.";
        AsSet "As set top" ELEVATION, Free, "Top of the course as set: moves all above it and nothing below.";
        AsSetRod "As set top rod" ROD, Free, "The same as a rod reading.", ReadingOf(Courses::AsSet as usize);
        SpillWidth "Spill width" Number(Length, 0.0, 500.0), Free, "Width of the water that runs over it.";
        Reject "Reject" Number(Percent, 0.0, 100.0), Free, "Stone that does not fit anywhere; blank for the factor.";
        CourseGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        CourseNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One bed of loose stone.
    Loose "Gravel and loose stone", "bed", false, "One bed of gravel or loose stone a row, by area and thickness." {
        LooseBed "Bed" Name, Needed, "A short name, used by other sheets.";
        LooseBasin "Basin" PartOf("Basins"), Free, "The basin whose water it stands in.";
        LooseLength "Length" Number(Length, 0.0, 50_000.0), Free, "Of a bed with four straight sides; or give the area.";
        LooseWidth "Width" Number(Length, 0.0, 50_000.0), Free, "The same across.";
        LooseArea "Area" Number(Area, 0.0, 5_000_000.0), Free, "Of the bed.";
        LooseThickness "Thickness" Number(Thickness, 0.0, 240.0), Needed, "Mean thickness.";
        LooseDeduct "Deduct" Number(Volume, 0.0, 1_000_000.0), Free, "What stands in it, beside the structures that name it.";
        LoosePorosity "Porosity" Number(Percent, 0.0, 90.0), Free, "Voids in its volume; blank for the factor.";
        UnderWater "Under water" Number(Percent, 0.0, 100.0), Free, "Share of it under water; all of it in a basin, where blank.";
        LooseMaterial "Material" RowOf("Materials"), Free, "What is bought; Gravel where blank.";
        LooseWork "Work" RowOf("Production rates"), Free, "How it is placed; Place gravel where blank.";
        LooseGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        LooseNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// Logs of one size.
    Timber "Timber", "log", false, "Logs of one size a row." {
        Log "Log" Name, Needed, "A short name.";
        TimberBasin "Basin" PartOf("Basins"), Free, "Where it lies.";
        TimberTimes "Times" Number(Count, 1.0, 10_000.0), Free, "How many; 1 where blank.";
        TimberLength "Length" Number(Length, 0.5, 200.0), Needed, "Of one log.";
        Diameter "Diameter" Number(Thickness, 1.0, 120.0), Needed, "Mean diameter.";
        TimberSpecies "Species" Choice(SPECIES), Free, "Kind of wood; white oak where blank.";
        TimberLifted "Lifted by" RowOf("Equipment"), Free, "Machine that sets it.";
        TimberRadius "Radius" Number(Length, 0.0, 300.0), Free, "How far that machine reaches.";
        TimberMaterial "Material" RowOf("Materials"), Free, "What is bought: by the piece, by length, volume or weight. Logs where blank.";
        TimberWork "Work" RowOf("Production rates"), Free, "How it is set; Set log where blank.";
        TimberGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        TimberNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One planted area.
    Planting "Planting", "planting", false, "One planted area a row: its soil and its plants." {
        Planted "Planting" Name, Needed, "A short name.";
        PlantingBasin "Basin" PartOf("Basins"), Free, "Where it is.";
        PlantingLength "Length" Number(Length, 0.0, 50_000.0), Free, "Of an area with four straight sides; or give the area.";
        PlantingWidth "Width" Number(Length, 0.0, 5000.0), Free, "The same across.";
        PlantingArea "Area" Number(Area, 0.0, 5_000_000.0), Free, "As seen from above.";
        PlantingSlope "Slope" Number(Slope, 0.1, 50.0), Free, "Where it lies on a bank: plants stand on the true surface.";
        SoilDepth "Soil depth" Number(Thickness, 0.0, 120.0), Arises, "Thickness of planting soil.";
        PlantingSoil "Soil" RowOf("Materials"), Free, "What is bought; Planting soil where blank.";
        Spacing "Spacing" Number(Thickness, 1.0, 1200.0), Arises, "From plant to plant.";
        Pattern "Pattern" Choice(PATTERNS), Free, "How they are set out; square where blank.";
        Plant "Plant" RowOf("Materials"), Free, "What is bought, by the piece; Plants where blank.";
        PlantingWork "Work" RowOf("Production rates"), Free, "How plants are set; Plant where blank.";
        PlantingGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        PlantingNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// Anything that has no table of its own: the plain dimension sheet.
    OtherItems "Other items", "item", false, "One measured item a row: times × length × width × depth − deduct, in the unit asked for." {
        Item "Item" Name, Needed, "A short name of the item, unique; the client's number with a letter in front, such as A-12.";
        Section "Section" Words, Needed, "Heading of the bid that it belongs under.", Decides;
        Description "Description" Words, Needed, "What it is, as it should read on the bid.", Prose;
        ItemZone "Zone" Words, Free, "Part of the site that it is in, where work is shared out by zone.", Decides;
        Times "Times" Number(Count, 0.0, 1_000_000.0), Free, "How many times; 1 where blank beside a measure or for ls. Alone, it is the quantity.";
        ItemLength "Length" Number(Length, 0.0, 100_000.0), Free, "First measure; fill from the left: a wall has its height under Width.";
        ItemWidth "Width" Number(Length, 0.0, 100_000.0), Free, "Second measure, for areas and volumes.";
        ItemDepth "Depth" Number(Length, 0.0, 1000.0), Free, "Third measure, for volumes.";
        Deduct "Deduct" Number(Count, 0.0, 10_000_000.0), Free, "Taken off, in the item's unit.";
        Waste "Waste" Number(Percent, 0.0, 100.0), Free, "Bought beyond the measure; blank for the material's.";
        ItemUnit "Unit" UnitName, Needed, "Unit of the quantity: ea, ft, ft2, yd3, ton, h, ls, …";
        ItemMaterial "Material" RowOf("Materials"), Free, "What is bought for it.";
        ItemWork "Work" RowOf("Production rates"), Free, "How it is done, which gives crew and machine hours.";
        Price "Price" Number(Money, 0.0, 10_000_000.0), Free, "A subcontractor's or quoted price for one unit.";
        PlugPrice "Plug price" Number(Money, 0.0, 10_000_000.0), Free, "An allowance until a price is in: the bid stays a draft.";
        ItemGrade "Grade" Choice(GRADES), Free, "How the measures of this row were come by; blank for the job's usual grade.";
        ItemNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }
}
