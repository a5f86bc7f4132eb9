//! What is typed into every input column, in CSV and in a workbook alike.
//!
//! The columns are those of `job::tables::TABLES`: a new one is tried by itself. Each is
//! given what a person may type, right and wrong. A text file and a workbook of the same
//! cells must say the same of it: the same value, or the same refusal in the same words.

use std::fmt::Write as _;

use groundsheet::diagnostic::{Code, Diagnostic, Severity};
use groundsheet::estimate::estimate;
use groundsheet::job::columns::Fill;
use groundsheet::job::tables::{Basins, TABLES};
use groundsheet::job::{self, Checked, Fields, Holds, InputColumn, InputTable, Job, Measure, Role};
use groundsheet::read;
use groundsheet::units::{FT, M, System, Unit};
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};
use tempfile::TempDir;

use crate::support::{findings_of, workbook_of};

/// A cell as a person types it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Typed {
    Blank,
    Text(&'static str),
    Number(f64),
    /// 20 November 2026.
    Day,
    /// Fifteen per cent, by a format that shows hundredths.
    Percent,
}

impl Typed {
    /// As a text file has it.
    fn csv(self) -> String {
        match self {
            Self::Blank => String::new(),
            Self::Text(text) => format!("\"{}\"", text.replace('"', "\"\"")),
            Self::Number(number) => number.to_string(),
            Self::Day => "2026-11-20".to_owned(),
            Self::Percent => "15 %".to_owned(),
        }
    }
}

/// What becomes of a cell.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Becomes {
    /// A number in the column's first unit.
    Number(f64),
    /// The same words.
    Words(&'static str),
    Blank,
    Refused(Code),
    /// Whatever it is, it is the same in both files.
    Same,
}

/// A job as sheets of typed cells.
type Sheets = Vec<(&'static str, Vec<Vec<Typed>>)>;

fn heading(column: &InputColumn) -> &'static str {
    let text = match column.holds {
        Holds::Number(measure, ..) => column.heading_with(measure.unit(System::Us)),
        _ => column.heading.to_owned(),
    };
    Box::leak(text.into_boxed_str())
}

fn table(name: &str) -> &'static InputTable {
    TABLES.iter().find(|table| table.name == name).unwrap()
}

/// Something sound for a column that a row needs.
fn sound(column: &InputColumn) -> Typed {
    match column.holds {
        Holds::Name | Holds::RowOf(_) | Holds::PartOf(_) => Typed::Text("A one"),
        Holds::Words => Typed::Text("some words"),
        Holds::Choice(words) => Typed::Text(words[0]),
        Holds::UnitName => Typed::Text("ea"),
        Holds::Number(_, low, high) => Typed::Number(1.0_f64.clamp(low, high)),
        Holds::Date => Typed::Day,
    }
}

/// The sheets of a sound job with one row of a table, whose cell in one column is typed.
fn sheets(tried: &'static InputTable, column: usize, typed: Typed) -> Sheets {
    let mut names = vec!["Job", "Basins"];
    names.extend(needed_tables(tried));
    names.extend([tried.name]);
    let mut sheets: Sheets = Vec::new();
    for name in names {
        if sheets.iter().all(|(there, _)| *there != name) {
            let of = table(name);
            let tried = (name == tried.name).then_some((column, typed));
            sheets.push((name, cells(of, tried)));
        }
    }
    sheets
}

/// The tables that a row of a table cannot do without.
fn needed_tables(tried: &InputTable) -> Vec<&'static str> {
    let needed = tried
        .columns
        .iter()
        .filter_map(|column| match column.holds {
            Holds::RowOf(name) | Holds::PartOf(name) if column.fill == Fill::Needed => Some(name),
            _ => None,
        });
    needed
        .flat_map(|name| {
            let mut names = needed_tables(table(name));
            names.push(name);
            names
        })
        .collect()
}

/// Whether a cell is filled in beside the one that is tried: without a note a row of one
/// cell would be no row, and some cells count for nothing alone.
fn is_beside(of: &InputTable, column: &InputColumn) -> bool {
    let pairs = [
        ("Quick measure", "Fall courses"),
        ("Shared work", "Zone"),
        ("Shared work", "Line"),
    ];
    column.role == Role::Prose || pairs.contains(&(of.name, column.heading))
}

