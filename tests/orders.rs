//! Orders, loads, freight, deliveries, dollars by grade, the defaults that move the bid
//! most and the dig sheet, by hand.

use groundsheet::bid::suppliers;
use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::graph::home::Layout;
use groundsheet::graph::{Again, Cell, ColumnId, Results, evaluate_with};
use groundsheet::job::tables::{Basins, Materials, OtherItems};
use groundsheet::parameters::{Factor, OverrideOf};
use groundsheet::place::cell_name;
use groundsheet::tables::Suppliers;
use groundsheet::takeoff::dig_sheet;
use groundsheet::units::{FT, M, MONEY, ONE, PERCENT, System, Unit};
use groundsheet::write::{BookLayout, records, summary};

use crate::support::agreement::{Viewer, Written, batches, word};
use crate::support::recalculate::{self, Entry, stored};
use crate::support::{
    METRIC, US, estimate_of, estimate_of_bytes, exactly, figure, findings_of, sample_job,
    workbook_of,
};

/// One item a material, 1 to 5, in tons, pieces and feet; nothing of the rope.
const BOUGHT: &str = "Item,Section,Description,Times,Length (ft),Unit,Material\n\
    Wall,Stone,Wall stone,25,,ton,Stone\nBed,Stone,Gravel,24,,ton,Gravel\n\
    Reeds,Plants,Reeds,40,,ea,Reeds\nRope,Plants,Rope,0,,ea,Rope\n\
    Drain,Pipes,Drain,,120,ft,Pipe\nFence,Pipes,Fence,,60,ft,Fence\n";

const BOOK: &str = "Material,Unit,Price,Load,Freight per load,Waste (%),Supplier\n\
    Stone,ton,30,12,150,,North quarry\nReeds,ea,2,,85,,\nGravel,ton,10,12,100,0,north QUARRY\n\
    Rope,ea,7,,40,,Pipe yard\nPipe,ft,3,500,,0,Pipe yard\nFence,ft,1,,,0,\n";

fn deliveries() -> Estimate {
    estimate_of(&[("Job", US), ("Other items", BOUGHT), ("Materials", BOOK)])
}

#[test]
fn freight_is_paid_for_whole_loads() {
    // Stone: 25 tons and the usual 5 % waste = 26.25; 26.25 ÷ 12 = 2.19, so 3 loads at $150
    //   = $450.00; the order is 26.25 × 30 = $787.50.
    // Gravel: 24 tons, no waste: 24 ÷ 12 = 2 loads exactly, $200.00; the order $240.00.
    // Reeds: 40 at $2 = $80.00; how much a delivery brings is not said: one, $85.00.
    // Rope: none is ordered, so none is delivered.
    // Pipe: 120 of 500 ft: one load, free; $360.00. Fence: nothing said: no loads; $60.00.
    let job = deliveries();
    let rows = [
        ("Stone", 26.25, 3.0, 450.0),
        ("Gravel", 24.0, 2.0, 200.0),
        ("Reeds", 40.0, 1.0, 85.0),
        ("Rope", 0.0, 0.0, 0.0),
        ("Pipe", 120.0, 1.0, 0.0),
        ("Fence", 60.0, 0.0, 0.0),
    ];
    for (name, ordered, loads, freight) in rows {
        for table in ["Materials", "Orders"] {
            let of = |column, unit| figure(&job, (table, name, column), unit);
            exactly(name, of("ordered", ONE), ordered);
            exactly(name, of("loads", ONE), loads);
            exactly(name, of("freight", MONEY), freight);
        }
    }
    // 450 + 200 + 85 = 735 of freight; orders 787.50 + 240 + 80 + 360 + 60 = 1,527.50.
    let bid = |name: &str| figure(&job, ("Bid", "", name), MONEY);
    exactly("freight", bid("freight"), 735.0);
    exactly("material", bid("material"), 2262.5);
    exactly("bid", bid("bid"), 2262.5);
}

#[test]
fn freight_bears_mark_ups_and_is_spread_over_the_lines() {
    // 100 ea at $1, and one load for $50: direct $150.00; overhead 10 % = $15.00: bid $165.00,
    // which the only line carries.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Material\nA,B,C,100,ea,Peg\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Load,Freight per load\nPeg,ea,1,100,50\n",
        ),
        ("Mark-ups", "Mark-up,On,Rate (%)\nOverhead,direct cost,10\n"),
    ]);
    exactly(
        "direct",
        figure(&job, ("Bid", "", "direct cost"), MONEY),
        150.0,
    );
    exactly("bid", figure(&job, ("Bid", "", "bid"), MONEY), 165.0);
    exactly("line", figure(&job, ("Lines", "A", "amount"), MONEY), 165.0);
}

