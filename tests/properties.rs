//! What holds for every job, on random ones.
//!
//! Always true: a random job is valid by construction, with measures in quarters of a foot
//! and slopes in quarters, so that its US customary text is exact; the seed is fixed, so
//! that the same source gives the same result. `PROPTEST_CASES` and `PROPTEST_RNG_SEED`
//! look further.

mod built;
mod jobs;

use groundsheet::bid::{self, amounts, cost, lines, mark_ups, orders};
use groundsheet::estimate::Estimate;
use groundsheet::graph::Table;
use groundsheet::graph::prelude::Numbers;
use groundsheet::job::columns::Fill;
use groundsheet::job::tables::{Basins, MarkUps, TABLES};
use groundsheet::money;
use groundsheet::pricing::costs::QUANTITY;
use groundsheet::tables::{Earthwork, Lines};
use groundsheet::takeoff::{balance, excavation};
use groundsheet::units::System;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use rust_decimal::{Decimal, RoundingStrategy};

use crate::support::recalculate::{Value, by_the_engine, formula_cells};
use crate::support::{estimate_of, workbook_of, worked_out};
use jobs::{RandomJob, job};

pub(crate) fn config(cases: u32) -> ProptestConfig {
    let looks_further = |name: &str| std::env::var_os(name).is_some();
    let usual = ProptestConfig::default();
    ProptestConfig {
        cases: if looks_further("PROPTEST_CASES") {
            usual.cases
        } else {
            cases
        },
        rng_seed: if looks_further("PROPTEST_RNG_SEED") {
            usual.rng_seed
        } else {
            RngSeed::Fixed(20_261_120)
        },
        failure_persistence: None,
        ..usual
    }
}

/// The estimate of a random job, written in a system with headings of a system.
fn estimated(job: &RandomJob, shown: System, written: System) -> Estimate {
    let tables = job.tables(shown, written);
    let tables: Vec<(&str, &str)> = tables.iter().map(|(name, text)| (*name, &**text)).collect();
    estimate_of(&tables)
}

fn us(job: &RandomJob) -> Estimate {
    estimated(job, System::Us, System::Us)
}

fn values<T: Table>(estimate: &Estimate, column: impl Numbers<T>) -> Vec<f64> {
    let rows = 0..estimate.rows::<T>();
    rows.map(|row| estimate.number(column, row)).collect()
}

fn cents<T: Table>(estimate: &Estimate, column: impl Numbers<T>) -> Vec<Decimal> {
    values(estimate, column)
        .into_iter()
        .map(money::amount)
        .collect()
}

fn sum<T: Table>(estimate: &Estimate, column: impl Numbers<T>) -> Decimal {
    cents(estimate, column).into_iter().sum()
}

