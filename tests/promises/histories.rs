//! Histories: whatever was told of a find, to any audiences that may talk, in any order of adding, correcting,
//! taking out, renumbering, new grids and new precisions, the ground that it all leaves together is as large as the
//! smallest area promised to any of them. And the ledger that remembers it is whole or says that it is not.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use geo::{Area, BooleanOps, Distance, Euclidean, MultiPolygon};
use rand::{Rng, SeedableRng, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::{Converter, System};
use strew::exact::{Ledger, Register, Release, ReleasedPlace};
use strew::fault::Fault;
use strew::ground::{Ground, Partition};
use strew::study::Study;

use super::common::{copy, outline, run, said};
use super::islands::{CENTRE, Island, island};

#[derive(Clone)]
struct Find {
    number: String,
    easting: f64,
    northing: f64,
    class: &'static str,
    /// Where it was first said to lie.
    first: (f64, f64),
}

/// What one audience was told of a find: the ground of it, and what was promised.
struct Told {
    shape: MultiPolygon<f64>,
    promise_m2: f64,
    said: String,
}

fn register(finds: &[Find]) -> String {
    let mut text = String::from("No,Easting,Northing,Class,Count\n");
    for find in finds {
        let (e, n) = (find.easting, find.northing);
        writeln!(text, "{},{e:.0},{n:.0},{},1", find.number, find.class).unwrap();
    }
    text
}

/// The agreements of one moment: three audiences that may talk.
fn study(random: &mut ChaCha8Rng, island: &Island) -> String {
    let head = island.study.split("[agreement.public]").next().unwrap().to_owned();
    let mut text = head.replace("parcels =", "#").replace("beach =", "#").replace("walked =", "#");
    for (name, sides) in [("public", [500, 1_000]), ("members", [200, 500]), ("club", [100, 500])] {
        let side = sides[random.random_range(0..2)];
        let grid = if name == "club" && random.random_bool(0.7) { "utm-30n" } else { "british-grid" };
        writeln!(
            text,
            "[agreement.{name}]\ngrid = \"{grid}\"\nprecision = \"{side} m\"\nshow = [\"class\", \"count\", \"number\"]\n\
             give = [\"tables\"]"
        )
        .unwrap();
    }
    text
}

/// What came of a publication.
struct Published {
    release: Release,
    promise_m2: f64,
    grid: System,
    /// Slivers, and the parish that tells them.
    slivers: Vec<(strew::coordinates::Cell, String)>,
}

fn publish(folder: &Path, audience: &str) -> Result<Published, Fault> {
    let study = Study::load(&folder.join("study.toml"))?;
    let public = study.audience(audience)?;
    let ground = Ground::read(public, folder)?;
    let partition = Partition::fix(public, &ground)?;
    let mut ledger = Ledger::open(&study.private)?;
    let release = Register::read(&study)?.release_remembering(public, &partition, &mut ledger)?;
    let slivers = partition.unshown().into_iter().filter_map(|(cell, name)| Some((cell, name?.to_owned())));
    Ok(Published {
        slivers: slivers.collect(),
        release,
        promise_m2: public.agreement.smallest_area_m2,
        grid: public.grid.clone(),
    })
}

/// The ground of a released place, in the British grid.
fn shape(place: &ReleasedPlace, told: &Published, island: &Island) -> MultiPolygon<f64> {
    let grid = &told.grid;
    match place {
        // The parish, or a sliver of ground that it tells.
        ReleasedPlace::Parish(name) => {
            let parishes =
                island.parishes.iter().filter(|(parish, _)| name.split(" + ").any(|n| n == parish));
            let ground = parishes.fold(MultiPolygon(Vec::new()), |all, (_, shape)| all.union(shape));
            let slivers = told.slivers.iter().filter(|(_, told_by)| told_by == name);
            slivers
                .fold(ground, |all, (cell, _)| all.union(&shape(&ReleasedPlace::Cell(*cell), told, island)))
        }
        ReleasedPlace::Cell(cell) => {
            let converter = Converter::new(grid, &System::BritishGrid).unwrap();
            outline(*cell, Some(&converter))
        }
    }
}

#[test]
fn random_histories_keep_the_promise() {
    keep_the_promise(true);
}

/// Without parishes finds on slivers are set aside, and come back in another square now and then.
#[test]
fn random_histories_without_parishes_keep_the_promise() {
    keep_the_promise(false);
}

fn keep_the_promise(parishes: bool) {
    let (mut tellings, mut several, mut corrected, mut settled) = (0, 0, 0, 0);
    for seed in 0..24 {
        let mut random = ChaCha8Rng::seed_from_u64(1_000 + seed);
        let island = island(seed, 1_200.0);
        let ground = island.land.clone();
        let folder = tempfile::tempdir().unwrap();
        island.write(folder.path());
        let place = |random: &mut ChaCha8Rng| loop {
            let e = CENTRE.0 + random.random_range(-1_200.0..1_200.0_f64);
            let n = CENTRE.1 + random.random_range(-1_200.0..1_200.0_f64);
            if geo::Contains::contains(&ground, &geo::Point::new(e, n)) {
                break (e, n);
            }
        };
        let mut finds: Vec<Find> = Vec::new();
        let mut told: BTreeMap<String, Vec<Told>> = BTreeMap::new();
        let mut numbered = 0;
        for step in 0..14 {
            for _ in 0..random.random_range(1..5) {
                match random.random_range(0..10) {
                    0..=4 => {
                        let (easting, northing) = place(&mut random);
                        numbered += 1;
                        finds.push(Find {
                            number: format!("N{numbered}"),
                            easting,
                            northing,
                            class: ["flake", "blade", "core"][random.random_range(0..3)],
                            first: (easting, northing),
                        });
                    }
                    // A correction by some metres, never far from where it was first said to lie.
                    5..=7 if !finds.is_empty() => {
                        let index = random.random_range(0..finds.len());
                        let find = &mut finds[index];
                        find.easting = find.first.0 + random.random_range(-40.0..40.0);
                        find.northing = find.first.1 + random.random_range(-40.0..40.0);
                        corrected += 1;
                    }
                    8 if finds.len() > 4 => {
                        finds.remove(random.random_range(0..finds.len()));
                    }
                    _ => finds.shuffle(&mut random),
                }
            }
            fs::write(folder.path().join("finds.csv"), register(&finds)).unwrap();
            if random.random_bool(0.3) || step == 0 {
                let text = study(&mut random, &island);
                let text = if parishes { text } else { text.replace("parishes =", "#") };
                fs::write(folder.path().join("study.toml"), text).unwrap();
            }
            let audience = ["public", "members", "club"][random.random_range(0..3)];
            let published = match publish(folder.path(), audience) {
                // A new find beside one that was taken out: the owner says that numbers are kept.
                Err(fault) if fault.id == "ledger-entered-anew" => {
                    settled += 1;
                    let file = folder.path().join("study.toml");
                    let text = fs::read_to_string(&file).unwrap();
                    fs::write(&file, text.replace("[register]", "[register]\nknown_by = \"number\""))
                        .unwrap();
                    let published = publish(folder.path(), audience).unwrap();
                    fs::write(&file, text).unwrap();
                    published
                }
                published => published.unwrap(),
            };
            let promise_m2 = published.promise_m2;
            for find in &published.release.finds {
                let number = find.details.as_ref().unwrap().number.clone().unwrap();
                let shape = shape(&find.place, &published, &island);
                let list = told.entry(number.clone()).or_default();
                let said = format!("step {step}: {audience} {:?}", find.place);
                list.push(Told { shape, promise_m2, said });
                tellings += 1;
                several += usize::from(list.len() > 1);
                // Every coalition: those promised at least as much as one of them.
                for least in list.iter().map(|told| told.promise_m2).collect::<Vec<_>>() {
                    let shared = list
                        .iter()
                        .filter(|told| told.promise_m2 >= least)
                        .map(|told| told.shape.clone())
                        .reduce(|a, b| a.intersection(&b))
                        .unwrap();
                    let left = shared.intersection(&ground).unsigned_area();
                    // Finds near the sea may be corrected into it: then nothing is known of where on it.
                    let left = if left < 1.0 { shared.unsigned_area() } else { left };
                    assert!(
                        left >= least * 0.999,
                        "seed {seed}, step {step}: {number} told to {audience} as {:?} leaves {left:.0} of {least:.0} m²: {:?}",
                        find.place,
                        list.iter().map(|told| (&told.said, told.promise_m2)).collect::<Vec<_>>()
                    );
                }
            }
        }
    }
    println!(
        "{tellings} tellings, {several} of a find told before, {corrected} corrections, {settled} doubts"
    );
    assert!(several > 300 && corrected > 100);
}

/// A find that moved far is told anew.
#[test]
fn a_large_correction_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let island = island(3, 1_200.0);
    island.write(folder.path());
    let mut random = ChaCha8Rng::seed_from_u64(7);
    let text = study(&mut random, &island);
    let text = text.replace("precision = \"500 m\"", "precision = \"100 m\"").replace("200 m", "100 m");
    fs::write(folder.path().join("study.toml"), text).unwrap();
    let mut find = Find {
        number: "1".to_owned(),
        easting: CENTRE.0 - 600.0,
        northing: CENTRE.1,
        class: "flake",
        first: CENTRE,
    };
    let tell = |find: &Find| {
        fs::write(folder.path().join("finds.csv"), register(std::slice::from_ref(find))).unwrap();
        publish(folder.path(), "members").unwrap().release.finds[0].place.clone()
    };
    let before = tell(&find);
    find.easting += 1_300.0;
    assert_ne!(tell(&find), before);
    let after = tell(&find);
    find.easting += 5.0;
    assert_eq!(tell(&find), after, "a correction within a square says nothing");
}

