//! Quick measure by hand, and against the same job in detail.

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::place_of;
use groundsheet::graph::ColumnId;
use groundsheet::job::tables::{Basins, Courses, Falls, Layers, Shelves};
use groundsheet::takeoff::basins;
use groundsheet::units::{FT, IN, YD3};

use crate::support::agreement::{Viewer, Written, word};
use crate::support::recalculate::{Entry, Value};
use crate::support::{
    US, estimate_of, estimate_of_bytes, exactly, figure, findings_of, sample_job, workbook_of,
};

/// A pool, a fall and what lies on the way, as one walk around the site gives them.
const PAGE: &str = "Key,Value\n\
    Pool,Main pool\n\
    Length (ft),60\n\
    Width (ft),40\n\
    Depth (ft),4\n\
    Side slope,2\n\
    Shelf depth (ft),1\n\
    Fall rise (ft),6\n\
    Fall courses,5\n\
    Fall face (ft),9\n\
    Sediment area (ft2),1200\n\
    Sediment probe 1 (in),8\n\
    Sediment probe 2 (in),12\n\
    Carry (ft),120\n";

#[test]
fn the_page_becomes_ordinary_rows() {
    let job = estimate_of(&[("Job", US), ("Quick measure", PAGE)]);
    assert_eq!(job.job.table::<Basins>().rows, 1);
    assert_eq!(job.job.table::<Shelves>().rows, 1);
    assert_eq!(job.job.table::<Falls>().rows, 1);
    assert_eq!(job.job.table::<Courses>().rows, 5);
    // Fabric and liner of the pool and of the fall.
    assert_eq!(job.job.table::<Layers>().rows, 4);
    // Down to the shelf: 60 × 40 at the rim, 56 × 36 a foot lower:
    // 1 × (2,400 + 4 × 58 × 38 + 2,016) ÷ 6 = 13,232 ÷ 6 ft³.
    // The shelf leads in 2 ft, so that 52 × 32 is left; 3 ft lower it is 40 × 20:
    // 3 × (1,664 + 4 × 46 × 26 + 800) ÷ 6 = 21,744 ÷ 6 ft³. Together 34,976 ÷ 6 ÷ 27 yd³.
    let volume = figure(&job, ("Basins", "Main pool", "finished volume"), YD3);
    exactly("finished volume", volume, 34_976.0 / 162.0);
    // The mean of 8 and 12 in; the third probe was not taken.
    let sediment = figure(&job, ("Basins", "Main pool", "Sediment depth"), IN);
    exactly("sediment", sediment, 10.0);
    // Five courses of one height, each but the last rising by it less 8 in: 5 h − 32 = 72 in.
    let height = figure(&job, ("Courses", "Fall 3", "Height"), IN);
    exactly("height of a stone", height, 104.0 / 5.0);
}

#[test]
fn a_detailed_row_replaces_the_quick_row_it_refines() {
    let basins =
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nmain POOL,rectangle,61,41,4,2\n";
    let shelves = "Basin,Shelf,Depth (ft),Width (ft)\nMain pool,Ledge,1,3\n";
    let courses = "Course,Fall,Number,Face (ft),Height (in)\nLowest,Fall,1,9,24\n";
    let layers = "Layer,Basin,Material\nUnderlay,Main pool,\n";
    let job = estimate_of(&[
        ("Job", US),
        ("Quick measure", PAGE),
        ("Basins", basins),
        ("Shelves", shelves),
        ("Courses", courses),
        ("Liner and fabric", layers),
    ]);
    assert_eq!(job.job.table::<Basins>().rows, 1);
    assert_eq!(job.job.table::<Shelves>().rows, 1);
    // The lowest course is the job's own, the four above it are the page's.
    assert_eq!(job.job.table::<Courses>().rows, 5);
    let own = figure(&job, ("Courses", "Lowest", "height in use"), IN);
    exactly("height of the detailed course", own, 24.0);
    // The pool's own layer, and the two that the page makes for the fall.
    assert_eq!(job.job.table::<Layers>().rows, 3);
    let length = figure(&job, ("Basins", "main POOL", "rim length"), FT);
    exactly("the detailed length", length, 61.0);
}

#[test]
fn a_quick_row_beside_others_is_an_open_point() {
    let basins =
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nAnother,rectangle,61,41,4,2\n";
    let open = |tables: &[(&str, &str)]| {
        let findings = findings_of(tables);
        let mut beside = findings
            .iter()
            .filter(|found| found.code == Code::QuickBeside);
        let found = beside.next().map(|found| found.severity);
        found == Some(Severity::Open)
    };
    assert!(open(&[
        ("Job", US),
        ("Quick measure", PAGE),
        ("Basins", basins)
    ]));
    assert!(!open(&[("Job", US), ("Quick measure", PAGE)]));
}

#[test]
fn a_rise_without_courses_is_refused() {
    let page = "Key,Value\nFall rise (ft),6\n";
    let findings = findings_of(&[("Job", US), ("Quick measure", page)]);
    let missing = findings.iter().any(|found| {
        found.code == Code::MissingValue && found.message.contains("no number of courses")
    });
    assert!(missing, "{findings:?}");
}

