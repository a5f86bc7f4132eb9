//! Random jobs that are valid by construction.
//!
//! Always true: a basin is built from its floor up, so its slopes never meet; sediment,
//! topsoil and the old hollow stay within the prism over the floor, which every cut holds;
//! every measure is kept in feet and the like, and written in whatever units are asked for.

use std::f64::consts::PI;
use std::fmt::Write;

use groundsheet::job::Measure;
use groundsheet::parameters::Factor;
use groundsheet::units::{self, System, Unit};
use proptest::option::{of, weighted};
use proptest::prelude::*;
use proptest::sample::select;

/// One step of a profile: drop in feet, width in feet, slope above.
type Shelf = (f64, f64, Option<f64>);

/// Length, height and top in feet, slope.
type Berm = (f64, f64, f64, Option<f64>);

#[derive(Clone, Debug)]
pub(crate) struct Basin {
    shape: &'static str,
    floor_ft: (f64, f64),
    slope: f64,
    ramp: Option<f64>,
    shelves: Vec<Shelf>,
    last_drop_ft: f64,
    build_up_in: Option<f64>,
    freeboard_in: Option<f64>,
    soil: &'static str,
    swell: Option<f64>,
    /// Shares of the prism over the floor that are topsoil, sediment and open.
    topsoil: Option<f64>,
    sediment: Option<f64>,
    open: Option<f64>,
    standing_gal: Option<f64>,
    inflow_gpm: f64,
    entered: &'static str,
    room_ft: Option<f64>,
    lay_back: Option<f64>,
    berm: Option<Berm>,
}

#[derive(Clone, Debug)]
pub(crate) struct Item {
    kind: usize,
    times: Option<f64>,
    sides_ft: [f64; 3],
    deduct: Option<f64>,
    waste: Option<u32>,
    buys: bool,
    works: bool,
    price: Option<f64>,
    plug: Option<f64>,
}

#[derive(Clone, Debug)]
pub(crate) struct MarkUp {
    pub(crate) on: &'static str,
    percent: f64,
}

#[derive(Clone, Debug)]
pub(crate) struct RandomJob {
    pub(crate) basins: Vec<Basin>,
    items: Vec<Item>,
    pub(crate) mark_ups: Vec<MarkUp>,
    pub(crate) by_unit_price: bool,
    soil: &'static str,
    prices: Vec<Option<f64>>,
    pub(crate) sold_in: Vec<f64>,
    pub(crate) minimum: Vec<f64>,
    rates: [Option<f64>; 5],
    works: Vec<bool>,
    shares: [u32; 5],
    imported: bool,
}

/// Name, unit and weight of each material.
pub(crate) const MATERIALS: [(&str, &str, &str); 6] = [
    ("Gravel", "ton", "100"),
    ("Sand", "yd3", ""),
    ("Fabric", "ft2", ""),
    ("Pipe", "ft", ""),
    ("Boulder", "ea", ""),
    ("Fill", "yd3 loose", ""),
];

/// Unit of an item, how many lengths it takes, its material and its work.
const KINDS: [(&str, usize, &str, &str); 16] = [
    ("ea", 0, "Boulder", "Set boulders"),
    ("ls", 0, "", ""),
    ("day", 0, "", ""),
    ("load", 0, "", "Haul stone"),
    ("h", 0, "", "Hand work"),
    ("ton", 0, "Gravel", ""),
    ("kg", 0, "Gravel", ""),
    ("ft", 1, "Pipe", "Lay pipe"),
    ("m", 1, "Pipe", "Lay pipe"),
    ("ft2", 2, "Fabric", "Lay fabric"),
    ("yd2", 2, "Fabric", "Lay fabric"),
    ("m2", 2, "Fabric", "Lay fabric"),
    ("yd3", 3, "Sand", "Place gravel"),
    ("m3", 3, "Gravel", "Place gravel"),
    ("ft3", 3, "Gravel", "Place gravel"),
    ("yd3 loose", 3, "Fill", "Shovel"),
];