#[test]
fn one_load_for_want_of_its_size_is_said() {
    let found = findings_of(&[("Job", US), ("Other items", BOUGHT), ("Materials", BOOK)]);
    let said: Vec<_> = found
        .iter()
        .filter(|finding| finding.severity == Severity::Warning)
        .filter(|finding| finding.message.contains("freight is paid for one delivery"))
        .collect();
    // The reeds alone: nothing of the rope is ordered.
    assert_eq!(said.len(), 1, "{found:?}");
    assert_eq!(said[0].code, Code::MissingValue);
    assert!(
        said[0].message.starts_with("Reeds: "),
        "{}",
        said[0].message
    );
}

#[test]
fn orders_stand_under_their_supplier() {
    // In the order of the book: North quarry (Stone, Gravel, in two spellings), not named yet
    // (Reeds, Fence), Pipe yard (Rope, Pipe).
    let job = deliveries();
    let listed: Vec<_> = (0..6)
        .map(|row| {
            (
                job.words(suppliers::MATERIAL, row),
                job.words(suppliers::SUPPLIER, row),
            )
        })
        .collect();
    assert_eq!(
        listed,
        [
            ("Stone", "North quarry"),
            ("Gravel", "north QUARRY"),
            ("Reeds", "not named yet"),
            ("Fence", "not named yet"),
            ("Rope", "Pipe yard"),
            ("Pipe", "Pipe yard"),
        ]
    );
    // Loads, orders, freight, both: 3 + 2; 787.50 + 240.00; 450 + 200.
    let rows = [
        ("North quarry", 5.0, 1027.5, 650.0, 1677.5),
        ("not named yet", 1.0, 140.0, 85.0, 225.0),
        ("Pipe yard", 1.0, 360.0, 0.0, 360.0),
    ];
    for (name, loads, orders, freight, all) in rows {
        let of = |column, unit| figure(&job, ("Suppliers", name, column), unit);
        exactly(name, of("loads", ONE), loads);
        exactly(name, of("order cost", MONEY), orders);
        exactly(name, of("freight", MONEY), freight);
        exactly(name, of("orders and freight", MONEY), all);
    }
    assert_eq!(job.rows::<Suppliers>(), 3);
}

fn graded(usual: &str) -> Estimate {
    estimate_of(&[
        ("Job", &format!("{US}{usual}")),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price,Grade\nA,S,A,1,ls,100,measured\n\
             B,S,B,1,ls,300,quoted\nC,S,C,1,ls,50,\nD,S,D,1,ls,150,Quoted\n",
        ),
        ("Mark-ups", "Mark-up,On,Rate (%)\nOverhead,direct cost,10\n"),
    ])
}

#[test]
fn the_bid_is_told_by_grade() {
    // Direct 100 measured, 300 + 150 quoted, 50 by the job's usual grade: 600. With 10 % on
    // each: 110, 495, 55 of 660, which is 1/6, 3/4 and 1/12 of it.
    for (usual, name) in [("Usual grade,paced\n", "paced"), ("", "assumed")] {
        let job = graded(usual);
        let rows = [
            ("measured", 110.0, 100.0 / 6.0),
            ("quoted", 495.0, 75.0),
            (name, 55.0, 100.0 / 12.0),
        ];
        for (grade, amount, share) in rows {
            let of = |column, unit| figure(&job, ("Grades", grade, column), unit);
            exactly(grade, of("amount in the bid", MONEY), amount);
            exactly(grade, of("share of the bid", PERCENT), share);
        }
        exactly(
            "as set",
            figure(&job, ("Grades", "as set", "amount in the bid"), MONEY),
            0.0,
        );
        let record = records::bid(&job, &[]);
        let text = summary(&job);
        for grade in &record.grades {
            let said = text.contains(&format!("on what is {}", grade.grade));
            assert_eq!(said, !grade.amount.is_zero(), "{text}");
        }
        assert!(
            text.contains("on what is quoted                        $        495.00   75 %"),
            "{text}"
        );
    }
}

