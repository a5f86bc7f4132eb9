//! scratch
use groundsheet::*;
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let (source, notes) = match read::open(std::path::Path::new(&path)) {
        Ok(x) => x,
        Err(e) => {
            print!("{}", diagnostic::text(&e));
            return;
        }
    };
    print!("{}", diagnostic::text(&notes));
    let checked = job::from_source(&source);
    print!("{}", diagnostic::text(&checked.findings));
    let Some(job) = checked.job else { return };
    let e = estimate::estimate(job);
    println!("faults {:?}", e.graph.rule_faults());
    print!("{}", diagnostic::text(&e.findings));
    let r = &e.results;
    let c = &e.columns;
    for row in 0..e.graph.rows(c.lines.name.id) {
        println!(
            "{:24} {:40} {:>12.3} {:14} {:>10.2} {:>10.2} {:>10.2} {:>10.2} = {:>10.2} bid {:>10.2}",
            r.text(c.lines.name, row),
            r.text(c.lines.description, row),
            r.at(c.lines.quantity, row),
            r.text(c.lines.unit, row),
            r.at(c.lines.material_cost, row),
            r.at(c.lines.labor_cost, row),
            r.at(c.lines.equipment_cost, row),
            r.at(c.lines.subcontract_cost, row),
            r.at(c.lines.direct, row),
            r.at(c.priced.amount, row)
        );
    }
    for t in ["Basins", "Shelves", "Earthwork", "Bid", "Mark-ups"] {
        for col in e.graph.columns() {
            let i = e.graph.column(col);
            if e.graph.table(i.table).name == t && i.is_computed() {
                println!("{t}: {} = {:?} {}", i.name, r.numbers(col), i.unit.symbol());
            }
        }
    }
}
