//! The proof is proved first: reading, spoiling and editing a workbook, and that
//! no engine can answer with what was stored.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx};
use rust_xlsxwriter::{Format, Formula, Workbook};

use super::*;

/// Two sheets with awkward names, every type of value, right stored results.
fn small_workbook() -> Vec<u8> {
    let mut workbook = Workbook::new();
    let bold = Format::new().set_bold();
    let runs = workbook
        .add_worksheet()
        .set_name("Bob's pipe runs")
        .unwrap();
    runs.write(0, 0, "run").unwrap();
    runs.write(1, 0, "north & <south>").unwrap();
    runs.write_with_format(1, 1, 2.5, &bold).unwrap();
    runs.write(2, 0, " two  spaces,\na break ").unwrap();
    runs.write(4, 0, "part _x0041_\u{1}").unwrap();
    runs.write(2, 1, 4).unwrap();
    runs.write_blank(3, 1, &bold).unwrap();
    runs.write(3, 2, true).unwrap();
    let totals = workbook
        .add_worksheet()
        .set_name("Totals of it, \"net\"")
        .unwrap();
    // Without this an empty text is stored as 0.
    totals.set_formula_result_default("");
    let formulas = [
        ("SUM('Bob''s pipe runs'!B2:B40)", "6.5"),
        ("'Bob''s pipe runs'!A2&\" runs\"", "north & <south> runs"),
        (
            "IF('Bob''s pipe runs'!B4=\"\",9,'Bob''s pipe runs'!B4)",
            "9",
        ),
        ("longest_m*2", "8"),
        ("1/0", "#DIV/0!"),
        ("B1>6", "TRUE"),
        ("IF(B1>100,1,\"\")", ""),
        ("'Bob''s pipe runs'!A3", " two  spaces,\na break "),
    ];
    for (row, (formula, result)) in (0..).zip(formulas) {
        let formula = Formula::new(formula).set_result(result);
        totals.write_formula(row, 1, formula).unwrap();
    }
    let longest = "='Bob''s pipe runs'!$B$3";
    workbook.define_name("longest_m", longest).unwrap();
    workbook.save_to_buffer().unwrap()
}

fn in_totals(row: u32) -> Spot {
    ("Totals of it, \"net\"".to_owned(), row, 1)
}

fn text(text: &str) -> Value {
    Value::Text(text.to_owned())
}

#[test]
fn formulas_and_stored_values_are_read_as_another_reader_reads_them() {
    let xlsx = small_workbook();
    let mut other: Xlsx<_> = Xlsx::new(Cursor::new(xlsx.clone())).unwrap();
    let ours = stored(&xlsx);
    let mut seen = 0;
    for (sheet, range) in other.worksheets() {
        let (top, left) = range.start().unwrap();
        for (row, column, data) in range.cells() {
            let row = top + u32::try_from(row).unwrap();
            let column = left + u32::try_from(column).unwrap();
            let spot = (sheet.clone(), row, column);
            let theirs = match data {
                Data::Empty => continue,
                Data::String(text) => Value::Text(text.clone()),
                Data::Bool(truth) => Value::Truth(*truth),
                Data::Error(error) => Value::Error(error.to_string()),
                Data::Float(number) => Value::Number(*number),
                other => panic!("{other:?} is not expected"),
            };
            assert_eq!(ours.get(&spot), Some(&theirs), "{spot:?}");
            seen += 1;
        }
    }
    assert_eq!((seen, ours.len()), (15, 15));
    let formulas = formula_cells(&xlsx);
    assert_eq!(formulas.len(), 8);
    assert_eq!(
        formulas[&in_totals(1)],
        (
            "'Bob''s pipe runs'!A2&\" runs\"".to_owned(),
            text("north & <south> runs")
        )
    );
}

#[test]
fn a_poisoned_copy_keeps_formulas_and_entries_and_no_stored_result() {
    let xlsx = small_workbook();
    let copy = poison(&xlsx);
    let (before, after) = (formula_cells(&xlsx), formula_cells(&copy));
    assert!(before.keys().eq(after.keys()));
    for (spot, (formula, value)) in &before {
        let (copied, wrong) = &after[spot];
        assert_eq!(formula, copied);
        assert!(!value.agrees_with(wrong), "{spot:?} still holds {value:?}");
    }
    let mut entries = stored(&xlsx);
    let mut copied = stored(&copy);
    entries.retain(|spot, _| !before.contains_key(spot));
    copied.retain(|spot, _| !before.contains_key(spot));
    assert_eq!(entries, copied);
}