fn cells(of: &InputTable, tried: Option<(usize, Typed)>) -> Vec<Vec<Typed>> {
    let mut columns = Vec::new();
    for (position, column) in of.columns.iter().enumerate() {
        let typed = match tried {
            Some((at, typed)) if at == position => Some(typed),
            _ if column.fill == Fill::Needed || is_beside(of, column) => Some(sound(column)),
            _ => None,
        };
        columns.extend(typed.map(|typed| vec![Typed::Text(heading(column)), typed]));
    }
    if of.upright {
        return columns;
    }
    (0..2)
        .map(|row| columns.iter().map(|column| column[row]).collect())
        .collect()
}

fn as_csv(sheets: &Sheets) -> Checked {
    let texts: Vec<(&str, String)> = sheets
        .iter()
        .map(|(name, rows)| {
            let line = |row: &Vec<Typed>| {
                let fields: Vec<String> = row.iter().map(|typed| typed.csv()).collect();
                fields.join(",")
            };
            let lines: Vec<String> = rows.iter().map(line).collect();
            (*name, lines.join("\n") + "\n")
        })
        .collect();
    let texts: Vec<(&str, &str)> = texts
        .iter()
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    let (job_file, _) = read::from_texts("", &texts).unwrap();
    job::from_file(&job_file)
}

fn as_workbook(sheets: &Sheets, scratch: &TempDir) -> Checked {
    let [day, percent] = ["yyyy-mm-dd", "0 %"].map(|pattern| Format::new().set_num_format(pattern));
    let mut book = Workbook::new();
    for (name, rows) in sheets {
        let sheet = book.add_worksheet();
        sheet.set_name(*name).unwrap();
        for (row, cells) in (0..).zip(rows) {
            for (column, typed) in (0..).zip(cells) {
                match typed {
                    Typed::Blank => &mut *sheet,
                    Typed::Text(text) => sheet.write(row, column, *text).unwrap(),
                    Typed::Number(number) => sheet.write(row, column, *number).unwrap(),
                    Typed::Day => {
                        let date = ExcelDateTime::from_ymd(2026, 11, 20).unwrap();
                        sheet.write_with_format(row, column, &date, &day).unwrap()
                    }
                    Typed::Percent => sheet
                        .write_with_format(row, column, 0.15, &percent)
                        .unwrap(),
                };
            }
        }
    }
    let path = scratch.path().join("job.xlsx");
    book.save(&path).unwrap();
    let (job_file, _) = read::open(&path).unwrap();
    job::from_file(&job_file)
}

/// What a column of a job holds in its first row.
fn held(job: &Job, tried: &InputTable, column: usize) -> String {
    let mut tables = job.tables().iter();
    let data = tables.find(|data| data.table.name == tried.name).unwrap();
    let mut held = String::new();
    for number in data.numbers(column).iter().take(1) {
        let _ = write!(held, "{number}");
    }
    for word in data.words(column).iter().take(1) {
        let _ = write!(held, "{word}");
    }
    held + " | " + data.as_measured.first().map_or("", |text| text)
}

/// What is said of a job, whatever file it is in.
fn said(checked: &Checked) -> Vec<(Severity, Code, String, Option<String>)> {
    let told = checked.findings.iter().map(|finding| {
        let (message, hint) = (finding.message.clone(), finding.hint.clone());
        (finding.severity, finding.code, message, hint)
    });
    told.collect()
}

/// A length in the unit that a measure has, if it is one: the value within its limits.
fn length(column: &InputColumn, number: f64, given: Unit) -> Becomes {
    let Holds::Number(measure, low, high) = column.holds else {
        return Becomes::Same;
    };
    match given.to(measure.unit(System::Us)) {
        None => Becomes::Refused(Code::WrongUnit),
        Some(ratio) => {
            let number = ratio.apply(number);
            if (low..=high).contains(&number) {
                Becomes::Number(number)
            } else {
                Becomes::Refused(Code::OutOfRange)
            }
        }
    }
}

