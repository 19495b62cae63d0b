//! The house: data flows one way, and each room keeps to its work.

use std::collections::BTreeMap;
use std::fs;

use regex::Regex;

use super::common::{files, root};

/// The rooms in the order in which data flows. A room uses only those before it.
const ROOMS: [&str; 11] =
    ["coordinates", "study", "ground", "exact", "analyse", "sheet", "pack", "audit", "run", "cli", "main"];

/// Every source file with its room (empty for the shared pieces) and its code without comments.
fn sources() -> Vec<(String, String, String)> {
    let comment = Regex::new(r"(?m)//.*$").unwrap();
    files(&root().join("src"))
        .into_iter()
        .filter(|path| path.extension().is_some_and(|e| e == "rs"))
        .map(|path| {
            let text = fs::read_to_string(root().join("src").join(&path)).unwrap();
            let name = path.to_string_lossy().replace('\\', "/");
            let first = name.split('/').next().unwrap().trim_end_matches(".rs").to_owned();
            let room = if ROOMS.contains(&first.as_str()) { first } else { String::new() };
            (name, room, comment.replace_all(&text, "").into_owned())
        })
        .collect()
}

#[test]
fn a_room_uses_only_rooms_before_it() {
    let used = Regex::new(r"crate::\{?\s*(\w+)|crate::\{([^}]*)\}").unwrap();
    let order: BTreeMap<&str, usize> = ROOMS.iter().enumerate().map(|(i, room)| (*room, i)).collect();
    let mut wrong = Vec::new();
    for (file, room, code) in sources() {
        let Some(mine) = order.get(room.as_str()) else { continue };
        for found in used.captures_iter(&code) {
            let names = found.get(1).or(found.get(2)).map_or("", |m| m.as_str());
            for name in names.split(|c: char| !c.is_alphanumeric() && c != '_') {
                if order.get(name).is_some_and(|other| other > mine) {
                    wrong.push(format!("{file} uses {name}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn shared_pieces_use_no_room() {
    for (file, room, code) in sources() {
        if !room.is_empty() || file == "lib.rs" {
            continue;
        }
        for room in ROOMS {
            assert!(!code.contains(&format!("crate::{room}::")), "{file} uses {room}");
        }
    }
}

#[test]
fn after_the_wall_only_published_words_are_spoken() {
    // What analyse, sheet and pack may take from `exact`.
    let allowed = [
        "Figure",
        "Published",
        "CellSummary",
        "ReleasedFind",
        "ReleasedPlace",
        "RowState",
        "Details",
        "Tally",
        "Reason",
        "band",
        "Release",
    ];
    let used = Regex::new(r"exact::\{([^}]*)\}|exact::(\w+)").unwrap();
    for (file, room, code) in sources() {
        if !matches!(room.as_str(), "analyse" | "sheet" | "pack" | "audit") {
            continue;
        }
        // A release may be made by hand in a module's own tests; the code above them sees published finds.
        let code = code.split("#[cfg(test)]").next().unwrap();
        for found in used.captures_iter(code) {
            let names = found.get(1).or(found.get(2)).unwrap().as_str();
            for name in names.split(',').map(str::trim).filter(|name| !name.is_empty()) {
                assert!(allowed.contains(&name) && name != "Release", "{file} takes {name} from exact");
            }
        }
        assert!(!code.contains("PrivateStudy"), "{file} sees the private study");
    }
}

#[test]
fn only_the_owner_is_shown_private_things() {
    for (file, _, code) in sources() {
        if code.contains("show_owner") {
            assert!(
                file.starts_with("exact/")
                    || matches!(
                        file.as_str(),
                        "run/check.rs" | "run/new.rs" | "run/audit.rs" | "cli/check.rs"
                    ),
                "{file} opens something private"
            );
        }
    }
}

#[test]
fn what_exact_offers_is_this_list() {
    let code = fs::read_to_string(root().join("src/exact/mod.rs")).unwrap();
    let mut offered: Vec<String> = Regex::new(r"(?m)^pub use [\w:]+::(?:\{([^}]*)\}|(\w+));")
        .unwrap()
        .captures_iter(&code)
        .flat_map(|found| {
            let names = found.get(1).or(found.get(2)).unwrap().as_str();
            names.split(',').map(|name| name.trim().to_owned()).filter(|n| !n.is_empty()).collect::<Vec<_>>()
        })
        .collect();
    offered.sort();
    let expected: Vec<&str> = super::wall::OFFERED.to_vec();
    assert_eq!(offered, expected);
    assert!(!code.contains("pub mod"), "no module of exact is open");
}

#[test]
fn files_stay_short() {
    for (file, _, _) in sources() {
        let lines = fs::read_to_string(root().join("src").join(&file)).unwrap().lines().count();
        assert!(lines <= 500, "{file} has {lines} lines: does it still have one reason to exist?");
    }
    let main = fs::read_to_string(root().join("src/main.rs")).unwrap();
    assert!(main.lines().count() < 60);
}

#[test]
fn unsafe_code_is_forbidden_and_lives_in_one_small_crate() {
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    assert!(lib.contains("#![forbid(unsafe_code)]") && lib.contains("#![warn(missing_docs)]"));
}