/// Name, unit, machine and outputs of crew and machine.
const WORKS: [(&str, &str, &str, &str, &str); 17] = [
    ("Pump out", "h", "Pump", "", "1"),
    ("Strip topsoil", "yd3 bank", "Digger", "", "40"),
    ("Remove sediment", "yd3", "Digger", "", "25"),
    ("Dig", "yd3 bank", "Digger", "", ""),
    ("Build berm", "yd3 compacted", "Digger", "12", "30"),
    ("Backfill", "yd3 compacted", "Digger", "", "30"),
    ("Haul sediment", "load", "Truck", "", ""),
    ("Haul away", "load", "Truck", "", ""),
    ("Bring fill", "load", "Truck", "", ""),
    ("Spread topsoil", "yd3 loose", "Digger", "8", ""),
    ("Set boulders", "ea", "Digger", "2", "3"),
    ("Haul stone", "load", "Truck", "", ""),
    ("Hand work", "h", "", "1", ""),
    ("Lay pipe", "ft", "", "20", ""),
    ("Lay fabric", "yd2", "", "35.5", ""),
    ("Place gravel", "yd3", "Digger", "6", "18"),
    ("Shovel", "yd3 loose", "", "1.75", ""),
];

fn quarters(range: std::ops::Range<u32>) -> impl Strategy<Value = f64> {
    range.prop_map(|count| f64::from(count) / 4.0)
}

fn cents(most: u32) -> impl Strategy<Value = f64> {
    (1..most).prop_map(|count| f64::from(count) / 100.0)
}