/// What is typed into a column, and what becomes of it.
fn tries(column: &InputColumn) -> Vec<(Typed, Becomes)> {
    use Becomes::{Blank, Refused, Same};
    use Typed::{Day, Number, Percent, Text};
    let mut tries = vec![match column.fill {
        Fill::Needed => (Typed::Blank, Refused(Code::MissingValue)),
        Fill::Free | Fill::Arises => (Typed::Blank, Blank),
    }];
    match column.holds {
        Holds::Number(measure, low, high) => tries.extend(numbers(column, measure, low, high)),
        Holds::Name => tries.extend([
            (Number(12.0), Refused(Code::BadKey)),
            (Text("12' 6\""), Refused(Code::BadKey)),
            (Text("1:2"), Refused(Code::BadKey)),
            (Text("A*"), Refused(Code::BadKey)),
            (Percent, Refused(Code::BadKey)),
            (
                Text("West\u{202E} \u{A0}pool\u{200F}"),
                Becomes::Words("West pool"),
            ),
        ]),
        Holds::Words => tries.extend([
            (
                Text("a note\u{202E}, \u{1B}[1mloud"),
                Becomes::Words("a note, [1mloud"),
            ),
            (Number(12.0), Becomes::Words("12")),
            (Text("1,250"), Becomes::Words("1,250")),
            (Day, Becomes::Words("2026-11-20")),
        ]),
        Holds::Choice(_) => tries.extend([
            (Text("none of these"), Refused(Code::NotAChoice)),
            (Number(12.0), Refused(Code::NotAChoice)),
            (Day, Refused(Code::NotAChoice)),
        ]),
        Holds::UnitName => tries.extend([
            (Text("furlong"), Refused(Code::WrongUnit)),
            (Number(12.0), Refused(Code::WrongUnit)),
            (Text("T"), Refused(Code::WrongUnit)),
            (Text("t"), Refused(Code::WrongUnit)),
            (Text("tonne"), Becomes::Words("tonne")),
            (Text("tons"), Becomes::Words("ton")),
        ]),
        Holds::Date => tries.extend([
            (Day, Same),
            (Text("20/11/2026"), Refused(Code::NotADate)),
            (Number(46_346.0), Refused(Code::NotADate)),
            (Text("12' 6\""), Refused(Code::NotADate)),
        ]),
        Holds::RowOf(_) | Holds::PartOf(_) => tries.extend([
            (Text("nobody knows it"), Refused(Code::UnknownReference)),
            (Number(12.0), Refused(Code::UnknownReference)),
            (Day, Refused(Code::UnknownReference)),
        ]),
    }
    tries
}

fn numbers(column: &InputColumn, measure: Measure, low: f64, high: f64) -> Vec<(Typed, Becomes)> {
    use Becomes::{Number, Refused, Same};
    use Typed::Text;
    let refused = |code| Refused(code);
    let unless = |own: Measure, is: Becomes, code: Code| {
        if measure == own { is } else { Refused(code) }
    };
    let slope = measure == Measure::Slope;
    vec![
        (Typed::Number(low - 1.0), refused(Code::OutOfRange)),
        (Typed::Number(high + 1.0), refused(Code::OutOfRange)),
        (Typed::Number(low), Number(low)),
        (Typed::Number(high), Number(high)),
        (Text("plenty"), refused(Code::NotANumber)),
        (Typed::Day, refused(Code::NotANumber)),
        (Text("12' 6\""), length(column, 12.5, FT)),
        (Text("3.8 m"), length(column, 3.8, M)),
        (Text("3,8 m"), length(column, 3.8, M)),
        (Text("0,125 m"), length(column, 0.125, M)),
        (Text("1'000"), refused(Code::NotANumber)),
        (Text("1,250"), refused(Code::NotANumber)),
        (Text("10 12"), refused(Code::NotANumber)),
        (Text("3 days"), refused(Code::WrongUnit)),
        (
            Typed::Percent,
            unless(Measure::Percent, Same, Code::WrongUnit),
        ),
        (
            Text("2:1"),
            unless(Measure::Slope, Number(2.0), Code::WrongUnit),
        ),
        (
            Text("2H to 1V"),
            unless(Measure::Slope, Number(2.0), Code::WrongUnit),
        ),
        (Text("1:2"), refused(Code::NotANumber)),
        (
            Text("1/2"),
            if slope {
                refused(Code::NotANumber)
            } else {
                Same
            },
        ),
        // Only hours are written with a colon; otherwise a slope says two things or one.
        (
            Text("2:30"),
            unless(Measure::Hours, Number(2.5), Code::NotANumber),
        ),
        (Text("rod 4.52"), Same),
        (Text("2 t"), refused(Code::WrongUnit)),
    ]
}

