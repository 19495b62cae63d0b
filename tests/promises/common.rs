//! Small things that several promises need.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use geo::{LineString, MultiPolygon, Polygon};
use strew::coordinates::{Cell, Converter};

/// The root of the tree.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The demo's study file.
pub fn demo() -> PathBuf {
    root().join("demo-findspots/hernsey/study.toml")
}

/// The program, to be run with arguments.
pub fn strew(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_strew"));
    command.args(arguments);
    command
}

/// Runs the program and returns what it said.
pub fn run(arguments: &[&str]) -> Output {
    strew(arguments).output().expect("the program runs")
}

/// Standard output and error as text.
pub fn said(output: &Output) -> (String, String) {
    (
        String::from_utf8_lossy(&output.stdout).into_owned(),
        String::from_utf8_lossy(&output.stderr).into_owned(),
    )
}

/// The Python that the scripts of `tests/reference` run in, with their libraries: the folder that
/// `make test-tools` fills.
pub fn python() -> PathBuf {
    let folder = std::env::var("STREW_TEST_TOOLS").map(PathBuf::from).unwrap_or_else(|_| {
        Path::new(&std::env::var("HOME").unwrap_or_default()).join(".cache/strew-test-tools")
    });
    let python = folder.join("bin/python");
    assert!(python.exists(), "test tools are missing ({}): run make test-tools", python.display());
    python
}

/// Every file under `folder`, sorted, by its path inside it.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(next) = waiting.pop() {
        for entry in std::fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                found.push(path.strip_prefix(folder).unwrap().to_path_buf());
            }
        }
    }
    found.sort();
    found
}

/// Copies a folder with what is in it, but for a study's ledger: the copy is a study that told nothing yet, and
/// another test may be writing in it.
pub fn copy(from: &Path, to: &Path) {
    let of_ledger = |file: &&PathBuf| {
        file.starts_with("ledger/") && from.join("study.toml").exists()
            || file.as_path() == Path::new("ledger-head.json")
    };
    for file in files(from).iter().filter(|file| !of_ledger(file)) {
        let target = to.join(file);
        std::fs::create_dir_all(target.parent().unwrap()).unwrap();
        std::fs::copy(from.join(file), target).unwrap();
    }
}

/// A progress that says nothing.
pub struct Silent;

impl strew::run::Progress for Silent {
    fn step(&self, _message: &'static str) {}
}

/// How much of each of some surfaces makes up what is seen: least squares by its normal equations (Gauss's elimination;
/// surfaces far from alike).
pub fn least_squares(surfaces: &[Vec<f64>], seen: &[f64]) -> Vec<f64> {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let mut rows: Vec<Vec<f64>> =
        surfaces.iter().map(|a| surfaces.iter().map(|b| dot(a, b)).chain([dot(a, seen)]).collect()).collect();
    let n = rows.len();
    for pivot in 0..n {
        let head = rows[pivot].clone();
        for (at, row) in rows.iter_mut().enumerate() {
            if at != pivot {
                let times = row[pivot] / head[pivot];
                row.iter_mut().zip(&head).for_each(|(value, head)| *value -= times * head);
            }
        }
    }
    rows.iter().enumerate().map(|(at, row)| row[n] / row[at]).collect()
}

/// The outline of a square, carried into another grid: its edges are bent there.
pub fn outline(cell: Cell, carried: Option<&Converter>) -> MultiPolygon<f64> {
    let rect = cell.rect();
    let (min, max) = (rect.min(), rect.max());
    let corners = [(min.x, min.y), (max.x, min.y), (max.x, max.y), (min.x, max.y)];
    let mut ring = Vec::new();
    for (index, (x, y)) in corners.into_iter().enumerate() {
        let (to_x, to_y) = corners[(index + 1) % 4];
        for part in 0..16 {
            let t = f64::from(part) / 16.0;
            let at = (x + t * (to_x - x), y + t * (to_y - y));
            ring.push(carried.map_or(at, |carried| carried.convert_xy(at.0, at.1).unwrap()));
        }
    }
    MultiPolygon(vec![Polygon::new(LineString::from(ring), Vec::new())])
}

/// Takes a study's ledger away: what is told next is told for the first time.
pub fn forget(folder: &Path) {
    let _ = std::fs::remove_dir_all(folder.join("ledger"));
    let _ = std::fs::remove_file(folder.join("ledger-head.json"));
}