fn three(numbers: [&str; 3]) -> String {
    let places = [(-300.0, 10.0), (20.0, -200.0), (250.0, 330.0)];
    let finds: Vec<Find> = numbers
        .into_iter()
        .zip(places)
        .zip(["flake", "blade", "core"])
        .map(|((number, (x, y)), class)| Find {
            number: number.to_owned(),
            easting: CENTRE.0 + x,
            northing: CENTRE.1 + y,
            class,
            first: CENTRE,
        })
        .collect();
    register(&finds)
}

#[test]
fn a_renumbering_in_doubt_stops_and_says_how_to_settle_it() {
    let folder = tempfile::tempdir().unwrap();
    let island = island(3, 1_200.0);
    island.write(folder.path());
    let study_file = folder.path().join("study.toml");
    fs::write(&study_file, study(&mut ChaCha8Rng::seed_from_u64(7), &island)).unwrap();
    let put = |text: String| fs::write(folder.path().join("finds.csv"), text).unwrap();
    put(three(["1", "2", "3"]));
    publish(folder.path(), "public").unwrap();
    let ledger = folder.path().join("ledger/ledger.jsonl");
    let whole = fs::read(&ledger).unwrap();
    put(three(["2", "3", "1"]));
    let out = folder.path().join("out");
    let arguments = ["report", study_file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--quiet"];
    let output = run(&arguments);
    let (stdout, stderr) = said(&output);
    assert_eq!(output.status.code(), Some(1), "{stdout}{stderr}");
    assert!(stderr.contains("known_by") && stderr.contains("finds.csv"), "{stderr}");
    assert!(!out.exists() && fs::read(&ledger).unwrap() == whole, "nothing was written");
    // Each of the two ways to settle it.
    let text = fs::read_to_string(&study_file).unwrap();
    for way in ["content", "number"] {
        let settled = text.replace("[register]", &format!("[register]\nknown_by = \"{way}\""));
        fs::write(&study_file, settled).unwrap();
        let output = run(&arguments);
        assert!(output.status.success(), "{way}: {:?}", said(&output));
        fs::remove_dir_all(&out).unwrap();
        fs::write(&ledger, &whole).unwrap();
        // The head count of what was undone, as a person would put both back.
        let head = folder.path().join("ledger-head.json");
        let line: serde_json::Value =
            serde_json::from_slice(whole.split(|b| *b == b'\n').rev().nth(1).unwrap()).unwrap();
        fs::write(head, serde_json::json!({ "lines": line["n"], "sum": line["sum"] }).to_string()).unwrap();
    }
}

#[test]
fn a_cut_changed_or_rolled_back_ledger_is_seen() {
    let folder = tempfile::tempdir().unwrap();
    let island = island(3, 1_200.0);
    island.write(folder.path());
    fs::write(folder.path().join("study.toml"), study(&mut ChaCha8Rng::seed_from_u64(7), &island)).unwrap();
    let put = |text: String| fs::write(folder.path().join("finds.csv"), text).unwrap();
    put(three(["1", "2", "3"]));
    publish(folder.path(), "public").unwrap();
    let early = tempfile::tempdir().unwrap();
    copy(&folder.path().join("ledger"), early.path());
    publish(folder.path(), "members").unwrap();
    publish(folder.path(), "club").unwrap();
    // Told a second time, a row is no longer new.
    publish(folder.path(), "public").unwrap();
    let ledger = folder.path().join("ledger/ledger.jsonl");
    let whole = fs::read(&ledger).unwrap();
    let fault = |what: &str| match publish(folder.path(), "public") {
        Ok(_) => panic!("{what} was not seen"),
        Err(fault) => fault.id,
    };
    // Nothing is written where nothing new is told.
    publish(folder.path(), "public").unwrap();
    assert_eq!(fs::read(&ledger).unwrap(), whole);
    // A tail torn off in a crash, before what it tells was given: the whole lines count.
    let mut torn = whole.clone();
    torn.extend_from_slice(b"{\"n\":5,\"befo");
    fs::write(&ledger, &torn).unwrap();
    publish(folder.path(), "public").unwrap();
    // A whole line cut off.
    let lines: Vec<&[u8]> = whole.split_inclusive(|byte| *byte == b'\n').collect();
    fs::write(&ledger, lines[..lines.len() - 1].concat()).unwrap();
    assert_eq!(fault("a cut tail"), "ledger-cut");
    // A byte changed in the middle.
    let mut changed = whole.clone();
    let at = whole.len() / 2;
    changed[at] = if changed[at] == b'1' { b'2' } else { b'1' };
    fs::write(&ledger, &changed).unwrap();
    assert_eq!(fault("a changed byte"), "ledger-spoilt");
    // A line taken out of the middle.
    fs::write(&ledger, [lines[0], lines[2]].concat()).unwrap();
    assert_eq!(fault("a line taken out"), "ledger-spoilt");
    // The folder put back from an earlier day.
    fs::remove_dir_all(folder.path().join("ledger")).unwrap();
    copy(early.path(), &folder.path().join("ledger"));
    assert_eq!(fault("an earlier copy"), "ledger-cut");
    // The folder taken away, and the head count too.
    fs::remove_dir_all(folder.path().join("ledger")).unwrap();
    assert_eq!(fault("no ledger"), "ledger-cut");
    fs::create_dir_all(folder.path().join("ledger")).unwrap();
    fs::write(&ledger, &whole).unwrap();
    fs::remove_file(folder.path().join("ledger-head.json")).unwrap();
    assert_eq!(fault("no head count"), "ledger-no-head");
}

#[cfg(unix)]
#[test]
fn the_ledger_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let island = island(3, 1_200.0);
    island.write(folder.path());
    fs::write(folder.path().join("study.toml"), study(&mut ChaCha8Rng::seed_from_u64(7), &island)).unwrap();
    fs::write(folder.path().join("finds.csv"), three(["1", "2", "3"])).unwrap();
    publish(folder.path(), "public").unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&folder.path().join("ledger")), 0o700);
    for file in super::common::files(&folder.path().join("ledger")) {
        assert_eq!(mode(&folder.path().join("ledger").join(file)), 0o600);
    }
    assert_eq!(mode(&folder.path().join("ledger-head.json")), 0o600);
    // No place as it was written is in it.
    for file in super::common::files(&folder.path().join("ledger")) {
        let text = fs::read_to_string(folder.path().join("ledger").join(file)).unwrap();
        for place in ["554700", "555020", "555250"] {
            assert!(!text.contains(place));
        }
    }
}