/// What is wrong with what became of a typed cell in one of the files.
fn wrong(checked: &Checked, tried: &InputTable, column: usize, becomes: Becomes) -> Option<String> {
    let blocks = |finding: &&Diagnostic| finding.blocks();
    let first = checked.findings.iter().find(blocks);
    let found = match (becomes, &checked.job, first) {
        (Becomes::Same, ..) => return None,
        (Becomes::Refused(code), _, Some(first)) if first.code == code => return None,
        (Becomes::Refused(_), _, Some(first)) => first.message.clone(),
        (Becomes::Refused(_), ..) => "no refusal".to_owned(),
        (_, Some(job), _) => {
            let held = held(job, tried, column);
            let held = held.split(" | ").next().unwrap_or_default().to_owned();
            let same = match becomes {
                Becomes::Number(number) => held
                    .parse::<f64>()
                    .is_ok_and(|held| (held - number).abs() < 1e-9),
                Becomes::Words(words) => held == words,
                _ => held.is_empty() || held == "NaN",
            };
            if same {
                return None;
            }
            held
        }
        (_, None, first) => first.map_or("nothing".to_owned(), |first| first.message.clone()),
    };
    Some(found)
}

#[test]
fn every_column_reads_what_is_typed_alike_in_text_files_and_workbooks() {
    let scratch = TempDir::new().unwrap();
    let (mut faults, mut tried) = (String::new(), 0);
    for table in TABLES {
        for (position, column) in table.columns.iter().enumerate() {
            for (typed, becomes) in tries(column) {
                let sheets = sheets(table, position, typed);
                let (text, book) = (as_csv(&sheets), as_workbook(&sheets, &scratch));
                let at = format!("{}, {}: {typed:?}", table.name, column.heading);
                tried += 1;
                if said(&text) != said(&book) {
                    let _ = writeln!(faults, "{at}: {:?}\n  {:?}", said(&text), said(&book));
                }
                if let (Some(text), Some(book)) = (&text.job, &book.job)
                    && held(text, table, position) != held(book, table, position)
                {
                    let _ = writeln!(faults, "{at}: two values");
                }
                if let Some(found) = wrong(&text, table, position, becomes) {
                    let _ = writeln!(faults, "{at}: should be {becomes:?}, found {found}");
                }
            }
        }
    }
    assert!(faults.is_empty(), "{faults}");
    let columns: usize = TABLES.iter().map(|table| table.columns.len()).sum();
    assert!(tried > 4 * columns, "{tried} tries of {columns} columns");
}

/// The sheets of a sound job with a level and its rod reading, as they are typed.
fn levelled(of: &'static InputTable, typed: [(usize, Typed); 2]) -> Vec<(&'static str, String)> {
    let mut job = table_text(table("Job"), &[]);
    job.push_str("Benchmark (ft),100\nBacksight (ft),5\n");
    let mut names = needed_tables(of);
    names.push(of.name);
    let mut texts = vec![("Job", job)];
    for name in names {
        let typed: &[(usize, Typed)] = if name == of.name { &typed } else { &[] };
        texts.push((name, table_text(table(name), typed)));
    }
    texts
}

/// A table with one row, upright or not: what a row needs, and what is typed.
fn table_text(of: &InputTable, typed: &[(usize, Typed)]) -> String {
    let mut cells = Vec::new();
    for (position, column) in of.columns.iter().enumerate() {
        let own = typed.iter().find(|(at, _)| *at == position);
        let cell = match own {
            Some((_, typed)) => typed.csv(),
            None if column.fill == Fill::Needed => sound(column).csv(),
            None if column.heading == Basins::TABLE.columns[Basins::Depth.index()].heading => {
                "1".to_owned()
            }
            None => continue,
        };
        cells.push((heading(column), cell));
    }
    if of.upright {
        let rows = cells.iter().map(|(key, value)| format!("{key},{value}\n"));
        return rows.collect();
    }
    let (headings, values): (Vec<&str>, Vec<String>) = cells.into_iter().unzip();
    format!("{}\n{}\n", headings.join(","), values.join(","))
}

