//! The formulas of the lining say what the engine says, also after an edit in the workbook.

use groundsheet::estimate::Estimate;

use crate::support::agreement::{Typed, Viewer, Written, word};
use crate::support::recalculate::Entry;
use crate::support::{METRIC, US, estimate_of, estimate_of_bytes, workbook_of};

/// A job that fills in every column of the lining, US customary.
fn us() -> Estimate {
    estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope\n\
             Pool,rectangle,40,24,4,0.75,2.4\nTank,ellipse,30,20,3,1,\n",
        ),
        (
            "Shelves",
            "Basin,Shelf,Depth (ft),Width (ft)\nPool,Planting,1,2\nTank,Step,1.5,1\n",
        ),
        (
            "Waterfalls and streams",
            "Fall,Kind,Reach length (ft),Reach width (ft),Reach depth (ft)\n\
             Cascade,waterfall,,,\nBrook,stream,30,4,1\n",
        ),
        (
            "Courses",
            "Course,Fall,Number,Face (ft),Returns (ft),Height (in),Smallest (in),Largest (in),\
             Setback (in),Rise (in),Spill width (ft)\n\
             C2,Cascade,2,8,2,,12,24,18,,4\nC1,Cascade,1,10,2,24,,,,14,5\nB1,Brook,1,6,,18,,,,,3\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Fall,Material,Work,Times,Slack (%),Edge,Edge width (ft),\
             Trench set-back (ft),Trench depth (in),Trench width (in),Ordered as,Strips run,\
             Roll width (ft),Roll length (ft),Seam,Lap (in),Sheet length (ft),Sheet width (ft),\
             Doubled area (ft2),Battens (ft),Boots,Pick subgrade,Leak test,Grade\n\
             Below,Pool,,Fabric,,2,,up and over,3,,,,rolls,along the length,15,100,loose,18,,,\
             200,,,yes,no,paced\n\
             Over,,Cascade,Fabric,Lay fabric,,3,,,,,,,,,,,,,,10,,,yes,,\n\
             Liner,Pool,,,,,,anchor trench,,3,18,12,strips,across the width,20,,taped,,,,\
             ,20,2,,yes,measured\n\
             Run,,Brook,Fabric,,,,,2.5,,,,rolls,along the length,8,30,loose,,,,,,,,,\n\
             Lined,Tank,,,,,,anchor trench,,,,,rolls,along the length,12,25,welded,,44,,,,,,,\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Area weight (lb/ft2),Waste (%)\nFabric,yd2,2,0.1,\n\
             Liner,ft2,1,0.3,2\nSeam tape,yd,2,,\nBatten,ft,5,,\nBoot,ea,60,,\n",
        ),
        ("Crews", "Crew,People,Wage per hour\nCrew,2,50\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nLay sheet,ft2,Crew,100\nLay fabric,yd2,Crew,50\n\
             Fix batten,ft,Crew,10\nFit boot,ea,Crew,1\nPick subgrade,ft2,Crew,1000\n\
             Test liner,ea,Crew,0.1\n",
        ),
    ])
}

/// The like of it in metric units, with fewer rows.
fn metric() -> Estimate {
    estimate_of(&[
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope\nPool,circle,9,,1.5,0.8\n",
        ),
        (
            "Shelves",
            "Basin,Shelf,Depth (m),Width (m)\nPool,Step,0.4,0.5\n",
        ),
        ("Waterfalls and streams", "Fall,Kind\nCascade,waterfall\n"),
        (
            "Courses",
            "Course,Fall,Number,Face (m),Height (mm),Setback (m),Spill width (m)\n\
             C1,Cascade,1,3,600,,2\nC2,Cascade,2,2,500,0.6,1.5\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Fall,Edge,Ordered as,Roll width (m),Roll length (m),Seam,Lap (cm),\
             Doubled area (m2),Battens (m),Boots,Pick subgrade,Leak test\n\
             Liner,Pool,,anchor trench,rolls,2,20,taped,12,3,4,1,yes,yes\n\
             Over,,Cascade,wall,,,,,,,,,,\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Area weight (kg/m2)\nLiner,m2,10,1.2\nSeam tape,m,2,\n\
             Batten,m,6,\nBoot,ea,50,\n",
        ),
    ])
}

#[test]
fn every_formula_of_a_whole_lining_recalculates() {
    for (name, job) in [("US customary", us()), ("metric", metric())] {
        assert_eq!(job.graph.rule_faults(), &[] as &[String]);
        assert_eq!(job.results.unworkable(&job.graph), vec![], "{name}");
        Written::new(name, &job).recalculates();
    }
}

