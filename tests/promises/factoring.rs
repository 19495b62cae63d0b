//! Factoring: what an audience observes is a function of its release. If two registers have the same
//! release, everything written and printed is the same, byte for byte (Goguen and Meseguer 1982; Sabelfeld
//! and Myers 2004). Tested twice over: finds are re-drawn within all that gives the same release, and a pack
//! is rebuilt in a fresh process from the serialised release, without the register.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use rand::{Rng, SeedableRng, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::{Converter, System};
use strew::exact::{Register, Release, ReleasedPlace};
use strew::ground::{Ground, Partition};
use strew::study::{PublicStudy, Study};

use super::common::{Silent, files, run, said};

/// A study on invented ground: two parishes, land, a shore, a protected site.
const STUDY: &str = r#"
[study]
title = "A study for a test"
date = 2026-10-01
LANGUAGE
[register]
files = ["finds.csv"]
[ground]
parishes = { file = "parishes.geojson", name = "parish" }
land = { file = "land.geojson" }
shore = { file = "shore.geojson" }
walked = { file = "walked.geojson" }
[sheets]
dpi = 72
[agreement.office]
precision = "10 m"
give = ["tables", "report", "layers", "finds"]
[agreement.society]
precision = "parish"
[agreement.farm]
landowner = "Long Farm"
precision = "100 m"
give = ["tables", "report", "layers", "finds"]
[agreement.public]
precision = "100 m"
give = ["maps", "tables", "report", "layers", "density", "concentrations"]
[[agreement.public.stricter]]
class = ["arrowhead", "axehead", "dagger"]
precision = "1 km"
[[agreement.public.stricter]]
setting = "garden"
precision = "parish"
[[agreement.public.stricter]]
near = { file = "protected.geojson", distance = "300 m" }
precision = "2 km"
"#;

/// A GeoJSON of one feature a shape, in the British grid.
fn geojson(kind: &str, shapes: &[(&str, String)]) -> String {
    let features: Vec<String> = shapes
        .iter()
        .map(|(name, coordinates)| {
            format!(
                r#"{{"type":"Feature","properties":{{"parish":"{name}"}},"geometry":{{"type":"{kind}","coordinates":{coordinates}}}}}"#
            )
        })
        .collect();
    format!(
        r#"{{"type":"FeatureCollection","crs":{{"type":"name","properties":{{"name":"urn:ogc:def:crs:EPSG::27700"}}}},"features":[{}]}}"#,
        features.join(",")
    )
}

fn ring(west: i32, south: i32, east: i32, north: i32) -> String {
    format!("[[{west},{south}],[{east},{south}],[{east},{north}],[{west},{north}],[{west},{south}]]")
}

pub fn write_ground(folder: &Path, language: &str) {
    let put = |name: &str, text: String| fs::write(folder.join(name), text).unwrap();
    put(
        "parishes.geojson",
        geojson(
            "Polygon",
            &[
                ("Eastwell", format!("[{}]", ring(555_030, 542_000, 559_000, 548_000))),
                ("Westwell", format!("[{}]", ring(550_000, 542_000, 555_030, 548_000))),
            ],
        ),
    );
    put(
        "land.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(550_000, 542_000, 559_000, 548_000)))]),
    );
    put("shore.geojson", geojson("LineString", &[("", ring(550_000, 542_000, 559_000, 548_000))]));
    put(
        "walked.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(551_000, 543_000, 552_000, 544_000)))]),
    );
    put(
        "protected.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(553_200, 545_200, 553_400, 545_400)))]),
    );
    let language = if language.is_empty() { String::new() } else { format!("language = \"{language}\"") };
    put("study.toml", STUDY.replace("LANGUAGE", &language));
}

/// One row: what may be told, and how its place is written.
#[derive(Clone)]
struct Row {
    number: String,
    easting: f64,
    northing: f64,
    written: Written,
    parish: &'static str,
    class: &'static str,
    period: &'static str,
    count: u32,
    marks: &'static str,
    setting: &'static str,
    standing: &'static str,
    note: String,
    finder: String,
    date: String,
    material: &'static str,
    landowner: &'static str,
}

