//! How fast water runs in an opening as large as a pipe, and power beside water.
//!
//! The velocity alone is ours: friction and pumps are not taken off. What a source makes of
//! its velocity (a head, a Reynolds number) is worked out here from ours.

use std::f64::consts::PI;

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::units::{FT_S, LB_FT3, M_S, Unit};

use crate::support::{METRIC, US, estimate_of, figure, within};

use super::basins;

/// Gallons a minute in one cubic foot a second: a gallon is 231 in³.
const GPM_IN_FT3_S: f64 = 60.0 * 1728.0 / 231.0;

const ITEMS: &str = "Item,Section,Description,Times,Unit,Price\nSign,Site,Site sign,1,ea,50\n";

/// Velocity in a square opening of the area of a round pipe: bore and flow, each with its
/// unit as a heading has it.
fn velocity(keys: &str, bore: (f64, &str), flow: (f64, &str), unit: Unit) -> f64 {
    let side = bore.0 * (PI / 4.0).sqrt();
    let table = format!(
        "Structure,Kind,Length (ft),Width (ft),Height (ft),Opening width ({0}),\
         Opening height ({0}),Flow ({1})\nIntake,vault,8,6,5,{side},{side},{2}\n",
        bore.1, flow.1, flow.0
    );
    let tables = [
        ("Job", keys),
        ("Structures", &*table),
        ("Other items", ITEMS),
    ];
    let at = ("Structures", "Intake", "approach velocity");
    figure(&estimate_of(&tables), at, unit)
}

#[test]
fn water_in_a_pipe_has_the_derived_velocity() {
    let source = "EX-59, D: flow over the area of the bore, beside the friction table from US EPA, \
                  EPANET 2.2 User Manual, ch. 3; the velocities alone";
    for (bore_in, flow_gpm, printed_ft_s) in [(4.0, 200.0, 5.106), (6.0, 500.0, 5.674)] {
        let ours = velocity(US, (bore_in, "in"), (flow_gpm, "gpm"), FT_S);
        within(source, ours, printed_ft_s, 0.0005);
    }
}

#[test]
fn fittings_lose_six_velocity_heads() {
    let source = "EX-60, D on R1 for the coefficients: US EPA, EPANET 2.2 User Manual, table of \
                  minor losses; 500 gpm in 6 in has v²/2g = 0.5002 ft, and K = 6.0 loses 3.0 ft";
    let ours_ft_s = velocity(US, (6.0, "in"), (500.0, "gpm"), FT_S);
    let head_ft = ours_ft_s * ours_ft_s / (2.0 * 32.174);
    within(source, head_ft, 0.5002, 0.000_05);
    within(source, 6.0 * head_ft, 3.0, 0.05);
}

#[test]
fn a_metric_pipe_has_the_printed_velocity() {
    let source = "EX-61, R2: E. Maurer, Hydraulics and Water Resources: Examples Using R, ch. 4, \
                  ex. 4.1-4.3; it prints 2.120 m/s, of which 0.416 ÷ 0.19635 m² bears out three \
                  digits";
    let ours_m_s = velocity(METRIC, (0.5, "m"), (416.0, "L/s"), M_S);
    within(source, ours_m_s, 2.12, 0.005);
    within(source, ours_m_s * 0.5 / 1.023e-6, 1.036e6, 500.0);
}

#[test]
fn six_inches_and_500_gallons_have_the_reynolds_number_of_a_library() {
    let source = "EX-97, D: a general library (fluids 1.3.1): Re 262,496 at a viscosity of \
                  1.004e-6 m²/s; its friction is not ours";
    let ours_m_s = velocity(US, (6.0, "in"), (500.0, "gpm"), M_S);
    within(source, ours_m_s * 0.1524 / 1.004e-6, 262_496.0, 0.5);
}

#[test]
fn a_pump_lifts_by_pressure_and_by_velocity() {
    let source = "EX-63, D on R2: R. H. F. Pao, Fluid Mechanics (1961), p. 107, ex. 11: pressure \
                  106.15 ft, height 5 ft, velocity 0.43 ft, in all 111.586 ft; the power is not \
                  ours";
    let flow = (4.0 * GPM_IN_FT3_S, "gpm");
    let velocity_ft_s = |bore_in| velocity(US, (bore_in, "in"), flow, FT_S);
    let (suction, discharge) = (velocity_ft_s(12.0), velocity_ft_s(10.0));
    let velocity_ft = (discharge * discharge - suction * suction) / (2.0 * 32.174);
    within(source, velocity_ft, 0.43, 0.005);
    // 40 psi out and 6 psi of suction in, over the weight of water in use.
    let job = estimate_of(&[("Job", US), ("Other items", ITEMS)]);
    let water_lb_ft3 = figure(&job, ("Factors", "", "Weight of water"), LB_FT3);
    let pressure_ft = 46.0 * 144.0 / water_lb_ft3;
    within(source, pressure_ft, 106.15, 0.005);
    // The source's g is not printed: 32.2 moves the sum by 0.0004 ft.
    within(source, pressure_ft + 5.0 + velocity_ft, 111.586, 0.001);
}

#[test]
fn a_wide_spillway_has_its_velocity_of_approach() {
    let source = "EX-77, D on R2: B. C. Punmia, Irrigation and Water Power Engineering (2009), \
                  p. 539, ex. 11.2: 678.82 m³/s in 10 m by 100 m; flow and width in hundredths";
    let table = "Structure,Kind,Length (m),Width (m),Height (m),Opening width (m),\
                 Opening height (m),Flow (L/s)\nDam,vault,2,2,2,1,10,6788.2\n";
    let tables = [
        ("Job", METRIC),
        ("Structures", table),
        ("Other items", ITEMS),
    ];
    let at = ("Structures", "Dam", "approach velocity");
    let ours_m_s = figure(&estimate_of(&tables), at, M_S);
    within(source, ours_m_s, 0.6788, 0.000_05);
    within(source, ours_m_s * ours_m_s / (2.0 * 9.81), 0.0235, 0.000_05);
}

#[test]
fn pumps_in_water_call_for_ground_fault_protection() {
    let source = "EX-40, R1: North Carolina Department of Labor, Standards Notice 49A on 29 CFR \
                  1926.404(b)(1): temporary outlets need ground-fault interrupters";
    let cautions = |gallons: &str| -> Vec<String> {
        let pond = basins(&format!(
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Standing water (gal)\n\
             Pond,rectangle,20,10,3,1,{gallons}\n"
        ));
        let found = pond.findings.into_iter();
        let found = found.filter(|found| found.severity == Severity::Caution);
        let found = found.filter(|found| found.code == Code::WaterAndPower);
        found.filter_map(|found| found.hint).collect()
    };
    let [wet] = &cautions("500")[..] else {
        panic!("{source}: one caution where water is pumped out");
    };
    assert!(wet.contains("ground-fault"), "{source}: {wet}");
    assert!(wet.contains("1926.404"), "{source}: {wet}");
    assert!(cautions("").is_empty(), "{source}: none where it is dry");
}