proptest! {
    #![proptest_config(config(96))]

    #[test]
    fn every_figure_of_a_valid_job_is_finite(job in job()) {
        for (shown, written) in [(System::Us, System::Us), (System::Metric, System::Us)] {
            let worked = estimated(&job, shown, written);
            prop_assert_eq!(worked.results.unworkable(&worked.graph), vec![]);
            prop_assert_eq!(worked.graph.rule_faults(), &[] as &[String]);
        }
    }

    #[test]
    fn lines_sum_to_the_direct_cost_and_to_the_bid(job in job()) {
        let worked = us(&job);
        let kinds = [
            lines::MATERIAL_COST,
            lines::LABOR_COST,
            lines::EQUIPMENT_COST,
            lines::SUBCONTRACT_COST,
        ];
        let kinds = kinds.map(|kind| cents(&worked, kind));
        for (row, direct) in cents(&worked, lines::DIRECT_COST).into_iter().enumerate() {
            prop_assert_eq!(kinds.iter().map(|kind| kind[row]).sum::<Decimal>(), direct);
        }
        let whole_orders = sum(&worked, cost::WHOLE_ORDERS);
        prop_assert_eq!(sum(&worked, lines::DIRECT_COST) + whole_orders, sum(&worked, cost::DIRECT));
        let by_kind = sum(&worked, cost::MATERIAL) + sum(&worked, cost::LABOR)
            + sum(&worked, cost::EQUIPMENT) + sum(&worked, cost::SUBCONTRACT);
        prop_assert_eq!(by_kind, sum(&worked, cost::DIRECT));
        prop_assert_eq!(sum(&worked, amounts::AMOUNT), sum(&worked, bid::TOTAL));
        prop_assert_eq!(sum(&worked, amounts::SECTION_AMOUNT), sum(&worked, bid::TOTAL));
        let lump_sum = sum(&worked, cost::DIRECT) + sum(&worked, mark_ups::AMOUNT);
        prop_assert_eq!(lump_sum, sum(&worked, bid::LUMP_SUM));
        let rounding = sum(&worked, bid::TOTAL) - sum(&worked, bid::LUMP_SUM);
        prop_assert_eq!(rounding, sum(&worked, bid::ROUNDING));
    }

    #[test]
    fn amounts_of_a_lump_sum_sum_exactly(mut job in job()) {
        job.by_unit_price = false;
        let worked = us(&job);
        // A job whose lines cost nothing has nothing to spread its orders over.
        prop_assume!(sum(&worked, lines::DIRECT_COST) > Decimal::ZERO);
        prop_assert_eq!(sum(&worked, amounts::AMOUNT), sum(&worked, bid::LUMP_SUM));
        prop_assert_eq!(sum(&worked, bid::ROUNDING), Decimal::ZERO);
    }

    #[test]
    fn a_unit_price_bid_is_the_sum_of_its_rounded_extensions(mut job in job()) {
        job.by_unit_price = true;
        let worked = us(&job);
        let quantities = values(&worked, QUANTITY);
        let unit_prices = cents(&worked, amounts::UNIT_PRICE);
        let mut total = Decimal::ZERO;
        for ((quantity, unit_price), amount) in
            quantities.iter().zip(unit_prices).zip(cents(&worked, amounts::AMOUNT))
        {
            let quantity: Decimal = format!("{quantity:.3}").parse().unwrap();
            let extension = (quantity * unit_price)
                .round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
            prop_assert_eq!(extension, amount);
            total += extension;
        }
        prop_assert_eq!(total, sum(&worked, bid::TOTAL));
    }

    #[test]
    fn shares_of_the_bid_close_to_the_cent(job in job()) {
        let worked = us(&job);
        let lump_sum = sum(&worked, bid::LUMP_SUM);
        let amounts = cents(&worked, mark_ups::AMOUNT);
        let shares = worked.results.numbers(worked.graph.id(MarkUps::Share));
        let mut before = sum(&worked, cost::DIRECT);
        let mut of_bid = Decimal::ZERO;
        for (row, mark_up) in job.mark_ups.iter().enumerate() {
            if mark_up.on == "bid" {
                of_bid += amounts[row];
                let share = Decimal::try_from(shares[row]).unwrap() / Decimal::ONE_HUNDRED;
                let off = (amounts[row] - lump_sum * share).abs();
                prop_assert!(off <= Decimal::new(1, 2), "{}: off by {off}", mark_up.on);
            } else {
                before += amounts[row];
            }
        }
        prop_assert_eq!(before + of_bid, lump_sum);
    }

    #[test]
    fn the_earthwork_balances(job in job()) {
        let worked = us(&job);
        let of = |column| worked.number::<Earthwork>(column, 0);
        let (dug, filled) = (of(balance::DUG), of(balance::FILLED));
        let (surplus, brought) = (of(balance::SURPLUS), of(balance::BROUGHT));
        let dust = 1e-9 * (1.0 + dug + filled);
        prop_assert!((dug + brought - filled - surplus).abs() <= dust);
        prop_assert!(of(balance::DIFFERENCE).abs() <= dust);
        prop_assert!(surplus >= -dust && brought >= -dust && of(balance::USED) <= dug + dust);
        let sums = [(excavation::DIG, dug), (excavation::FILL_BANK, filled)];
        for (column, whole) in sums {
            let total: f64 = values(&worked, column).iter().sum();
            prop_assert!((total - whole).abs() <= dust);
        }
        // The cut is what is stripped, cleared, already open and dug; nothing twice.
        for row in 0..job.basins.len() {
            let at = |column| worked.results.number(worked.graph.id(column).at(row));
            let measured = |field: Basins| worked.number(field, row);
            let inside = |name: &str| {
                let column = worked.graph.find("Basins", name);
                column.map_or(f64::NAN, |column| worked.results.number(column.at(row)))
            };
            let out = inside("topsoil in the cut") + inside("sediment in the cut") + at(excavation::DIG)
                + measured(Basins::AlreadyOpen);
            prop_assert!(inside("sediment in the cut") <= at(excavation::SEDIMENT) * (1.0 + 1e-9));
            prop_assert!(inside("topsoil in the cut") <= at(excavation::TOPSOIL) * (1.0 + 1e-9));
            let cut = at(excavation::CUT_VOLUME);
            prop_assert!((out - cut).abs() <= 1e-9 * (1.0 + cut), "{out} out of {cut}");
            prop_assert!(at(excavation::BACKFILL) >= -1e-9 * cut && at(excavation::DIG) >= 0.0);
        }
    }

    #[test]
    fn ordering_only_rounds_up(job in job()) {
        let worked = us(&job);
        let lines = worked.rows::<Lines>();
        let dust = 0.005 * (f64::from(u32::try_from(lines).unwrap()) + 1.0) + 1e-9;
        for (row, material) in jobs::MATERIALS.iter().enumerate() {
            let (needed, ordered) = (worked.number(orders::NEEDED, row), worked.number(orders::ORDERED, row));
            prop_assert!(ordered >= needed - 1e-9, "{}: {ordered} of {needed}", material.0);
            prop_assert!(worked.number(orders::BEYOND, row) >= -dust, "{}: {}", material.0, worked.number(orders::BEYOND, row));
            let (sold_in, minimum) = (job.sold_in[row], job.minimum[row]);
            let most = if needed > 0.0 { needed.max(minimum) + sold_in } else { 0.0 };
            prop_assert!(ordered <= most + 1e-6, "{}: {ordered} of {needed}", material.0);
            let times = ordered / sold_in;
            let is_whole = sold_in == 0.0 || (times - times.round()).abs() < 1e-6;
            prop_assert!(is_whole || (ordered - minimum).abs() < 1e-6);
        }
        let bought = values(&worked, lines::BOUGHT);
        prop_assert!(bought.iter().all(|bought| *bought >= 0.0));
    }

    #[test]
    fn feet_and_metres_give_the_same_quantities(job in job()) {
        let first = physical(&us(&job));
        let others = [
            (System::Metric, System::Metric),
            (System::Metric, System::Us),
            (System::Us, System::Metric),
        ];
        for (shown, written) in others {
            let other = physical(&estimated(&job, shown, written));
            prop_assert_eq!(first.len(), other.len());
            for ((name, ours, scale), (_, theirs, _)) in first.iter().zip(&other) {
                let off = (ours - theirs).abs();
                prop_assert!(
                    off <= 1e-9 * ours.abs().max(*scale),
                    "{}: {} in feet, {} shown {} written {}",
                    name, ours, theirs, shown.name(), written.name()
                );
            }
        }
    }
}

