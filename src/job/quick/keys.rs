//! Keys of the quick page: which of them a figure is made from, and which count for nothing
//! without another.

use super::{Figure, Follows, QuickRows, QuickWords};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::job::columns::{Fields, InputTable};
use crate::job::tables::{Basins, Courses, Falls, QuickMeasure as Q};

impl Follows {
    /// The keys that a person would change, the first that is filled in before the others.
    #[must_use]
    pub fn keys(self) -> Vec<Q> {
        match self {
            Follows::Figure(figure) => figure.keys(),
            Follows::Words(QuickWords::Shape) => vec![Q::QuickShape],
            Follows::Words(QuickWords::Soil) => vec![Q::QuickSoil],
            Follows::Words(QuickWords::Grade) => vec![Q::QuickGrade],
        }
    }
}

impl Figure {
    /// The keys that it is made from; none where a factor stands behind it.
    fn keys(self) -> Vec<Q> {
        match self {
            Figure::Key(key) => vec![key],
            Figure::Width => vec![Q::QuickWidth],
            Figure::SideSlope => vec![Q::QuickSlope],
            Figure::ShelfWidth => vec![Q::QuickShelfWidth],
            Figure::SedimentDepth => vec![Q::QuickProbe1, Q::QuickProbe2, Q::QuickProbe3],
            Figure::GravelSide => vec![Q::QuickGravelArea],
            Figure::GravelDepth => vec![Q::QuickGravelDepth],
            Figure::Rise | Figure::StoneHeight => {
                vec![Q::QuickRise, Q::QuickFootRod, Q::QuickTopRod]
            }
            Figure::Face => vec![Q::QuickFace],
            Figure::StreamWidth => vec![Q::QuickStreamWidth],
            Figure::BuildUp | Figure::Setback | Figure::StreamDepth => Vec::new(),
        }
    }
}

/// Cells of the pool that follow their key where it is filled in.
pub(super) const OF_BASIN: [(Basins, Q); 8] = [
    (Basins::Depth, Q::QuickDepth),
    (Basins::RimRod, Q::QuickRimRod),
    (Basins::LowestRimRod, Q::QuickLowRimRod),
    (Basins::FloorRod, Q::QuickFloorRod),
    (Basins::WaterLevelRod, Q::QuickWaterRod),
    (Basins::SedimentArea, Q::QuickSedimentArea),
    (Basins::StandingWater, Q::QuickStanding),
    (Basins::Inflow, Q::QuickInflow),
];

/// Cells of the fall that follow their key where it is filled in.
pub(super) const OF_REACH: [(Falls, Q); 3] = [
    (Falls::FootRod, Q::QuickFootRod),
    (Falls::FallFlow, Q::QuickFlow),
    (Falls::ReachLength, Q::QuickStream),
];

/// The key that would fill in a cell of a row made from the page, where it is blank there.
#[must_use]
pub fn key_of(table: &InputTable, field: usize) -> Option<Q> {
    fn found<F: Fields>(table: &InputTable, field: usize, keys: &[(F, Q)]) -> Option<Q> {
        let mut keys = keys.iter().filter(|_| table.name == F::NAME);
        let (_, key) = keys.find(|(own, _)| own.index() == field)?;
        Some(*key)
    }
    let of_course = [
        (Courses::Largest, Q::QuickStone),
        (Courses::SpillWidth, Q::QuickSpill),
    ];
    found(table, field, &OF_BASIN)
        .or_else(|| found(table, field, &OF_REACH))
        .or_else(|| found(table, field, &of_course))
        .or_else(|| found(table, field, &[(Basins::BasinSoil, Q::QuickSoil)]))
}

/// Keys that say something of a pool, which has a length.
const OF_POOL: [Q; 14] = [
    Q::QuickWidth,
    Q::QuickDepth,
    Q::QuickSlope,
    Q::QuickShelfDepth,
    Q::QuickSedimentArea,
    Q::QuickProbe1,
    Q::QuickProbe2,
    Q::QuickProbe3,
    Q::QuickStanding,
    Q::QuickInflow,
    Q::QuickRimRod,
    Q::QuickLowRimRod,
    Q::QuickFloorRod,
    Q::QuickWaterRod,
];

/// Keys that say something of a fall, which has a rise: first of its stone, then those that
/// a stream has too.
const OF_FALL: [Q; 6] = [
    Q::QuickFace,
    Q::QuickCourses,
    Q::QuickStone,
    Q::QuickSpill,
    Q::QuickFlow,
    Q::QuickFootRod,
];
const STONE_OF_FALL: usize = 4;

impl QuickRows<'_> {
    /// What is wrong with a fall that has a rise and no number of courses.
    pub(super) fn no_courses(&self) -> Diagnostic {
        let page = self.table::<Q>();
        let place = page.place(Q::QuickCourses.index(), 0);
        Diagnostic::error(
            Code::MissingValue,
            place,
            "the fall has a rise and no number of courses",
        )
        .hint("write Fall courses: how many courses of stone make the rise")
    }

    /// Keys that are filled in and count for nothing, because the one that they belong to
    /// is not: an open point for each of those.
    pub(super) fn idle(&self) -> Vec<Diagnostic> {
        let without = |lead: Q, keys: &[Q]| {
            let keys = keys.iter().copied();
            (lead, keys.filter(|key| self.has(*key)).collect::<Vec<Q>>())
        };
        let single = |lead: Q, key: Q| without(lead, &[key][usize::from(self.has(lead))..]);
        let pool: &[Q] = if self.has(Q::QuickLength) {
            &[]
        } else {
            &OF_POOL
        };
        let fall: &[Q] = match (self.rises(), self.has(Q::QuickStream)) {
            (true, _) => &[],
            (false, true) => &OF_FALL[..STONE_OF_FALL],
            (false, false) => &OF_FALL,
        };
        let all = [
            without(Q::QuickLength, pool),
            single(Q::QuickShelfDepth, Q::QuickShelfWidth),
            single(Q::QuickGravelArea, Q::QuickGravelDepth),
            without(Q::QuickRise, fall),
            single(Q::QuickFootRod, Q::QuickTopRod),
            single(Q::QuickStream, Q::QuickStreamWidth),
        ];
        let some = all.into_iter();
        some.filter_map(|(lead, keys)| self.count_for_nothing(lead, &keys))
            .collect()
    }

    fn count_for_nothing(&self, lead: Q, keys: &[Q]) -> Option<Diagnostic> {
        let page = self.table::<Q>();
        let heading = |key: Q| {
            let column = page.table.columns.get(key.index());
            column.map_or("", |column| column.heading)
        };
        let (first, lead) = (*keys.first()?, heading(lead));
        let all: Vec<&str> = keys.iter().map(|key| heading(*key)).collect();
        let (verb, counts) = match keys.len() {
            1 => ("is", "it counts"),
            _ => ("are", "they count"),
        };
        let all = all.join(", ");
        let what = format!("{all} {verb} written and {lead} is not, so {counts} for nothing");
        let place = Some(page.place(first.index(), 0));
        let hint = format!("write {lead}, or clear {all}");
        Some(Diagnostic::new(Severity::Open, Code::MissingValue, place, what).hint(hint))
    }
}