#[derive(Clone, Copy, PartialEq)]
enum Written {
    Letters {
        figures: u32,
    },
    Degrees,
    Metres,
    ParishOnly,
    /// A place nobody can read: set aside.
    Nonsense,
}

const CLASSES: [&str; 8] =
    ["flake", "blade", "core", "scraper", "leaf arrowhead", "polished axe", "microlith", "waste"];
const PERIODS: [&str; 5] = ["", "Mesolithic", "Early Neolithic", "LN/EBA", "prehistoric"];
/// Marks by strength: the same strength can be told by other marks.
const MARKS: [&[&str]; 4] = [
    &[""],
    &["bulb", "ripples"],
    &["bulb, platform", "dorsal scars"],
    &["retouch", "platform, dorsal scars"],
];
const LANDOWNERS: [&str; 4] = ["", "Long Farm", "Long Farm", "Far Farm"];
const SETTINGS: [&str; 4] = ["ploughland", "beach", "garden", "pasture"];

fn row(random: &mut ChaCha8Rng, index: usize) -> Row {
    let strength: &[&str] = MARKS[random.random_range(0..4)];
    Row {
        number: format!("N{index}"),
        easting: random.random_range(550_010.0..558_990.0_f64),
        northing: random.random_range(542_010.0..547_990.0_f64),
        written: match random.random_range(0..12) {
            0..=3 => Written::Letters { figures: 10 },
            4 | 5 => Written::Letters { figures: 6 },
            6 => Written::Letters { figures: 4 },
            7 | 8 => Written::Degrees,
            9 => Written::Metres,
            10 => Written::ParishOnly,
            _ => Written::Nonsense,
        },
        parish: ["Eastwell", "Westwell"][random.random_range(0..2)],
        class: CLASSES[random.random_range(0..CLASSES.len())],
        period: PERIODS[random.random_range(0..PERIODS.len())],
        count: random.random_range(1..30),
        marks: strength[random.random_range(0..strength.len())],
        setting: SETTINGS[random.random_range(0..SETTINGS.len())],
        standing: ["", "derived", "in situ"][random.random_range(0..3)],
        note: String::new(),
        finder: String::new(),
        date: String::new(),
        material: "",
        landowner: LANDOWNERS[random.random_range(0..LANDOWNERS.len())],
    }
}

/// The register as a file.
fn csv(rows: &[Row], to_degrees: &Converter) -> String {
    let mut text = String::from(
        "No,Grid ref,Easting,Northing,Latitude,Longitude,Parish,Class,Period,Count,Marks,Setting,Standing,Note,Finder,Date found,Material,Landowner\n",
    );
    for row in rows {
        let (mut reference, mut e, mut n, mut lat, mut lon) = Default::default();
        match row.written {
            Written::Letters { figures } => {
                let each = (figures / 2) as usize;
                let by = 10_i64.pow(5 - figures / 2);
                let (east, north) = (row.easting as i64 % 100_000 / by, row.northing as i64 % 100_000 / by);
                reference = format!("OV {east:0each$} {north:0each$}");
            }
            Written::Metres => {
                e = format!("{:.0}", row.easting.floor());
                n = format!("{:.0}", row.northing.floor());
            }
            Written::Degrees => {
                let (x, y) = to_degrees.convert_xy(row.easting, row.northing).unwrap();
                lat = format!("{y:.6}");
                lon = format!("{x:.6}");
            }
            Written::ParishOnly => {}
            Written::Nonsense => reference = "by the old gate".to_owned(),
        }
        let Row {
            number,
            parish,
            class,
            period,
            count,
            marks,
            setting,
            standing,
            note,
            finder,
            date,
            material,
            landowner,
            ..
        } = row;
        let parish = if row.written == Written::Nonsense { "" } else { parish };
        writeln!(
            text,
            "{number},{reference},{e},{n},{lat},{lon},{parish},{class},{period},{count},\"{marks}\",{setting},{standing},{note},{finder},{date},{material},{landowner}"
        )
        .unwrap();
    }
    text
}

