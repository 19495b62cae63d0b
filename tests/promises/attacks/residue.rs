//! Residue carver: the program is killed at random moments, and every file that it leaves is carved for exact places, as
//! text in several notations and as numbers of machines.
#![cfg(unix)]

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::thread::sleep;
use std::time::Duration;

use aho_corasick::AhoCorasick;
use rand::Rng;
use strew::coordinates::{Converter, System};

use super::super::common::{files, said, strew};
use super::super::factoring::write_ground;
use super::{Bench, Rate, judge, seeded};

const FINDS: usize = 40;
/// The two figures of a place stand no farther apart than this, bytes.
const APART: usize = 80;

/// Exact places: metres that no square of 10 m begins or ends with.
fn places() -> Vec<(f64, f64)> {
    let mut random = seeded(10);
    let mut at = |from: i32| f64::from(from + 10 * random.random_range(0..200) + random.random_range(2..9));
    (0..FINDS).map(|_| (at(554_000), at(544_000))).collect()
}

/// The pairs of needles of one place: both figures, near each other, give it away.
fn needles(place: (f64, f64), to_degrees: &Converter) -> Vec<[Vec<u8>; 2]> {
    let text = |a: String, b: String| [a.into_bytes(), b.into_bytes()];
    let (x, y) = place;
    let (lon, lat) = to_degrees.convert_xy(x, y).unwrap();
    let inside = |v: f64| v as i64 % 100_000;
    let compact = format!("OV{:05}{:05}", inside(x), inside(y));
    vec![
        text(format!("{x:.0}"), format!("{y:.0}")),
        text(format!("{:05}", inside(x)), format!("{:05}", inside(y))),
        text(format!("{lat:.5}"), format!("{lon:.5}")),
        text(compact[..7].to_owned(), compact[7..].to_owned()),
        [x.to_le_bytes().to_vec(), y.to_le_bytes().to_vec()],
        [x.to_be_bytes().to_vec(), y.to_be_bytes().to_vec()],
        [(x as f32).to_le_bytes().to_vec(), (y as f32).to_le_bytes().to_vec()],
        [(x as f32).to_be_bytes().to_vec(), (y as f32).to_be_bytes().to_vec()],
    ]
}

struct Carver {
    search: AhoCorasick,
    /// For each needle, which find, notation and figure.
    of: Vec<(usize, usize, usize)>,
}

impl Carver {
    fn new(places: &[(f64, f64)]) -> Self {
        let to_degrees = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
        let (mut all, mut of) = (Vec::new(), Vec::new());
        for (find, place) in places.iter().enumerate() {
            for (notation, pair) in needles(*place, &to_degrees).into_iter().enumerate() {
                for (figure, needle) in pair.into_iter().enumerate() {
                    all.push(needle);
                    of.push((find, notation, figure));
                }
            }
        }
        Self { search: AhoCorasick::new(all).unwrap(), of }
    }

    /// The finds whose places stand in `bytes`.
    fn carve(&self, bytes: &[u8]) -> Vec<usize> {
        let mut seen: Vec<[Option<usize>; 2]> = vec![[None; 2]; FINDS * 8];
        let mut found = Vec::new();
        for hit in self.search.find_overlapping_iter(bytes) {
            let (find, notation, figure) = self.of[hit.pattern().as_usize()];
            let pair = &mut seen[find * 8 + notation];
            pair[figure] = Some(hit.start());
            if let [Some(a), Some(b)] = *pair
                && a.abs_diff(b) <= APART
            {
                found.push(find);
            }
        }
        found.sort_unstable();
        found.dedup();
        found
    }

    fn carve_folder(&self, folder: &Path, but: &[PathBuf]) -> Vec<(PathBuf, usize)> {
        let mut found = Vec::new();
        for file in files(folder) {
            let path = folder.join(&file);
            if !but.contains(&path) {
                let bytes = fs::read(&path).unwrap_or_default();
                found.extend(self.carve(&bytes).into_iter().map(|find| (file.clone(), find)));
            }
        }
        found
    }
}

