//! Sheets stay small files and the same bytes, whatever lies on them; each name stands once on a page.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use strew::run::{self, Wanted};
use strew::sheet::{Each, MapKind, outlined};
use strew::study::Giving;

use super::common::{Silent, forget};
use super::map_kinds::{Case, EACH, part_of_demo, wanted};

/// A study of many finds on the demo's ground, from a seed: patches round the demo's own fields.
pub fn many(folder: &Path, rows: usize) -> PathBuf {
    let study =
        part_of_demo(folder, &["many.csv"], |text| text[..text.find("[[fieldwork]]").unwrap()].to_owned());
    const CLASSES: [&str; 10] = [
        "flake",
        "flake",
        "flake",
        "blade",
        "scraper",
        "core",
        "microlith",
        "retouched piece",
        "waste",
        "leaf arrowhead",
    ];
    const PERIODS: [&str; 7] =
        ["", "", "", "Mesolithic", "Early Neolithic", "Late Neolithic to Early Bronze Age", "Bronze Age"];
    let mut seed = 9u64;
    let mut roll = || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as f64 / (1u64 << 31) as f64
    };
    let mut text = String::from("No,Easting,Northing,Class,Period,Count\n");
    let patches: Vec<(f64, f64)> =
        (0..60).map(|_| (568_500.0 + roll() * 7_500.0, 528_500.0 + roll() * 5_000.0)).collect();
    for number in 0..rows {
        let (x, y) = patches[(roll() * 60.0) as usize % 60];
        let (e, n) = (x + 800.0 * (roll() + roll() - 1.0), y + 800.0 * (roll() + roll() - 1.0));
        let class = CLASSES[(roll() * 10.0) as usize % 10];
        let period = PERIODS[(roll() * 7.0) as usize % 7];
        let count = 1 + (roll() * 3.0) as u32;
        writeln!(text, "{number},{e:.0},{n:.0},{class},{period},{count}").unwrap();
    }
    fs::write(folder.join("many.csv"), text).unwrap();
    forget(folder);
    study
}

#[test]
fn a_hundred_thousand_finds_can_be_drawn_as_anything() {
    let folder = tempfile::tempdir().unwrap();
    let case = Case::of(&many(folder.path(), 100_000), "public");
    assert!(case.release.tally.read == 100_000 && case.pieces() > 100_000);
    for kind in [MapKind::Cells, MapKind::Symbols, MapKind::Parishes, MapKind::Density] {
        let sheet = &case.maps(&wanted(kind, None, None), &format!("many-{}", kind.file_name()))[0];
        assert!(sheet.svg.len() < 700_000, "{kind:?}: {}", sheet.svg.len());
    }
    for each in EACH {
        let what = format!("many-{}", each.name());
        let sheets = case.maps(&wanted(MapKind::Cells, Some(each), None), &what);
        // Some nine thousand squares on a sheet.
        let largest = sheets.iter().map(|sheet| sheet.svg.len()).max().unwrap_or(0);
        assert!(largest < 500_000, "{what}: {largest}");
    }
}

#[test]
fn every_sheet_of_the_demo_is_a_small_file() {
    for audience in ["public", "office"] {
        let case = Case::demo(audience).with(|study| {
            study.agreement.give.extend([Giving::Maps, Giving::Density, Giving::Concentrations]);
            study.concentrations.resamples = 0;
        });
        let pack = run::pack(&case.opened.public, &case.opened.ground, &case.release, &Silent).unwrap();
        let sheets: Vec<_> = pack
            .files()
            .iter()
            .filter(|(name, _)| name.starts_with("maps/") && name.ends_with(".svg"))
            .collect();
        assert!(sheets.len() >= 8, "{}", sheets.len());
        for (name, bytes) in sheets {
            // In a pack the text is outlined.
            assert!(bytes.len() < 300_000, "{audience} {name}: {} bytes", bytes.len());
        }
        for style in ["colour", "ink", "contrast"] {
            for kind in [MapKind::Cells, MapKind::Symbols, MapKind::Parishes] {
                let wanted = Wanted { style: Some(style.into()), ..wanted(kind, None, None) };
                let sheet = &case.maps(&wanted, &format!("size-{audience}-{style}-{}", kind.file_name()))[0];
                let plain = sheet.svg.len();
                assert!(plain < 300_000 && outlined(sheet).unwrap().len() < 300_000, "{style} {kind:?}");
            }
        }
    }
}

#[test]
fn small_maps_are_the_same_bytes_each_time() {
    let case = Case::demo("public");
    for each in EACH {
        let wanted = wanted(MapKind::Symbols, Some(each), None);
        assert_eq!(case.maps(&wanted, "again"), case.maps(&wanted, "again"));
    }
}

#[test]
fn ids_stand_once_on_a_page() {
    let case = Case::demo("public");
    let sheets = case.maps(&wanted(MapKind::Cells, Some(Each::Period), None), "ids");
    let ids = regex::Regex::new(r#" id="([^"]*)""#).unwrap();
    for text in [sheets[0].svg.clone(), outlined(&sheets[0]).unwrap()] {
        let mut found: Vec<&str> = ids.captures_iter(&text).map(|c| c.get(1).unwrap().as_str()).collect();
        found.retain(|id| id.contains("map-"));
        let count = found.len();
        found.sort_unstable();
        found.dedup();
        assert_eq!(found.len(), count);
        assert!(count > 20);
    }
}