/// A register drawn at random, as a file.
pub fn random_register(seed: u64, rows: usize) -> String {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let rows: Vec<Row> = (0..rows).map(|index| row(&mut random, index)).collect();
    csv(&rows, &Converter::new(&System::BritishGrid, &System::Wgs84).unwrap())
}

/// What one row alone is released as, for one audience.
fn place_of(
    row: &Row,
    study: &Study,
    public: &PublicStudy,
    ground: &Ground,
    to_degrees: &Converter,
) -> Option<ReleasedPlace> {
    fs::write(study.private.root.join("finds.csv"), csv(std::slice::from_ref(row), to_degrees)).unwrap();
    let partition = Partition::fix(public, ground).unwrap();
    let release = Register::read(study).unwrap().release(public, &partition).unwrap();
    release.finds.first().map(|find| find.place.clone())
}

/// The same row re-drawn: elsewhere in its released place and, for an audience that is not shown them, with
/// other hidden fields. Tried at random until the release agrees, so that the test knows nothing of how.
fn redraw(
    row: &Row,
    random: &mut ChaCha8Rng,
    hidden_too: bool,
    study: &Study,
    public: &PublicStudy,
    ground: &Ground,
    to_degrees: &Converter,
) -> Row {
    if !public.agreement.is_of_land(Some(row.landowner)) {
        // Off other land: the landowner is told nothing of it, so that it may be anything off other land.
        let mut other = self::row(random, 0);
        other.landowner = ["", "Far Farm", "Long Farms"][random.random_range(0..3)];
        other.number = format!("X{}", random.random_range(0..1_000_000_000_u64));
        return other;
    }
    let told = place_of(row, study, public, ground, to_degrees);
    let mut drawn = row.clone();
    if hidden_too {
        drawn.number = format!("X{}", random.random_range(0..1_000_000_000_u64));
        drawn.note =
            ["", "found by the hedge at OV 5234 4512", "with bone"][random.random_range(0..3)].to_owned();
        drawn.finder = ["", "A. Tern", "M. Rook"][random.random_range(0..3)].to_owned();
        drawn.date = ["", "2019-04-02", "12/03/2021"][random.random_range(0..3)].to_owned();
        drawn.material = ["", "flint", "chert"][random.random_range(0..3)];
        if public.agreement.landowner.is_empty() {
            drawn.landowner = LANDOWNERS[random.random_range(0..LANDOWNERS.len())];
        }
        if let Some(same) = MARKS.iter().find(|marks| marks.contains(&row.marks)) {
            drawn.marks = same[random.random_range(0..same.len())];
        }
        // A garden asks for a parish, so it is told; the other settings here are not.
        if row.setting != "garden" {
            drawn.setting = ["ploughland", "beach", "pasture"][random.random_range(0..3)];
        }
        if row.standing != "derived" {
            drawn.standing = ["", "in situ"][random.random_range(0..2)];
        }
    }
    let Some(told) = told else { return drawn };
    for _ in 0..200 {
        let mut tried = drawn.clone();
        match &told {
            ReleasedPlace::Cell(cell) => {
                let side = f64::from(cell.side_m);
                tried.easting = cell.west_m() + random.random_range(0.0..side);
                tried.northing = cell.south_m() + random.random_range(0.0..side);
            }
            ReleasedPlace::Parish(_) => {
                tried.easting = random.random_range(550_010.0..558_990.0_f64);
                tried.northing = random.random_range(542_010.0..547_990.0_f64);
            }
        }
        if place_of(&tried, study, public, ground, to_degrees).as_ref() == Some(&told) {
            return tried;
        }
    }
    drawn
}

struct Scratch {
    folder: tempfile::TempDir,
    study: Study,
    public: PublicStudy,
    ground: Ground,
    to_degrees: Converter,
}

fn scratch(audience: &str, language: &str) -> Scratch {
    let folder = tempfile::tempdir().unwrap();
    write_ground(folder.path(), language);
    fs::write(folder.path().join("finds.csv"), "No,Grid ref,Class\n1,OV 52 45,flake\n").unwrap();
    let study = Study::load(&folder.path().join("study.toml")).unwrap();
    let public = study.audience(audience).unwrap().clone();
    let ground = Ground::read(&public, folder.path()).unwrap();
    let to_degrees = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    Scratch { folder, study, public, ground, to_degrees }
}

