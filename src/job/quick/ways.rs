//! Items of the quick page: what the way in, water and power take, by length.

use super::{Made::Word, QuickRows, QuickWords, key, words};
use crate::job::tables::{Materials, OtherItems, ProductionRates, QuickMeasure};
use crate::units::System;

impl QuickRows<'_> {
    /// Adds them where their length is filled in; of a name that the book has, with its price.
    pub(super) fn ways(&mut self, system: System) {
        use QuickMeasure as Q;
        let unit = system.length().symbol();
        let soft = &*self.word(Q::QuickGround) == "soft";
        let all = [
            ("Way in", "Keep the way in open", Q::QuickCarry, true),
            (
                "Ground mats",
                "Mats on soft ground along the way in",
                Q::QuickCarry,
                soft,
            ),
            (
                "Water line",
                "Line from the supply of water",
                Q::QuickToWater,
                true,
            ),
            (
                "Power line",
                "Line from the supply of power; wiring is licensed work",
                Q::QuickToPower,
                true,
            ),
        ];
        for (name, description, length, arises) in all {
            if !arises || !self.has(length) || self.says(OtherItems::Item, name) {
                continue;
            }
            let mut cells = vec![
                (OtherItems::Item, Word(name)),
                (OtherItems::Section, Word("Site")),
                (OtherItems::Description, Word(description)),
                (OtherItems::ItemLength, key(length)),
                (OtherItems::ItemUnit, Word(unit)),
                (OtherItems::ItemGrade, words(QuickWords::Grade)),
            ];
            if self.says(Materials::Material, name) {
                cells.push((OtherItems::ItemMaterial, Word(name)));
            }
            if self.says(ProductionRates::Work, name) {
                cells.push((OtherItems::ItemWork, Word(name)));
            }
            self.make(cells);
        }
    }
}
