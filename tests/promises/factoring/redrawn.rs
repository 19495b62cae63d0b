//! The first test, on hundreds of random studies: two registers with the same release, in different files, laid down
//! otherwise, in different folders, are told of by the same command line, each in a process of its own with a user,
//! language, time zone and number of threads of its own; and everything that can be observed is the same.

use std::collections::{BTreeMap, BTreeSet};
use std::time::Instant;

use rand::Rng;
use strew::exact::{Register, Release};
use strew::ground::Partition;
use strew::study::Study;

use super::calls::{self, KINDS};
use super::observed::{Observed, SURROUNDINGS};
use super::registers::{FINDS, Layout, OTHER, Row, to_degrees};
use super::studies::{Drawn, Weight, each, seeded};
use super::typed::{Command, PACK, Situation, commands};

const STUDIES: usize = 510;
/// Every so many, the library is asked without a command line too.
const ASKED_EVERY: usize = 6;

/// What came of one study.
struct Looked {
    audience: &'static str,
    command: String,
    succeeded: bool,
    written: bool,
    typed: BTreeSet<String>,
    /// Finds, those that lie elsewhere in the register re-drawn, and those that were set aside.
    finds: usize,
    moved: usize,
    /// What the library was asked for, and whether it answered.
    asked: Option<(usize, bool)>,
    /// Which of the leaks were seen.
    seen: Vec<bool>,
}

/// What a leaky program would tell of a register.
type Leak = fn(&[Row]) -> String;

/// Programs that would tell more than the release, each as what it would add to standard error, and by what share of
/// the studies it is to be seen at least: one find alone may lie where it lay, and one bit of it is the same half the time.
const LEAKS: [(&str, f64, Leak); 4] = [
    ("the sum of all eastings", 0.95, |rows| {
        format!("{:.0}", rows.iter().map(|row| row.easting.floor()).sum::<f64>())
    }),
    ("classes in the register's order", 0.95, |rows| {
        rows.iter().map(|row| row.class()).collect::<Vec<_>>().join(" ")
    }),
    ("the northernmost find", 0.9, |rows| {
        format!("{:.1}", rows.iter().map(|row| row.northing).fold(f64::MIN, f64::max))
    }),
    ("one bit of the first find's place", 0.33, |rows| {
        rows.first().map(|row| (row.easting as i64 % 2).to_string()).unwrap_or_default()
    }),
];

#[test]
fn registers_of_one_release_are_told_of_alike() {
    let began = Instant::now();
    let commands = commands();
    let turns = turns(&commands);
    let looked = each(STUDIES, |index| look(index, &commands[turns[index].0], turns[index].1));
    let mut by_command: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let mut by_audience: BTreeMap<&str, usize> = BTreeMap::new();
    let mut answered = [0; KINDS.len()];
    let (mut finds, mut moved, mut written) = (0, 0, 0);
    for one in &looked {
        let counts = by_command.entry(&one.command).or_default();
        counts.0 += 1;
        counts.1 += usize::from(one.succeeded);
        *by_audience.entry(one.audience).or_default() += 1;
        (finds, moved) = (finds + one.finds, moved + one.moved);
        written += usize::from(one.written);
        if let Some((kind, true)) = one.asked {
            answered[kind] += 1;
        }
    }
    let seconds = began.elapsed().as_secs_f64();
    println!(
        "{STUDIES} studies in {seconds:.0} s: {moved} of {finds} finds lie elsewhere; files were written for {written}; by command (typed, done) {by_command:?}; by audience {by_audience:?}; answered by the library {answered:?}"
    );
    // None of it is empty.
    assert!(moved * 10 > finds * 7, "most finds lie elsewhere");
    assert_eq!(by_command.len(), commands.len());
    for (command, (_, done)) in &by_command {
        assert!(*done >= 10, "{command} succeeded {done} times only");
    }
    assert!(by_audience.len() == 5 && by_audience.values().all(|studies| *studies > STUDIES / 12));
    assert!(answered.iter().all(|times| *times >= 3), "{answered:?}");
    // Every option and every value of a list was typed.
    let typed: BTreeSet<&String> = looked.iter().flat_map(|one| &one.typed).collect();
    let all: Vec<String> = commands.iter().flat_map(Command::all).collect();
    let never: Vec<&String> = all.iter().filter(|one| !typed.contains(one)).collect();
    assert!(never.is_empty() && all.len() > 80, "never typed: {never:?}");
    // The same comparison sees programs that tell more.
    for (index, (leak, least, _)) in LEAKS.iter().enumerate() {
        let seen = looked.iter().filter(|one| one.seen[index]).count();
        println!("a program that tells {leak} is seen by {seen} studies");
        assert!(seen as f64 >= least * STUDIES as f64, "{leak}: {seen}");
    }
}

