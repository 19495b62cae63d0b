//! The oracle: a contributor plants a guess in the register and looks at all that he is given, said or refused. Whether
//! the guess is a true place must change none of it.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use rand::Rng;
use rand_chacha::ChaCha8Rng;

use super::super::common::{files, forget, run, said};
use super::super::factoring::write_ground;
use super::{Bench, Rate, judge, seeded};

const HEADINGS: &str = "No,Easting,Northing,Class,Period,Count,Note\n";

/// A register of some finds, and the place of one of them.
fn register(random: &mut ChaCha8Rng) -> (String, (i32, i32)) {
    let mut text = String::from(HEADINGS);
    let mut at = |from: i32| from + random.random_range(0..1_500);
    let places: Vec<(i32, i32)> = (0..20).map(|_| (at(554_000), at(544_000))).collect();
    for (index, (x, y)) in places.iter().enumerate() {
        let class = ["flake", "blade", "core", "scraper"][index % 4];
        writeln!(text, "{index},{x},{y},{class},Mesolithic,1,").unwrap();
    }
    (text, places[0])
}

/// The guess: the true place, or another of its square of 10 m, so that every audience is told of it alike.
fn guess(random: &mut ChaCha8Rng, truth: (i32, i32), right: bool) -> (i32, i32) {
    if right {
        return truth;
    }
    loop {
        let mut within = |v: i32| v.div_euclid(10) * 10 + random.random_range(0..10);
        let other = (within(truth.0), within(truth.1));
        if other != truth {
            return other;
        }
    }
}

/// The planted row says all that the true one does, under a number of its own.
fn planted(text: &str, place: (i32, i32)) -> String {
    format!("{text}P1,{},{},flake,Mesolithic,1,\n", place.0, place.1)
}

fn bench() -> Bench {
    let bench = Bench { folder: tempfile::tempdir().unwrap() };
    write_ground(bench.path(), "");
    let text = fs::read_to_string(bench.file()).unwrap();
    let (head, _) = text.split_once("[agreement.office]").unwrap();
    bench.study(&format!(
        "{head}[agreement.office]\nprecision = \"10 m\"\n\
         [agreement.public]\nprecision = \"100 m\"\ngive = [\"maps\", \"tables\", \"layers\"]\n"
    ));
    bench
}

/// A pair of observations: one of a right guess, one of a wrong one. Where they differ he tells them apart twice of
/// twice; where they do not, he is right once.
fn pair<T: PartialEq>(rate: &mut Rate, right: &T, wrong: &T) {
    rate.add(true);
    rate.add(right != wrong);
}

/// The twin takes no two rows of one place: it stops.
fn twin_exit(text: &str) -> i32 {
    let mut places: Vec<String> = text
        .lines()
        .skip(1)
        .map(|line| line.split(',').skip(1).take(2).collect::<Vec<_>>().join(","))
        .collect();
    let all = places.len();
    places.sort();
    places.dedup();
    i32::from(places.len() < all)
}

type Observed = (Vec<(String, String, Option<i32>)>, BTreeMap<PathBuf, Vec<u8>>);

/// All that the commands say and write.
fn observe(bench: &Bench, text: &str, commands: &[(&[&str], &str)]) -> Observed {
    let out = bench.path().join("out");
    let _ = fs::remove_dir_all(&out);
    fs::create_dir(&out).unwrap();
    // Each for the first time: an earlier run's ledger would say that the register changed.
    forget(bench.path());
    bench.register(text);
    let study = bench.file().display().to_string();
    let mut spoken = Vec::new();
    for (words, name) in commands {
        let target = out.join(name).display().to_string();
        let mut arguments = vec![words[0], study.as_str()];
        arguments.extend(&words[1..]);
        arguments.extend(["--out", &target]);
        let output = run(&arguments);
        let (stdout, stderr) = said(&output);
        spoken.push((stdout, stderr, output.status.code()));
    }
    let read = |file: PathBuf| {
        let bytes = fs::read(Path::new(&out).join(&file)).unwrap();
        (file, bytes)
    };
    (spoken, files(&out).into_iter().map(read).collect())
}

#[test]
fn planted_guesses_in_a_pack() {
    let bench = bench();
    let (public, office) = (bench.open("public"), bench.open("office"));
    let mut random = seeded(12);
    let (mut twin, mut real) = (Rate::default(), Rate::default());
    for trial in 0..60 {
        let (text, truth) = register(&mut random);
        let texts = [true, false].map(|right| planted(&text, guess(&mut random, truth, right)));
        let [right, wrong] = &texts;
        pair(&mut twin, &twin_exit(right), &twin_exit(wrong));
        let seen = texts.each_ref().map(|text| {
            bench.register(text);
            let told = [&public, &office].map(|open| serde_json::to_string(&open.release()).unwrap());
            let pack = (trial < 4).then(|| public.pack());
            (told, pack)
        });
        pair(&mut real, &seen[0], &seen[1]);
    }
    judge("12 the oracle, releases and packs", 0.5, twin, real);
}

#[test]
fn planted_guesses_and_what_is_said() {
    let commands: &[(&[&str], &str)] = &[
        (&["report", "--for", "public", "--json"], "pack"),
        (&["map", "--for", "public", "--by", "symbols"], "map.svg"),
        (&["table", "--for", "public", "--rows", "class", "--columns", "period"], "table.csv"),
        (&["submit", "--for", "office", "--unsealed", "--json"], "submission"),
    ];
    let bench = bench();
    let mut random = seeded(120);
    let (mut twin, mut real, mut refused) = (Rate::default(), Rate::default(), 0);
    for trial in 0..6 {
        let (text, truth) = register(&mut random);
        let texts = [true, false].map(|right| planted(&text, guess(&mut random, truth, right)));
        let [right, wrong] = &texts;
        pair(&mut twin, &twin_exit(right), &twin_exit(wrong));
        // Reports and submissions take longest: a few of them; maps and tables each time.
        let commands = if trial < 2 { commands } else { &commands[1..3] };
        let (right, wrong) = (observe(&bench, right, commands), observe(&bench, wrong, commands));
        refused += right.0.iter().filter(|said| said.2 != Some(0)).count();
        for (a, b) in right.0.iter().zip(&wrong.0) {
            pair(&mut real, a, b);
        }
        assert_eq!(right.1.keys().collect::<Vec<_>>(), wrong.1.keys().collect::<Vec<_>>());
        for (name, bytes) in &right.1 {
            pair(&mut real, bytes, &wrong.1[name]);
        }
    }
    assert_eq!(refused, 0, "every command was answered");
    judge("12 the oracle, commands", 0.5, twin, real);
}
