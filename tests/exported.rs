//! Results for programs: the export, its schema, completions and the manual page.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use groundsheet::bid::amounts::AMOUNT;
use groundsheet::estimate::Estimate;
use groundsheet::pricing::costs::QUANTITY;
use groundsheet::tables::Lines;
use groundsheet::write::pages::{self, BlockRecord, ExportRecord, Value, ValueKind};
use groundsheet::write::{self, records};
use serde_json::json;
use tempfile::TempDir;

use crate::support::{SAMPLE_JOBS, US, estimate_of, figure, sample_job, sample_path};

fn run(arguments: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_groundsheet"));
    program.args(arguments).output().unwrap()
}

fn printed(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    String::from_utf8(output.stdout).unwrap()
}

/// Every field of the schema, and no other: so that none goes without a description.
fn strict(schema: &mut serde_json::Value) {
    match schema {
        serde_json::Value::Object(fields) => {
            if fields.contains_key("properties") {
                fields.insert("additionalProperties".to_owned(), json!(false));
            }
            fields.values_mut().for_each(strict);
        }
        serde_json::Value::Array(items) => items.iter_mut().for_each(strict),
        _ => {}
    }
}

/// A validator of the whole schema, or of one of its definitions.
fn validator(definition: &str) -> jsonschema::Validator {
    let mut schema = write::schema();
    strict(&mut schema);
    schema["$ref"] = json!(format!("#/$defs/{definition}"));
    jsonschema::validator_for(&schema).unwrap()
}

#[track_caller]
fn holds(validator: &jsonschema::Validator, value: &serde_json::Value, what: &str) {
    let faults: Vec<String> = validator
        .iter_errors(value)
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{what}: {faults:#?}");
}

fn block<'e>(export: &'e ExportRecord, file: &str) -> &'e BlockRecord {
    let mut blocks = export.pages.iter().flat_map(|page| &page.blocks);
    blocks
        .find(|block| block.file == file)
        .unwrap_or_else(|| panic!("no {file}"))
}

#[test]
fn results_of_every_sample_job_are_as_the_schema_says() {
    let whole = validator("Export");
    for name in SAMPLE_JOBS {
        for working in [false, true] {
            let export = pages::export(&sample_job(name), &[], working);
            let text = serde_json::to_string(&export).unwrap();
            let value = serde_json::from_str(&text).unwrap();
            holds(&whole, &value, name);
        }
    }
}

#[test]
fn what_commands_print_is_as_their_definitions_say() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("bid.xlsx");
    let job = sample_path("school-pond");
    let (job, out) = (job.to_str().unwrap(), out.to_str().unwrap());
    let broken = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors/negative-depth");
    let broken = broken.to_str().unwrap();
    let rows: [(&str, &[&str]); 8] = [
        ("TakeOff", &["takeoff", job]),
        ("Check", &["check", job]),
        ("Checks", &["check", job, broken]),
        ("Bid", &["bid", job, "-o", out]),
        ("Comparison", &["compare", job]),
        ("Explain", &["explain", job, "bid", "--depth", "20"]),
        ("Check", &["takeoff", broken]),
        ("Check", &["explain", broken, "bid"]),
    ];
    for (definition, command) in rows {
        let output = run(&[command, &["--format", "json"]].concat());
        let value: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        assert!(!value.is_null());
        holds(&validator(definition), &value, definition);
    }
    let text = printed(&["schema"]);
    let schema: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(schema, write::schema());
}

#[test]
fn a_broken_document_is_refused() {
    let whole = validator("Export");
    let export = pages::export(&sample_job("field-notes"), &[], false);
    let good = serde_json::to_value(&export).unwrap();
    holds(&whole, &good, "field-notes");
    let broken: [(&str, serde_json::Value); 6] = [
        ("/bid/bid", json!(12.5)),
        ("/bid/status", json!("perhaps")),
        ("/units", json!("cubits")),
        ("/pages/0/blocks/0/rows", json!([[true]])),
        ("/pages/0/blocks/0/columns/0/kind", json!("colour")),
        ("/bid/lines/0/quantity", json!("12")),
    ];
    for (at, value) in broken {
        let mut bad = good.clone();
        *bad.pointer_mut(at).unwrap() = value;
        assert!(!whole.is_valid(&bad), "{at}");
    }
    let mut without = good.clone();
    without.as_object_mut().unwrap().remove("pages");
    assert!(!whole.is_valid(&without));
    let mut more = good;
    more["surprise"] = json!(1);
    assert!(!whole.is_valid(&more));
}

/// A value as a spreadsheet program takes it from CSV.
fn as_csv(value: &Value, kind: ValueKind) -> String {
    match value {
        Value::Number(number) => format!("{number}"),
        Value::Text(text) if kind == ValueKind::Words => records::harmless(text),
        Value::Text(text) => text.clone(),
        Value::Blank => String::new(),
    }
}