/// Two registers with the same release: the second is the first re-drawn, shuffled and renumbered.
fn twins(seed: u64, rows: usize, scratch: &Scratch, hidden_too: bool) -> (String, String) {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let first: Vec<Row> = (0..rows).map(|index| row(&mut random, index)).collect();
    let Scratch { study, public, ground, to_degrees, .. } = scratch;
    let mut second: Vec<Row> = first
        .iter()
        .map(|row| redraw(row, &mut random, hidden_too, study, public, ground, to_degrees))
        .collect();
    second.shuffle(&mut random);
    let moved = first.iter().zip(&second).filter(|(a, b)| a.easting != b.easting).count();
    assert!(moved * 2 > rows, "most finds were moved");
    (csv(&first, to_degrees), csv(&second, to_degrees))
}

fn release_of(text: &str, scratch: &Scratch) -> Release {
    fs::write(scratch.folder.path().join("finds.csv"), text).unwrap();
    let partition = Partition::fix(&scratch.public, &scratch.ground).unwrap();
    Register::read(&scratch.study).unwrap().release(&scratch.public, &partition).unwrap()
}

/// Asserts that two lists of files are the same, and names the first that is not.
fn same_files(
    first: &std::collections::BTreeMap<String, Vec<u8>>,
    second: &std::collections::BTreeMap<String, Vec<u8>>,
) {
    let names =
        |files: &std::collections::BTreeMap<String, Vec<u8>>| files.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(first), names(second));
    for (name, bytes) in first {
        assert!(bytes == &second[name], "{name} differs");
    }
}

#[test]
fn finds_re_drawn_within_their_release_change_no_byte_of_a_pack() {
    for (audience, hidden_too, language) in [
        ("public", true, ""),
        ("public", true, "fr"),
        ("society", true, ""),
        ("farm", true, ""),
        ("office", false, ""),
    ] {
        let scratch = scratch(audience, language);
        for seed in 0..5 {
            let (first, second) = twins(seed, 40, &scratch, hidden_too);
            let (one, two) = (release_of(&first, &scratch), release_of(&second, &scratch));
            assert_eq!(one, two, "{audience}, seed {seed}: the releases are one");
            assert!(!one.finds.is_empty() && (audience == "farm" || one.tally.set_aside_total() > 0));
            let one = strew::run::pack(&scratch.public, &scratch.ground, &one, &Silent).unwrap();
            let two = strew::run::pack(&scratch.public, &scratch.ground, &two, &Silent).unwrap();
            same_files(one.files(), two.files());
        }
    }
}

#[test]
fn every_command_says_and_writes_the_same() {
    let scratch = scratch("public", "");
    let (first, second) = twins(77, 60, &scratch, true);
    let study = scratch.folder.path().join("study.toml");
    let study = study.to_str().unwrap();
    let out = scratch.folder.path().join("out");
    let commands: &[(&[&str], &str)] = &[
        (&["report", study, "--json"], "pack"),
        (&["map", study, "--by", "symbols", "--json"], "map.svg"),
        (&["map", study, "--by", "parishes"], "map.png"),
        (&["map", study, "--class", "arrowhead"], "map.pdf"),
        (&["map", study, "--each", "class,period", "--json"], "each.svg"),
        (&["map", study, "--each", "period", "--by", "parishes"], "each-parishes.svg"),
        (&["map", study, "--beside", study, "--by", "symbols"], "pair.svg"),
        (&["table", study, "--rows", "parish", "--columns", "period"], "table.csv"),
        (&["table", study, "--rows", "class", "--columns", "strength"], "table.xlsx"),
        (&["density", study], "density"),
        (&["concentrations", study, "--json"], "concentrations"),
        (&["shore", study], "shore"),
    ];
    let observe = |text: &str| {
        fs::write(scratch.folder.path().join("finds.csv"), text).unwrap();
        // Each register is told for the first time: what was told of the other is no history of it.
        forget(scratch.folder.path());
        let _ = fs::remove_dir_all(&out);
        fs::create_dir(&out).unwrap();
        let mut said_all = Vec::new();
        for (arguments, name) in commands {
            let target = out.join(name);
            let mut arguments = arguments.to_vec();
            arguments.extend(["--out", target.to_str().unwrap()]);
            let output = run(&arguments);
            let (stdout, stderr) = said(&output);
            assert!(output.status.success(), "{arguments:?}: {stdout}{stderr}");
            said_all.push((stdout, stderr, output.status.code()));
        }
        let written: Vec<_> = files(&out)
            .into_iter()
            .map(|file| {
                let path = out.join(&file);
                (file, mode(&path), fs::read(&path).unwrap())
            })
            .collect();
        (said_all, written)
    };
    let (one, two) = (observe(&first), observe(&second));
    assert_eq!(one.0, two.0, "what was said");
    assert_eq!(one.1.len(), two.1.len());
    for (a, b) in one.1.iter().zip(&two.1) {
        assert!(a == b, "{} differs", a.0.display());
    }
    assert!(one.1.len() > 20);
}