#[test]
fn the_default_that_moves_the_bid_most_is_named() {
    // 100 tons and the usual 5 % waste at $10: $1,050.00. A tenth more waste is 5.5 %:
    // $1,055.00. Nothing else of this job rests on a default, but the days, which cost nothing.
    let tables = [
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Material\nA,B,C,100,ton,Stone\n",
        ),
        ("Materials", "Material,Unit,Price\nStone,ton,10\n"),
    ];
    let job = estimate_of(&tables);
    let [swing] = job.swings[..] else {
        panic!("{:?}", job.swings)
    };
    assert_eq!(swing.factor, Factor::Waste);
    exactly("default", swing.default, 5.0);
    exactly("tried", swing.tried, 5.5);
    exactly("change", swing.change, 5.0);
    let record = records::bid(&job, &[]);
    assert_eq!(record.defaults[0].factor, "Waste");
    assert_eq!(record.defaults[0].change.to_string(), "5.00");
    assert!(
        summary(&job).contains("5, tried as 5.5 %"),
        "{}",
        summary(&job)
    );
    // One's own value is no default.
    let own = ("Factors", "Factor,Override,Reason\nWaste,5,as agreed\n");
    let job = estimate_of(&[&tables[..], &[own]].concat());
    assert_eq!(job.swings, []);
}

/// A pool of clay with a berm: what is dug just makes it, as long as all of it is fit for fill.
fn bermed(overridden: &str) -> Estimate {
    // 30 × 30 × 3 ft = 2,700 ft³ = 100 yd³ bank. Berm: 240 × 3 × 3 ft and 5 % = 2,268 ft³ =
    // 84 yd³ compacted, of clay 84 ÷ 0.9 = 93.3 yd³ bank: less than 100, more than 90.
    estimate_of(&[
        (
            "Job",
            "Key,Value\nName,Test\nUnits,US customary\nSoil,clay\nTip fee per load,0\nImported fill,Fill\n",
        ),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Berm height (ft),\
             Berm top (ft),Berm length (ft),Berm slope\nPool,rectangle,30,30,3,0,3,3,240,0\n",
        ),
        ("Materials", "Material,Unit,Price\nFill,yd3 loose,27\n"),
        ("Crews", "Crew,People,Wage per hour\nGang,3,20\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nDig,yd3 bank,Gang,10\nBuild berm,yd3 compacted,Gang,10\n\
             Haul away,load,Gang,2\n",
        ),
        ("Factors", &format!("Factor,Override,Reason\n{overridden}")),
    ])
}

#[test]
fn a_default_that_makes_fill_be_brought_is_followed() {
    // With 90 % fit for fill 3.3 yd³ bank are short, and a line of imported fill is told of:
    // the change is the one of a whole run.
    let job = bermed("");
    let of = |factor| job.swings.iter().find(|swing| swing.factor == factor);
    let usable = of(Factor::UsableDig).unwrap();
    exactly("tried", usable.tried, 90.0);
    let short = bermed("Dug earth fit for fill,90,a test\n");
    let bid = |of: &Estimate| figure(of, ("Bid", "", "bid"), MONEY);
    exactly("change", usable.change, bid(&short) - bid(&job));
    let lines = |of: &Estimate| of.lines_told().count();
    assert_eq!(lines(&short), lines(&job) + 1);
}

#[test]
fn imported_fill_that_is_set_to_nothing_by_hand_is_told_of() {
    let job = estimate_of(&[
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price\nSign,Site,Site sign,1,ea,50\n",
        ),
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nPool,rectangle,20,10,3,0\n",
        ),
        (
            "Set quantities",
            "Line,Quantity,Reason\nImported fill,0,the client brings it\n",
        ),
    ]);
    let told: Vec<&str> = job
        .lines_told()
        .map(|row| job.words(groundsheet::pricing::lines::NAME, row))
        .collect();
    assert!(told.contains(&"Imported fill"), "{told:?}");
    assert!(!told.contains(&"Bring fill"), "{told:?}");
}

#[test]
fn no_more_than_five_defaults_are_told_and_the_largest_first() {
    let job = sample_job("school-pond");
    assert_eq!(job.swings.len(), 5);
    let sizes: Vec<f64> = job.swings.iter().map(|swing| swing.change.abs()).collect();
    assert!(sizes.is_sorted_by(|one, two| one >= two), "{sizes:?}");
    for swing in &job.swings {
        let own = estimate_of_bytes(&recalculate::edit(
            &workbook_of(&job),
            &[(
                "Factors",
                &factor_cell(swing.factor),
                Entry::Number(swing.tried),
            )],
        ));
        let bid = |of: &Estimate| figure(of, ("Bid", "", "bid"), MONEY);
        exactly(swing.factor.name(), bid(&own) - bid(&job), swing.change);
    }
}

