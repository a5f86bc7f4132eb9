//! The shape of the source: headers, sizes, the direction of imports, and a map that
//! tells the truth.

use std::fs;
use std::path::{Path, PathBuf};

/// The stages in the order of the data: a module uses those before it, never one after.
const ORDER: &[&str] = &[
    "place",
    "units",
    "money",
    "sources",
    "diagnostic",
    "read",
    "graph",
    "tables",
    "parameters",
    "job",
    "takeoff",
    "pricing",
    "labour",
    "bid",
    "estimate",
    "write",
    "cli",
];

/// Stages that may touch files, clock or terminal.
const BORDERS: &[&str] = &["read", "write", "cli"];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

pub(crate) fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(rust_files(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn sources() -> Vec<(String, String)> {
    let src = root().join("src");
    let name = |path: &Path| {
        path.strip_prefix(&src)
            .unwrap()
            .to_string_lossy()
            .into_owned()
    };
    rust_files(&src)
        .iter()
        .map(|path| (name(path), fs::read_to_string(path).unwrap()))
        .collect()
}

fn stage(file: &str) -> &str {
    file.split('/').next().unwrap().trim_end_matches(".rs")
}

#[test]
fn every_file_says_what_it_is_for() {
    for (name, text) in sources() {
        assert!(text.starts_with("//! "), "{name} has no header");
    }
}

#[test]
fn no_file_is_longer_than_four_hundred_lines() {
    for (name, text) in sources() {
        let lines = text.lines().count();
        assert!(lines <= 400, "{name} has {lines} lines");
    }
}

#[test]
fn imports_go_down_the_order_of_the_data() {
    for (name, text) in sources() {
        let Some(own) = ORDER.iter().position(|known| *known == stage(&name)) else {
            continue;
        };
        for (other, later) in ORDER.iter().enumerate().filter(|(other, _)| *other > own) {
            let used = text.lines().find(|line| {
                !line.trim_start().starts_with("//") && line.contains(&format!("crate::{later}::"))
            });
            assert!(
                used.is_none(),
                "{name} (stage {own}) uses {later} (stage {other}): {}",
                used.unwrap_or_default()
            );
        }
    }
}

#[test]
fn only_the_borders_touch_files_clock_and_terminal() {
    for (name, text) in sources() {
        if BORDERS.contains(&stage(&name)) || name == "main.rs" {
            continue;
        }
        for forbidden in [
            "std::fs",
            "std::io",
            "std::time",
            "std::env",
            "std::process",
            "println!",
            "HashMap",
            "HashSet",
        ] {
            assert!(!text.contains(forbidden), "{name} holds {forbidden}");
        }
    }
}

/// The map of the source, from the first line of every file: one line a file, folder by
/// folder in the order of the data.
fn map() -> String {
    let mut files = sources();
    files.sort_by_key(|(name, _)| {
        let place = ORDER.iter().position(|known| *known == stage(name));
        // A folder's own file stands before the others.
        let within = name.replace("/mod.rs", "").replace(".rs", "");
        (place.map_or(0, |place| place + 1), within)
    });
    let mut map = String::new();
    for (name, text) in files {
        let said: Vec<&str> = text
            .lines()
            .map_while(|line| line.strip_prefix("//! "))
            .collect();
        let said = said.join(" ");
        let said = said.split_once(". ").map_or(&*said, |(first, _)| first);
        let path = format!("src/{name}");
        let said = said.trim_end_matches('.');
        map.extend([format!("{path:36} {said}\n")]);
    }
    map
}

/// The map in the contributors' guide is made from the files; `GROUNDSHEET_ACCEPT=1` writes it.
#[test]
fn the_contributors_map_is_that_of_the_source() {
    let path = root().join("DEVELOPERS.md");
    let guide = fs::read_to_string(&path).unwrap();
    let (before, rest) = guide.split_once("```text\n").unwrap();
    let (mapped, after) = rest.split_once("```").unwrap();
    if mapped != map() && std::env::var_os("GROUNDSHEET_ACCEPT").is_some() {
        fs::write(&path, format!("{before}```text\n{}```{after}", map())).unwrap();
    } else {
        assert_eq!(
            mapped,
            map(),
            "GROUNDSHEET_ACCEPT=1 cargo test writes the map"
        );
    }
}

/// The damaged files that the contributors' guide lists by format are those that are tested.
#[test]
fn the_damaged_files_of_the_guide_are_tests() {
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let (_, list) = guide
        .split_once("\n## Files that ended other readers")
        .unwrap();
    let (list, _) = list.split_once("\n## ").unwrap();
    let rows = list.lines().filter_map(|line| line.split_once("| `"));
    let listed: Vec<&str> = rows
        .filter_map(|(_, rest)| Some(rest.split_once('`')?.0))
        .collect();
    let tests = fs::read_to_string(root().join("src/read/tests/damaged.rs")).unwrap();
    let tested: Vec<&str> = tests
        .split("#[test]\nfn ")
        .skip(1)
        .filter_map(|test| Some(test.split_once('(')?.0))
        .collect();
    assert!(tested.len() >= 23, "{} are tested", tested.len());
    assert_eq!(listed, tested);
}

#[test]
fn nothing_is_left_open() {
    for folder in ["src", "tests", "benches"] {
        for path in rust_files(&root().join(folder)) {
            let text = fs::read_to_string(&path).unwrap();
            for word in [
                concat!("TO", "DO"),
                concat!("FIX", "ME"),
                concat!("to", "do!("),
                concat!("unimple", "mented!("),
            ] {
                assert!(!text.contains(word), "{} holds {word}", path.display());
            }
        }
    }
}
