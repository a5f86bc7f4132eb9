//! The two sets of units that a job can be taken off in.

use super::{
    DATE, EACH, FT, FT_S, FT2, GAL, GPM, H, IN, KG, KG_M2, KG_M3, L_MIN, LB, LB_FT2, LB_FT3, M,
    M_S, M2, M3, MM, MONEY, MONEY_H, ONE, PER_H, PERCENT, SLOPE, State, T, TON, Unit, YD3,
};

/// The units that a job is taken off in: one of two sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Feet, cubic yards, US gallons, short tons.
    Us,
    /// Metres, cubic metres, tonnes.
    Metric,
}

impl System {
    /// Whether this is the US customary set.
    #[must_use]
    pub const fn is_us(self) -> bool {
        matches!(self, System::Us)
    }

    /// Its name in the Job table.
    #[must_use]
    pub const fn name(self) -> &'static str {
        if self.is_us() {
            "US customary"
        } else {
            "metric"
        }
    }

    const fn of(self, us: Unit, metric: Unit) -> Unit {
        if self.is_us() { us } else { metric }
    }

    /// Pure numbers, such as counts without a unit, ratios and rows.
    #[must_use]
    pub const fn number(self) -> Unit {
        self.of(ONE, ONE)
    }

    /// Counted pieces.
    #[must_use]
    pub const fn each(self) -> Unit {
        self.of(EACH, EACH)
    }

    /// Hours.
    #[must_use]
    pub const fn hours(self) -> Unit {
        self.of(H, H)
    }

    /// Shares of a hundred.
    #[must_use]
    pub const fn percent(self) -> Unit {
        self.of(PERCENT, PERCENT)
    }

    /// Money.
    #[must_use]
    pub const fn money(self) -> Unit {
        self.of(MONEY, MONEY)
    }

    /// Money by the hour.
    #[must_use]
    pub const fn money_an_hour(self) -> Unit {
        self.of(MONEY_H, MONEY_H)
    }

    /// So many an hour.
    #[must_use]
    pub const fn an_hour(self) -> Unit {
        self.of(PER_H, PER_H)
    }

    /// A day of the calendar.
    #[must_use]
    pub const fn date(self) -> Unit {
        self.of(DATE, DATE)
    }

    /// Slopes, as horizontal to vertical.
    #[must_use]
    pub const fn slope(self) -> Unit {
        self.of(SLOPE, SLOPE)
    }

    /// Lengths.
    #[must_use]
    pub const fn length(self) -> Unit {
        self.of(FT, M)
    }

    /// Areas.
    #[must_use]
    pub const fn area(self) -> Unit {
        self.of(FT2, M2)
    }

    /// Volumes of earth, gravel and fill.
    #[must_use]
    pub const fn volume(self) -> Unit {
        self.of(YD3, M3)
    }

    /// Volumes of water.
    #[must_use]
    pub const fn water(self) -> Unit {
        self.of(GAL, M3)
    }

    /// Heavy weights.
    #[must_use]
    pub const fn weight(self) -> Unit {
        self.of(TON, T)
    }

    /// Small lengths: a stone, a layer, a lap.
    #[must_use]
    pub const fn thickness(self) -> Unit {
        self.of(IN, MM)
    }

    /// The weight of one stone, log or panel.
    #[must_use]
    pub const fn piece_weight(self) -> Unit {
        self.of(LB, KG)
    }

    /// Weight of an area of sheet.
    #[must_use]
    pub const fn area_weight(self) -> Unit {
        self.of(LB_FT2, KG_M2)
    }

    /// Speed of water.
    #[must_use]
    pub const fn velocity(self) -> Unit {
        self.of(FT_S, M_S)
    }

    /// Weight of a volume.
    #[must_use]
    pub const fn density(self) -> Unit {
        self.of(LB_FT3, KG_M3)
    }

    /// Flow of water.
    #[must_use]
    pub const fn flow(self) -> Unit {
        self.of(GPM, L_MIN)
    }

    /// Bank volume in this system.
    #[must_use]
    pub const fn bank(self) -> Unit {
        self.volume().earth(State::Bank)
    }

    /// Loose volume in this system.
    #[must_use]
    pub const fn loose(self) -> Unit {
        self.volume().earth(State::Loose)
    }

    /// Compacted volume in this system.
    #[must_use]
    pub const fn compacted(self) -> Unit {
        self.volume().earth(State::Compacted)
    }
}