/// The cell in which a factor is overridden.
fn factor_cell(factor: Factor) -> String {
    cell_name(1 + factor as u32, 3)
}

/// Whether two results hold the same numbers, to the last bit, and the same words.
fn differ(job: &Estimate, one: &Results, two: &Results) -> Vec<ColumnId> {
    let same = |id: &ColumnId| {
        let bits = |of: &Results| {
            of.numbers(*id)
                .iter()
                .map(|n| n.to_bits())
                .collect::<Vec<_>>()
        };
        let words = |of: &Results| {
            let cells = (0..job.graph.rows(*id)).map(|row| Cell { column: *id, row });
            cells
                .map(|cell| of.words(cell).to_owned())
                .collect::<Vec<_>>()
        };
        bits(one) == bits(two) && words(one) == words(two)
    };
    job.graph.columns().filter(|id| !same(id)).collect()
}

#[test]
fn what_a_change_reaches_comes_to_what_a_whole_evaluation_gives() {
    let job = sample_job("field-notes");
    let bytes = workbook_of(&job);
    let again = Again::new(&job.graph, &job.results);
    let mut moved = 0;
    for factor in Factor::ALL
        .iter()
        .filter(|factor| factor.default(job.job.system()) != 0.0)
    {
        let tried = factor.default(job.job.system()) * 0.95;
        let cell = job.graph.id(OverrideOf(*factor)).at(0);
        let ours = again.with(&[(cell, tried.into())]);
        if differ(&job, &ours, &job.results).len() < 3 {
            continue;
        }
        moved += 1;
        let edited = recalculate::edit(
            &bytes,
            &[("Factors", &factor_cell(*factor), Entry::Number(tried))],
        );
        let whole = estimate_of_bytes(&edited);
        let names: Vec<_> = differ(&job, &ours, &whole.results)
            .iter()
            .map(|id| &job.graph.column(*id).name)
            .collect();
        assert!(names.is_empty(), "{}: {names:?}", factor.name());
    }
    assert!(moved > 5, "only {moved} factors move anything");
    // Several cells at once, of other tables.
    let [length, times, price] = [
        job.graph.id(Basins::BasinLength),
        job.graph.id(OtherItems::Times),
        job.graph.id(Materials::MaterialPrice),
    ];
    let mut changes = Vec::new();
    let mut edits = Vec::new();
    let layout = BookLayout::new(&job);
    for column in [length, times, price] {
        for row in 0..job.graph.rows(column) {
            if let Some(number) = job
                .results
                .measured(column.at(row))
                .filter(|number| *number > 0.0)
            {
                changes.push((column.at(row), (number * 1.25).into()));
                edits.push((place(&layout, column, row), Entry::Number(number * 1.25)));
            }
        }
    }
    let edits: Vec<_> = edits
        .iter()
        .map(|((sheet, at), entry)| (&**sheet, &**at, entry.clone()))
        .collect();
    let whole = estimate_of_bytes(&recalculate::edit(&bytes, &edits));
    let ours = evaluate_with(&job.graph, &job.results, &changes);
    assert_eq!(differ(&job, &ours, &whole.results), []);
    assert!(differ(&job, &ours, &job.results).len() > 50);
}

/// Where a cell stands in the workbook.
fn place(layout: &BookLayout, column: ColumnId, row: usize) -> (String, String) {
    let home = layout.home(column);
    let sheet = layout.sheets[home.sheet].name.to_owned();
    let row = home.row + u32::try_from(row).unwrap();
    (sheet, cell_name(row, home.column))
}

/// A level: its name, how far below the rim, its elevation, what the rod reads.
type Row<'r> = (&'r str, Option<f64>, Option<f64>, Option<f64>);

