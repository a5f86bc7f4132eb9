//! The pages of fixed words and factors: cautions, sources, factors.

use super::blocks::{Painter, Value};
use super::error::WriteError;
use super::heights::PLAIN;
use super::layout::factor_row;
use super::styles::Role;
use crate::graph::formula;
use crate::parameters::Factor;
use crate::sources;

/// The usual cautions, with what each defers to.
pub(super) const CAUTIONS: &[(&str, &str)] = &[
    (
        "Cuts",
        "Cuts that people enter need protection from cave-in at 5 ft (1.5 m) and deeper, and shallower where a competent person sees danger; a way out within 25 ft in trenches of 4 ft and deeper; spoil kept 2 ft from the edge (29 CFR 1926 Subpart P). Local codes and the competent person on site decide.",
    ),
    (
        "Buried lines",
        "Have buried pipes and cables located and marked before any digging.",
    ),
    (
        "Lifting",
        "Plan lifts with the machine's own rated chart and a competent person; nobody stands under a load.",
    ),
    (
        "Machines and people",
        "Keep people on foot out of the reach of machines and of trucks that back up.",
    ),
    (
        "Water and electricity",
        "Pumps and tools beside water need ground-fault protection (29 CFR 1926.404) and isolation before anyone touches them; wiring is licensed work.",
    ),
    (
        "Confined spaces",
        "Vaults, sumps and deep basins can be confined spaces: entry follows the permit rules (29 CFR 1910.146, 1926 Subpart AA) and local law.",
    ),
    (
        "Open water and open pits",
        "An open pool or pit can drown a child: fence it, sign it and keep a way out while it is open.",
    ),
    (
        "Old sediment",
        "Old pond mud may be soft beyond a person's depth and may be contaminated: probe from a safe place and ask for a test before it is tipped or spread.",
    ),
];

impl Painter<'_> {
    pub(super) fn text(
        &mut self,
        row: u32,
        column: u16,
        text: &str,
        role: Role,
    ) -> Result<(), WriteError> {
        let format = self.styles.words(role);
        self.sheet.write_with_format(row, column, text, format)?;
        Ok(())
    }

    pub(super) fn number_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        number: f64,
    ) -> Result<(), WriteError> {
        let format = self
            .styles
            .pattern_format("#,##0".to_owned(), Role::Computed)
            .clone();
        self.formula(row, column, formula, Value::Number(number), &format)
    }

    pub(super) fn word_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        words: &str,
    ) -> Result<(), WriteError> {
        let format = self.styles.words(Role::Computed).clone();
        self.formula(row, column, formula, Value::Words(words), &format)
    }

    /// The usual cautions.
    pub(super) fn cautions(&mut self) -> Result<(), WriteError> {
        self.sheet
            .set_column_width(0, 26)?
            .set_column_width(1, 100)?;
        for (row, (what, words)) in (3u32..).zip(CAUTIONS) {
            self.sheet
                .write_with_format(row, 0, *what, &self.styles.block)?;
            self.fit(row, &[(words, 100.0)], PLAIN)?;
            self.sheet
                .write_with_format(row, 1, *words, &self.styles.wrapped)?;
        }
        Ok(())
    }

    /// Every source that rules and defaults name.
    pub(super) fn sources(&mut self) -> Result<(), WriteError> {
        self.sheet
            .set_column_width(0, 16)?
            .set_column_width(1, 110)?;
        for (row, source) in (3u32..).zip(sources::ALL) {
            self.text(row, 0, source.standing.words(), Role::Computed)?;
            self.fit(row, &[(source.text, 110.0)], PLAIN)?;
            self.sheet
                .write_with_format(row, 1, source.text, &self.styles.wrapped)?;
        }
        Ok(())
    }

    /// The factors: default, unit, override, reason, in use, source.
    pub(super) fn factors(&mut self) -> Result<(), WriteError> {
        let estimate = self.estimate;
        super::workbook::factor_headings(self.sheet, self.styles)?;
        for factor in Factor::ALL {
            let row = factor_row(*factor);
            let own = estimate.job.factor(*factor);
            let value = Some(own.value).filter(|value| !value.is_nan());
            super::workbook::factor_row(
                self.sheet,
                self.styles,
                *factor,
                estimate.job.system(),
                (value, &own.reason),
            )?;
            let in_use = estimate.columns.inputs.factors.of(*factor);
            let mut formula = String::new();
            if let Some(template) = formula::template(&estimate.graph, self.layout, in_use.id) {
                template.splice(0, &mut formula);
            }
            let value = Value::Number(estimate.results.at(in_use, 0));
            let format = self
                .styles
                .number(estimate.graph.column(in_use.id), Role::Computed)
                .clone();
            self.formula(row, 5, &formula, value, &format)?;
        }
        Ok(())
    }
}
