//! The sheet covers the surface, checked by sampling a surface that these tests make
//! themselves; and laps, slack and edges only add.
//!
//! Always true: the depth at a place is found by halving, from outlines worked out here.

use groundsheet::estimate::Estimate;
use groundsheet::units::{FT, FT2, ONE, Unit};

use crate::support::{US, estimate_of, figure, within};

/// A basin in feet: outline, length, width, depth, side and ramp slope, and shelves by
/// depth, width and slope above.
struct Hollow {
    shape: &'static str,
    size_ft: (f64, f64, f64),
    slopes: (f64, f64),
    shelves: &'static [(f64, f64, Option<f64>)],
}

const HOLLOWS: &[Hollow] = &[
    Hollow {
        shape: "rectangle",
        size_ft: (40.0, 24.0, 4.0),
        slopes: (0.75, 2.4),
        shelves: &[(1.0, 2.0, None)],
    },
    Hollow {
        shape: "rectangle",
        size_ft: (30.0, 30.0, 6.0),
        slopes: (0.0, 0.0),
        shelves: &[],
    },
    Hollow {
        shape: "ellipse",
        size_ft: (50.0, 26.0, 5.0),
        slopes: (1.0, 1.0),
        shelves: &[(1.0, 1.5, Some(0.5)), (2.5, 1.0, None)],
    },
    Hollow {
        shape: "ellipse",
        size_ft: (44.0, 24.0, 4.0),
        slopes: (0.5, 3.0),
        shelves: &[],
    },
    Hollow {
        shape: "circle",
        size_ft: (32.0, 32.0, 5.0),
        slopes: (1.5, 1.5),
        shelves: &[(1.5, 2.0, None)],
    },
];

impl Hollow {
    /// The outline at a depth: where it begins and ends along the length, and half its
    /// width. Above a shelf the slope there has come in; at the shelf its tread too.
    fn outline(&self, depth: f64) -> (f64, f64, f64) {
        let (length, width, _) = self.size_ft;
        let (mut start, mut end, mut half) = (0.0, length, width / 2.0);
        let mut above = 0.0;
        for (at, tread, own) in self.shelves {
            let (side, ramp) = own.map_or(self.slopes, |slope| (slope, slope));
            let drop = depth.min(*at) - above;
            start += drop * ramp;
            end -= drop * side;
            half -= drop * side;
            if depth <= *at {
                return (start, end, half);
            }
            start += tread;
            end -= tread;
            half -= tread;
            above = *at;
        }
        let drop = depth - above;
        let (side, ramp) = self.slopes;
        (start + drop * ramp, end - drop * side, half - drop * side)
    }

    fn is_inside(&self, depth: f64, (x, y): (f64, f64)) -> bool {
        let (start, end, half) = self.outline(depth);
        if self.shape == "rectangle" {
            return (start..=end).contains(&x) && y.abs() <= half;
        }
        let (middle, axis) = (f64::midpoint(start, end), (end - start) / 2.0);
        let (across, along) = (y / half, (x - middle) / axis);
        along * along + across * across <= 1.0
    }

