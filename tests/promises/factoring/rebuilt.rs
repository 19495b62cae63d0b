//! The second test, on hundreds of random studies: what is made of a release is made again in fresh processes, from the
//! serialised release and public ground alone, in other folders, by other users, elsewhere, in other languages and on
//! other numbers of threads.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use rand::Rng;
use strew::exact::{Register, Release};
use strew::ground::{Ground, Partition};
use strew::study::{PublicStudy, StricterRule};

use super::super::common::{files, said};
use super::calls::{Files, KINDS, answer};
use super::observed::SURROUNDINGS;
use super::registers::{FINDS, Layout, register, to_degrees};
use super::studies::{Drawn, Weight, each, seeded};

const STUDIES: usize = 240;
/// Set for the fresh processes: the folder to work in.
const CHILD: &str = "STREW_TEST_MAKE_AGAIN_IN";

#[test]
fn what_is_made_of_a_release_is_made_again_without_the_register() {
    if let Ok(folder) = std::env::var(CHILD) {
        return make_again(Path::new(&folder));
    }
    let began = Instant::now();
    let elsewhere = tempfile::tempdir().unwrap();
    let folder_of = |index: usize| {
        elsewhere.path().join((index % SURROUNDINGS.len()).to_string()).join(index.to_string())
    };
    let answers = each(STUDIES, |index| make(index, &folder_of(index)));
    let output = each(SURROUNDINGS.len(), |child| {
        let folder = elsewhere.path().join(child.to_string());
        let mut command = Command::new(std::env::current_exe().unwrap());
        SURROUNDINGS[child].place(&mut command, &folder);
        let test = "factoring::rebuilt::what_is_made_of_a_release_is_made_again_without_the_register";
        command.args(["--exact", test, "--nocapture"]).env(CHILD, &folder).output().unwrap()
    });
    for output in output {
        let (out, err) = said(&output);
        assert!(output.status.success(), "{out}{err}");
    }
    let mut answered = [0; KINDS.len()];
    for (index, (made, answer)) in answers.iter().enumerate() {
        answered[index % KINDS.len()] += usize::from(*made);
        let again = read(&folder_of(index).join("again"));
        let names = |files: &Files| files.keys().cloned().collect::<Vec<_>>();
        assert_eq!(names(answer), names(&again), "study {index}");
        for (name, bytes) in answer {
            assert!(*bytes == again[name], "study {index}: {name} differs");
        }
    }
    println!("{STUDIES} studies made again in {:.0} s; answered {answered:?}", began.elapsed().as_secs_f64());
    assert!(answered.iter().all(|times| *times >= 10), "{answered:?}");
}

/// Makes something of a study, and lays down what it takes to make it again.
fn make(index: usize, elsewhere: &Path) -> (bool, Files) {
    let seed = 91_000 + index as u64;
    let mut random = seeded(seed);
    let folder = tempfile::tempdir().unwrap();
    let weight = match (index % KINDS.len(), index % (KINDS.len() * 8)) {
        (_, 0) => Weight::Report,
        (0, _) => Weight::Light,
        _ => Weight::Usual,
    };
    let drawn = Drawn::of(seed, weight, folder.path());
    let rows = random.random_range(6..20);
    let rows = register(&mut random, &drawn.country, rows);
    Layout::plain(FINDS, &drawn.country).write(folder.path(), &rows, &to_degrees());
    let (study, public, ground) = drawn.open(folder.path());
    let partition = Partition::fix(&public, &ground).unwrap();
    let release = Register::read(&study).unwrap().release(&public, &partition).unwrap();
    fs::create_dir_all(elsewhere).unwrap();
    let near = public.agreement.stricter.iter().filter_map(|rule| match &rule.rule {
        StricterRule::Near { layer, .. } => Some(&layer.file),
        _ => None,
    });
    let layers: BTreeSet<&String> = public.layers.iter().map(|layer| &layer.file).chain(near).collect();
    for layer in layers {
        fs::copy(folder.path().join(layer), elsewhere.join(layer)).unwrap();
    }
    fs::write(elsewhere.join("release.json"), serde_json::to_string(&release).unwrap()).unwrap();
    fs::write(elsewhere.join("study.json"), serde_json::to_string(&public).unwrap()).unwrap();
    answer(index, &mut seeded(seed), &public, &ground, &release)
}

/// In the fresh process: every study of a folder.
fn make_again(folder: &Path) {
    for entry in fs::read_dir(folder).unwrap() {
        let folder = entry.unwrap().path();
        let index: usize = folder.file_name().unwrap().to_string_lossy().parse().unwrap();
        let text = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
        let public: PublicStudy = serde_json::from_str(&text("study.json")).unwrap();
        let release: Release = serde_json::from_str(&text("release.json")).unwrap();
        let ground = Ground::read(&public, &folder).unwrap();
        let (_, made) = answer(index, &mut seeded(91_000 + index as u64), &public, &ground, &release);
        for (name, bytes) in made {
            let path = folder.join("again").join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
    }
}

fn read(folder: &Path) -> Files {
    let named = |file: &std::path::PathBuf| {
        (file.to_string_lossy().replace('\\', "/"), fs::read(folder.join(file)).unwrap())
    };
    if folder.exists() { files(folder).iter().map(named).collect() } else { Files::new() }
}
