//! What a number measures, which decides the unit of its heading.

use crate::units::{self, System, Unit};

/// What a number measures: decides its unit in a heading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A length, a depth or an elevation.
    Length,
    /// A rod reading: how far below the line of sight something lies.
    RodReading,
    /// A small length.
    Thickness,
    /// An area.
    Area,
    /// A volume of earth or stone.
    Volume,
    /// A volume of water.
    Water,
    /// A flow of water.
    Flow,
    /// A heavy weight.
    Weight,
    /// Weight of a volume.
    Density,
    /// Weight of an area of sheet.
    AreaWeight,
    /// Speed of water.
    Velocity,
    /// Horizontal run for one of rise.
    Slope,
    /// Hundredths.
    Percent,
    /// A pure number.
    Count,
    /// A pure number of hours.
    Hours,
    /// A short time.
    Cycle,
    /// Money for one unit.
    Money,
    /// Money for an hour.
    MoneyAnHour,
    /// Units for an hour.
    PerHour,
    /// Loose volume from one of bank.
    Swell,
}

impl Measure {
    /// The unit that the template puts in the heading, in each system.
    #[must_use]
    pub fn unit(self, system: System) -> Unit {
        match self {
            Measure::Length | Measure::RodReading => system.length(),
            Measure::Thickness => system.thickness(),
            Measure::Area => system.area(),
            Measure::Volume => system.volume(),
            Measure::Water => system.water(),
            Measure::Flow => system.flow(),
            Measure::Weight => system.weight(),
            Measure::Density => system.density(),
            Measure::AreaWeight => system.area_weight(),
            Measure::Velocity => system.velocity(),
            Measure::Slope => units::SLOPE,
            Measure::Percent => units::PERCENT,
            Measure::Count | Measure::Hours => units::ONE,
            Measure::Cycle => units::S,
            Measure::Money => units::MONEY,
            Measure::MoneyAnHour => units::MONEY_H,
            Measure::PerHour => units::PER_H,
            Measure::Swell => units::LOOSE_PER_BANK,
        }
    }

    /// Whether the heading must say a unit, because more than one is usual.
    #[must_use]
    pub fn shows_unit(self) -> bool {
        !matches!(
            self,
            Measure::Count
                | Measure::Hours
                | Measure::Money
                | Measure::MoneyAnHour
                | Measure::PerHour
                | Measure::Swell
        )
    }
}
