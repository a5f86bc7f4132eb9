//! Who else may work on the job and on what terms, and who does what in each scenario.

use super::choices::{BORNE_BY, HELD, PARTNER_KINDS, RATE_RULES, YES_NO};
use crate::graph::Table;
use crate::job::columns::{
    Fields, Fill, Holds, InputColumn, InputTable, Measure, Role, input_tables,
};
use Holds::{Choice, Name, Number, PartOf, RowOf, Words};
use Measure::{Count, Hours, Money, MoneyAnHour, Percent};
use Role::{Calls, Decides, Prose};

const HOURS: Holds = Number(Hours, 0.0, 1000.0);
const EACH: Holds = Number(Money, 0.0, 1_000_000.0);

input_tables! {
    /// One group of people of the client's, and the terms on which they work.
    Partners "Partners", "partner", false, "One group of the client's people a row, and the terms on which they work. Local law on volunteers, minors and wages comes first." {
        Partner "Partner" Name, Needed, "A short name, used by other sheets.";
        PartnerKind "Kind" Choice(PARTNER_KINDS), Needed, "Whether they give their time, are paid by the client, or are hired by us.";
        PartnerPeople "People" Number(Count, 1.0, 1000.0), Needed, "How many are expected to sign up for a session.";
        Attendance "Attendance" Number(Percent, 1.0, 100.0), Free, "How many of those turn up, taken over all sessions; blank for the factor.";
        Sessions "Sessions" Number(Count, 1.0, 1000.0), Needed, "How many sessions they can give.";
        SessionHours "Session hours" Number(Hours, 0.25, 24.0), Needed, "How long a session is, breaks not counted.";
        Pace "Pace" Number(Percent, 1.0, 300.0), Needed, "What one of them does in an hour, against one of the crew: 50 is half as fast.";
        Learning "Learning" Number(Percent, 55.0, 100.0), Free, "Mean hours for a unit each time the work done doubles, from the first session on: 90 for nine tenths. Blank where they do not get faster.";
        Briefing "Briefing hours" HOURS, Free, "At the start of each session, out of its hours.";
        Training "Training hours" HOURS, Free, "For each who comes, once, before the first session.";
        LeadCrew "Lead" RowOf("Crews"), Free, "The crew that one of stands beside them, at the hourly cost of one of its people.";
        LeadHours "Lead hours" HOURS, Free, "Of the lead in a session at the least; blank for the whole session.";
        LeadPerHead "Lead hours per head" HOURS, Free, "For each who is there, where that comes to more.";
        SetUp "Set-up hours" HOURS, Free, "Of one of the lead's crew for each session: tools out and in.";
        MachineTicket "Machine ticket" Words, Free, "Their qualification to run machines; without it they are not given such work.";
        LiftingTicket "Lifting ticket" Words, Free, "Their qualification to sling and lift.";
        DeepCutTicket "Deep-cut ticket" Words, Free, "Their qualification to work in cuts deep enough to bury someone.";
        ConfinedTicket "Confined-space ticket" Words, Free, "Their qualification to enter vaults and pits with little air.";
        ElectricalTicket "Electrical ticket" Words, Free, "Their licence for electrical work.";
        Minors "Minors" Choice(YES_NO), Free, "Whether any of them are minors.";
        Charge "Charge per hour" Number(MoneyAnHour, 0.0, 1000.0), Free, "What we pay for an hour of one of them on site; often nothing.";
        PartnerWage "Wage per hour" Number(MoneyAnHour, 0.0, 1000.0), Free, "What the client pays its own staff for an hour.";
        PartnerBurden "Burden" Number(Percent, 0.0, 200.0), Free, "On that wage.";
        OvertimeAfter "Overtime after" HOURS, Free, "Hours of a session that are paid at the plain wage; blank where there is no overtime.";
        OvertimePay "Overtime pay" Number(Percent, 100.0, 400.0), Free, "Of the plain wage; blank for the factor.";
        InKindRate "In-kind rate" Number(MoneyAnHour, 0.0, 1000.0), Free, "What a given hour is worth: the rate of the work, not of the person.";
        InKindRule "In-kind rule" Choice(RATE_RULES), Free, "Where that rate comes from.";
        Rework "Rework" Number(Percent, 0.0, 100.0), Free, "Of their work that the crew does again.";
        ExtraWaste "Extra waste" Number(Percent, 0.0, 100.0), Free, "Of the material that they lay, beyond its own waste.";
        Gear "Gear per head" EACH, Free, "Gloves, boots, vests: once for each of them, at our cost.";
        Facilities "Facilities per session" EACH, Free, "Toilet, shelter, water, first aid: at our cost.";
        Insurance "Insurance and admin" EACH, Free, "Once, at our cost.";
        IdleMachine "Idle machine" RowOf("Equipment"), Free, "The machine that stands while they are near.";
        IdleHours "Idle hours" HOURS, Free, "How long it stands in a session.";
        ToolsValue "Tools per session" EACH, Free, "Fair rent of the tools that they bring.";
        MachineRent "Machine rent per hour" Number(MoneyAnHour, 0.0, 10_000.0), Free, "Fair rent of a machine that they bring.";
        Standby "Standby hours" HOURS, Free, "Of one of the lead's crew, paid for a session that nobody comes to; blank for those of lead and set-up.";
        MakeGood "Make-good premium" Number(Percent, 0.0, 300.0), Free, "On the crew's labor where it does at short notice what they did not.";
        Notice "Notice (days)" Number(Count, 0.0, 365.0), Free, "Calendar days that the crew needs to step in.";
        PartnerNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// One way of sharing the work out.
    Scenarios "Scenarios", "scenario", false, "One way of sharing the work out a row. Where there is no scenario, the crew does all of it." {
        Scenario "Scenario" Name, Needed, "A short name, such as Friends plant.";
        Like "Like" PartOf("Scenarios"), Free, "Another scenario, whose rows of Shared work hold here too: a row of this scenario's own about the same line replaces them.";
        HeldMarkUps "Mark-ups" Choice(HELD), Free, "Whether mark-ups on cost stay what they are in dollars, or follow the cost; held where blank. A mark-up may say it for itself.";
        BorneBy "No-show borne by" Choice(BORNE_BY), Free, "Who pays where the partners do not turn up; the client where blank.";
        ScenarioNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }

    /// What one partner does or brings in one scenario.
    SharedWork "Shared work", "scenario", false, "What one partner does or brings in one scenario a row: a work, a zone, one line of the take-off, or a material." {
        SharedIn "Scenario" PartOf("Scenarios"), Needed, "In which scenario.", Calls;
        SharedOf "Work" PartOf("Production rates"), Free, "Every line of this work.";
        SharedZone "Zone" Words, Free, "Every line that a crew works in this basin, fall or zone; with a work, only its lines there.", Decides;
        SharedLine "Line" Words, Free, "One line, by its name on the take-off.", Decides;
        SharedMaterial "Material" PartOf("Materials"), Free, "A material that they bring; leave Work, Zone and Line blank.";
        SharedBy "Partner" PartOf("Partners"), Free, "Who does or brings it; blank where the crew does it after all.";
        GivenShare "Share" Number(Percent, 0.0, 100.0), Free, "How much of it; all where blank.";
        OwnPace "Pace" Number(Percent, 1.0, 300.0), Free, "At this work; blank for the partner's.";
        TheirMachine "Their machine" Choice(YES_NO), Free, "Whether they bring and run the machine too.";
        ValueEach "Value each" EACH, Free, "Fair value of one unit of a material that they bring; blank for our price.";
        SharedNote "Note" Words, Free, "Anything to be remembered.", Prose;
    }
}