/// Checks the dig sheet: name, below the rim, elevation, rod; empty where `None`.
fn levels(job: &Estimate, unit: Unit, rows: &[Row<'_>]) {
    let name_of = job.graph.id(dig_sheet::LEVEL);
    let bytes = workbook_of(job);
    let (cells, layout) = (stored(&bytes), BookLayout::new(job));
    assert_eq!(job.graph.rows(name_of), rows.len());
    for (row, (name, below, elevation, rod)) in rows.iter().enumerate() {
        assert_eq!(job.results.words(name_of.at(row)), *name);
        let columns = [
            (dig_sheet::BELOW_RIM, below),
            (dig_sheet::ELEVATION, elevation),
            (dig_sheet::ROD, rod),
        ];
        for (column, expected) in columns {
            let column = job.graph.id(column);
            let home = layout.home(column);
            let spot = (
                layout.sheets[home.sheet].name.to_owned(),
                home.row + u32::try_from(row).unwrap(),
                home.column,
            );
            match expected {
                Some(expected) => {
                    assert_eq!(job.graph.column(column).unit, unit);
                    exactly(name, job.results.number(column.at(row)), *expected);
                }
                None => assert_eq!(cells.get(&spot), None, "{name} {spot:?}"),
            }
        }
    }
}

const LEVELLED: &str = "Key,Value\nName,Test\nUnits,US customary\nSoil,loam\nBenchmark (ft),100\n\
    Backsight (ft),5.25\n";

fn levelled(keys: &str) -> Estimate {
    estimate_of(&[
        ("Job", keys),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),Rim (ft),\
             Freeboard (in)\nPool,rectangle,40,30,4,1,6,101,6\nSump,rectangle,9,9,5,0,12,,6\n\
             Top,rectangle,20,20,2,1,0,106,6\n",
        ),
        (
            "Shelves",
            "Basin,Shelf,Depth (ft),Width (ft)\nPool,Plants,1,2\n",
        ),
    ])
}

#[test]
fn the_dig_sheet_reads_as_the_rod_does() {
    // The instrument stands at 100.00 + 5.25 = 105.25. Rim 101.00 reads 4.25; the water, 6 in
    // below it, 4.75; the shelf at 1 ft 5.25, dug 6 in deeper 5.75; the floor at 4 ft 8.25, dug
    // 8.75. No rim of the sump is known, so nothing of it can be read. The rim of the top pool
    // stands 0.75 ft above the line of sight.
    let job = levelled(LEVELLED);
    let some = |below: f64, at: f64, rod: f64| (Some(below), Some(at), Some(rod));
    let row = |name, (below, at, rod)| (name, below, at, rod);
    let unknown = |below: f64| (Some(below), None, None);
    levels(
        &job,
        FT,
        &[
            ("Benchmark", None, Some(100.0), Some(5.25)),
            ("Pool, rim", None, Some(101.0), Some(4.25)),
            row("Pool, water", some(0.5, 100.5, 4.75)),
            row("Pool, Plants, finished", some(1.0, 100.0, 5.25)),
            row("Pool, Plants, dug", some(1.5, 99.5, 5.75)),
            row("Pool, floor, finished", some(4.0, 97.0, 8.25)),
            row("Pool, floor, dug", some(4.5, 96.5, 8.75)),
            ("Sump, rim", None, None, None),
            row("Sump, water", unknown(0.5)),
            row("Sump, floor, finished", unknown(5.0)),
            row("Sump, floor, dug", unknown(6.0)),
            ("Top, rim", None, Some(106.0), Some(-0.75)),
            row("Top, water", some(0.5, 105.5, -0.25)),
            row("Top, floor, finished", some(2.0, 104.0, 1.25)),
            row("Top, floor, dug", some(2.0, 104.0, 1.25)),
        ],
    );
    let remarks = job.graph.id(dig_sheet::REMARK);
    let remark = |row| job.results.words(remarks.at(row)).to_owned();
    assert!(remark(11).starts_with("above the line of sight"));
    assert_eq!([remark(1), remark(7), remark(13)], ["", "", ""]);
}

#[test]
fn without_a_benchmark_the_dig_sheet_gives_elevations_alone() {
    let job = levelled(US);
    let (name, elevation) = (dig_sheet::LEVEL, dig_sheet::ELEVATION);
    assert_eq!(job.results.words(job.graph.id(name).at(0)), "Pool, rim");
    let rim = job.results.number(job.graph.id(elevation).at(0));
    exactly("rim", rim, 101.0);
    let readings = job.graph.find("Rod readings", "rod reading").unwrap();
    assert_eq!(job.graph.rows(readings), 0);
}