/// Unrounded quantities in metres, kilograms and hours, each with its name and the size
/// below which a difference is dust: a difference of volumes is as exact as the cut.
fn physical(worked: &Estimate) -> Vec<(String, f64, f64)> {
    use groundsheet::units::{H, KG, M, M3, M3_BANK, M3_COMPACTED, M3_LOOSE, ONE};
    let graph = &worked.graph;
    let bases = [M, M3, M3_BANK, M3_LOOSE, M3_COMPACTED, KG, H];
    let rounded = ["loads", "share", "row", "unit", "rounded"];
    let mut found = Vec::new();
    let cut: f64 = values(worked, excavation::CUT_VOLUME).iter().sum();
    for table in ["Basins", "Shelves", "Earthwork", "Other items"] {
        for id in graph.columns().filter(|id| graph.column(*id).is_computed()) {
            let column = graph.column(id);
            let of_table = graph.table(column.table).name == table;
            if !of_table || column.is_text() || rounded.iter().any(|w| column.name.contains(w)) {
                continue;
            }
            let base = bases
                .into_iter()
                .find(|base| base.measures_like(column.unit));
            let ratio = column.unit.to(base.unwrap_or(ONE));
            let is_item = table == "Other items" && column.name == "item quantity";
            let Some(ratio) = ratio.filter(|_| base.is_some() || is_item) else {
                continue;
            };
            // Cubic metres at most, from cubic yards; kilograms of it are 2,000 times more.
            let scale = match base {
                _ if is_item => 1.0,
                Some(base) if base == KG => 2000.0 * cut,
                Some(base) if base == M || base == H => 1.0,
                _ => cut,
            };
            for (row, value) in worked.results.numbers(id).iter().enumerate() {
                let name = format!("{table} {row}, {}", column.name);
                found.push((name, ratio.apply(*value), scale));
            }
        }
    }
    found
}