#[test]
fn every_engine_recalculates_instead_of_repeating() {
    let xlsx = small_workbook();
    let (engine, answers) = by_the_engine(&[xlsx.clone(), poison(&xlsx)]);
    for answer in answers {
        for (spot, (formula, stored)) in formula_cells(&xlsx) {
            let found = &answer[&spot];
            let agrees = found.agrees_with(&stored);
            assert!(agrees, "{engine}: {formula}: {found:?}, not {stored:?}");
        }
    }
}

#[test]
#[should_panic(expected = "was not recalculated")]
fn an_engine_that_repeats_stored_results_is_caught() {
    without_poison(stored(&poison(&small_workbook())));
}

#[test]
fn an_edit_reaches_the_formulas_and_leaves_the_style() {
    let xlsx = small_workbook();
    let runs = "Bob's pipe runs";
    let changes = [
        (runs, "B2", Entry::Number(10.25)),
        (runs, "A2", Entry::Text("a <b> & c".to_owned())),
        (runs, "B3", Entry::Blank),
        (runs, "B4", Entry::Number(1.5)),
        (runs, "AB30", Entry::Text(" far ".to_owned())),
        (runs, "B30", Entry::Number(0.25)),
    ];
    let edited = edit(&xlsx, &changes);
    let values = stored(&edited);
    assert_eq!(values[&(runs.to_owned(), 29, 27)], text(" far "));
    assert!(!values.contains_key(&(runs.to_owned(), 2, 1)));
    let book = Book::read(&edited);
    let sheet = &book.sheets[0];
    assert_eq!(sheet.rows[&1].cells[&1].attributes, r#" s="1""#);
    assert_eq!(sheet.rows[&3].cells[&1].attributes, r#" s="1""#);
    assert_eq!(sheet.used_range(), Some("A1:AB30"));
    let (engine, answers) = by_the_engine(&[edited]);
    let answer = |row| &answers[0][&in_totals(row)];
    assert!(answer(0).agrees_with(&Value::Number(12.0)), "{engine}");
    assert!(answer(1).agrees_with(&text("a <b> & c runs")), "{engine}");
    assert!(answer(2).agrees_with(&Value::Number(1.5)), "{engine}");
    assert!(answer(3).agrees_with(&Value::Number(0.0)), "{engine}");
}

#[test]
fn a_cleared_cell_is_blank_to_every_engine_with_and_without_a_style() {
    let runs = "Bob's pipe runs";
    let full = edit(&small_workbook(), &[(runs, "B4", Entry::Number(1.0))]);
    let cleared = edit(&full, &[(runs, "B4", Entry::Blank)]);
    let (engine, answers) = by_the_engine(&[full, cleared]);
    let shown = answers.iter().map(|answer| answer[&in_totals(2)].clone());
    let expected = [Value::Number(1.0), Value::Number(9.0)];
    assert_eq!(shown.collect::<Vec<_>>(), expected, "{engine}");
}

#[test]
fn a_formula_that_is_typed_over_is_gone() {
    let totals = "Totals of it, \"net\"";
    let edited = edit(&small_workbook(), &[(totals, "B1", Entry::Number(7.0))]);
    let left = formula_cells(&edited);
    assert!(!left.contains_key(&(totals.to_owned(), 0, 1)), "{left:?}");
    let value = &stored(&edited)[&(totals.to_owned(), 0, 1)];
    assert_eq!(value, &Value::Number(7.0));
}

#[test]
fn addresses_and_positions_are_inverse() {
    for (place, spot) in [("A1", (0, 0)), ("Z9", (8, 25)), ("AA10", (9, 26))] {
        assert_eq!(position(place), spot);
        assert_eq!(address(spot.0, spot.1), place);
    }
    assert_eq!(position("XFD1048576"), (1_048_575, 16_383));
    assert_eq!(address(1_048_575, 16_383), "XFD1048576");
}
