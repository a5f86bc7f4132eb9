//! Keys of the quick page: which of them a figure is made from, and which count for nothing
//! without another.

use super::{Figure, Maker};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::job::columns::Fields;
use crate::job::tables::QuickMeasure as Q;

impl Figure {
    /// The key that a person would change; none where a factor stands behind it.
    #[must_use]
    pub fn key(self) -> Option<Q> {
        Some(match self {
            Figure::Key(key) => key,
            Figure::Width => Q::QuickWidth,
            Figure::SideSlope => Q::QuickSlope,
            Figure::ShelfWidth => Q::QuickShelfWidth,
            Figure::SedimentDepth => Q::QuickProbe1,
            Figure::GravelSide => Q::QuickGravelArea,
            Figure::GravelDepth => Q::QuickGravelDepth,
            Figure::Rise | Figure::StoneHeight => Q::QuickRise,
            Figure::Face => Q::QuickFace,
            Figure::StreamWidth => Q::QuickStreamWidth,
            Figure::BuildUp | Figure::Setback | Figure::StreamDepth => return None,
        })
    }
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

impl Maker<'_> {
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