    /// How deep the surface lies at a place; zero outside.
    fn depth_at(&self, place: (f64, f64)) -> f64 {
        let (mut low, mut high) = (0.0, self.size_ft.2);
        if !self.is_inside(low, place) {
            return 0.0;
        }
        if self.is_inside(high, place) {
            return high;
        }
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if self.is_inside(middle, place) {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// The way over the surface along a line, from rim to rim.
    fn way(&self, at: impl Fn(f64) -> (f64, f64), from: f64, to: f64) -> f64 {
        const STEPS: u32 = 1500;
        let step = (to - from) / f64::from(STEPS);
        let mut way = 0.0;
        let mut before = 0.0;
        for position in 1..=STEPS {
            let place = at(from + step * f64::from(position));
            let is_last = position == STEPS;
            let depth = if is_last { 0.0 } else { self.depth_at(place) };
            // Ground beyond the rim is no part of the hollow.
            if depth > 0.0 || before > 0.0 {
                way += step.hypot(depth - before);
            }
            before = depth;
        }
        way
    }

    fn estimate(&self, layers: &str) -> Estimate {
        let ((length, width, depth), (side, ramp)) = (self.size_ft, self.slopes);
        let basins = format!(
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope\n\
             Pool,{},{length},{width},{depth},{side},{ramp}\n",
            self.shape
        );
        let row = |(at, tread, slope): &(f64, f64, Option<f64>)| {
            let slope = slope.map_or(String::new(), |slope| slope.to_string());
            format!("Pool,{at},{tread},{slope}\n")
        };
        let shelves: String = self.shelves.iter().map(row).collect();
        let shelves = format!("Basin,Depth (ft),Width (ft),Slope above\n{shelves}");
        estimate_of(&[
            ("Job", US),
            ("Basins", &basins),
            ("Shelves", &shelves),
            ("Liner and fabric", layers),
        ])
    }
}

fn basin(job: &Estimate, name: &str, unit: Unit) -> f64 {
    figure(job, ("Basins", "Pool", name), unit)
}

fn sheet(job: &Estimate, name: &str, unit: Unit) -> f64 {
    figure(job, ("Liner and fabric", "Sheet", name), unit)
}

const PLAIN: &str = "Layer,Basin,Slack (%),Edge width (ft)\nSheet,Pool,0,0\n";

#[test]
fn a_sheet_without_slack_and_edge_still_covers_every_section() {
    for hollow in HOLLOWS {
        let job = hollow.estimate(PLAIN);
        let (length_ft, width_ft, _) = hollow.size_ft;
        let sheet_ft = sheet(&job, "length of one sheet", FT);
        let across_ft = sheet(&job, "width of one sheet", FT);
        let what = hollow.shape;
        for share in [0.0, 0.15, 0.4, 0.65, 0.9, 0.99] {
            let y = share * width_ft / 2.0;
            let way_ft = hollow.way(|x| (x, y), 0.0, length_ft);
            assert!(
                way_ft <= sheet_ft + 1e-6,
                "{what} at {y}: {way_ft} {sheet_ft}"
            );
            let x = length_ft / 2.0 * (1.0 - share);
            let half = width_ft / 2.0;
            let way_ft = hollow.way(|y| (x, y), -half, half);
            assert!(
                way_ft <= across_ft + 1e-6,
                "{what} at {x}: {way_ft} {across_ft}"
            );
        }
        // Along the middle it is no longer than it must be.
        let middle_ft = hollow.way(|x| (x, 0.0), 0.0, length_ft);
        within(what, sheet_ft, middle_ft, 0.002 * middle_ft);
    }
}

#[test]
fn the_lined_surface_is_the_sampled_one() {
    const ACROSS: u32 = 160;
    for hollow in HOLLOWS.iter().filter(|hollow| hollow.slopes.0 > 0.0) {
        let job = hollow.estimate(PLAIN);
        let (length_ft, width_ft, _) = hollow.size_ft;
        let (dx, dy) = (length_ft / f64::from(ACROSS), width_ft / f64::from(ACROSS));
        let place =
            |column: u32, row: u32| (dx * f64::from(column), dy * f64::from(row) - width_ft / 2.0);
        let depth = |column, row| hollow.depth_at(place(column, row));
        let mut sampled_ft2 = 0.0;
        for (column, row) in (0..ACROSS).flat_map(|c| (0..ACROSS).map(move |r| (c, r))) {
            let (x, y) = place(column, row);
            if !hollow.is_inside(0.0, (x + dx / 2.0, y + dy / 2.0)) {
                continue;
            }
            let here = depth(column, row);
            let (along, across) = (depth(column + 1, row) - here, depth(column, row + 1) - here);
            // The two edges of a cell span a parallelogram.
            let slope = (along / dx).hypot(across / dy).hypot(1.0);
            sampled_ft2 += dx * dy * slope;
        }
        let ours_ft2 = basin(&job, "lined surface", FT2);
        let what = hollow.shape;
        within(what, ours_ft2, sampled_ft2, 0.02 * sampled_ft2);
    }
}

#[test]
fn the_developed_length_is_at_most_the_way_across_and_twice_the_depth() {
    let depth_ft = 4.0;
    for slope in [0.0, 0.25, 0.5, 1.0, 2.0, 4.0] {
        let hollow = Hollow {
            shape: "rectangle",
            size_ft: (60.0, 50.0, depth_ft),
            slopes: (slope, slope),
            shelves: &[],
        };
        let job = hollow.estimate(PLAIN);
        for (name, across_ft) in [("developed length", 60.0), ("developed width", 50.0)] {
            let ours_ft = basin(&job, name, FT);
            let rule_ft = across_ft + 2.0 * depth_ft;
            assert!(ours_ft >= across_ft, "{slope}: {ours_ft}");
            if slope > 0.0 {
                assert!(ours_ft < rule_ft, "{slope}: {ours_ft}, rule {rule_ft}");
            } else {
                within("upright", ours_ft, rule_ft, 1e-9);
            }
        }
    }
}

#[test]
fn laps_slack_and_edges_only_add() {
    let hollow = &HOLLOWS[0];
    let ordered = |slack: f64, edge: f64, lap: f64, kind: &str| {
        let job = hollow.estimate(&format!(
            "Layer,Basin,Slack (%),Edge width (ft),Lap (in),Ordered as,Roll width (ft),\
             Roll length (ft)\nSheet,Pool,{slack},{edge},{lap},{kind},9,61\n"
        ));
        let names = [
            ("area ordered", FT2),
            ("area laid", FT2),
            ("length of one sheet", FT),
            ("width of one sheet", FT),
            ("strips in all", ONE),
        ];
        names.map(|(name, unit)| sheet(&job, name, unit))
    };
    for kind in ["one panel", "strips", "rolls"] {
        let mut before = ordered(0.0, 0.0, 0.0, kind);
        let surface_ft2 = 1133.2;
        assert!(before[0] >= surface_ft2, "{kind}: {before:?}");
        // More of each in turn, and never less of anything.
        let steps = [
            (1.0, 0.0, 0.0),
            (5.0, 0.0, 0.0),
            (5.0, 0.5, 0.0),
            (5.0, 3.0, 0.0),
            (5.0, 3.0, 6.0),
            (5.0, 3.0, 24.0),
            (5.0, 3.0, 72.0),
        ];
        for (slack, edge, lap) in steps {
            let after = ordered(slack, edge, lap, kind);
            for (more, less) in after.iter().zip(before) {
                assert!(*more >= less, "{kind}, {slack} {edge} {lap}: {more} {less}");
            }
            assert!(
                after[0] >= after[1],
                "{kind}: ordered less than is laid: {after:?}"
            );
            before = after;
        }
    }
}

#[test]
fn rolls_always_reach_round_whatever_their_size() {
    // Roll after roll is cut by hand: each strip takes what is left of the roll and then new
    // ones, losing a lap at every join; what is shorter than the lap is thrown away.
    let hollow = &HOLLOWS[1];
    for (roll_ft, lap_in) in [
        (10.0, 6.0),
        (17.0, 12.0),
        (21.0, 24.0),
        (43.0, 12.0),
        (90.0, 12.0),
    ] {
        let job = hollow.estimate(&format!(
            "Layer,Basin,Slack (%),Edge width (ft),Lap (in),Ordered as,Roll width (ft),\
             Roll length (ft)\nSheet,Pool,0,1,{lap_in},rolls,7,{roll_ft}\n"
        ));
        let lap_ft = lap_in / 12.0;
        let strips = sheet(&job, "strips in all", ONE);
        let covered_ft = strips * 7.0 - (strips - 1.0) * lap_ft;
        let across_ft = sheet(&job, "width of one sheet", FT);
        assert!(
            covered_ft >= across_ft,
            "{roll_ft}: {covered_ft} {across_ft}"
        );
        let length_ft = sheet(&job, "strip length", FT);
        let (mut rolls, mut left_ft) = (0.0, 0.0);
        let mut strip = 0.0;
        while strip < strips {
            let is_cut_whole = roll_ft >= length_ft;
            if is_cut_whole && left_ft < length_ft {
                left_ft = 0.0;
            }
            let mut wanted_ft = length_ft;
            while wanted_ft > 1e-9 {
                if left_ft <= lap_ft {
                    rolls += 1.0;
                    left_ft = roll_ft;
                }
                let taken_ft = wanted_ft.min(left_ft);
                left_ft -= taken_ft;
                wanted_ft -= taken_ft;
                if wanted_ft > 1e-9 {
                    wanted_ft += lap_ft;
                }
            }
            strip += 1.0;
        }
        let ours = sheet(&job, "rolls", ONE);
        assert!(ours >= rolls, "{roll_ft}: {ours} rolls, {rolls} needed");
        assert!(
            ours <= rolls + 1.0,
            "{roll_ft}: {ours} rolls, {rolls} needed"
        );
    }
}
