//! Grades: how the measures of a row were come by.

use super::inputs::AllInputs;
use crate::graph::prelude::*;
use crate::graph::{Graph, Rules, Text, TextExpr, either, total, when};
use crate::job::Fields;
use crate::job::tables::{Basins, GRADES, JobKeys};
use crate::tables::Earthwork;
use crate::units::ONE;

/// Adds the grade of rows that do not say one: the job's, or the least certain.
pub(super) fn usual_grade(graph: &mut Graph, inputs: &AllInputs) -> Text<JobKeys> {
    let own = inputs.words(JobKeys::UsualGrade);
    let least = TextExpr::Fixed(GRADES[0].to_owned());
    let words = either(own.blank(), least, own.words());
    graph
        .rules::<JobKeys>()
        .word_step("usual grade in use", words)
}

/// The grade of each row: its own, or the job's usual one.
pub(super) fn grade_in_use<T: Fields>(
    rules: &mut Rules<'_, T>,
    inputs: &AllInputs,
    usual: Text<JobKeys>,
    own: T,
) -> Text<T> {
    let own = inputs.words(own);
    let words = either(own.blank(), usual.only_words(), own.words());
    rules.word_step("grade in use", words)
}

/// Grades of earthwork.
#[derive(Clone, Copy, Debug)]
pub struct EarthGrades {
    /// Of each basin.
    pub basin: Text<Basins>,
    /// Of what all basins share: the least certain of theirs.
    pub shared: Text<Earthwork>,
}

/// Adds the grade of each basin, and the least certain of them for what they share.
pub fn earth_grades(graph: &mut Graph, inputs: &AllInputs, usual: Text<JobKeys>) -> EarthGrades {
    let mut rules = graph.rules::<Basins>();
    let basin = grade_in_use(&mut rules, inputs, usual, Basins::BasinGrade);
    let (last, others) = GRADES.split_last().unwrap_or((&"", &[]));
    let flags: Vec<_> = others
        .iter()
        .map(|grade| {
            let flag = when(basin.is(grade), 1.0, 0.0);
            let flag = rules.from_job(&format!("grade is {grade}"), ONE, flag);
            (*grade, flag)
        })
        .collect();
    graph.add_table::<Earthwork>(1);
    let best = TextExpr::Fixed((*last).to_owned());
    let shared = flags.into_iter().rev().fold(best, |rest, (grade, flag)| {
        let some = total::<Earthwork, Basins>(flag).above(0.0);
        either(some, TextExpr::Fixed(grade.to_owned()), rest)
    });
    let shared = graph
        .rules::<Earthwork>()
        .word_step("least certain grade of the basins", shared);
    EarthGrades { basin, shared }
}