#[test]
fn csv_files_hold_what_the_json_holds_and_numbers_come_back_exactly() {
    for name in SAMPLE_JOBS {
        let export = pages::export(&sample_job(name), &[], true);
        let files = pages::csv_files(&export);
        let names: BTreeSet<&String> = files.iter().map(|(name, _)| name).collect();
        assert_eq!(names.len(), files.len(), "two files have one name");
        let json = serde_json::to_string(&export).unwrap();
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        let in_json = json["pages"].as_array().unwrap().iter();
        let in_json = in_json.flat_map(|page| page["blocks"].as_array().unwrap());
        let blocks = export.pages.iter().flat_map(|page| &page.blocks);
        for ((block, (file, text)), json) in blocks.zip(&files).zip(in_json) {
            assert_eq!(block.file, *file);
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let written: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
            for (at, row) in block.rows.iter().enumerate() {
                for (column, value) in row.iter().enumerate() {
                    let kind = block.columns[column].kind;
                    let cell = if block.upright {
                        &written[column][1]
                    } else {
                        &written[at][column]
                    };
                    assert_eq!(cell, as_csv(value, kind), "{name} {file}");
                    assert_ne!(cell, "-0", "{name} {file}");
                    if let Value::Number(number) = value {
                        let read: f64 = cell.parse().unwrap();
                        assert_eq!(read.to_bits(), number.to_bits(), "{name} {file}");
                        let read = json["rows"][at][column].as_f64().unwrap();
                        assert_eq!(read.to_bits(), number.to_bits(), "{name} {file}");
                    }
                }
            }
        }
    }
}

#[test]
fn the_export_says_what_the_engine_works_out() {
    let job = sample_job("lily-tank");
    let export = pages::export(&job, &[], false);
    let schedule = block(&export, "bid-schedule.csv");
    let at = |name: &str| {
        let mut columns = schedule.columns.iter();
        columns.position(|column| column.name == name).unwrap()
    };
    // Imported fill has its lines, and they are not told of where none is brought.
    let told: Vec<usize> = job.lines_told().collect();
    assert_eq!(told.len() + 2, job.rows::<Lines>());
    assert_eq!(schedule.rows.len(), told.len());
    for (row, cells) in told.into_iter().zip(&schedule.rows) {
        let quantity = Value::Number(job.number(QUANTITY, row));
        assert_eq!(cells[at("Quantity")], quantity);
        let amount = format!("{:.2}", job.number(AMOUNT, row));
        assert_eq!(cells[at("Amount")], Value::Text(amount));
    }
    let total = format!("{:.2}", job.bid());
    assert_eq!(export.bid.bid.to_string(), total);
    assert_eq!(export.units, "metric");
}

fn small_job() -> Estimate {
    let items = "Item,Section,Description,Unit,Length (ft),Width (ft),Price\n\
        A-1,Lining,=HYPERLINK(\"x\"),ft2,10,4,0.0325\n";
    let job = format!("{US}Currency,€\nBid date,2026-03-01\n");
    estimate_of(&[("Job", &job), ("Other items", items)])
}

#[test]
fn money_is_text_days_are_iso_blanks_are_null_and_words_are_harmless() {
    let export = pages::export(&small_job(), &[], false);
    let job = block(&export, "bid-job.csv");
    let of = |name: &str| {
        let column = job.columns.iter().position(|column| column.name == name);
        &job.rows[0][column.unwrap()]
    };
    assert_eq!(*of("Bid date"), Value::Text("2026-03-01".to_owned()));
    assert_eq!(*of("Client"), Value::Blank);
    // 10 ft × 4 ft at 0.0325 is 1.30.
    let sections = block(&export, "bid-sections.csv");
    assert_eq!(sections.rows[0][1], Value::Text("1.30".to_owned()));
    let schedule = pages::csv_files(&export);
    let schedule = schedule.iter().find(|(name, _)| name == "bid-schedule.csv");
    let text = &schedule.unwrap().1;
    assert!(text.contains("'=HYPERLINK"), "{text}");
    assert!(text.contains("Amount (€)"), "{text}");
    assert_eq!(export.bid.currency, "€");
}

fn names_in(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    entries
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect()
}

#[test]
fn an_export_is_replaced_whole_and_nothing_else_ever_is() {
    let around = TempDir::new().unwrap();
    let folder = around.path().join("results");
    let out = folder.to_str().unwrap();
    let job = |name: &str| sample_path(name).to_str().unwrap().to_owned();
    let export = |name: &str| run(&["export", &job(name), "-o", out]).status.code();
    assert_eq!(export("school-pond"), Some(0));
    let large = names_in(&folder);
    assert!(large.contains("results.json") && large.contains("schema.json"));
    assert_eq!(export("field-notes"), Some(0));
    let small = names_in(&folder);
    assert!(!small.is_superset(&large), "a stale table would mislead");
    let value: serde_json::Value =
        serde_json::from_slice(&fs::read(folder.join("results.json")).unwrap()).unwrap();
    holds(&validator("Export"), &value, "the file");
    let named = value["pages"].as_array().unwrap().iter();
    let named = named.flat_map(|page| page["blocks"].as_array().unwrap());
    let mut named: BTreeSet<String> = named
        .map(|block| block["file"].as_str().unwrap().to_owned())
        .collect();
    named.extend(["results.json", "schema.json", "files.json"].map(str::to_owned));
    assert_eq!(named, small);
    assert_eq!(
        names_in(around.path()).len(),
        1,
        "nothing is left beside it"
    );

    fs::write(folder.join("notes.txt"), "mine").unwrap();
    let refused = run(&["export", &job("school-pond"), "-o", out]);
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8(refused.stderr).unwrap();
    assert!(said.contains("the folder holds notes.txt"), "{said}");
    assert_eq!(fs::read(folder.join("notes.txt")).unwrap(), b"mine");
}

