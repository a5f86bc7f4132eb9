//! Grades: how the measures of a row were come by.

use crate::graph::prelude::*;
use crate::job::Fields;
use crate::job::tables::{
    Basins, Courses, Edges, Falls, GRADES, JobKeys, Layers, Loose, OtherItems, Planting,
    Structures, Timber,
};
use crate::tables::Earthwork;
use crate::units::System;

/// A table whose rows say how their measures were come by.
pub trait Graded: Fields {
    /// What a row says of it.
    const GRADE: Self;

    /// The grade of each row: its own, or the job's usual one.
    const GRADE_IN_USE: Wording<Self> = Wording::new("grade in use", || {
        either(
            Self::GRADE.blank(),
            USUAL_GRADE.only_words(),
            Self::GRADE.words(),
        )
    });
}

impl Graded for Basins {
    const GRADE: Self = Basins::BasinGrade;
}

impl Graded for Structures {
    const GRADE: Self = Structures::StructureGrade;
}

impl Graded for Layers {
    const GRADE: Self = Layers::LayerGrade;
}

impl Graded for Falls {
    const GRADE: Self = Falls::FallGrade;
}

impl Graded for Courses {
    const GRADE: Self = Courses::CourseGrade;
}

impl Graded for Loose {
    const GRADE: Self = Loose::LooseGrade;
}

impl Graded for Timber {
    const GRADE: Self = Timber::TimberGrade;
}

impl Graded for Planting {
    const GRADE: Self = Planting::PlantingGrade;
}

impl Graded for Edges {
    const GRADE: Self = Edges::EdgeGrade;
}

impl Graded for OtherItems {
    const GRADE: Self = OtherItems::ItemGrade;
}

/// The grade of rows that do not say one: the job's, or the least certain.
pub const USUAL_GRADE: Wording<JobKeys> = Wording::new("usual grade in use", || {
    let own = JobKeys::UsualGrade;
    either(own.blank(), GRADES[0], own.words())
});

const ASSUMED: Step<Basins> =
    Step::from_job("grade is assumed", System::number, || basin_is("assumed"));
const PACED: Step<Basins> = Step::from_job("grade is paced", System::number, || basin_is("paced"));
const MEASURED: Step<Basins> =
    Step::from_job("grade is measured", System::number, || basin_is("measured"));
const QUOTED: Step<Basins> =
    Step::from_job("grade is quoted", System::number, || basin_is("quoted"));

fn basin_is(grade: &str) -> Term<Basins> {
    when(Basins::GRADE_IN_USE.is(grade), 1.0, 0.0)
}

/// The grade of what all basins share: the least certain of theirs.
pub const SHARED_GRADE: Wording<Earthwork> =
    Wording::new("least certain grade of the basins", || {
        let some = |grade| total::<Earthwork, Basins>(grade).above(0.0);
        let quoted = either(some(QUOTED), "quoted", "as set");
        let measured = either(some(MEASURED), "measured", quoted);
        let paced = either(some(PACED), "paced", measured);
        either(some(ASSUMED), "assumed", paced)
    });