/// The errors of a job in which two cells say one level.
fn conflicts(of: &'static InputTable, typed: [(usize, Typed); 2]) -> Vec<String> {
    let texts = levelled(of, typed);
    let texts: Vec<(&str, &str)> = texts
        .iter()
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    let found = findings_of(&texts);
    let conflicting = found
        .iter()
        .filter(|finding| finding.blocks() && finding.code == Code::ConflictingValues);
    conflicting
        .map(|finding| finding.message.clone())
        .filter(|message| message.contains("rod reading"))
        .collect()
}

// The instrument stands at 100 + 5 = 105 ft, so that a rod of 6.5 ft is at 98.5 ft.
#[test]
fn a_level_that_is_written_twice_says_the_same_twice() {
    let mut pairs = 0;
    for table in TABLES {
        for (rod, column) in table.columns.iter().enumerate() {
            let Role::ReadingOf(level) = column.role else {
                continue;
            };
            pairs += 1;
            let at = format!("{}, {}", table.name, column.heading);
            let reading = (rod, Typed::Number(6.5));
            let against = |typed| conflicts(table, [(level, typed), reading]).len();
            assert_eq!(against(Typed::Number(98.0)), 1, "{at}: another elevation");
            assert_eq!(against(Typed::Number(98.5)), 0, "{at}: the same elevation");
            assert_eq!(against(Typed::Text("rod 6.4")), 1, "{at}: another rod");
            assert_eq!(against(Typed::Text("rod 6' 6\"")), 0, "{at}: the same rod");
        }
    }
    assert!(pairs >= 6, "{pairs} columns of rod readings");
}

// A tonne is 1,000 kg / 907.18474 kg of a short ton, as units are defined.
#[test]
fn a_tonne_in_a_job_in_us_units_stays_one_in_the_written_workbook() {
    let tables = [
        (
            "Job",
            "Key,Value\nName,Duck pond\nUnits,US customary\nSoil,loam\n",
        ),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nPond,rectangle,60,40,5,2\n",
        ),
        ("Equipment", "Machine,Rate per hour\nExcavator,120\n"),
        (
            "Lift chart",
            "Machine,Radius (ft),Capacity (tonne)\nExcavator,10,4\n",
        ),
        ("Materials", "Material,Unit,Price\nBoulders,tonne,100\n"),
    ];
    let (job_file, _) = read::from_texts("", &tables).unwrap();
    let first = estimate(job::from_file(&job_file).job.unwrap());
    let scratch = TempDir::new().unwrap();
    let path = scratch.path().join("bid.xlsx");
    std::fs::write(&path, workbook_of(&first)).unwrap();
    let (again, _) = read::open(&path).unwrap();
    let again = job::from_file(&again);
    let errors: Vec<_> = again
        .findings
        .iter()
        .filter(|found| found.blocks())
        .collect();
    assert!(errors.is_empty(), "{errors:?}");
    let again = again.job.unwrap();
    for (ours, theirs) in first.job.tables().iter().zip(again.tables()) {
        assert!(ours.same_as(theirs), "{}", ours.table.name);
    }
}

/// Files of a folder have one decimal mark, whichever of them shows it.
#[test]
fn one_file_of_a_folder_says_what_the_commas_of_another_are() {
    let depth_by = |price: &str| {
        let folder = TempDir::new().unwrap();
        let files = [
            ("Job", "Key,Value\nName,Duck pond\nUnits,metric\nSoil,loam\n".to_owned()),
            ("Basins", "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Standing water (L)\nPond,rectangle,60,40,\"1,250\",2,\"about 1,250 L\"\n".to_owned()),
            ("Materials", format!("Material,Unit,Price\nLiner,m2,\"{price}\"\n")),
        ];
        for (name, text) in files {
            std::fs::write(folder.path().join(format!("{name}.csv")), text).unwrap();
        }
        let (job_file, _) = read::open(folder.path()).unwrap();
        let job = job::from_file(&job_file).job?;
        let basins = job.table::<Basins>();
        let first = |field: Basins| basins.numbers(field.index())[0];
        Some((first(Basins::Depth), first(Basins::StandingWater)))
    };
    // An eighth shows a comma before decimals; so do a half, and a dozen in hundredths.
    assert_eq!(depth_by("0,125"), Some((1.25, 1.25)));
    assert_eq!(depth_by("4,5"), Some((1.25, 1.25)));
    // With decimals after a point, a depth of 1,250 m is refused, as is what nothing tells.
    assert_eq!(depth_by("4.5"), None);
    assert_eq!(depth_by("45"), None);
}
