//! The audit finds every planted place and word, names file and kind and no value, confirms no guess, and has no
//! false alarm on clean packs.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use lopdf::dictionary;
use strew::run::{Audited, audit};

use super::audit_plants::{Plant, Spot, places, zip};
use super::common::{Silent, demo, files, forget, python, run, said};
use super::factoring::{random_register, write_ground};

/// Two finds that the plants tell of, with words that no audience but the office is shown.
pub const EASTING: f64 = 556_341.0;
pub const NORTHING: f64 = 543_127.0;
const OWN_ROW: &str = "HK 4711,,556341,543127,,,Eastwell,flake,Mesolithic,3,,ploughland,,under the third hawthorn of the lynchet,Aurelia Pennyfeather,2019-04-02,flint,Gorsewater Farm\n";

/// A study with a register drawn at random and one row of our own.
pub fn study(language: &str, seed: u64, rows: usize) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    write_ground(folder.path(), language);
    fs::write(folder.path().join("finds.csv"), random_register(seed, rows) + OWN_ROW).unwrap();
    let study = folder.path().join("study.toml");
    (folder, study)
}

/// Its pack for one audience.
fn pack(study: &Path, audience: &str, into: &Path) {
    let output = run(&[
        "report",
        study.to_str().unwrap(),
        "--for",
        audience,
        "--out",
        into.to_str().unwrap(),
        "--quiet",
    ]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
}

fn look(pack: &Path, study: &Path) -> Audited {
    audit(pack, study, None, &Silent).unwrap()
}

/// Writes a plant into a pack.
fn put(folder: &Path, plant: &Plant) {
    let target = folder.join(&plant.path);
    fs::create_dir_all(target.parent().unwrap()).unwrap();
    fs::write(target, &plant.bytes).unwrap();
}

/// Kinds found in a file, by either judge.
fn kinds(audited: &Audited, file: &str) -> BTreeSet<String> {
    let of = |found: &strew::run::Found| {
        (found.file == file || found.file.starts_with(&format!("{file} > "))).then(|| found.kind.clone())
    };
    audited.finer.iter().chain(&audited.exact).filter_map(of).collect()
}

#[test]
fn every_planted_place_is_found() {
    let (_folder, study) = study("", 3, 40);
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("pack");
    pack(&study, "public", &folder);
    let clean = files(&folder).len();
    let spot = Spot::at(EASTING, NORTHING);
    let plants = places(&spot);
    assert!(plants.len() >= 80, "{}", plants.len());
    for plant in &plants {
        put(&folder, plant);
    }
    let audited = look(&folder, &study);
    let mut missed = Vec::new();
    for plant in &plants {
        // A name that tells the place itself is masked.
        let found: BTreeSet<String> = if plant.path.starts_with("names/") {
            audited
                .finer
                .iter()
                .chain(&audited.exact)
                .filter(|f| f.file.contains('•'))
                .map(|f| f.kind.clone())
                .collect()
        } else {
            kinds(&audited, &plant.path)
        };
        if !found.iter().any(|kind| plant.kinds.contains(&kind.as_str())) {
            missed.push(format!("{}: {found:?}", plant.path));
        }
    }
    assert!(missed.is_empty(), "{} missed: {missed:#?}", missed.len());
    // The owner is told that each is his, not a place by chance.
    let exact: BTreeSet<&str> =
        audited.exact.iter().map(|found| found.file.split(" > ").next().unwrap()).collect();
    let unconfirmed: Vec<&str> = plants
        .iter()
        .map(|plant| plant.path.as_str())
        .filter(|path| !path.starts_with("names/") && !exact.contains(path))
        .collect();
    // A quarter of a metre off, on purpose: the corner of a picture is told by the other judge.
    assert_eq!(unconfirmed, ["layers-2/corner.tif"], "not confirmed");
    // No clean file is told, and each planted one is no file of the pack.
    let planted = |file: &str| file.contains('•') || plants.iter().any(|plant| file.starts_with(&plant.path));
    for found in audited.finer.iter().chain(&audited.exact) {
        assert!(planted(&found.file), "a false alarm: {found:?}");
    }
    let rebuilt = audited.rebuilt.as_ref().unwrap();
    assert!(rebuilt.differs.is_empty() && rebuilt.missing.is_empty(), "{rebuilt:?}");
    assert_eq!(rebuilt.extra.len(), plants.len());
    assert_eq!(audited.files, clean + plants.len());
    // No value stands in what is said.
    let told = serde_json::to_string(&audited).unwrap();
    for value in [
        "556341",
        "543127",
        "56341",
        "43127",
        &format!("{:.4}", spot.latitude),
        &format!("{:.4}", spot.longitude),
    ] {
        assert!(!told.contains(value), "{value} is told");
    }
}

#[test]
fn the_registers_own_words_are_found_and_not_told() {
    let (_folder, study) = study("", 4, 30);
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("pack");
    pack(&study, "public", &folder);
    for (name, text) in [
        ("number.txt", "as hk 4711, in the drawer"),
        ("finder.html", "<p>by <b>Aurelia Pennyfeather</b></p>"),
        ("landowner.csv", "a,b\n1,Gorsewater Farm\n"),
        ("note.json", "{\"n\":\"Under the third hawthorn of the lynchet\"}"),
        ("finder-turned.txt", "rehtaefynneP ailerua 1"),
    ] {
        fs::write(folder.join(name), text).unwrap();
    }
    fs::write(folder.join("note.zip"), zip("a.txt", b"under the third hawthorn of the lynchet", "")).unwrap();
    // Words beside them are none.
    fs::write(
        folder.join("other.txt"),
        "HK 47112, Aurelia Pennyfeathers, Gorsewater Farmhouse, under the hawthorn",
    )
    .unwrap();
    let audited = look(&folder, &study);
    let exact = |file: &str| -> Vec<&str> {
        audited
            .exact
            .iter()
            .filter(|found| found.file.starts_with(file))
            .map(|found| found.kind.as_str())
            .collect()
    };
    assert_eq!(exact("number.txt"), ["number"]);
    assert_eq!(exact("finder.html"), ["finder",]);
    assert_eq!(exact("landowner.csv"), ["landowner"]);
    assert_eq!(exact("note.json"), ["note"]);
    assert_eq!(exact("note.zip"), ["note"]);
    assert_eq!(exact("finder-turned.txt"), ["finder"]);
    assert!(exact("other.txt").is_empty(), "{:?}", exact("other.txt"));
    let told = serde_json::to_string(&audited).unwrap();
    for value in ["Pennyfeather", "Gorsewater", "hawthorn", "4711"] {
        assert!(!told.contains(value), "{value} is told");
    }
}

#[test]
fn guesses_that_are_near_are_not_confirmed() {
    let (_folder, study) = study("", 5, 10);
    let out = tempfile::tempdir().unwrap();
    let mut guesses = 0;
    for (east, north) in [(3.0, 0.0), (0.0, -4.0), (-7.0, 11.0), (20.0, 20.0), (-2.0, 2.0)] {
        for plant in places(&Spot::at(EASTING + east, NORTHING + north)) {
            // Squares of 10 m and figures of four decimals hold the find as well as the guess.
            let coarse = ["eight", "label", "four"].iter().any(|word| plant.path.contains(word));
            if !coarse && !plant.path.starts_with("names/") {
                guesses += 1;
                put(&out.path().join(format!("{guesses}")), &plant);
            }
        }
    }
    let audited = look(out.path(), &study);
    assert!(guesses > 300 && audited.finer.len() > 200, "{guesses} {}", audited.finer.len());
    assert!(audited.exact.is_empty(), "{:#?}", audited.exact);
    assert!(audited.rebuilt.is_none());
}

#[test]
fn clean_packs_give_no_alarm() {
    for language in ["", "fr"] {
        let (_folder, study) = study(language, 6, 60);
        for audience in ["public", "society", "office", "farm"] {
            let out = tempfile::tempdir().unwrap();
            let folder = out.path().join("pack");
            pack(&study, audience, &folder);
            let audited = look(&folder, &study);
            assert!(audited.is_clean(), "{audience} {language}: {audited:#?}");
        }
    }
}

/// Two hundred registers drawn at random, in packs of tables and layers (sheets are alike, and slow to draw).
#[test]
fn two_hundred_random_packs_give_no_alarm() {
    let (folder, study) = study("", 0, 5);
    let text = fs::read_to_string(&study).unwrap();
    let text = text.replace(
        "give = [\"maps\", \"tables\", \"report\", \"layers\", \"density\", \"concentrations\"]",
        "give = [\"tables\", \"layers\", \"density\", \"concentrations\"]",
    );
    let text = text.replace(
        "give = [\"tables\", \"report\", \"layers\", \"finds\"]",
        "give = [\"tables\", \"layers\", \"finds\"]",
    );
    fs::write(&study, text).unwrap();
    for seed in 0..200 {
        fs::write(folder.path().join("finds.csv"), random_register(1000 + seed, 60) + OWN_ROW).unwrap();
        let audience = ["public", "office", "farm"][seed as usize % 3];
        let out = tempfile::tempdir().unwrap();
        let (public, ground, release) = opened(&study, audience);
        let pack = strew::run::pack(&public, &ground, &release, &Silent).unwrap();
        pack.write(&out.path().join("pack")).unwrap();
        let audited = look(&out.path().join("pack"), &study);
        assert!(audited.is_clean(), "{audience}, seed {seed}: {audited:#?}");
    }
}

fn opened(
    study: &Path,
    audience: &str,
) -> (strew::study::PublicStudy, strew::ground::Ground, strew::exact::Release) {
    forget(study.parent().unwrap());
    let opened = strew::run::open(study, audience, &Silent).unwrap();
    let release = strew::run::release(&opened, &Silent).unwrap();
    (opened.public, opened.ground, release)
}

#[test]
fn the_demos_packs_give_no_alarm() {
    for audience in ["public", "members", "office", "ulverhay-grange"] {
        let out = tempfile::tempdir().unwrap();
        let folder = out.path().join("pack");
        pack(&demo(), audience, &folder);
        let audited = look(&folder, &demo());
        assert!(audited.is_clean(), "{audience}: {audited:#?}");
    }
}

#[test]
fn changed_lost_and_added_files_are_told() {
    let (_folder, study) = study("", 7, 20);
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("pack");
    pack(&study, "society", &folder);
    let mut table = fs::read(folder.join("README.txt")).unwrap();
    table.push(b'\n');
    fs::write(folder.join("README.txt"), table).unwrap();
    fs::remove_file(folder.join("report.pdf")).unwrap();
    fs::write(folder.join("more.txt"), "nothing").unwrap();
    let rebuilt = look(&folder, &study).rebuilt.unwrap();
    assert_eq!(rebuilt.differs, ["README.txt"]);
    assert_eq!(rebuilt.missing, ["report.pdf"]);
    assert_eq!(rebuilt.extra, ["more.txt"]);
}

/// Where a place of the ground is drawn on one of our sheets, by the ticks of its frame and what is written at them.
fn on_the_page(svg: &str, easting: f64, northing: f64) -> (f64, f64) {
    let find = |form: &str| regex::Regex::new(form).unwrap();
    // The frame's own figures, outlined: the digits of the font are its letters 19 to 28.
    let label = find(r#"translate\((\d+) (\d+)\)( rotate\(-90\))? scale[^>]*>(.*?)</g>"#);
    let letter = find(r##"href="#[^"]*-0-(\d+)""##);
    let (before, after) = svg.split_once("grid-figures").unwrap();
    let part = after.split("</g>\n</g>").next().unwrap().to_owned() + "</g>";
    let frame = &before[before.rfind("-frame\"").unwrap()..];
    let ticks = |form: &str| -> Vec<f64> {
        find(form).captures_iter(frame).map(|tick| tick[1].parse().unwrap()).collect()
    };
    let (along, up) = (ticks(r"M(\d+) \d+l0 120"), ticks(r"M\d+ (\d+)l120 0"));
    let along_axis = |upright: bool, ticks: &[f64], at_m: f64| {
        let all: Vec<(f64, f64)> = label
            .captures_iter(&part)
            .filter(|found| found.get(3).is_some() == upright)
            .map(|found| {
                let digits: String = letter
                    .captures_iter(&found[4])
                    .filter_map(|l| l[1].parse::<u8>().ok()?.checked_sub(19).filter(|d| *d < 10))
                    .map(|d| char::from(b'0' + d))
                    .collect();
                let begins: f64 = found[if upright { 2 } else { 1 }].parse().unwrap();
                let apart = |tick: &&f64| (**tick - begins).abs();
                let tick = ticks.iter().min_by(|a, b| apart(a).total_cmp(&apart(b))).unwrap();
                (*tick, digits.parse::<f64>().unwrap() * 1000.0)
            })
            .collect();
        let ((a, a_m), (b, b_m)) = (all[0], all[all.len() - 1]);
        a + (at_m - a_m) / (b_m - a_m) * (b - a)
    };
    (along_axis(false, &along, easting), along_axis(true, &up, northing))
}

#[test]
fn marks_on_a_sheet_are_taken_back_to_the_ground() {
    let (_folder, study) = study("", 8, 60);
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("pack");
    pack(&study, "public", &folder);
    let sheet = folder.join("maps/finds-by-cell.svg");
    let svg = fs::read_to_string(&sheet).unwrap();
    let look_at = |easting: f64, northing: f64| {
        let (x, y) = on_the_page(&svg, easting, northing);
        let mark = format!("<circle cx=\"{x:.0}\" cy=\"{y:.0}\" r=\"40\"/></svg>");
        fs::write(&sheet, svg.replace("</svg>", &mark)).unwrap();
        let audited = audit(&sheet, &study, Some("public"), &Silent).unwrap();
        let mark = |found: &[strew::run::Found]| found.iter().any(|found| found.kind == "mark");
        (mark(&audited.finer), mark(&audited.exact))
    };
    assert_eq!(look_at(EASTING, NORTHING), (true, true));
    // A guess beside it is finer than agreed, and not confirmed; a corner of the grid is neither.
    assert_eq!(look_at(EASTING + 9.0, NORTHING - 9.0), (true, false));
    assert_eq!(look_at(556_300.0, 543_100.0), (false, false));
    // A drawing inside the drawing.
    let (x, y) = on_the_page(&svg, EASTING, NORTHING);
    let nested = format!(
        "<svg x=\"{:.0}\" y=\"{:.0}\"><circle cx=\"300\" cy=\"200\" r=\"40\"/></svg></svg>",
        x - 300.0,
        y - 200.0
    );
    let at = svg.rfind("</svg>").unwrap();
    fs::write(&sheet, format!("{}{nested}", &svg[..at])).unwrap();
    let audited = audit(&sheet, &study, Some("public"), &Silent).unwrap();
    assert!(audited.exact.iter().any(|found| found.kind == "mark"));
}

/// The same on a sheet as a PDF: drawn on its page, in a form that the page shows, and as a reader's note.
#[test]
fn marks_on_a_pages_drawing_are_taken_back_to_the_ground() {
    let (_folder, study) = study("", 8, 60);
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("pack");
    pack(&study, "public", &folder);
    let svg = fs::read_to_string(folder.join("maps/finds-by-cell.svg")).unwrap();
    let pdf = fs::read(folder.join("maps/finds-by-cell.pdf")).unwrap();
    let planted = out.path().join("planted.pdf");
    let look_at = |easting: f64, northing: f64, way: &str| {
        let (x, y) = on_the_page(&svg, easting, northing);
        let mut document = lopdf::Document::load_mem(&pdf).unwrap();
        let page = *document.get_pages().values().next().unwrap();
        let box_ = document.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        let height = f64::from(box_[3].as_float().unwrap());
        // A hundredth of a millimetre, in points.
        let points = 72.0 / 2_540.0;
        let (x, y) = (x * points - 1.5, height - y * points - 1.5);
        let drawn = format!("q 1 0 0 rg {x:.3} {y:.3} 3 3 re f Q");
        if way == "note" {
            let edges: Vec<lopdf::Object> = [x, y, x + 3.0, y + 3.0].map(|edge| (edge as f32).into()).into();
            let note = dictionary! { "Type" => "Annot", "Subtype" => "Circle", "Rect" => edges };
            let note = document.add_object(note);
            let page = document.get_object_mut(page).unwrap().as_dict_mut().unwrap();
            page.set("Annots", vec![note.into()]);
        } else if way == "form" {
            let head = dictionary! {
                "Type" => "XObject",
                "Subtype" => "Form",
                "BBox" => vec![0.into(), 0.into(), 2_000.into(), 2_000.into()],
            };
            let form = document.add_object(lopdf::Stream::new(head, drawn.into_bytes()));
            document.add_xobject(page, b"Planted", form).unwrap();
            document.add_page_contents(page, b"q /Planted Do Q".to_vec()).unwrap();
        } else {
            document.add_page_contents(page, drawn.into_bytes()).unwrap();
        }
        document.compress();
        document.save(&planted).unwrap();
        let audited = audit(&planted, &study, Some("public"), &Silent).unwrap();
        audited.exact.iter().any(|found| found.kind == "mark")
    };
    for way in ["page", "form", "note"] {
        assert!(look_at(EASTING, NORTHING, way), "{way}");
        assert!(!look_at(EASTING + 9.0, NORTHING - 9.0, way), "{way}");
    }
    // As it was made, nothing of it is one of the register's places.
    let audited = audit(&folder.join("maps/finds-by-cell.pdf"), &study, Some("public"), &Silent).unwrap();
    assert!(audited.exact.is_empty(), "{audited:#?}");
}

#[test]
fn a_databases_rows_and_what_was_deleted_are_read() {
    let (_folder, study) = study("", 9, 10);
    let out = tempfile::tempdir().unwrap();
    let script = r#"
import sqlite3, sys
for name, drop in (("rows.sqlite", False), ("deleted.sqlite", True)):
    db = sqlite3.connect(sys.argv[1] + "/" + name)
    db.execute("PRAGMA secure_delete = OFF")
    db.execute("CREATE TABLE notes (easting INTEGER, northing INTEGER, words TEXT)")
    db.execute("INSERT INTO notes VALUES (556341, 543127, 'flake')")
    db.commit()
    if drop:
        db.execute("DROP TABLE notes")
        db.execute("CREATE TABLE other (a TEXT)")
        db.commit()
    db.close()
"#;
    let status = std::process::Command::new(python()).args(["-c", script]).arg(out.path()).status().unwrap();
    assert!(status.success());
    let audited = look(out.path(), &study);
    for name in ["rows.sqlite", "deleted.sqlite"] {
        assert!(audited.exact.iter().any(|found| found.file == name), "{name}: {audited:#?}");
    }
}

#[test]
fn what_cannot_be_opened_is_said_and_is_no_success() {
    let (_folder, study) = study("", 10, 10);
    let out = tempfile::tempdir().unwrap();
    let shut = |name: &str, bytes: &[u8]| fs::write(out.path().join(name), bytes).unwrap();
    shut("sealed.age", b"age-encryption.org/v1\n-> X25519 abc\n");
    shut("other.7z", b"7z\xbc\xaf\x27\x1c\0\x04");
    shut("picture.heic", b"\0\0\0\x18ftypheic\0\0\0\0mif1heic");
    shut("broken.zip", b"PK\x03\x04broken");
    // A bomb: a gigabyte and more of nothing, packed five times over.
    let mut bomb = vec![0; 64 << 20];
    for _ in 0..2 {
        bomb = super::audit_plants::gzip(&bomb);
        bomb = super::audit_plants::tar("a", &bomb.repeat(20));
    }
    shut("bomb.tar", &bomb);
    let audited = look(out.path(), &study);
    let whys: Vec<(&str, &str)> = audited
        .not_looked_into
        .iter()
        .map(|shut| (shut.file.split(" > ").next().unwrap(), shut.why.as_str()))
        .collect();
    for expected in [
        ("sealed.age", "sealed"),
        ("other.7z", "packed"),
        ("picture.heic", "format"),
        ("broken.zip", "damaged"),
    ] {
        assert!(whys.contains(&expected), "{expected:?} in {whys:?}");
    }
    assert!(whys.contains(&("bomb.tar", "too-large")), "{whys:?}");
    assert!(!audited.is_clean());
    let arguments = ["audit", out.path().to_str().unwrap(), "--study", study.to_str().unwrap()];
    assert_eq!(run(&arguments).status.code(), Some(1));
}

#[test]
fn the_exit_code_and_the_words() {
    let (_folder, study) = study("fr", 11, 10);
    let out = tempfile::tempdir().unwrap();
    let study = study.to_str().unwrap();
    let clean = out.path().join("clean.txt");
    fs::write(&clean, "Nothing but words, 12 flakes of 1998.").unwrap();
    let output = run(&["audit", clean.to_str().unwrap(), "--study", study, "--json"]);
    assert_eq!(output.status.code(), Some(0), "{:?}", said(&output));
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(told["clean"], true);
    let leak = out.path().join("leak.txt");
    fs::write(&leak, "OV 56341 43127").unwrap();
    let output = run(&["audit", leak.to_str().unwrap(), "--study", study]);
    let (words, advice) = said(&output);
    assert_eq!(output.status.code(), Some(1));
    assert!(words.contains("leak.txt : une référence de carroyage"), "{words}");
    assert!(!words.contains("56341") && advice.contains("transmettez"), "{words}{advice}");
    let output = run(&["audit", "no-such-folder", "--study", study]);
    assert_eq!(output.status.code(), Some(1));
}

#[test]
fn only_the_audit_hunts() {
    // The matcher of exact places has one caller: a command that wrote for an audience would confirm planted rows.
    let root = super::common::root().join("src");
    for file in files(&root) {
        let text = fs::read_to_string(root.join(&file)).unwrap();
        let name = file.to_string_lossy().replace('\\', "/");
        if text.contains("Hunt") || text.contains(".hunt(") {
            assert!(
                name.starts_with("exact/") || matches!(name.as_str(), "run/audit.rs" | "audit/mod.rs"),
                "{name}"
            );
        }
        if text.contains("run::audit(") || text.contains("audit::audit(") {
            assert_eq!(name, "cli/audit.rs");
        }
    }
}
