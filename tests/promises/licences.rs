//! Whatever is inside the binary and asks for a notice has it, in the binary.

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;
use strew::run::licences::licences;

use super::common::{root, run, said};

/// The packages that the program's normal dependencies reach, but for those of this tree, as "name version".
fn packages() -> BTreeSet<String> {
    // As the lists are gathered: see docs/licences/gather.py.
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .args(["--filter-platform", "x86_64-unknown-linux-gnu"])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", said(&output).1);
    let metadata: Value = serde_json::from_slice(&output.stdout).unwrap();
    let list = |value: &Value| value.as_array().unwrap().clone();
    let id = |value: &Value| value.as_str().unwrap().to_owned();
    let own: BTreeSet<String> = list(&metadata["workspace_members"]).iter().map(id).collect();
    let mut names = BTreeMap::new();
    let mut waiting = Vec::new();
    for package in list(&metadata["packages"]) {
        let name = id(&package["name"]);
        if name == "strew" {
            waiting.push(id(&package["id"]));
        }
        names.insert(id(&package["id"]), format!("{name} {}", id(&package["version"])));
    }
    let nodes: BTreeMap<String, Vec<Value>> = list(&metadata["resolve"]["nodes"])
        .iter()
        .map(|node| (id(&node["id"]), list(&node["deps"])))
        .collect();
    let mut seen = BTreeSet::new();
    while let Some(next) = waiting.pop() {
        if seen.insert(next.clone()) {
            let normal = nodes[&next].iter().filter(|dependency| {
                list(&dependency["dep_kinds"]).iter().any(|kind| kind["kind"].is_null())
            });
            waiting.extend(normal.map(|dependency| id(&dependency["pkg"])));
        }
    }
    seen.difference(&own).map(|id| names[id].clone()).collect()
}

#[test]
fn every_package_has_its_notice() {
    let groups = licences().unwrap();
    let crates = groups.iter().find(|group| group.heading == "licences-crates").unwrap();
    let listed: BTreeSet<String> = crates.parts.iter().map(|part| part.name.clone()).collect();
    let packages = packages();
    assert!(packages.len() > 300);
    let lacking: Vec<_> = packages.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&packages).collect();
    assert!(lacking.is_empty() && gone.is_empty(), "run make licences: {lacking:?} lack, {gone:?} are gone");
    for part in &crates.parts {
        // Its parts are in the list of libraries; a waiver asks for nothing.
        let without = part.licence == "see libraries" || part.licence.contains("CC0");
        assert!(!part.texts.is_empty() || without, "{} has no text", part.name);
        // The shortest licences have their terms in the text, and whose they are beside it.
        if part.licence == "MIT" {
            let text = part.texts.iter().map(|number| crates.texts[number - 1].as_str()).collect::<String>();
            assert!(text.contains("Permission is hereby granted"), "{}", part.name);
        }
    }
}

#[test]
fn everything_is_printed_and_listed() {
    let (text, complaint) = said(&run(&["licences"]));
    assert_eq!(complaint, "");
    for needed in [
        "Ordnance Survey and the Ministry of Defence",
        "Licence Ouverte",
        "Bitstream Vera",
        "SIL OPEN FONT LICENSE",
        "GDAL 3.12.1",
        "PROJ 9.6.2",
        "Gerald Evenden",
        "SQLite: public domain",
        "Independent JPEG Group",
        "Jean-loup Gailly",
        "Sam Leffler",
        "serde ",
        "Mozilla Public License",
    ] {
        assert!(text.contains(needed), "{needed}");
    }
    let (list, _) = said(&run(&["licences", "--list"]));
    assert!(list.lines().count() < text.lines().count() / 2 && list.contains("PROJ 9.6.2: MIT"));
    let (french, _) = said(&run(&["licences", "--list", "--language", "fr"]));
    assert!(french.contains("Bibliothèques") && french.contains("PROJ 9.6.2: MIT"));
    let (lines, _) = said(&run(&["licences", "--json"]));
    let objects: Vec<Value> = lines.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(objects.len(), licences().unwrap().iter().map(|group| group.parts.len()).sum::<usize>());
    let proj = objects.iter().find(|object| object["name"] == "PROJ 9.6.2").unwrap();
    assert!(proj["texts"][0].as_str().unwrap().contains("Permission is hereby granted"));
}
