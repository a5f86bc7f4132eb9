//! Every new column recalculated by engines that know nothing of this crate, in both
//! systems of units, with every kind of row and blank cells among them.

use groundsheet::estimate::Estimate;
use groundsheet::graph::Graph;

use crate::support::agreement::{Typed, Viewer, Written, batches, word};
use crate::support::recalculate::Entry;
use crate::support::{METRIC, US, estimate_of};

const STRUCTURES: &str = "Structure,Kind,Basin,Stands in,Times,Length (ft),Width (ft),Height (ft),\
    Crate length (in),Crate width (in),Crate height (in),Cut depth (ft),Entered,Bedding (in),\
    Weight (lb),Cover (in),Groundwater (ft),Opening width (ft),Opening height (ft),Flow (gpm),\
    Lifted by,Radius (ft),Price\n\
    Vault,vault,,,1,8,6,5,,,,5.5,yes,6,12000,12,3,6,1,1400,Loader,14,2400\n\
    Bank,void crates,Pool,Filter,2,9,5.5,2.9,24,16,10,,,,40,,,,,,,,\n\
    Box,weir box,Pool,,,3,3,2,,,,,,4,,,,,,,,,850\n\
    Deep,vault,Pool,,,3,3,4,,,,7,,,900,24,1,,,,,,700\n\
    Old wall,wall kept,Pool,,,30,,4,,,,,,,,,,,,,,,\n";
const LOOSE: &str = "Bed,Basin,Length (ft),Width (ft),Area (ft2),Thickness (in),Deduct (ft3),\
    Porosity (%),Under water (%)\n\
    Filter,,20,12,,30,10,,50\nFloor,Pool,,,400,6,,38,\nDry,,5,4,,3,,,\n";
const TIMBER: &str = "Log,Times,Length (ft),Diameter (in),Species,Lifted by,Radius (ft)\n\
    Oaks,3,16,18,,Loader,12\nPine,,12.5,14,loblolly pine,,\n";
const PLANTING: &str = "Planting,Length (ft),Width (ft),Area (ft2),Slope,Soil depth (in),\
    Spacing (in),Pattern\nBank,20,15,,3,6,18,triangle\nBed,,,120,,,12,\nSoil,10,7,,,4,,\n";
const EDGES: &str = "Edge,Basin,Treatment,Length (ft),Material,Work\n\
    North,Pool,stone,60,,\nTank side,Tank,timber,30,Sleepers,Clean\nSouth,Pool,beach,18,,Clean\n";
const BASINS: &str = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),\
    Groundwater (ft),Ballast (in),Freeboard (in)\n\
    Pool,ellipse,30,20,4,0.5,6,3,12,6\nTank,rectangle,10,8,3,0,,,,\nRound,circle,12,,3,0,,5,,\n";
const MATERIALS: &str = "Material,Unit,Price,Weight (lb/ft3),Waste (%)\n\
    Void crate,ea,25,,\nBedding,ton,30,105,0\nGravel,ton,40,98,\nLogs,ft,8,,\n\
    Planting soil,yd3,35,,\nPlants,ea,4,,\nSleepers,ft,9,,\n";
const WORKS: &str = "Work,Unit,Crew,Crew output\nSet structure,ea,Crew,2\nSet crate,yd3,Crew,3\n\
    Protect wall,ft,Crew,20\nPlace gravel,yd3,Crew,5\nSet log,ton,Crew,4\nPlant,ft2,Crew,50\n\
    Spread topsoil,yd3 loose,Crew,8\nClean,ft,Crew,40\nDig,yd3 bank,Crew,30\n\
    Backfill,yd3 compacted,Crew,30\n";

/// Tables that this part of the take-off adds columns to, each with a few of them.
const COLUMNS: [(&str, usize); 7] = [
    ("Structures", 60),
    ("Gravel and loose stone", 15),
    ("Timber", 15),
    ("Planting", 15),
    ("Edges", 15),
    ("System water", 5),
    ("Woods", 1),
];

fn computed(graph: &Graph, table: &str) -> usize {
    let columns = graph.columns().map(|id| graph.column(id));
    let own = columns.filter(|info| graph.table(info.table).name == table);
    own.filter(|info| info.is_computed()).count()
}