/// A study, its register, and a folder for what is temporary.
fn bench() -> Bench {
    let bench = Bench { folder: tempfile::tempdir().unwrap() };
    write_ground(bench.path(), "");
    let text = fs::read_to_string(bench.file()).unwrap();
    let (head, _) = text.split_once("[agreement.office]").unwrap();
    bench.study(&format!(
        "{head}[agreement.office]\nprecision = \"10 m\"\n\
         [agreement.public]\nprecision = \"100 m\"\ngive = [\"maps\", \"tables\", \"layers\", \"density\"]\n"
    ));
    let mut register = String::from("No,Easting,Northing,Class,Count,Note\n");
    for (index, (x, y)) in places().into_iter().enumerate() {
        let class = ["flake", "blade", "core"][index % 3];
        writeln!(register, "{index},{x:.0},{y:.0},{class},1,by the gate at {x:.0} {y:.0}").unwrap();
    }
    bench.register(&register);
    fs::create_dir(bench.path().join("temporary")).unwrap();
    bench
}

fn commands(bench: &Bench) -> Vec<Vec<String>> {
    let at = |name: &str| bench.path().join(name).display().to_string();
    let study = at("study.toml");
    let words = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>();
    vec![
        words(&["report", &study, "--for", "public", "--out", &at("pack")]),
        words(&["submit", &study, "--for", "office", "--unsealed", "--out", &at("submission")]),
        words(&["map", &study, "--for", "public", "--out", &at("map.pdf")]),
    ]
}

fn started(bench: &Bench, command: &[String]) -> std::process::Command {
    let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
    let mut run = strew(&arguments);
    run.env("TMPDIR", bench.path().join("temporary")).stdin(Stdio::null());
    run
}

fn in_shared_memory() -> Vec<PathBuf> {
    let Ok(folder) = fs::read_dir("/dev/shm") else { return Vec::new() };
    let all = folder.filter_map(|entry| Some(entry.ok()?.path()));
    all.filter(|path| path.to_string_lossy().contains("strew")).collect()
}

/// Names of ours that stand in for what is being written.
fn left_behind(bench: &Bench) -> Vec<PathBuf> {
    let hidden = |path: &PathBuf| path.iter().any(|part| part.to_string_lossy().starts_with(".strew-"));
    let mut left: Vec<PathBuf> = files(bench.path()).into_iter().filter(hidden).collect();
    for entry in fs::read_dir(bench.path()).unwrap() {
        left.push(PathBuf::from(entry.unwrap().file_name()));
    }
    left.retain(hidden);
    left.sort();
    left.dedup();
    left
}

/// Runs each command with a kill at a random moment, several times over. Says how many were killed in time.
fn kill_at_random(bench: &Bench, seed: u64, times: usize, mut after: impl FnMut(&Bench)) -> usize {
    let mut random = seeded(seed);
    let mut killed = 0;
    for _ in 0..times {
        for command in commands(bench) {
            let mut child =
                started(bench, &command).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
            sleep(Duration::from_millis(random.random_range(5..900)));
            let ended = child.try_wait().unwrap().is_some();
            // SIGKILL: nothing of the program runs after it.
            child.kill().unwrap();
            child.wait().unwrap();
            killed += usize::from(!ended);
            after(bench);
        }
    }
    killed
}

