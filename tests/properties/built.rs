//! One sound job that uses every table of what is built, for cells to be made odd in.

/// Its tables; no cell holds a comma.
pub(crate) const TABLES: [(&str, &str); 18] = [
    (
        "Job",
        "Key,Value\nName,All\nUnits,US customary\nSoil,loam\nBenchmark (ft),100\nBacksight (ft),5\n\
         Tip fee per load,40",
    ),
    (
        "Quick measure",
        "Key,Value\nPool,Fish pool\nLength (ft),20\nWidth (ft),15\nDepth (ft),3\n\
         Gravel bed area (ft2),80\nFall rise (ft),2\nFall courses,2\nFlow (gpm),60\n\
         Stream length (ft),12\nGate width (ft),8\nCarry (ft),50",
    ),
    (
        "Basins",
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),Groundwater (ft),Ballast (in)\n\
         Main,rectangle,60,40,5,2,6,3,12\nUpper,ellipse,20,10,2,1,6,,",
    ),
    (
        "Shelves",
        "Basin,Shelf,Depth (ft),Width (ft)\nMain,Marsh,1,2",
    ),
    (
        "Edges",
        "Edge,Basin,Treatment,Length (ft),Material\nNorth,Main,stone,120,\nSouth,Main,timber,80,Pipe",
    ),
    (
        "Structures",
        "Structure,Kind,Basin,Stands in,Times,Length (ft),Width (ft),Height (ft),Crate length (in),\
         Crate width (in),Crate height (in),Cut depth (ft),Entered,Weight (ton),Groundwater (ft),\
         Opening width (ft),Opening height (ft),Flow (gpm),Lifted by,Radius (ft),Price\n\
         Vault,vault,,,1,6,4,5,,,,4,yes,3,2,2,1,200,Digger,12,900\n\
         Crates,void crates,Main,Filter,1,8,6,3,24,16,18,,,,,,,,,,",
    ),
    (
        "Liner and fabric",
        "Layer,Basin,Fall,Material,Times,Slack (%),Edge,Ordered as,Roll width (ft),Roll length (ft),\
         Seam,Doubled area (ft2),Battens (ft),Boots,Pick subgrade,Leak test\n\
         Under,Main,,Fabric,1,,up and over,rolls,15,300,loose,40,,,yes,\n\
         Liner,Main,,Liner,1,5,anchor trench,one panel,,,taped,,10,2,,yes\n\
         Fall,,Cascade,Liner,,,,,,,,,,,,",
    ),
    (
        "Waterfalls and streams",
        "Fall,Kind,Basin,Foot (ft),Planned rise (ft),Flow (gpm),Reach length (ft),Reach width (ft),\
         Reach depth (ft),Lifted by,Radius (ft)\nCascade,waterfall,Main,95,2.5,600,10,4,1,Digger,15",
    ),
    (
        "Courses",
        "Course,Fall,Number,Face (ft),Returns (ft),Height (in),Depth (in),Stone length (in),\
         Smallest (in),Largest (in),Embedment (in),Setback (ft),Rise (in),As set top (ft),Spill width (ft)\n\
         C1,Cascade,1,12,2,18,18,30,,,4,,10,,\nC2,Cascade,2,10,2,,,,10,20,,1.5,,97.2,3",
    ),
    (
        "Gravel and loose stone",
        "Bed,Basin,Length (ft),Width (ft),Area (ft2),Thickness (in),Deduct (ft3),Porosity (%),Under water (%)\n\
         Filter,Main,20,15,,36,4,,\nBeach,,,,90,6,,40,50",
    ),
    (
        "Timber",
        "Log,Basin,Times,Length (ft),Diameter (in),Species,Lifted by,Radius (ft)\nRoot,Upper,2,12,14,red oak,Digger,18",
    ),
    (
        "Planting",
        "Planting,Length (ft),Width (ft),Area (ft2),Slope,Soil depth (in),Spacing (in),Pattern\n\
         Bank,20,6,,2,6,18,triangle\nShelf,,,60,,,12,",
    ),
    (
        "Lift chart",
        "Machine,Radius (ft),Capacity (ton),Chart gives\nDigger,10,6,\nDigger,20,3,tipping load",
    ),
    (
        "Materials",
        "Material,Unit,Price,Weight (lb/ft3),Waste (%)\nBoulders,ton,90,,\nRiver stone,yd3,40,,5\n\
         Bedding,yd3,25,,\nFoam,ea,9,,\nLiner,ft2,1,,\nFabric,ft2,0.4,,\nGravel,ton,30,95,\n\
         Void crate,ea,70,,\nLogs,ea,120,,\nPlanting soil,yd3 loose,35,,\nPlants,ea,3,,\n\
         Seam tape,ft,1,,\nBatten,ft,4,,\nBoot,ea,60,,\nPipe,ft,2,,",
    ),
    ("Crews", "Crew,People,Wage per hour\nCrew,3,30"),
    (
        "Equipment",
        "Machine,Rate per hour,Carries (yd3),Payload (ton),Cycle (min),Rigging (ton),Width (ft)\n\
         Digger,120,1,,0.5,0.1,7\nTruck,90,10,14,30,,8",
    ),
    (
        "Production rates",
        "Work,Unit,Crew,Crew output,Machine,Machine output\nDig,yd3 bank,,,Digger,\n\
         Haul away,load,,,Truck,\nBackfill,yd3 compacted,Crew,5,,\nSet stone,ton,Crew,2,Digger,2\n\
         Place gravel,yd3,Crew,4,,\nFoam joint,ft,Crew,40,,\nLay sheet,ft2,Crew,300,,\n\
         Set structure,ea,Crew,0.5,,\nSet crate,ea,Crew,12,,\nSet log,ea,Crew,1,Digger,1\n\
         Spread topsoil,yd3 loose,Crew,3,,\nPlant,ea,Crew,40,,\nPick subgrade,ft2,Crew,500,,\n\
         Test liner,ea,Crew,0.1,,\nFix batten,ft,Crew,20,,\nFit boot,ea,Crew,1,,",
    ),
    ("Mark-ups", "Mark-up,On,Rate (%)\nProfit,direct cost,12"),
];
