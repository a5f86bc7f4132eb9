//! The two sets of units that a job can be taken off in.

use super::{FT, FT2, GAL, GPM, KG_M3, L_MIN, LB_FT3, M, M2, M3, State, T, TON, Unit, YD3};

/// The units that a job is taken off in: one of two sets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct System {
    /// As written in the Job table.
    pub name: &'static str,
    /// Lengths.
    pub length: Unit,
    /// Areas.
    pub area: Unit,
    /// Volumes of earth, gravel and fill.
    pub volume: Unit,
    /// Volumes of water.
    pub water: Unit,
    /// Heavy weights.
    pub weight: Unit,
    /// Weight of a volume.
    pub density: Unit,
    /// Flow of water.
    pub flow: Unit,
}

impl System {
    /// Feet, cubic yards, US gallons, short tons.
    pub const US: System = System {
        name: "US customary",
        length: FT,
        area: FT2,
        volume: YD3,
        water: GAL,
        weight: TON,
        density: LB_FT3,
        flow: GPM,
    };
    /// Metres, cubic metres, tonnes.
    pub const METRIC: System = System {
        name: "metric",
        length: M,
        area: M2,
        volume: M3,
        water: M3,
        weight: T,
        density: KG_M3,
        flow: L_MIN,
    };

    /// Whether this is the US customary set.
    #[must_use]
    pub fn is_us(self) -> bool {
        self.length == FT
    }

    /// Bank volume in this system.
    #[must_use]
    pub const fn bank(self) -> Unit {
        self.volume.earth(State::Bank)
    }

    /// Loose volume in this system.
    #[must_use]
    pub const fn loose(self) -> Unit {
        self.volume.earth(State::Loose)
    }

    /// Compacted volume in this system.
    #[must_use]
    pub const fn compacted(self) -> Unit {
        self.volume.earth(State::Compacted)
    }
}