#[test]
fn an_export_never_goes_into_the_folder_of_its_job() {
    let around = TempDir::new().unwrap();
    let job = around.path().join("job");
    fs::create_dir(&job).unwrap();
    for entry in fs::read_dir(sample_path("field-notes")).unwrap() {
        let entry = entry.unwrap();
        fs::copy(entry.path(), job.join(entry.file_name())).unwrap();
    }
    let before = names_in(&job);
    let out = job.to_str().unwrap();
    for input in [job.clone(), job.join("Basins.csv")] {
        let refused = run(&["export", input.to_str().unwrap(), "-o", out]);
        assert_eq!(refused.status.code(), Some(2));
        let said = String::from_utf8(refused.stderr).unwrap();
        assert!(said.contains("error[output-is-input]"), "{said}");
    }
    assert_eq!(names_in(&job), before);
    let inside = job.join("results");
    let done = run(&["export", out, "-o", inside.to_str().unwrap()]);
    assert_eq!(done.status.code(), Some(0));
    assert_eq!(run(&["check", out]).status.code(), Some(0));
}

#[test]
fn the_manual_page_names_every_command_and_every_option() {
    let manual = printed(&["manual"]).replace("\\-", "-");
    assert!(manual.contains("Exit codes"));
    let help = printed(&["--help"]);
    let commands: Vec<&str> = help
        .lines()
        .skip_while(|line| !line.starts_with("Commands:"))
        .skip(1)
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.strip_prefix("  ")?.split_whitespace().next())
        .filter(|name| *name != "help")
        .collect();
    assert!(commands.len() >= 9, "{help}");
    for command in commands {
        let title = format!("\n.SH {}\n", command.to_uppercase());
        let section = manual.split_once(&title);
        let (_, section) = section.unwrap_or_else(|| panic!("no section {command}"));
        let section = section.split("\n.SH ").next().unwrap();
        let options = printed(&[command, "--help"]);
        let mut found = 0;
        for word in options
            .split_whitespace()
            .filter(|word| word.starts_with("--"))
        {
            let option = word.trim_end_matches([',', ')', '.']);
            assert!(section.contains(option), "{command} {option}");
            found += 1;
        }
        assert!(found > 0, "{command} has --help at least");
    }
}

#[test]
fn completions_name_the_commands_in_every_shell() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = printed(&["completions", shell]);
        for word in ["takeoff", "export", "completions", "--format", "--working"] {
            let word = if shell == "fish" {
                word.trim_start_matches('-')
            } else {
                word
            };
            assert!(script.contains(word), "{shell} {word}");
        }
    }
}

#[cfg(unix)]
#[test]
fn completions_for_bash_are_a_script_that_bash_reads() {
    let folder = TempDir::new().unwrap();
    let read = |text: &str| {
        let file = folder.path().join("script");
        fs::write(&file, text).unwrap();
        let bash = Command::new("bash").arg("-n").arg(file).output().unwrap();
        bash.status.success()
    };
    let script = printed(&["completions", "bash"]);
    assert!(read(&script));
    assert!(
        !read(&format!("{script}\nif")),
        "bash refuses what is broken"
    );
}

#[test]
fn explain_finds_names_with_slashes_and_knows_the_currency() {
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
        Upper/lower pool,rectangle,30,20,2,1\n";
    let items = "Item,Section,Description,Unit,Times,Price\nPipe 1/2,Water,Pipe,ea,4,3\n";
    let job = format!("{US}Currency,€\n");
    let job = estimate_of(&[("Job", &job), ("Basins", basins), ("Other items", items)]);
    let volume = figure(
        &job,
        ("Basins", "Upper/lower pool", "finished volume"),
        groundsheet::units::FT3,
    );
    // 2/6 (30 × 20 + 4 × 28 × 18 + 26 × 16) = 3,032/3.
    assert!((volume - 3_032.0 / 3.0).abs() < 1e-9, "{volume}");
    for name in [
        "Basins/finished volume/Upper/lower pool",
        "basins / finished volume / upper/lower pool",
        "Dig: Upper/lower pool",
        "Pipe 1/2",
    ] {
        assert!(write::explain(&job, name, 2).is_some(), "{name}");
    }
    assert!(write::explain(&job, "Basins/finished volume/Upper", 2).is_none());
    let tree = write::explain(&job, "Pipe 1/2", 6).unwrap();
    assert!(tree.contains("12.00 €"), "{tree}");
    assert!(!tree.contains('$'), "{tree}");
}
