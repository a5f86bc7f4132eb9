//! Numbers in cells: plain, with their unit, or in field notation.
//!
//! Always true: what can be read in two ways is asked about, with both readings.

use super::ranges::{percent_scale, within};
use super::times::{self, hours};
use super::{Asked, Value, text_of};
use crate::diagnostic::{Code, Diagnostic};
use crate::job::columns::Measure;
use crate::read::Content;
use crate::read::notation::{self, Marks, NotationError, Written};
use crate::shown::shown;
use crate::units::{self, System, Unit};

/// What a `t` is to somebody who measures in US units.
pub(in crate::job) const TON_OR_TONNE: &str =
    "which may be a ton of 2,000 lb or a tonne of 1,000 kg";

/// Whether a unit may stand for a short ton as well as for a tonne: `T` in a job in US units.
pub(in crate::job) fn is_ton_or_tonne(unit: &str, system: System) -> bool {
    let letter = unit.trim().trim_end_matches('.');
    system.is_us() && letter.eq_ignore_ascii_case("t")
}

impl Asked<'_> {
    /// A number in the column's unit and within its limits.
    pub(super) fn number(self, measure: Measure, content: &Content) -> Result<Value, Diagnostic> {
        let value = self.read_number(measure, content)?;
        if let Value::Number { number, .. } = value {
            within(self.column, self.unit, number, self.place)?;
        }
        Ok(value)
    }

    fn read_number(self, measure: Measure, content: &Content) -> Result<Value, Diagnostic> {
        let plain = |number| Value::Number {
            number,
            written: None,
            rod: false,
        };
        if measure == Measure::Hours
            && let Some(hours) = hours(content)
        {
            return Ok(plain(hours));
        }
        if measure == Measure::Slope
            && let Some(slope) = times::typed_as_slope(content)
        {
            return Err(self.made_a_time(content, &slope));
        }
        match content {
            Content::Number(number) if !number.is_finite() => {
                Err(self.not_a_number(measure, "a number beyond bounds", ""))
            }
            Content::Number(number) => {
                percent_scale(self.column, measure, self.unit, *number, self.place)?;
                Ok(plain(*number))
            }
            Content::Text(text) => self.written(measure, text),
            Content::Truth(true) => Err(self.not_a_number(measure, "TRUE", "")),
            Content::Truth(false) => Err(self.not_a_number(measure, "FALSE", "")),
            other => Err(self.not_a_number(measure, &text_of(other), times::kind_of(other))),
        }
    }

    /// A number as a person wrote it.
    fn written(self, measure: Measure, text: &str) -> Result<Value, Diagnostic> {
        let marks = self.habits.seen.marks();
        let written = notation::parse_with(text, marks)
            .map_err(|error| self.not_notation(measure, text, error))?;
        if measure == Measure::Slope {
            self.clear_slope(text, &written)?;
        }
        let number = self.in_unit(measure, text, &written)?;
        if written.unit.is_none() {
            percent_scale(self.column, measure, self.unit, number, self.place)?;
        }
        let plain = written.unit.is_none() && !written.rod && !written.approximate;
        let money = matches!(measure, Measure::Money | Measure::MoneyAnHour);
        Ok(Value::Number {
            number,
            written: (!plain && !money).then(|| text.trim().to_owned()),
            rod: written.rod,
        })
    }

    fn not_a_number(self, measure: Measure, found: &str, why: &str) -> Diagnostic {
        let what = format!(
            "{} should be a number, found \"{}\"{why}",
            self.column.heading,
            shown(found)
        );
        let hint = match measure {
            Measure::Slope => super::slopes::HOW_TO_WRITE,
            Measure::Hours => "write the hours as a number, such as 2.5, or as 2:30",
            _ if measure.shows_unit() => {
                "write the number alone, or with its unit, such as 12' 6\", 18 in or 3.8 m"
            }
            _ => "write the number alone",
        };
        Diagnostic::error(Code::NotANumber, self.place.clone(), what).hint(hint)
    }

    /// Why a text is no number, or which numbers it may be.
    fn not_notation(self, measure: Measure, text: &str, error: NotationError) -> Diagnostic {
        match error {
            NotationError::TwoReadings => self.two_readings(text),
            NotationError::EitherWay if measure == Measure::Slope => self.either_way(text),
            NotationError::Apostrophe => {
                let hint = "write the number without a mark for the thousands, such as 1000; or feet as in 1' 0\"";
                let why = format!(" ({error})");
                self.not_a_number(measure, text, &why).hint(hint)
            }
            _ if crate::read::serial_of_iso(text).is_some() => {
                self.not_a_number(measure, text.trim(), " (a date)")
            }
            _ => self.not_a_number(measure, text, &format!(" ({error})")),
        }
    }

    /// A comma or a point before three digits, where the other numbers do not say what it is.
    fn two_readings(self, text: &str) -> Diagnostic {
        let read = |marks| notation::parse_with(text, marks).map(|written| written.value);
        let (Ok(one), Ok(other)) = (read(Marks::POINT), read(Marks::COMMA)) else {
            let why = format!(" ({})", NotationError::TwoReadings);
            return self.not_a_number(Measure::Count, text, &why);
        };
        let (more, less) = (one.max(other), one.min(other));
        let what = format!(
            "{} is \"{}\", which may be {more} or {less}; {}",
            self.column.heading,
            shown(text),
            self.habits.seen.told()
        );
        // Three decimals could be read in two ways again.
        let less = match less.to_string() {
            less if less.find('.').is_some_and(|at| less.len() == at + 4) => format!("{less}0"),
            less => less,
        };
        let hint = format!("write {more} without a mark for the thousands, or {less}");
        Diagnostic::error(Code::NotANumber, self.place.clone(), what).hint(hint)
    }

    fn in_unit(self, measure: Measure, text: &str, written: &Written) -> Result<f64, Diagnostic> {
        let Some(symbol) = &written.unit else {
            return Ok(written.value);
        };
        let (heading, unit) = (self.column.heading, self.unit);
        let wrong = |what: &str| {
            let hint = if measure == Measure::Slope {
                super::slopes::HOW_TO_WRITE.to_owned()
            } else if measure.shows_unit() && !unit.symbol().is_empty() {
                format!(
                    "{heading} is in {unit}: write the number alone, or with a unit of the same kind"
                )
            } else {
                "write the number alone".to_owned()
            };
            self.wrong_unit(format!("{heading} is \"{}\", {what}", shown(text)), hint)
        };
        match measure {
            Measure::Money if symbol.starts_with('$') => return Ok(written.value),
            Measure::MoneyAnHour if ["$", "$/h", "/h"].contains(&symbol.as_str()) => {
                return Ok(written.value);
            }
            _ => {}
        }
        if is_ton_or_tonne(symbol, self.habits.system) {
            let what = format!("{heading} is \"{}\", {TON_OR_TONNE}", shown(text));
            let hint = "write ton or tonne behind the number".to_owned();
            return Err(self.wrong_unit(what, hint));
        }
        let Some(given) = Unit::parse(symbol) else {
            return Err(wrong(&format!(
                "and \"{}\" is not a unit known here",
                shown(symbol)
            )));
        };
        if is_bare(measure) && given != units::EACH {
            return Err(wrong("where a number alone is expected"));
        }
        match given.to(unit) {
            Some(ratio) if measures_same(given, unit) => Ok(ratio.apply(written.value)),
            _ => Err(wrong(&format!("and {given} cannot be turned into {unit}"))),
        }
    }

    pub(super) fn wrong_unit(self, what: String, hint: String) -> Diagnostic {
        Diagnostic::error(Code::WrongUnit, self.place.clone(), what).hint(hint)
    }

    /// A unit that something is counted in, by its symbol.
    pub(super) fn unit_name(self, content: &Content) -> Result<Value, Diagnostic> {
        let text = text_of(content);
        let system = self.habits.system;
        let heading = self.column.heading;
        if is_ton_or_tonne(&text, system) {
            let what = format!("{heading} is \"{}\", {TON_OR_TONNE}", shown(&text));
            return Err(self.wrong_unit(what, "write ton or tonne".to_owned()));
        }
        let unit = Unit::parse(&text).filter(|unit| !unit.symbol().is_empty());
        let Some(unit) = unit else {
            let what = format!(
                "{heading} is \"{}\", which is not a unit known here",
                shown(&text)
            );
            let hint =
                "use ea, ft, ft2, yd2, yd3, ton, lb, gal, h, day, load, ls, or m, m2, m3, t, kg, L";
            return Err(self.wrong_unit(what, hint.to_owned()));
        };
        Ok(Value::Word(unit.symbol_in(system).into()))
    }
}

/// Whether the numbers of a measure stand without a unit.
fn is_bare(measure: Measure) -> bool {
    matches!(
        measure,
        Measure::Count | Measure::Hours | Measure::PerHour | Measure::Swell
    )
}

/// Whether two units say the same kind of thing. Slopes, hundredths, pieces and days have no
/// dimension, and none of them can be turned into another.
pub(in crate::job) fn measures_same(given: Unit, unit: Unit) -> bool {
    let pure = units::ONE;
    given.measures_like(unit)
        && (!given.measures_like(pure) || given == unit || is_count(given, unit))
}

/// A number of pieces is a pure number.
fn is_count(given: Unit, unit: Unit) -> bool {
    given == units::EACH && unit == units::ONE
}