fn whole_job(job: &str) -> Estimate {
    estimate_of(&[
        ("Job", job),
        ("Basins", BASINS),
        ("Structures", STRUCTURES),
        ("Gravel and loose stone", LOOSE),
        ("Timber", TIMBER),
        ("Planting", PLANTING),
        ("Edges", EDGES),
        ("Materials", MATERIALS),
        ("Production rates", WORKS),
        ("Crews", super::CREWS),
        ("Equipment", "Machine,Rate per hour\nLoader,110\n"),
    ])
}

#[test]
fn every_formula_of_what_is_built_recalculates_in_both_systems() {
    // The same measures in the other system: headings say feet and inches all the same.
    for job in [US, METRIC] {
        let estimate = whole_job(job);
        let faults = estimate.graph.rule_faults();
        assert!(faults.is_empty(), "{faults:?}");
        for (table, least) in COLUMNS {
            let count = computed(&estimate.graph, table);
            assert!(count >= least, "{table}: {count} columns");
        }
        Written::new(job, &estimate).recalculates();
    }
}

/// Edits that the workbook follows by itself.
fn edits() -> Vec<Typed> {
    vec![
        ("Structures", "Kind", 0, word("weir box")),
        ("Structures", "Times", 1, Entry::Number(3.0)),
        ("Structures", "Cut depth", 0, Entry::Number(3.0)),
        ("Structures", "Entered", 0, word("no")),
        ("Structures", "Stands in", 1, Entry::Blank),
        ("Structures", "Groundwater", 0, Entry::Blank),
        ("Structures", "Opening height", 0, Entry::Blank),
        ("Structures", "Price", 2, Entry::Blank),
        ("Structures", "Material", 2, word("Void crate")),
        ("Structures", "Crate length", 1, Entry::Number(30.0)),
        ("Structures", "Crate width", 1, Entry::Number(11.0)),
        ("Structures", "Crate height", 1, Entry::Number(7.0)),
        (
            "Gravel and loose stone",
            "Thickness",
            0,
            Entry::Number(26.0),
        ),
        (
            "Gravel and loose stone",
            "Under water",
            1,
            Entry::Number(80.0),
        ),
        ("Gravel and loose stone", "Deduct", 0, Entry::Blank),
        ("Timber", "Species", 1, word("red oak")),
        ("Timber", "Times", 0, Entry::Blank),
        ("Planting", "Slope", 0, Entry::Blank),
        ("Planting", "Pattern", 0, word("square")),
        ("Planting", "Spacing", 1, Entry::Number(9.0)),
        ("Edges", "Length", 0, Entry::Number(58.0)),
        ("Timber", "Material", 0, word("Sleepers")),
        ("Timber", "Work", 0, word("Clean")),
        ("Timber", "Grade", 0, word("quoted")),
        ("Materials", "Waste", 0, Entry::Number(6.0)),
        ("Materials", "Waste", 1, Entry::Number(8.0)),
        ("Materials", "Waste", 3, Entry::Number(4.0)),
        ("Materials", "Waste", 5, Entry::Number(7.0)),
        ("Materials", "Waste", 6, Entry::Number(5.0)),
        ("Edges", "Grade", 0, word("measured")),
        ("Gravel and loose stone", "Material", 0, word("Bedding")),
        ("Gravel and loose stone", "Work", 0, word("Set crate")),
        ("Gravel and loose stone", "Grade", 0, word("as set")),
        ("Planting", "Soil", 0, word("Bedding")),
        ("Planting", "Plant", 0, word("Void crate")),
        ("Planting", "Work", 0, word("Set structure")),
        ("Planting", "Grade", 0, word("quoted")),
        ("Structures", "Work", 1, word("Place gravel")),
        ("Structures", "Lifted by", 1, word("Loader")),
        ("Structures", "Grade", 0, word("measured")),
        ("Structures", "Void", 1, Entry::Number(90.0)),
        ("Timber", "Lifted by", 1, word("Loader")),
        ("Basins", "Shape", 0, word("rectangle")),
        ("Basins", "Grade", 0, word("measured")),
        ("Job", "Hours a day", 0, Entry::Number(7.0)),
        ("Job", "Days a week", 0, Entry::Number(6.0)),
        ("Basins", "Groundwater", 0, Entry::Number(3.8)),
        ("Basins", "Ballast", 0, Entry::Blank),
    ]
}

#[test]
fn every_formula_of_what_is_built_follows_an_edit_as_a_fresh_run_does() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let estimate = whole_job(US);
    let written = Written::new("what is built", &estimate);
    let mut batches = batches(written.all_typed(edits()));
    batches.extend([written.every_number(), written.every_factor()]);
    shown(&written, batches);
}
