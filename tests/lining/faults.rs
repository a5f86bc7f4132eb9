//! Layers that cannot be ordered as they are written, each with its kind of finding and the
//! cell to change.

use groundsheet::diagnostic::{Code, Severity};

use crate::support::{US, findings_of};

/// What is found about a layer: its severity, kind and column, of one kind.
fn found(headings: &str, cells: &str, code: Code) -> Vec<(Severity, String)> {
    let layers = format!("Layer,{headings}\nSheet,{cells}\n");
    let tables = [
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nPool,rectangle,20,10,2,1\n",
        ),
        (
            "Waterfalls and streams",
            "Fall,Kind,Reach length (ft),Reach width (ft)\nBrook,stream,30,4\nBare,stream,,\n",
        ),
        ("Liner and fabric", &layers),
        ("Materials", "Material,Unit,Price\nLiner,ft2,1\nRoll,ea,9\n"),
        ("Crews", "Crew,People,Wage per hour\nCrew,1,50\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nLay sheet,ft2,Crew,100\nFix batten,ft,Crew,9\n",
        ),
    ];
    let column = |cell: Option<(u32, u32)>| {
        let (_, column) = cell.unwrap_or_default();
        let columns = layers.lines().next().unwrap().split(',');
        columns
            .map(|heading| heading.split(" (").next().unwrap().to_owned())
            .nth(usize::try_from(column).unwrap())
            .unwrap()
    };
    findings_of(&tables)
        .iter()
        .filter(|finding| finding.code == code)
        .filter_map(|finding| {
            let place = finding.place.as_ref()?;
            let is_ours = &*place.sheet == "Liner and fabric";
            is_ours.then(|| (finding.severity, column(place.cell)))
        })
        .collect()
}

#[test]
fn impossible_layers_are_refused_at_the_cell_to_change() {
    let roll = "Basin,Ordered as,Roll width (ft),Roll length (ft),Lap (in)";
    let cases = [
        ("Basin,Fall", ",", Code::MissingValue, "Basin"),
        ("Basin,Fall", "Pool,Brook", Code::ConflictingValues, "Basin"),
        (
            "Fall,Sheet width (ft)",
            "Brook,9",
            Code::ConflictingValues,
            "Fall",
        ),
        (roll, "Pool,strips,,,", Code::MissingValue, "Roll width"),
        (roll, "Pool,rolls,,50,", Code::MissingValue, "Roll width"),
        (roll, "Pool,rolls,6,,", Code::MissingValue, "Roll length"),
        (roll, "Pool,strips,1,,12", Code::SheetTooSmall, "Roll width"),
        (
            roll,
            "Pool,rolls,6,2,24",
            Code::SheetTooSmall,
            "Roll length",
        ),
        (
            "Fall,Material",
            "Brook,Roll",
            Code::DimensionMismatch,
            "Material",
        ),
    ];
    for (headings, cells, code, column) in cases {
        let what = format!("{headings}: {cells}");
        let expected = vec![(Severity::Error, column.to_owned())];
        assert_eq!(found(headings, cells, code), expected, "{what}");
    }
    // A hair more than the lap can be laid.
    let more = found(roll, "Pool,strips,1.01,,12", Code::SheetTooSmall);
    assert_eq!(more, vec![]);
}

#[test]
fn what_is_written_and_not_used_is_pointed_out() {
    let trench =
        "Basin,Edge,Edge width (ft),Trench set-back (ft),Trench depth (in),Trench width (in)";
    let roll = "Basin,Ordered as,Roll width (ft),Roll length (ft)";
    let cases = [
        (trench, "Pool,,2,,12,", Code::ConflictingValues, "Edge"),
        (
            trench,
            "Pool,anchor trench,2,,,",
            Code::ConflictingValues,
            "Edge",
        ),
        (
            trench,
            "Pool,anchor trench,,1.9,,",
            Code::OutOfRange,
            "Trench set-back",
        ),
        (
            trench,
            "Pool,anchor trench,,,11,",
            Code::OutOfRange,
            "Trench depth",
        ),
        (
            trench,
            "Pool,anchor trench,,,,11",
            Code::OutOfRange,
            "Trench width",
        ),
        (
            roll,
            "Pool,one panel,6,",
            Code::ConflictingValues,
            "Ordered as",
        ),
        (roll, "Pool,strips,6,20", Code::SheetTooSmall, "Roll length"),
    ];
    for (headings, cells, code, column) in cases {
        let expected = vec![(Severity::Warning, column.to_owned())];
        assert_eq!(
            found(headings, cells, code),
            expected,
            "{headings}: {cells}"
        );
    }
    // The published least itself passes, and so does an edge that needs no trench.
    let least = "Pool,anchor trench,,2,12,12";
    assert_eq!(found(trench, least, Code::OutOfRange), vec![]);
    assert_eq!(
        found(trench, "Pool,wall,1,,,", Code::ConflictingValues),
        vec![]
    );
}

#[test]
fn what_is_missing_leaves_a_draft() {
    let open = [
        ("Fall", "Bare", Code::MissingValue, "Fall"),
        (
            "Basin,Battens (ft)",
            "Pool,9",
            Code::MissingPrice,
            "Battens",
        ),
        ("Basin,Boots", "Pool,2", Code::MissingPrice, "Boots"),
        ("Basin,Boots", "Pool,2", Code::MissingRate, "Boots"),
        (
            "Basin,Pick subgrade",
            "Pool,yes",
            Code::MissingRate,
            "Pick subgrade",
        ),
        (
            "Basin,Leak test",
            "Pool,yes",
            Code::MissingRate,
            "Leak test",
        ),
        (
            "Basin,Ordered as,Roll width (ft),Seam",
            "Pool,strips,6,taped",
            Code::MissingPrice,
            "Seam",
        ),
    ];
    for (headings, cells, code, column) in open {
        let expected = vec![(Severity::Open, column.to_owned())];
        assert_eq!(
            found(headings, cells, code),
            expected,
            "{headings}: {cells}"
        );
    }
}

#[test]
fn a_full_pool_and_a_deep_trench_are_cautions() {
    let cautions = [
        (
            "Basin,Leak test",
            "Pool,yes",
            Code::OpenWater,
            Some("Leak test"),
        ),
        ("Basin,Leak test", "Pool,no", Code::OpenWater, None),
        (
            "Basin,Edge,Trench depth (ft)",
            "Pool,anchor trench,5",
            Code::DeepCut,
            Some("Trench depth"),
        ),
        (
            "Basin,Edge,Trench depth (ft)",
            "Pool,anchor trench,4.99",
            Code::DeepCut,
            None,
        ),
    ];
    for (headings, cells, code, column) in cautions {
        let expected: Vec<_> = column
            .map(|column| (Severity::Caution, column.to_owned()))
            .into_iter()
            .collect();
        assert_eq!(
            found(headings, cells, code),
            expected,
            "{headings}: {cells}"
        );
    }
}