/// Cells that are blank on the page, and rows whose headings are those of other keys.
#[test]
fn a_cell_of_a_quick_row_is_mended_at_its_own_key() {
    let page = "Key,Value\nLength (ft),60\nWidth (ft),\nDepth (ft),4\nShelf depth (ft),1\n\
        Shelf width (ft),\nGravel bed area (ft2),400\nGravel bed depth (ft),\nSoil,\nFloor rod (ft),\n";
    let job = estimate_of(&[("Job", US), ("Quick measure", page)]);
    let line = |column: ColumnId, row: usize| {
        let place = place_of(&job.job, &job.graph, column.at(row)).unwrap();
        place.cell.unwrap().0 + 1
    };
    let (pool, filter) = (0, 1);
    assert_eq!(line(job.graph.id(Basins::BasinWidth), pool), 3);
    assert_eq!(line(job.graph.id(Basins::Depth), pool), 4);
    assert_eq!(line(job.graph.id(Shelves::ShelfWidth), 0), 6);
    assert_eq!(line(job.graph.id(Basins::Depth), filter), 8);
    assert_eq!(line(job.graph.id(Basins::BasinSoil), pool), 9);
    assert_eq!(line(job.graph.id(Basins::FloorRod), pool), 10);
}

#[test]
fn quick_and_detailed_versions_of_one_job_agree() {
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),Sediment area (ft2),Sediment depth (in)\n\
        Main pool,rectangle,60,40,4,2,2,1200,10\n";
    let shelves = "Basin,Shelf,Depth (ft),Width (ft)\nMain pool,Planted shelf,1,2\n";
    let quick = estimate_of(&[("Job", US), ("Quick measure", PAGE)]);
    let detailed = estimate_of(&[("Job", US), ("Basins", basins), ("Shelves", shelves)]);
    for name in [
        "finished volume",
        "cut volume",
        "dig",
        "sediment",
        "water volume",
    ] {
        let unit = quick
            .graph
            .column(quick.graph.find("Basins", name).unwrap())
            .unit;
        let of = |job| figure(job, ("Basins", "Main pool", name), unit);
        exactly(name, of(&quick), of(&detailed));
    }
}

#[test]
fn a_quick_workbook_recalculates_and_is_the_same_job_again() {
    for page in [PAGE.to_owned(), in_metres()] {
        let system = if page.contains("(m)") {
            crate::support::METRIC
        } else {
            US
        };
        let job = estimate_of(&[("Job", system), ("Quick measure", &page)]);
        let bytes = workbook_of(&job);
        let again = estimate_of_bytes(&bytes);
        assert!(again.job.same_as(&job.job));
        assert_eq!(workbook_of(&again), bytes);
        Written::new(system, &job).recalculates();
    }
}

#[test]
fn every_number_and_choice_of_the_page_flows() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the quick pond with an edit of every number of its page, and of its choices.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let job = sample_job("quick-pond");
    let written = Written::new("quick-pond", &job);
    let words = written.all_typed(vec![
        ("Quick measure", "Grade", 0, word("quoted")),
        ("Quick measure", "Shape", 0, word("rectangle")),
    ]);
    shown(&written, vec![written.every_number(), words]);
}

#[test]
fn what_makes_rows_or_is_blank_asks_for_a_new_run() {
    let job = sample_job("quick-pond");
    let written = Written::new("quick-pond", &job);
    // Each alone: how many courses there are, what stands on the page but in no row, and
    // keys that were blank when the rows were made.
    for (key, entry) in [
        ("Fall courses", Entry::Number(6.0)),
        ("Ground", word("firm")),
        ("Soil", word("sand")),
        ("Pool", word("Mill pool")),
        ("Floor rod", Entry::Number(8.6)),
    ] {
        let edit = ("Quick measure", key, 0, entry);
        written.asks_for_a_new_run(&written.all_typed(vec![edit]));
    }
}

/// The same page in metres, but for the sediment, which was probed in inches all the same.
fn in_metres() -> String {
    let lengths = [("60", "18"), ("40", "12"), (",4\n", ",1.2\n")];
    let page = PAGE.replace("(ft)", "(m)").replace("(ft2)", "(m2)");
    lengths
        .iter()
        .fold(page, |page, (feet, metres)| page.replace(feet, metres))
}

#[test]
fn an_edit_of_the_page_flows_and_one_of_its_rows_asks_for_a_new_run() {
    let job = estimate_of(&[("Job", US), ("Quick measure", PAGE)]);
    let written = Written::new("quick", &job);
    let page = written.typed("Quick measure", "Length", 0, Entry::Number(66.0));
    // 66 × 40 and 62 × 36: 1 × (2,640 + 4 × 64 × 38 + 2,232) ÷ 6 = 14,600 ÷ 6;
    // 58 × 32 and 46 × 20: 3 × (1,856 + 4 × 52 × 26 + 920) ÷ 6 = 24,552 ÷ 6.
    let volume = written.spot(job.graph.id(basins::VOLUME), 0);
    for (engine, all) in written.recalculated(std::slice::from_ref(&page)) {
        let again = &all[&volume];
        assert!(
            Value::Number(39_152.0 / 162.0).agrees_with(again),
            "{engine}: {again:?}"
        );
    }
    written.follows(vec![page]);
    // A row that the page made, and a blank cell of it.
    let made = ["Length", "Topsoil"].map(|name| ("Basins", name, 0, Entry::Number(66.0)));
    written.asks_for_a_new_run(&written.all_typed(made.to_vec()));
}