/// Which command each study is told by, and how often it was before. Those that take long have fewer turns.
fn turns(commands: &[Command]) -> Vec<(usize, usize)> {
    let weight = |command: &Command| match command.name.as_str() {
        "audit" | "report" | "blank" => 1,
        "map" | "table" => 3,
        _ => 2,
    };
    let round =
        (0..3).flat_map(|turn| (0..commands.len()).filter(move |command| weight(&commands[*command]) > turn));
    let rounds = round.cycle().take(STUDIES);
    let mut before = vec![0; commands.len()];
    let turns = rounds.map(|command| {
        before[command] += 1;
        (command, before[command] - 1)
    });
    turns.collect()
}

fn look(index: usize, command: &Command, nth: usize) -> Looked {
    let seed = 52_000 + index as u64;
    let mut random = seeded(seed);
    let folders = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let weight = match command.name.as_str() {
        "report" if nth.is_multiple_of(6) => Weight::Report,
        "report" | "audit" => Weight::Light,
        _ => Weight::Usual,
    };
    let drawn = Drawn::of(seed, weight, folders[0].path());
    let layouts = [Layout::plain(FINDS, &drawn.country), Layout::drawn(&mut random, &drawn.country)];
    drawn.write(folders[1].path(), &layouts[1]);
    let opened = drawn.open(folders[0].path());
    let rows = random.random_range(6..20);
    let first = drawn.twins(&mut random, &opened, rows);
    let situation = Situation { audience: drawn.audience, parishes: &drawn.country.parishes };
    let mut typed = BTreeSet::new();
    let line = command.draw(&mut random, nth, &situation, &mut typed);
    let degrees = to_degrees();
    if line.iter().any(|word| word == "beside.toml") {
        let other = drawn.twins(&mut random, &opened, 6);
        for (folder, rows) in folders.iter().zip([&other.0, &other.1]) {
            Layout::plain(OTHER, &drawn.country).write(folder.path(), rows, &degrees);
        }
    }
    for ((folder, layout), rows) in folders.iter().zip(&layouts).zip([&first.0, &first.1]) {
        layout.write(folder.path(), rows, &degrees);
    }
    let (study, public, ground) = &opened;
    let again = Study::load(&folders[1].path().join("study.toml")).unwrap();
    assert!(
        again.audience(drawn.audience).unwrap() == public,
        "seed {seed}: the public part of the study is one"
    );
    let partition = Partition::fix(public, ground).unwrap();
    let releases: Vec<Release> = [study, &again]
        .into_iter()
        .map(|study| Register::read(study).unwrap().release(public, &partition).unwrap())
        .collect();
    assert!(releases[0] == releases[1], "seed {seed}: {:#?}\n{:#?}", releases[0], releases[1]);
    let mut lines = vec![line];
    if command.name == "audit" {
        let pack = ["report", "study.toml", "--for", drawn.audience, "--out", PACK].map(str::to_owned);
        lines.insert(0, pack.to_vec());
    }
    let run = |which: usize| Observed::of(folders[which].path(), &lines, &SURROUNDINGS[which]);
    let observed = [run(0), run(1)];
    if let Some(difference) = observed[0].differs_from(&observed[1]) {
        panic!("seed {seed}, {}, {lines:?}: {difference}", drawn.audience);
    }
    let asked = index.is_multiple_of(ASKED_EVERY).then(|| {
        let kind = index / ASKED_EVERY % KINDS.len();
        let ask = |which: usize| calls::answer(kind, &mut seeded(seed), public, ground, &releases[which]);
        let alone = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
        let (one, two) = (ask(0), alone.install(|| ask(1)));
        assert!(one == two, "seed {seed}, {}: {} differs", drawn.audience, KINDS[kind]);
        (kind, one.0)
    });
    let leaky = |which: usize, leak: fn(&[Row]) -> String| {
        let mut leaky = observed[which].clone();
        leaky.said[0].1.push_str(&leak([&first.0, &first.1][which]));
        leaky
    };
    let places: BTreeSet<String> = first.0.iter().map(place).collect();
    Looked {
        audience: drawn.audience,
        command: command.name.clone(),
        succeeded: observed[0].succeeded(),
        written: !observed[0].left.is_empty(),
        typed,
        finds: first.1.len(),
        moved: first.1.iter().filter(|row| !places.contains(&place(row))).count(),
        asked,
        seen: LEAKS
            .iter()
            .map(|(_, _, leak)| leaky(0, *leak).differs_from(&leaky(1, *leak)).is_some())
            .collect(),
    }
}

fn place(row: &Row) -> String {
    format!("{:.3} {:.3}", row.easting, row.northing)
}