#[test]
fn the_dig_sheet_in_metres() {
    // The instrument stands at 50.00 + 1.40 = 51.40; the rim reads 1.20, so it is at 50.20; the
    // floor at 1.5 m is at 48.70 and reads 2.70; dug 150 mm deeper 48.55 and 2.85. The water,
    // 200 mm below the rim, at 50.00, reads 1.40.
    let job = estimate_of(&[
        (
            "Job",
            &format!("{METRIC}Benchmark (m),50\nBacksight (m),1.4\n"),
        ),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Build-up (mm),Rim rod (m),\
             Freeboard (mm)\nPool,rectangle,12,8,1.5,1,150,1.2,200\n",
        ),
    ]);
    levels(
        &job,
        M,
        &[
            ("Benchmark", None, Some(50.0), Some(1.4)),
            ("Pool, rim", None, Some(50.2), Some(1.2)),
            ("Pool, water", Some(0.2), Some(50.0), Some(1.4)),
            ("Pool, floor, finished", Some(1.5), Some(48.7), Some(2.7)),
            ("Pool, floor, dug", Some(1.65), Some(48.55), Some(2.85)),
        ],
    );
}

/// A job with deliveries, suppliers, grades and levels; `metric` or US customary.
fn whole(metric: bool) -> Estimate {
    let (keys, length, small) = if metric {
        (METRIC, "m", "mm")
    } else {
        (US, "ft", "in")
    };
    let basins = format!(
        "Basin,Shape,Length ({length}),Width ({length}),Depth ({length}),Side slope,\
         Build-up ({small}),Rim rod ({length}),Rim ({length}),Grade\n\
         Pool,rectangle,12,8,1.5,1,4,1.2,,measured\nSump,rectangle,3,3,1,0,6,,,\n"
    );
    let shelves = format!("Basin,Shelf,Depth ({length}),Width ({length})\nPool,,0.4,0.5\n");
    estimate_of(&[
        (
            "Job",
            &format!(
                "{keys}Benchmark ({length}),50\nBacksight ({length}),1.4\nUsual grade,paced\n"
            ),
        ),
        ("Basins", &basins),
        ("Shelves", &shelves),
        ("Other items", BOUGHT),
        ("Materials", BOOK),
        ("Crews", "Crew,People,Wage per hour\nGang,3,20\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nDig,m3 bank,Gang,10\n",
        ),
        ("Mark-ups", "Mark-up,On,Rate (%)\nOverhead,direct cost,10\n"),
    ])
}

#[test]
fn every_engine_works_the_lists_out_alike() {
    for metric in [false, true] {
        Written::new("orders", &whole(metric)).recalculates();
    }
}

#[test]
fn loads_freight_grades_and_levels_follow_an_edit() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let job = whole(false);
    let written = Written::new("orders", &job);
    let edits = vec![
        ("Materials", "Load", 0, Entry::Number(5.0)),
        ("Materials", "Load", 1, Entry::Number(30.0)),
        ("Materials", "Freight per load", 2, Entry::Number(99.5)),
        ("Other items", "Grade", 0, word("quoted")),
        ("Job", "Usual grade", 0, word("as set")),
        ("Basins", "Rim rod", 0, Entry::Number(1.6)),
        ("Basins", "Grade", 1, word("quoted")),
        ("Mark-ups", "On", 0, word("bid")),
        ("Job", "Backsight", 0, Entry::Number(1.5)),
    ];
    let mut batches = batches(written.all_typed(edits));
    batches.push(written.every_number());
    shown(&written, batches);
}

#[test]
fn another_supplier_or_a_first_elevation_asks_for_a_new_run() {
    let job = whole(false);
    let written = Written::new("orders", &job);
    let edits = vec![
        ("Materials", "Supplier", 1, word("A new yard")),
        ("Basins", "Rim", 1, Entry::Number(50.0)),
        ("Job", "Benchmark", 0, Entry::Blank),
    ];
    written.asks_for_a_new_run(&written.all_typed(edits));
}

#[test]
fn limits_of_factors_are_in_the_units_of_the_job() {
    // Water weighs 62 to 64.5 lb/ft³; a pound is 0.45359237 kg, a foot 0.3048 m.
    let pounds = 0.453_592_37 / (0.3048 * 0.3048 * 0.3048);
    let (least, most) = Factor::WaterWeight.limits(System::Metric);
    exactly("least", least, 62.0 * pounds);
    exactly("most", most, 64.5 * pounds);
    assert_eq!(Factor::WaterWeight.limits(System::Us), (62.0, 64.5));
    assert_eq!(Factor::Waste.limits(System::Metric), (0.0, 100.0));
}
