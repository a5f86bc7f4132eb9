//! What things cost and how fast work goes, and what is added on top.

use super::choices::{BASES, CHART_GIVES, HAZARDS, HELD};
use crate::graph::Table;
use crate::job::columns::{
    Fields, Fill, Holds, InputColumn, InputTable, Measure, Role, input_tables,
};
use Holds::{Choice, Date, Name, Number, PartOf, RowOf, UnitName, Words};
use Measure::{
    AreaWeight, Count, Cycle, Density, Flow, Length, Money, MoneyAnHour, PerHour, Percent, Volume,
    Weight,
};
use Role::{Calls, Decides, Prose};

input_tables! {
    /// One thing that is bought.
    Materials "Materials", "material", false, "One thing that is bought a row, in the unit it is sold in." {
        Material "Material" Name, Needed, "A short name, used by other sheets.";
        MaterialUnit "Unit" UnitName, Needed, "Unit it is sold in.";
        MaterialPrice "Price" Number(Money, 0.0, 1_000_000.0), Free, "Price of one unit, delivered; of imported fill at the pit, if the work Bring fill hauls it.";
        MaterialPlug "Plug price" Number(Money, 0.0, 1_000_000.0), Free, "An allowance until a price is in: the bid stays a draft.";
        SoldIn "Sold in" Number(Count, 0.0, 100_000.0), Free, "Whole multiples: 1 for whole units, 12 for loads of 12.";
        Minimum "Minimum" Number(Count, 0.0, 1_000_000.0), Free, "Least order.";
        Load "Load" Number(Count, 0.0, 100_000.0), Free, "Sale units that one delivery brings.";
        Freight "Freight per load" Number(Money, 0.0, 100_000.0), Free, "What one delivery costs on top of the price.";
        AreaDensity "Area weight" Number(AreaWeight, 0.001, 20.0), Free, "Weight of an area of sheet, for the heaviest panel.";
        BulkDensity "Weight" Number(Density, 0.1, 700.0), Free, "Weight of a volume as delivered, where a volume is bought by weight.";
        MaterialWaste "Waste" Number(Percent, 0.0, 100.0), Free, "Bought beyond the measure; blank for the factor where it is sold by volume or weight, and for none where it is not.";
        Supplier "Supplier" Words, Free, "Who it comes from.", Decides;
        Quote "Quote" Words, Free, "Number of the quote.";
        ValidUntil "Valid until" Date, Free, "Last day of the quote.";
        MaterialNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One crew.
    Crews "Crews", "crew", false, "One crew a row." {
        Crew "Crew" Name, Needed, "A short name, used by other sheets.";
        People "People" Number(Count, 0.25, 100.0), Needed, "How many work together.";
        Wage "Wage per hour" Number(MoneyAnHour, 0.0, 1000.0), Free, "Mean wage of one person.";
        Burden "Burden" Number(Percent, 0.0, 200.0), Free, "Insurance, payroll tax and benefits on the wage.";
        PlugWage "Plug wage" Number(MoneyAnHour, 0.0, 1000.0), Free, "An allowance until the wage is known: the bid stays a draft.";
        CrewNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One machine.
    Equipment "Equipment", "machine", false, "One machine a row, with its operator and fuel in the rate." {
        Machine "Machine" Name, Needed, "A short name, used by other sheets.";
        Rate "Rate per hour" Number(MoneyAnHour, 0.0, 10_000.0), Free, "What an hour costs.";
        PlugRate "Plug rate" Number(MoneyAnHour, 0.0, 10_000.0), Free, "An allowance until the rate is known: the bid stays a draft.";
        Carries "Carries" Number(Volume, 0.01, 100.0), Free, "Heaped bucket or truck body, loose.";
        Payload "Payload" Number(Weight, 0.05, 200.0), Free, "Most it may carry.";
        CycleTime "Cycle" Number(Cycle, 1.0, 86_400.0), Free, "One bucket; or one round trip with loading, waiting and tipping.";
        PumpFlow "Pump flow" Number(Flow, 0.1, 100_000.0), Free, "Flow on the pump's plate at the lift of the site.";
        Rigging "Rigging" Number(Weight, 0.0, 20.0), Free, "Weight of slings, shackles or grab, deducted from what it may lift.";
        MachineWidth "Width" Number(Length, 1.0, 30.0), Free, "Width that it needs to pass a gate.";
        MachineNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// What one machine may lift at one radius.
    LiftChart "Lift chart", "machine", false, "One radius of one machine's own chart a row. The next larger radius applies." {
        ChartMachine "Machine" PartOf("Equipment"), Needed, "Whose chart it is.", Calls;
        ChartRadius "Radius" Number(Length, 1.0, 300.0), Needed, "From the middle of its turning ring to the hook.";
        Capacity "Capacity" Number(Weight, 0.01, 1000.0), Needed, "What it may lift there, over the weaker side.";
        ChartOf "Chart gives" Choice(CHART_GIVES), Free, "Rated capacity where blank: it is never derated again. A tipping load is.";
        ChartNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// How fast one kind of work goes, and with whom.
    ProductionRates "Production rates", "work", false, "One kind of work a row: who and what does it, and how much in an hour." {
        Work "Work" Name, Needed, "A short name, used by Other items; earthwork looks for its own names.";
        WorkUnit "Unit" UnitName, Needed, "Unit that the outputs count.";
        WorkCrew "Crew" RowOf("Crews"), Free, "Who does it.";
        CrewOutput "Crew output" Number(PerHour, 0.001, 100_000.0), Free, "Units that the crew does in an hour.";
        WorkMachine "Machine" RowOf("Equipment"), Free, "What machine is used.";
        MachineOutput "Machine output" Number(PerHour, 0.001, 100_000.0), Free, "Units that the machine does in an hour; blank to work it out from its cycle, in the job's usual soil, where it digs or hauls.";
        Hazard "Hazard" Choice(HAZARDS), Free, "What can hurt the untrained in it, where others may do it; blank for machines where it has one, and for what is usual in works of the usual names.";
        WorkNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One mark-up, in the order in which they apply.
    MarkUps "Mark-ups", "mark-up", false, "One mark-up a row, applied from the top down." {
        MarkUp "Mark-up" Name, Needed, "Overhead, profit, contingency, bond, tax, …";
        On "On" Choice(BASES), Needed, "What it is a percentage of. Percentages of the bid come last.";
        Share "Rate" Number(Percent, 0.0, 100.0), Needed, "Percentage: 15 for fifteen percent.";
        WithPartners "With partners" Choice(HELD), Free, "Whether it stays what it is in dollars where partners work, or follows the cost; blank for what the scenario says. Percentages of the bid follow where blank.";
        MarkUpNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// A final quantity set by hand.
    SetQuantities "Set quantities", "set quantity", false, "One line of the take-off a row, whose quantity is set by hand." {
        SetLine "Line" Name, Needed, "The line's name, as the take-off shows it.";
        SetQuantity "Quantity" Number(Count, 0.0, 100_000_000.0), Needed, "The quantity to use, in the line's unit. It changes this line only.";
        Reason "Reason" Words, Needed, "Why: it is printed.";
    }
}