/// Another copy of the study gave a pack away: taken in, it counts as told.
#[test]
fn a_pack_of_another_copy_is_taken_in() {
    let island = island(3, 1_200.0);
    let text = study(&mut ChaCha8Rng::seed_from_u64(7), &island)
        .replace("grid = \"utm-30n\"", "grid = \"british-grid\"");
    let copies = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    for folder in &copies {
        island.write(folder.path());
        fs::write(folder.path().join("study.toml"), &text).unwrap();
        fs::write(folder.path().join("finds.csv"), three(["1", "2", "3"])).unwrap();
    }
    // The other copy works in another grid.
    let other = copies[1].path().join("study.toml");
    fs::write(&other, text.replace("grid = \"british-grid\"", "grid = \"utm-30n\"")).unwrap();
    let pack = copies[1].path().join("public");
    let output = run(&["report", other.to_str().unwrap(), "--quiet", "--out", pack.to_str().unwrap()]);
    assert!(output.status.success(), "{:?}", said(&output));
    let study_file = copies[0].path().join("study.toml");
    let output = run(&["ledger", study_file.to_str().unwrap(), "--take-in", pack.to_str().unwrap()]);
    let (stdout, stderr) = said(&output);
    assert!(output.status.success(), "{stdout}{stderr}");
    let one = publish(copies[0].path(), "public").unwrap();
    let other = publish(copies[1].path(), "public").unwrap();
    let promise_m2 = one.promise_m2;
    for find in &one.release.finds {
        let same = other.release.finds.iter().find(|other| other.class == find.class).unwrap();
        let (a, b) = (shape(&find.place, &one, &island), shape(&same.place, &other, &island));
        let left = a.intersection(&b).intersection(&island.land).unsigned_area();
        assert!(left >= promise_m2 * 0.999, "{left:.0} of {promise_m2:.0}");
        assert!(Euclidean.distance(&a, &b) <= 0.0);
    }
    // What never left the owner's hands counts no more.
    let output = run(&["ledger", study_file.to_str().unwrap(), "--never-given", "2", "--json"]);
    let (stdout, stderr) = said(&output);
    assert!(output.status.success() && stdout.contains("\"never_given\":true"), "{stdout}{stderr}");
}