/// Cells that people and programs have written where they should not.
const ODD_CELLS: &[&str] = &[
    "",
    "",
    "",
    "0",
    "1",
    "-1",
    "2.5",
    "1e9",
    "-1e308",
    "1e-308",
    "999999",
    "0.15",
    "12' 6 1/2\"\"",
    "18 in",
    "3,8 m",
    "rod 4.52",
    "2:1",
    "$45/h",
    "about 12 ft",
    "=1+1",
    "+A1",
    "@x",
    "-",
    "yes",
    "no",
    "rectangle",
    "ellipse",
    "circle",
    "loam",
    "rock",
    "metric",
    "US customary",
    "unit price",
    "bid",
    "running total",
    "A",
    "B",
    "Gravel",
    "Dig",
    "Haul away",
    "ea",
    "ft",
    "ft2",
    "yd3",
    "ton",
    "load",
    "yd3 bank",
    "ls",
    "NaN",
    "inf",
    "#REF!",
    "2026-02-29",
    "2026-05-01",
    "½",
    "100 %",
    "🪨",
    "\u{feff}",
    "'",
    "/",
    "()",
    "a\nb",
];

/// A table of any width whose headings are often ours and whose cells are anything.
fn odd_table() -> impl Strategy<Value = (&'static str, String)> {
    let names: Vec<&str> = TABLES
        .iter()
        .map(|table| table.name)
        .chain(["Factors"])
        .collect();
    let rows = prop::collection::vec(
        prop::collection::vec(prop::sample::select(ODD_CELLS), 12),
        0..6,
    );
    (prop::sample::select(names), any::<[u8; 12]>(), rows).prop_map(|(name, picks, rows)| {
        let headings = odd_headings(name, picks);
        let mut text = headings.join(",");
        for (index, row) in rows.iter().enumerate() {
            let mut cells: Vec<String> = row.iter().map(|cell| format!("\"{cell}\"")).collect();
            if is_upright(name) {
                // The key decides what the value beside it means.
                cells[0] = format!("\"{}\"", key(name, picks[index]));
            }
            text.push('\n');
            text.push_str(&cells.join(","));
        }
        (name, text)
    })
}

/// Whether keys of a table stand one below the other.
fn is_upright(name: &str) -> bool {
    let table = TABLES.iter().find(|table| table.name == name);
    table.is_none_or(|table| table.upright)
}

fn key(table: &str, pick: u8) -> String {
    let at = usize::from(pick);
    if let Some(table) = TABLES.iter().find(|known| known.name == table) {
        let column = &table.columns[at % table.columns.len()];
        return match column.holds {
            groundsheet::job::Holds::Number(measure, ..) => {
                column.heading_with(measure.unit(System::Us))
            }
            _ => column.heading.to_owned(),
        };
    }
    let factors = groundsheet::parameters::Factor::ALL;
    factors[at % factors.len()].name().to_owned()
}

fn odd_headings(name: &str, picks: [u8; 12]) -> Vec<String> {
    let Some(table) = TABLES
        .iter()
        .find(|table| table.name == name && !table.upright)
    else {
        return ["Factor", "Override", "Reason"].map(String::from).to_vec();
    };
    let units = [
        "ft", "in", "m", "yd3", "gal", "ft2", "gpm", "ton", "lb/ft3", "s", "H:V", "%",
    ];
    let heading = |(index, pick): (usize, &u8)| {
        // First the columns that every row needs, then any.
        let required: Vec<_> = table
            .columns
            .iter()
            .filter(|column| column.fill == Fill::Needed)
            .collect();
        let pick = usize::from(*pick);
        let column = required
            .get(index)
            .copied()
            .unwrap_or(&table.columns[pick % table.columns.len()]);
        let natural = column.heading_with(groundsheet::units::FT);
        let is_measure = natural.ends_with("(ft)");
        let unit = units[pick % units.len()];
        let text = match column.holds {
            groundsheet::job::Holds::Number(measure, ..) if is_measure && pick % 5 > 0 => {
                column.heading_with(measure.unit(System::Us))
            }
            _ if is_measure => format!("{} ({unit})", column.heading),
            _ => natural,
        };
        format!("\"{text}\"")
    };
    picks.iter().enumerate().map(heading).collect()
}

