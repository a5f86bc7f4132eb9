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
    WASTE Practice "Common practice, no source: 5 % for loose material by volume.";
    HOURS_A_DAY Practice "Common practice, no source.";
    MAN_HOURS Published "US Navy Builder, Advanced (NAVEDTRA 14045), ch. 2: quantity over output gives hours.";
    CALENDAR Published "Ohio DOT Construction and Material Specifications 2010, §108.06: work days × 1.4 for a week of five days or fewer, 1.2 for six, 1.0 for seven.";
    WHOLE_LOADS Published "US Army engineer lesson on dump trucks: check weight as well as volume.";
    PERCENT_OF_BID Exact "A percentage of the bid itself: bid = cost ÷ (1 − share).";
}