/// The outline's profile: shape, floor, slopes, shelves, last drop.
type Profile = (&'static str, (f64, f64), f64, Option<f64>, Vec<Shelf>, f64);

fn profile() -> impl Strategy<Value = Profile> {
    let shelf = (
        quarters(1..9),
        quarters(0..17),
        weighted(0.3, quarters(0..13)),
    );
    (
        select(&["rectangle", "ellipse", "circle"][..]),
        (quarters(4..200), quarters(4..120)),
        quarters(0..13),
        of(quarters(0..25)),
        prop::collection::vec(shelf, 0..4),
        quarters(1..25),
    )
}

type Earth = (
    (Option<f64>, Option<f64>),
    (&'static str, Option<f64>),
    (Option<f64>, Option<f64>, Option<f64>),
    (Option<f64>, f64),
    (&'static str, Option<f64>, Option<f64>),
    Option<Berm>,
);

fn earth() -> impl Strategy<Value = Earth> {
    let share = || of(quarters(0..5).prop_map(|quarter| quarter * 0.3));
    (
        (of(quarters(0..49)), of(quarters(0..97))),
        (
            select(&["", "sand", "loam", "clay", "rock"][..]),
            weighted(0.2, quarters(4..8)),
        ),
        (share(), share(), share()),
        (of(quarters(0..200_000)), quarters(0..400)),
        (
            select(&["", "yes", "no"][..]),
            weighted(0.3, quarters(0..17)),
            weighted(0.3, quarters(0..9)),
        ),
        of((
            quarters(0..800),
            quarters(0..20),
            quarters(0..40),
            of(quarters(0..17)),
        )),
    )
}

fn basin() -> impl Strategy<Value = Basin> {
    (profile(), earth()).prop_map(|(profile, earth)| {
        let (shape, (length, width), slope, ramp, shelves, last_drop_ft) = profile;
        let (levels, (soil, swell), (topsoil, sediment, open), water, people, berm) = earth;
        let is_circle = shape == "circle";
        Basin {
            shape,
            floor_ft: (length, if is_circle { length } else { width }),
            slope,
            ramp: ramp.filter(|_| !is_circle),
            shelves,
            last_drop_ft,
            build_up_in: levels.0,
            freeboard_in: levels.1,
            soil,
            swell,
            topsoil,
            sediment,
            open,
            standing_gal: water.0,
            inflow_gpm: water.1,
            entered: people.0,
            room_ft: people.1,
            lay_back: people.2,
            berm,
        }
    })
}

fn item() -> impl Strategy<Value = Item> {
    (
        0..KINDS.len(),
        weighted(0.8, quarters(0..400)),
        [quarters(1..200), quarters(1..120), quarters(1..20)],
        weighted(0.2, quarters(0..4)),
        weighted(0.4, 0..40u32),
        any::<(bool, bool)>(),
        (weighted(0.5, cents(50_000)), weighted(0.2, cents(50_000))),
    )
        .prop_map(
            |(kind, times, sides_ft, deduct, waste, (buys, works), prices)| Item {
                kind,
                times,
                sides_ft,
                deduct,
                waste,
                buys,
                works,
                price: prices.0,
                plug: prices.1,
            },
        )
}

fn mark_ups() -> impl Strategy<Value = Vec<MarkUp>> {
    let bases = [
        "material",
        "labor",
        "equipment",
        "subcontract",
        "direct cost",
        "running total",
    ];
    let percent = || (100..3000_u32).prop_map(|hundredths| f64::from(hundredths) / 100.0);
    let on_cost =
        (select(bases.to_vec()), percent()).prop_map(|(on, percent)| MarkUp { on, percent });
    let on_bid = percent().prop_map(|percent| MarkUp { on: "bid", percent });
    let parts = (
        prop::collection::vec(on_cost, 0..5),
        prop::collection::vec(on_bid, 0..4),
    );
    parts.prop_map(|(on_cost, on_bid)| on_cost.into_iter().chain(on_bid).collect())
}

/// Any valid job.
pub(crate) fn job() -> impl Strategy<Value = RandomJob> {
    let count = MATERIALS.len();
    (
        (
            prop::collection::vec(basin(), 1..5),
            prop::collection::vec(item(), 0..21),
            mark_ups(),
        ),
        any::<bool>(),
        select(&["sand", "loam", "clay", "rock"][..]),
        (
            prop::collection::vec(weighted(0.8, cents(20_000)), count),
            prop::collection::vec(select(vec![0.0, 0.5, 1.0, 2.5, 12.0, 40.0]), count),
            prop::collection::vec(select(vec![0.0, 0.0, 10.0, 24.0, 500.0]), count),
        ),
        prop::array::uniform5(weighted(0.8, cents(30_000))),
        prop::collection::vec(
            weighted(0.8, Just(())).prop_map(|it| it.is_some()),
            WORKS.len(),
        ),
        ([0..51u32, 0..101, 0..101, 50..101, 60..120], any::<bool>()),
    )
        .prop_map(
            |(parts, by_unit_price, soil, orders, rates, works, last)| RandomJob {
                basins: parts.0,
                items: parts.1,
                mark_ups: parts.2,
                by_unit_price,
                soil,
                prices: orders.0,
                sold_in: orders.1,
                minimum: orders.2,
                rates,
                works,
                shares: last.0,
                imported: last.1,
            },
        )
}

/// Writes measures in the units of a system.
struct Pen(System);

impl Pen {
    fn heading(&self, name: &str, measure: Measure) -> String {
        format!("{name} ({})", measure.unit(self.0).symbol_in(System::Us))
    }

    fn put(&self, value: Option<f64>, measure: Measure) -> String {
        let ratio = measure.unit(System::Us).to(measure.unit(self.0));
        value.zip(ratio).map_or(String::new(), |(value, ratio)| {
            ratio.apply(value).to_string()
        })
    }
}

fn plain<V: ToString>(value: Option<V>) -> String {
    value.map_or(String::new(), |value| value.to_string())
}

impl Basin {
    fn depth_ft(&self) -> f64 {
        self.last_drop_ft + self.shelves.iter().map(|shelf| shelf.0).sum::<f64>()
    }

    fn rim_ft(&self) -> (f64, f64) {
        let ramp = self.ramp.unwrap_or(self.slope);
        let mut length = self.floor_ft.0 + self.last_drop_ft * (self.slope + ramp);
        let mut width = self.floor_ft.1 + self.last_drop_ft * self.slope * 2.0;
        for (drop, shelf, above) in &self.shelves {
            let (side, ramp) = (above.unwrap_or(self.slope), above.unwrap_or(ramp));
            length += drop * (side + ramp) + 2.0 * shelf;
            width += drop * side * 2.0 + 2.0 * shelf;
        }
        (length, width)
    }

    /// The prism over the floor down to the finished surface, cubic feet.
    fn prism_ft3(&self) -> f64 {
        let share = if self.shape == "rectangle" {
            1.0
        } else {
            PI / 4.0
        };
        share * self.floor_ft.0 * self.floor_ft.1 * self.depth_ft()
    }

    fn row(&self, index: usize, pen: &Pen) -> String {
        let (length, width) = self.rim_ft();
        let prism_ft3 = self.prism_ft3();
        let width = Some(width).filter(|_| self.shape != "circle");
        // Half a foot of topsoil and a foot of sediment, over as much area as the share takes.
        let area = |share: Option<f64>, thick_ft: f64| share.map(|s| s * prism_ft3 / thick_ft);
        let thick = |share: Option<f64>, inches: f64| share.map(|_| inches);
        let berm = self.berm;
        let cells = [
            format!("Pool {index}"),
            self.shape.to_owned(),
            pen.put(Some(length), Measure::Length),
            pen.put(width, Measure::Length),
            pen.put(Some(self.depth_ft()), Measure::Length),
            self.slope.to_string(),
            plain(self.ramp),
            pen.put(self.build_up_in, Measure::Thickness),
            pen.put(self.freeboard_in, Measure::Thickness),
            self.soil.to_owned(),
            plain(self.swell),
            pen.put(thick(self.topsoil, 6.0), Measure::Thickness),
            pen.put(area(self.topsoil, 0.5), Measure::Area),
            pen.put(area(self.sediment, 1.0), Measure::Area),
            pen.put(thick(self.sediment, 12.0), Measure::Thickness),
            pen.put(
                self.open.map(|share| share * prism_ft3 / 27.0),
                Measure::Volume,
            ),
            pen.put(self.standing_gal, Measure::Water),
            pen.put(Some(self.inflow_gpm), Measure::Flow),
            self.entered.to_owned(),
            pen.put(self.room_ft, Measure::Length),
            plain(self.lay_back),
            pen.put(berm.map(|berm| berm.0), Measure::Length),
            pen.put(berm.map(|berm| berm.1), Measure::Length),
            pen.put(berm.map(|berm| berm.2), Measure::Length),
            plain(berm.and_then(|berm| berm.3)),
        ];
        cells.join(",")
    }
}

impl RandomJob {
    /// The tables of the job, shown in one system and with the headings of another.
    pub(crate) fn tables(&self, shown: System, written: System) -> Vec<(&'static str, String)> {
        let pen = Pen(written);
        vec![
            ("Job", self.keys(shown)),
            ("Basins", self.basins(&pen)),
            ("Shelves", self.shelves(&pen)),
            ("Other items", self.items(&pen)),
            ("Materials", self.materials(&pen)),
            ("Crews", self.crews()),
            ("Equipment", self.equipment(&pen)),
            ("Production rates", self.production()),
            ("Mark-ups", self.mark_ups()),
            ("Factors", self.factors()),
        ]
    }

    fn keys(&self, shown: System) -> String {
        let kind = if self.by_unit_price {
            "unit price"
        } else {
            "lump sum"
        };
        let fill = if self.imported { "Fill" } else { "" };
        format!(
            "Key,Value\nName,Random\nUnits,{}\nSoil,{}\nBid kind,{kind}\nImported fill,{fill}\n\
             Tip fee per load,45.5\nSediment fee per load,120\nWeather days,2\n",
            shown.name(),
            self.soil
        )
    }

    fn basins(&self, pen: &Pen) -> String {
        use Measure::{Area, Flow, Length, Thickness, Volume, Water};
        let headings = [
            "Basin,Shape".to_owned(),
            pen.heading("Length", Length),
            pen.heading("Width", Length),
            pen.heading("Depth", Length),
            "Side slope,Ramp slope".to_owned(),
            pen.heading("Build-up", Thickness),
            pen.heading("Freeboard", Thickness),
            "Soil,Loose per bank".to_owned(),
            pen.heading("Topsoil", Thickness),
            pen.heading("Topsoil area", Area),
            pen.heading("Sediment area", Area),
            pen.heading("Sediment depth", Thickness),
            pen.heading("Already open", Volume),
            pen.heading("Standing water", Water),
            pen.heading("Inflow", Flow),
            "Entered".to_owned(),
            pen.heading("Working room", Length),
            "Lay-back".to_owned(),
            pen.heading("Berm length", Length),
            pen.heading("Berm height", Length),
            pen.heading("Berm top", Length),
            "Berm slope".to_owned(),
        ];
        let mut text = headings.join(",") + "\n";
        for (index, basin) in self.basins.iter().enumerate() {
            text += &(basin.row(index, pen) + "\n");
        }
        text
    }

    fn shelves(&self, pen: &Pen) -> String {
        let mut text = format!(
            "Basin,Shelf,{},{},Slope above\n",
            pen.heading("Depth", Measure::Length),
            pen.heading("Width", Measure::Length)
        );
        for (index, basin) in self.basins.iter().enumerate() {
            let mut depth_ft = 0.0;
            for (drop_ft, width_ft, above) in &basin.shelves {
                depth_ft += drop_ft;
                let _ = writeln!(
                    text,
                    "Pool {index},Shelf,{},{},{}",
                    pen.put(Some(depth_ft), Measure::Length),
                    pen.put(Some(*width_ft), Measure::Length),
                    plain(*above)
                );
            }
        }
        text
    }

    fn items(&self, pen: &Pen) -> String {
        let side = |name| pen.heading(name, Measure::Length);
        let mut text = format!(
            "Item,Section,Description,Times,{},{},{},Deduct,Waste (%),Unit,Material,Work,Price,\
             Plug price\n",
            side("Length"),
            side("Width"),
            side("Depth")
        );
        for (index, item) in self.items.iter().enumerate() {
            let _ = writeln!(text, "{}", self.item(index, item, pen));
        }
        text
    }

    fn item(&self, index: usize, item: &Item, pen: &Pen) -> String {
        let (unit, lengths, material, work) = KINDS[item.kind];
        let sides = &item.sides_ft[..lengths];
        let side = |at: usize| pen.put(sides.get(at).copied(), Measure::Length);
        let measured = item.times.unwrap_or(f64::from(u8::from(lengths > 0)))
            * sides.iter().product::<f64>()
            * self.one_foot(unit, lengths);
        // At most three quarters of the measure, cut off so that it never passes it.
        let deduct = item
            .deduct
            .map(|share| (share * measured * 1000.0).floor() / 1000.0);
        let has_work = WORKS
            .iter()
            .zip(&self.works)
            .any(|(known, there)| known.0 == work && *there);
        let cells = [
            format!("Item {index}"),
            format!("Part {}", index % 3),
            format!("Thing {index}"),
            plain(item.times),
            side(0),
            side(1),
            side(2),
            plain(deduct),
            plain(item.waste),
            unit.to_owned(),
            if item.buys { material } else { "" }.to_owned(),
            if item.works && has_work { work } else { "" }.to_owned(),
            plain(item.price),
            plain(item.plug),
        ];
        cells.join(",")
    }

    /// A product of so many feet, in a unit.
    #[allow(clippy::unused_self, reason = "reads as part of an item")]
    fn one_foot(&self, unit: &str, lengths: usize) -> f64 {
        let feet = [units::ONE, units::FT, units::FT2, units::FT3][lengths];
        let unit = Unit::parse(unit).map_or(units::ONE, Unit::without_state);
        feet.to(unit)
            .filter(|_| lengths > 0)
            .map_or(1.0, |ratio| ratio.apply(1.0))
    }

    fn materials(&self, pen: &Pen) -> String {
        let weight = pen.heading("Weight", Measure::Density);
        let mut text = format!("Material,Unit,Price,Sold in,Minimum,{weight}\n");
        for (row, (name, unit, pcf)) in MATERIALS.iter().enumerate() {
            let weight = pen.put(pcf.parse().ok(), Measure::Density);
            let (price, sold_in) = (plain(self.prices[row]), self.sold_in[row]);
            let _ = writeln!(
                text,
                "{name},{unit},{price},{sold_in},{},{weight}",
                self.minimum[row]
            );
        }
        text
    }

    fn crews(&self) -> String {
        format!(
            "Crew,People,Wage per hour,Burden (%)\nCrew,3,{},35\n",
            plain(self.rates[0])
        )
    }

    fn equipment(&self, pen: &Pen) -> String {
        use Measure::{Cycle, Flow, Volume, Weight};
        let mut text = format!(
            "Machine,Rate per hour,{},{},{},{}\n",
            pen.heading("Carries", Volume),
            pen.heading("Payload", Weight),
            pen.heading("Cycle", Cycle),
            pen.heading("Pump flow", Flow)
        );
        let rows = [
            ("Digger", [Some(0.75), None, Some(28.0), None]),
            ("Truck", [Some(12.0), Some(15.5), Some(2700.0), None]),
            ("Pump", [None, None, None, Some(300.0)]),
        ];
        for ((name, [carries, payload, cycle, flow]), rate) in
            rows.into_iter().zip(&self.rates[1..])
        {
            let _ = writeln!(
                text,
                "{name},{},{},{},{},{}",
                plain(*rate),
                pen.put(carries, Volume),
                pen.put(payload, Weight),
                pen.put(cycle, Cycle),
                pen.put(flow, Flow)
            );
        }
        text
    }

    fn production(&self) -> String {
        let mut text = "Work,Unit,Crew,Crew output,Machine,Machine output\n".to_owned();
        for ((name, unit, machine, crew_output, output), there) in WORKS.iter().zip(&self.works) {
            let crew = if crew_output.is_empty() { "" } else { "Crew" };
            if *there {
                let _ = writeln!(
                    text,
                    "{name},{unit},{crew},{crew_output},{machine},{output}"
                );
            }
        }
        text
    }

    fn mark_ups(&self) -> String {
        let mut text = "Mark-up,On,Rate (%)\n".to_owned();
        for (index, mark_up) in self.mark_ups.iter().enumerate() {
            let _ = writeln!(text, "Mark-up {index},{},{}", mark_up.on, mark_up.percent);
        }
        text
    }

    /// Defaults that differ between the systems are written down, so that both jobs are one.
    fn factors(&self) -> String {
        let mut text = "Factor,Override\n".to_owned();
        let (us, metric) = (System::Us, System::Metric);
        for factor in Factor::ALL
            .iter()
            .filter(|factor| factor.unit(us) != factor.unit(metric))
        {
            let value = format!("{} {}", factor.default(us), factor.unit(us).symbol());
            let _ = writeln!(text, "\"{}\",{value}", factor.name());
        }
        let names = [
            "Berm settlement",
            "Dug earth fit for fill",
            "Topsoil kept on site",
            "Job efficiency",
            "Bucket fill",
        ];
        for (name, share) in names.iter().zip(self.shares) {
            let _ = writeln!(text, "{name},{share}");
        }
        text
    }
}