#[test]
fn residue_carver() {
    let places = places();
    let carver = Carver::new(&places);
    let to_degrees = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    // The twin leaves the register's places in a temporary file, in one notation or another.
    let twin_folder = tempfile::tempdir().unwrap();
    let mut twin = Rate::default();
    for (find, place) in places.iter().enumerate() {
        let [a, b] = needles(*place, &to_degrees)[find % 8].clone();
        let file = twin_folder.path().join(format!("places-{find}.tmp"));
        fs::write(&file, [b"\0row ".as_slice(), &a, b" ", &b, b"\n"].concat()).unwrap();
        twin.add(carver.carve_folder(twin_folder.path(), &[]).iter().any(|(_, found)| *found == find));
        fs::remove_file(file).unwrap();
    }
    let bench = bench();
    let register = bench.path().join("finds.csv");
    let before = in_shared_memory();
    let mut real = Rate::default();
    let mut carve = |bench: &Bench| {
        let found = carver.carve_folder(bench.path(), std::slice::from_ref(&register));
        assert!(found.len() <= FINDS, "{found:?}");
        for find in 0..FINDS {
            real.add(found.iter().any(|(_, other)| *other == find));
        }
    };
    let killed = kill_at_random(&bench, 101, 4, &mut carve);
    for command in commands(&bench) {
        let output = started(&bench, &command).output().unwrap();
        assert!(output.status.success(), "{:?}", said(&output));
        carve(&bench);
        let (stdout, stderr) = said(&output);
        assert!(carver.carve(stdout.as_bytes()).is_empty() && carver.carve(stderr.as_bytes()).is_empty());
    }
    assert_eq!(in_shared_memory(), before);
    println!("10 residue carver: {killed} runs of 12 killed before their end");
    assert!(killed >= 3);
    judge("10 residue carver", 0.0, twin, real);
}

/// Killed at the moment when something of what it writes stands on the disk under a name of ours.
#[test]
fn what_a_killed_run_left_is_cleared_or_said() {
    let bench = bench();
    let (mut left, mut most) = (Vec::new(), 0);
    for _ in 0..8 {
        for command in commands(&bench) {
            let mut child =
                started(&bench, &command).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
            while child.try_wait().unwrap().is_none() && left_behind(&bench).len() == left.len() {
                sleep(Duration::from_micros(300));
            }
            let _ = child.kill();
            child.wait().unwrap();
            left = left_behind(&bench);
            most = most.max(left.len());
        }
    }
    println!("10 leftovers of killed runs: {most} at once");
    assert!(most > 0, "nothing was killed in time");
    let mut said_all = String::new();
    for command in commands(&bench) {
        let output = started(&bench, &command).output().unwrap();
        let (stdout, stderr) = said(&output);
        assert!(output.status.success(), "{stdout}{stderr}");
        said_all += &(stdout + &stderr);
    }
    let left = left_behind(&bench);
    println!("10 after the next runs: {left:?}");
    assert!(left.is_empty() || said_all.contains(".strew-"), "{left:?}");
}

/// A system that keeps the memory of what crashes keeps none of this program's. Its twin crashes as any other would.
#[test]
#[cfg(target_os = "linux")]
fn a_crash_leaves_no_copy_of_memory() {
    use std::io::Write;
    use std::os::unix::process::ExitStatusExt;
    let crash = |program: &[&str], place: &str| {
        let folder = tempfile::tempdir().unwrap();
        let mut child = std::process::Command::new("sh")
            .args(["-c", "ulimit -c unlimited; exec \"$@\"", "sh"])
            .args(program)
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.take().unwrap();
        writeln!(stdin, "{place}").unwrap();
        stdin.flush().unwrap();
        // It reads on until the end of its input, which does not come.
        sleep(Duration::from_millis(1_500));
        let id = child.id().to_string();
        assert!(std::process::Command::new("kill").args(["-ABRT", &id]).status().unwrap().success());
        let status = child.wait().unwrap();
        assert!(status.signal() == Some(6), "{status}");
        let holds = files(folder.path()).iter().any(|file| {
            let bytes = fs::read(folder.path().join(file)).unwrap();
            memchr::memmem::find(&bytes, place.as_bytes()).is_some()
        });
        (status.core_dumped(), holds)
    };
    let place = "555234 545876";
    let twin = crash(&["cat"], place);
    let pattern = fs::read_to_string("/proc/sys/kernel/core_pattern").unwrap_or_default();
    println!("10 memory of a crash: kept in {pattern:?}; of another program {twin:?}");
    // Where crashes are kept in the folder, the comparison sees one.
    assert!(twin == (true, true) || pattern.trim() != "core", "{pattern}");
    let real =
        crash(&[env!("CARGO_BIN_EXE_strew"), "convert", "--from", "british-grid", "--to", "wgs84"], place);
    assert_eq!(real, (false, false));
}
