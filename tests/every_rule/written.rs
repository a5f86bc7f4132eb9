//! The rules that are written in the source, whether or not a job makes them.

use std::fs;
use std::path::Path;

use crate::tidy::rust_files;

/// What rules are made with.
const MAKERS: [&str; 4] = ["Step::", "Wording::", "LookUp::", "Limit::"];

/// A rule as it is written.
pub(super) struct WrittenRule {
    pub(super) file: String,
    pub(super) line: u32,
    /// Its name, where it is written beside it.
    pub(super) name: String,
}

/// Every rule that is written outside the heart. A function that says where it is called
/// from is no rule: those who call it are, and only a job knows them.
pub(super) fn rules() -> Vec<WrittenRule> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    for path in rust_files(&root.join("src")) {
        let file = path
            .strip_prefix(root)
            .unwrap()
            .to_str()
            .unwrap()
            .to_owned();
        if !file.starts_with("src/graph/") {
            of_file(&file, &fs::read_to_string(&path).unwrap(), &mut found);
        }
    }
    found
}

fn of_file(file: &str, text: &str, found: &mut Vec<WrittenRule>) {
    let mut told_by_callers = false;
    let lines: Vec<&str> = text.lines().collect();
    for (at, line) in lines.iter().enumerate() {
        match line.trim_end() {
            "#[track_caller]" => told_by_callers = true,
            "}" => told_by_callers = false,
            _ => {}
        }
        if told_by_callers || line.trim_start().starts_with("//") || !makes_a_rule(line) {
            continue;
        }
        let rest = lines[at..].iter().take(3).copied().collect::<String>();
        found.push(WrittenRule {
            file: file.to_owned(),
            line: u32::try_from(at + 1).unwrap(),
            name: rest.split('"').nth(1).unwrap_or_default().to_owned(),
        });
    }
}

/// Whether a line holds a call such as `Step::geometry(` or `Limit::<Basins>::fault(`.
fn makes_a_rule(line: &str) -> bool {
    MAKERS.iter().any(|maker| {
        let Some((before, after)) = line.split_once(maker) else {
            return false;
        };
        let other = before.ends_with(|last: char| last.is_alphanumeric() || last == '_');
        let of_table = after.starts_with('<').then(|| after.split_once(">::"));
        let after = of_table.flatten().map_or(after, |(_, after)| after);
        let call = after.split(|at: char| !(at.is_alphanumeric() || at == '_'));
        let call = call.into_iter().next().unwrap_or_default();
        !other && call.starts_with(char::is_lowercase) && after[call.len()..].starts_with('(')
    })
}
