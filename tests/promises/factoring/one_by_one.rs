//! One study, every audience: finds are re-drawn one by one, each tried alone until its release agrees.

use std::fs;
use std::path::Path;

use rand::{Rng, SeedableRng, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::{Converter, System};
use strew::exact::{Register, Release, ReleasedPlace};
use strew::ground::{Ground, Partition};
use strew::study::{PublicStudy, Study};

use super::super::common::{Silent, files, forget, run, said};
use super::invented::{LANDOWNERS, MARKS, Row, csv, row, write_ground};
use super::observed::mode;

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
            "factoring::one_by_one::a_pack_is_rebuilt_from_its_release_without_the_register",
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