#[test]
fn a_written_lining_reads_back_and_is_written_the_same_again() {
    for job in [us(), metric()] {
        let bytes = workbook_of(&job);
        let again = workbook_of(&estimate_of_bytes(&bytes));
        assert!(bytes == again, "the second workbook differs from the first");
    }
}

/// Edits that are made together. Rows of the layers stand by what they line: Below, Liner,
/// Lined, then those of the falls, Over and Run.
fn rounds() -> Vec<Vec<Typed>> {
    let table = "Liner and fabric";
    vec![
        vec![
            (table, "Times", 0, Entry::Number(3.0)),
            (table, "Slack", 3, Entry::Number(6.0)),
            (table, "Edge width", 4, Entry::Number(1.0)),
            (table, "Trench depth", 1, Entry::Number(40.0)),
            (table, "Ordered as", 0, word("one panel")),
            (table, "Roll length", 2, Entry::Number(120.0)),
            (table, "Material", 3, word("Liner")),
            ("Courses", "Rise", 1, Entry::Number(20.0)),
        ],
        vec![
            (table, "Slack", 0, Entry::Number(0.0)),
            (table, "Trench width", 2, Entry::Number(30.0)),
            (table, "Ordered as", 0, word("strips")),
            (table, "Ordered as", 1, word("one panel")),
            (table, "Sheet length", 2, Entry::Blank),
            (table, "Battens", 1, Entry::Number(33.0)),
            (table, "Work", 3, Entry::Blank),
            ("Courses", "Setback", 1, Entry::Number(30.0)),
            (
                "Waterfalls and streams",
                "Reach length",
                1,
                Entry::Number(50.0),
            ),
            ("Basins", "Ramp slope", 0, Entry::Blank),
        ],
        vec![
            (table, "Edge width", 0, Entry::Blank),
            (table, "Ordered as", 4, word("strips")),
            (table, "Roll width", 0, Entry::Number(9.5)),
            (table, "Strips run", 1, Entry::Blank),
            (table, "Doubled area", 0, Entry::Number(5000.0)),
            (table, "Boots", 1, Entry::Number(5.0)),
            ("Courses", "Face", 1, Entry::Number(30.0)),
            ("Shelves", "Slope above", 1, Entry::Number(2.0)),
            ("Materials", "Area weight", 1, Entry::Number(0.4)),
        ],
        vec![
            (table, "Strips run", 0, word("across the width")),
            (table, "Roll length", 0, Entry::Number(30.0)),
            (table, "Sheet width", 0, Entry::Number(35.0)),
            (table, "Lap", 0, Entry::Blank),
            (table, "Grade", 0, word("quoted")),
            ("Courses", "Spill width", 0, Entry::Number(450.0)),
            ("Shelves", "Width", 0, Entry::Number(1.0)),
            ("Materials", "Waste", 1, Entry::Blank),
        ],
        vec![
            (table, "Material", 0, word("Liner")),
            ("Courses", "Spill width", 0, Entry::Number(450.0)),
            // A height instead of a size range.
            ("Courses", "Height", 1, Entry::Number(20.0)),
            ("Courses", "Smallest", 1, Entry::Blank),
            ("Courses", "Largest", 1, Entry::Blank),
        ],
    ]
}

#[test]
fn every_live_column_follows_an_edit_as_a_fresh_run_does() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let job = us();
    let written = Written::new("lining", &job);
    // Of seam tape, battens and boots.
    let wasted = [2, 3, 4].map(|row| ("Materials", "Waste", row, Entry::Number(7.0)));
    let rounds = rounds().into_iter().chain([wasted.to_vec()]);
    let rounds = rounds.map(|round| written.all_typed(round));
    shown(&written, rounds.chain([written.every_number()]).collect());
}

#[test]
fn an_edit_that_makes_or_ends_a_line_asks_for_a_new_run() {
    let job = us();
    let written = Written::new("lining", &job);
    let edits = [
        ("Seam", 0, word("taped")),
        ("Seam", 1, word("welded")),
        ("Edge", 0, word("anchor trench")),
        ("Edge", 1, Entry::Blank),
        ("Battens", 0, Entry::Number(9.0)),
        ("Boots", 1, Entry::Blank),
        ("Pick subgrade", 1, word("yes")),
        ("Leak test", 0, word("yes")),
    ];
    let typed = edits.map(|(name, row, entry)| ("Liner and fabric", name, row, entry));
    written.asks_for_a_new_run(&written.all_typed(typed.to_vec()));
}
