//! Where each rule and each default is published, or what it rests on instead.

use serde::Serialize;

/// How far a source can be leaned on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Printed in a publication that is named.
    Published,
    /// Follows from geometry or arithmetic alone.
    Exact,
    /// Common practice, no source.
    Practice,
    /// From memory, to be checked.
    Memory,
    /// The job's own tables.
    Job,
}

impl Standing {
    /// The standing in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Standing::Published => "published",
            Standing::Exact => "exact",
            Standing::Practice => "common practice",
            Standing::Memory => "from memory, check",
            Standing::Job => "the job",
        }
    }
}

/// A publication, or another ground for a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// How far it can be leaned on.
    pub standing: Standing,
    /// What is shown beside the figure.
    pub text: &'static str,
}

macro_rules! sources {
    ($($name:ident $standing:ident $text:literal;)*) => {
        $(#[doc = $text] pub static $name: Source = Source { standing: Standing::$standing, text: $text };)*
        /// Every source, in the order of the table.
        pub static ALL: &[&Source] = &[$(&$name,)*];
    };
}

sources! {
    ARITHMETIC Exact "Plain arithmetic on the cells named.";
    GEOMETRY Exact "Plane and solid geometry.";
    JOB Job "The job's own tables.";
    UNITS Exact "Exact definitions: foot 0.3048 m, pound 0.45359237 kg, US gallon 231 in³ (NIST SP 811, appendix B).";
    PRISMOIDAL Exact "Prismoidal formula L (A1 + 4 Am + A2) / 6: exact for plane sides (Fundamentals of Transportation, Earthwork).";
    BALANCE Exact "What is dug and brought in is what is filled and taken away.";
    BORROW Published "UFC 3-220-20 Foundations and Earth Structures, 16 Jan 2025, §3-4.3.2: fill volume by the ratio of unit weights; 10-15 % shrinkage with no data.";
    SWELL Memory "US Army FM 5-434 Earthmoving Operations (2000), table 1-1: from memory, check.";
    SWELL_SAND Published "US Navy Engineering Aid 1 (NAVEDTRA 14070), table 10-1: 100 in place, 111 loose, 95 compacted.";
    SWELL_EARTH Published "CE417 tutorial 3, table 2-5: load factor of common earth 0.80 and of tough clay 0.77, turned over.";
    UNIT_WEIGHT Published "Caltrans Trenching and Shoring Manual, rev. 2025, tables 3-2 and 3-3: inside the printed bands.";
    ROCK_WEIGHT Published "Gillette and Hill, Concrete Construction (1908), tables VI and VIII: gravity 2.6, 162 lb/ft³ solid.";
    LAY_BACK Published "29 CFR 1926 Subpart P, app. B, table B-1 (repeated in Caltrans manual §2-3.04): under 20 ft, type A ¾:1, B 1:1, C 1½:1, stable rock vertical.";
    PROTECTION_DEPTH Published "29 CFR 1926.652(a)(1): protection from cave-in at 5 ft and deeper; less where a competent person sees danger.";
    WORKING_ROOM Practice "Common practice, no source: 2 ft to work beside a wall.";
    BUCKET_FILL Published "CE417 tutorial 3, problem 1: common earth 0.80-1.10 of a heaped bucket, mean 0.95.";
    EFFICIENCY Published "CE417 tutorial 3, problem 2: job efficiency 0.75, a 45-minute hour.";
    CYCLE_OUTPUT Published "CE417 tutorial 3: bucket × fill × cycles an hour × efficiency (× load factor for bank measure).";
    PUMP_SHARE Practice "Common practice, no source: a site pump delivers about 70 % of its plate.";
    SETTLEMENT Practice "Common practice, no source: 5 % for a rolled berm; ask the engineer for a dam.";
    BERM_SLOPE Practice "Common practice, no source: 3 to 1 on both sides; ask the engineer for a dam.";
    USABLE Practice "Common practice, no source: all of the dig, until the ground is known.";
    TOPSOIL_KEPT Practice "Common practice, no source: topsoil stays on site and is spread again.";
    SEDIMENT_WEIGHT Practice "Common practice, no source: soft wet pond mud 75-95 lb/ft³.";
    TOPSOIL_WEIGHT Practice "Common practice, no source: moist topsoil about 95 lb/ft³ in the bank.";
    FREEBOARD Practice "Common practice, no source: 6 in from water to the lowest rim.";
    WASTE Practice "Common practice, no source: 5 % for loose material by volume, weighed or not; none by length, by area or by the piece.";
    QUICK Job "The quick page, or the factor that stands in for it.";
    QUICK_USUAL Practice "Common practice, no source: for a first bid, until it is measured.";
    SLACK Practice "Common practice, no source: 2 % so that a sheet lies without strain.";
    EDGE_OVER Practice "Common practice, no source: 2 ft beyond the rim, 1 ft up a wall.";
    ANCHOR_TRENCH Published "USDA NRCS Arizona specification 521A (January 2008), §2: trench 12 in deep and wide, 24 in back from the rim.";
    LAP_WELDED Published "City of Nashua (NH) landfill specification §3.4: welded laps at least 4 in.";
    LAP_TAPED Practice "Common practice, no source: 6 in under a taped seam.";
    LAP_LOOSE Published "FHWA-NHI-10-024 (GEC 11) §5.3.3: adjoining fabric laps 12-18 in.";
    FALL_LINER Practice "Common practice, no source: each piece over the next downhill, wrapped up behind each course.";
    DEVELOPED Exact "Length along the surface: slopes by the theorem of Pythagoras.";
    LINED_SURFACE Exact "Sloping sides as trapezoids, exact where they are plane; round an ellipse the larger of π/4 of those and √(upright² + plan²): exact for a circle, within 2 % for an ellipse.";
    STRIPS Exact "Strips side by side, each lapping the one before: (width − lap) ÷ (roll width − lap), up to a whole number.";
    ROCK_GRAVITY Published "Gillette and Hill, Concrete Construction (1908), tables VI and VII: inside the printed bands of gravity.";
    STONE_SIZE Published "USACE WES, Stream Investigation and Streambank Stabilization Handbook, app. A, eq. A.1: weight π/6 × size³ × unit weight.";
    STONE_BLOCK Exact "A block fills its box.";
    STONE_ROUGH Practice "Common practice, no source: a rough stone fills three quarters of its box.";
    STONE_ROUNDED Exact "A ball fills π/6 of its box.";
    STONE_LENGTH Practice "Common practice, no source: stones half as long again as high.";
    STONE_VOLUME Published "Gillette and Hill, Concrete Construction (1908), table VIII: volume × (1 − voids) × solid weight.";
    COURSE_VOIDS Practice "Common practice, no source: a quarter of a set course is voids.";
    GAP_FILLED Practice "Common practice, no source: half of the voids are filled with river stone.";
    REJECT Practice "Common practice, no source: one stone in ten fits nowhere.";
    TOLERANCE Practice "Common practice, no source: what is weighed at the quarry differs by 5 %.";
    NEXT_BED Practice "Common practice, no source: the next course is bedded about 8 in below the top of the stone just set.";
    BEDDING Practice "Common practice, no source: 4 in of bedding.";
    TONS_APART Practice "Common practice, no source: two ways to the same tons that differ by half are looked at.";
    RISE_APART Practice "Common practice, no source: courses are set to the half inch.";
    BEHIND_COURSE Practice "Common practice, no source: 1 ft of room behind a course.";
    FOAM_CAN Practice "Common practice, no source: one can seals about 8 ft of joint.";
    SPILL Published "Francis weir: flow = coefficient × width × head to the power of 3/2; 3.33 in feet, 1.84 in metres (Dighe, Hydraulics Made Easy, ex. 5.7; Sarkar, Fluid Mechanics, ex. 5.5).";
    SPILL_LIMITS Published "USBR Water Measurement Manual, 3rd ed., ch. 7: best with head not over a third of the crest; least head 0.2 ft from memory, check.";
    LOOSE_VOIDS Published "Gillette and Hill, Concrete Construction (1908), table V: single sizes of pebbles 38.8-41.7 % voids.";
    CRATE_VOIDS Practice "Common practice, no source: 95 % of a void crate holds water; ask the maker.";
    WATER_WEIGHT Published "Gillette and Hill, Concrete Construction (1908), p. 33: 62.355 lb/ft³, in use as 62.4.";
    BALLAST_WEIGHT Practice "Common practice, no source: loose stone about 95 lb/ft³ with its voids.";
    BUOYANCY Exact "Archimedes: what is displaced lifts by the weight of its water.";
    FLOAT_SAFETY Practice "Common practice, no source: 1.2 against lifting by groundwater; the engineer decides.";
    APPROACH Published "40 CFR 125.84(b)(2): greatest design velocity at an intake screen 0.5 ft/s; not binding on ponds.";
    CONTINUITY Exact "Velocity is flow over area.";
    LIFT_CHART Practice "Common practice, no source: the next larger radius of the machine's own chart, less the rigging.";
    LIFT_NEAR Practice "Common practice, no source: over three quarters of the chart a lift is looked at.";
    TIPPING Memory "ISO 10567: 75 % of the tipping load; from memory, check.";
    RIGGING Practice "Common practice, no source: 100 lb of slings and shackles.";
    SET_BY_HAND Practice "Common practice, no source: two people set a stone of about 100 lb; a heavier one takes a machine.";
    GREEN_WOOD Published "USDA Wood Handbook FPL-GTR-282 (2021), table 4-1 and eq. 4-14: the wetter of heartwood and sapwood.";
    GREEN_WOOD_MEMORY Memory "USDA Wood Handbook FPL-GTR-282 (2021), table 4-1; its green gravity from memory, check.";
    PLANT_SPACING Published "Vernon and others, Rules of thumb: planting distances and densities: area ÷ spacing²; a triangle takes 2/√3 times as many.";
    ELLIPSE Published "Ramanujan's first approximation of the perimeter of an ellipse (1914); exact for a circle.";
    EDGE_TOLERANCE Practice "Common practice, no source: parts of a rim add up to it within 1 %.";
    WATER_HELD Exact "Water fills what nothing else does.";
    HOURS_A_DAY Practice "Common practice, no source.";
    ATTENDANCE Practice "Common practice, no source: of those who sign up, seven in ten come.";
    OVERTIME Memory "29 USC 207(a)(1): one and one half times the plain rate; from memory, check. Local law comes first.";
    LEARNING Published "Wideman, learning-curve mathematics, app. 2, model A (Wright): the mean of all units falls to the ratio with each doubling.";
    IN_KIND Published "2 CFR 200.306(e) and (j): volunteers at what is paid for like work, else at the local market; goods at fair market value; equipment on loan at fair rent.";
    HELD_MARK_UPS Practice "Common practice, no source: overhead and profit stay in dollars when others do part of the work.";
    USUAL_HAZARD Practice "Common practice, no source: what can hurt the untrained in works of the usual names; local codes come first.";
    MAN_HOURS Published "US Navy Builder, Advanced (NAVEDTRA 14045), ch. 2: quantity over output gives hours.";
    CALENDAR Published "Ohio DOT Construction and Material Specifications 2010, §108.06: work days × 1.4 for a week of five days or fewer, 1.2 for six, 1.0 for seven.";
    WHOLE_LOADS Published "US Army engineer lesson on dump trucks: check weight as well as volume.";
    PERCENT_OF_BID Exact "A percentage of the bid itself: bid = cost ÷ (1 − share).";
}