/// Takes a study's ledger away.
fn forget(folder: &Path) {
    let _ = fs::remove_dir_all(folder.join("ledger"));
    let _ = fs::remove_file(folder.join("ledger-head.json"));
}

#[cfg(unix)]
fn mode(path: &Path) -> u32 {
    use std::os::unix::fs::PermissionsExt;
    fs::metadata(path).unwrap().permissions().mode()
}

#[cfg(not(unix))]
fn mode(_path: &Path) -> u32 {
    0
}

/// Set for the fresh process of the next test: the folder to work in.
const CHILD: &str = "STREW_TEST_REBUILD_IN";

#[test]
fn a_pack_is_rebuilt_from_its_release_without_the_register() {
    if let Ok(folder) = std::env::var(CHILD) {
        return rebuild_in(Path::new(&folder));
    }
    let scratch = scratch("public", "");
    let (text, _) = twins(5, 50, &scratch, true);
    let release = release_of(&text, &scratch);
    let pack = strew::run::pack(&scratch.public, &scratch.ground, &release, &Silent).unwrap();
    // Another folder, with public ground and what was released, and no register.
    let elsewhere = tempfile::tempdir().unwrap();
    write_ground(elsewhere.path(), "");
    for private in ["finds.csv", "walked.geojson", "study.toml"] {
        let _ = fs::remove_file(elsewhere.path().join(private));
    }
    fs::write(elsewhere.path().join("release.json"), serde_json::to_string(&release).unwrap()).unwrap();
    fs::write(elsewhere.path().join("study.json"), serde_json::to_string(&scratch.public).unwrap()).unwrap();
    // A fresh process: another user, clock, place, language and number of threads.
    let output = std::process::Command::new(std::env::current_exe().unwrap())
        .args([
            "--exact",
            "factoring::a_pack_is_rebuilt_from_its_release_without_the_register",
            "--nocapture",
        ])
        .env_clear()
        .env(CHILD, elsewhere.path())
        .env("TZ", "Pacific/Auckland")
        .env("USER", "somebody-else")
        .env("LANG", "fr_FR.UTF-8")
        .env("RAYON_NUM_THREADS", "1")
        .current_dir(elsewhere.path())
        .output()
        .unwrap();
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    let rebuilt = elsewhere.path().join("rebuilt");
    let found = files(&rebuilt);
    assert_eq!(found.len(), pack.files().len());
    for file in found {
        let name = file.to_string_lossy().replace('\\', "/");
        assert!(fs::read(rebuilt.join(&file)).unwrap() == pack.files()[&name], "{name} differs");
    }
}

fn rebuild_in(folder: &Path) {
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let public: PublicStudy = serde_json::from_str(&read("study.json")).unwrap();
    let release: Release = serde_json::from_str(&read("release.json")).unwrap();
    let ground = Ground::read(&public, folder).unwrap();
    let pack = strew::run::pack(&public, &ground, &release, &Silent).unwrap();
    pack.write(&folder.join("rebuilt")).unwrap();
}