proptest! {
    #![proptest_config(config(256))]

    #[test]
    fn odd_tables_never_panic(
        odd in prop::collection::vec(odd_table(), 1..6),
        units in prop::sample::select(&["US customary", "metric"][..]),
        has_job in any::<bool>(),
    ) {
        let sound = format!("Key,Value\nName,Test\nUnits,{units}\nSoil,loam\n");
        let mut tables: Vec<(&str, &str)> = odd.iter().map(|(name, text)| (*name, &**text)).collect();
        if has_job {
            tables.insert(0, ("Job", &sound));
        }
        never_silent(&tables);
    }

    #[test]
    fn any_text_at_all_never_panics(
        texts in prop::collection::vec((prop::sample::select(TABLES), ".{0,200}"), 1..5),
    ) {
        let tables: Vec<(&str, &str)> =
            texts.iter().map(|(table, text)| (table.name, text.as_str())).collect();
        never_silent(&tables);
    }

    #[test]
    fn one_odd_cell_of_all_that_is_built_never_panics(
        table in any::<prop::sample::Index>(),
        row in any::<prop::sample::Index>(),
        column in any::<prop::sample::Index>(),
        cell in prop::sample::select(ODD_CELLS),
    ) {
        let at = table.index(built::TABLES.len());
        let (name, text) = built::TABLES[at];
        let odd = with_cell(text, row, column, cell);
        let mut tables = built::TABLES.to_vec();
        tables[at] = (name, &odd);
        never_silent(&tables);
    }

    #[test]
    fn one_odd_cell_in_a_sound_job_never_panics(
        job in job(),
        table in any::<prop::sample::Index>(),
        row in any::<prop::sample::Index>(),
        column in any::<prop::sample::Index>(),
        cell in prop::sample::select(ODD_CELLS),
    ) {
        let mut tables = job.tables(System::Us, System::Us);
        let at = table.index(tables.len());
        tables[at].1 = with_cell(&tables[at].1, row, column, cell);
        let tables: Vec<(&str, &str)> =
            tables.iter().map(|(name, text)| (*name, &**text)).collect();
        never_silent(&tables);
    }
}

/// Its crates have no depth of a cut: a blank cell is nothing, in the smaller of two too.
#[test]
fn the_job_with_all_that_is_built_is_sound_and_recalculates_to_the_stored_results() {
    let job = estimate_of(&built::TABLES);
    assert!(!job.is_blocked(), "{:?}", job.findings);
    let bytes = workbook_of(&job);
    let stored = formula_cells(&bytes);
    assert!(stored.len() > 2000, "only {} formulas", stored.len());
    let (engine, all) = by_the_engine(&[bytes]);
    for ((spot, (formula, value)), again) in stored.iter().zip(all[0].values()) {
        assert!(
            value.agrees_with(again) && !matches!(again, Value::Error(_)),
            "{engine}, {spot:?}: ={formula} stored {value:?}, recalculated {again:?}"
        );
    }
}

/// The same text with one cell replaced.
fn with_cell(
    text: &str,
    row: prop::sample::Index,
    column: prop::sample::Index,
    cell: &str,
) -> String {
    let mut lines: Vec<String> = text.lines().map(String::from).collect();
    let row = row.index(lines.len());
    let mut cells: Vec<String> = lines[row].split(',').map(String::from).collect();
    let column = column.index(cells.len());
    cells[column] = format!("\"{cell}\"");
    lines[row] = cells.join(",");
    lines.join("\n")
}

/// Works a job out as far as it goes: what cannot be worked out must be reported.
fn never_silent(tables: &[(&str, &str)]) {
    let (worked, findings) = worked_out(tables);
    let blocks = findings
        .iter()
        .any(groundsheet::diagnostic::Diagnostic::blocks);
    let text = groundsheet::diagnostic::text(&findings);
    assert_eq!(text.is_empty(), findings.is_empty());
    match worked {
        None => assert!(blocks, "refused without a reason"),
        Some(worked) => {
            let unworkable = worked.results.unworkable(&worked.graph);
            assert!(
                unworkable.is_empty() || blocks,
                "not finite, and nobody says so"
            );
        }
    }
}
