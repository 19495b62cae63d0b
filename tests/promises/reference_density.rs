//! Densities and bandwidths against spatstat, ks and sparr: `tests/reference/density.R` says what it computes.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use strew::analyse::kde::{
    Adaptive, At, Edge, Frame, Kernel, Observations, Selector, Sides, Smoother, adaptive_surface,
    choose_bandwidth,
};

use super::common::root;

struct Pattern {
    frame: Frame,
    x: Vec<f64>,
    y: Vec<f64>,
    window: Vec<f64>,
}

impl Pattern {
    fn observations(&self) -> Observations<'_> {
        Observations { x_m: &self.x, y_m: &self.y, side_m: Sides::Alike(0.0) }
    }
}

fn floats(path: &Path) -> Vec<f64> {
    let bytes = std::fs::read(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    bytes.chunks_exact(8).map(|eight| f64::from_le_bytes(eight.try_into().unwrap())).collect()
}

fn rows(path: &Path) -> Vec<Vec<String>> {
    let text = std::fs::read_to_string(path).unwrap();
    text.lines().skip(1).map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

fn patterns(folder: &Path) -> BTreeMap<String, Pattern> {
    let number = |text: &String| text.parse::<f64>().unwrap();
    let read = |row: Vec<String>| {
        let frame = Frame {
            west_m: number(&row[3]),
            south_m: number(&row[4]),
            pixel_m: number(&row[5]),
            columns: number(&row[1]) as usize,
            rows: number(&row[2]) as usize,
        };
        let points = floats(&folder.join(format!("{}.points", row[0])));
        let (x, y) = points.chunks_exact(2).map(|pair| (pair[0], pair[1])).unzip();
        let window = floats(&folder.join(format!("{}.window", row[0])));
        (row[0].clone(), Pattern { frame, x, y, window })
    };
    rows(&folder.join("patterns.csv")).into_iter().map(read).collect()
}

/// The largest difference as a share of the largest expected value, and that value's place.
fn difference(got: &[f64], expected: &[f64]) -> f64 {
    assert_eq!(got.len(), expected.len());
    let peak = expected.iter().copied().fold(0.0, f64::max);
    got.iter().zip(expected).map(|(a, b)| (a / 1e4 - b).abs()).fold(0.0, f64::max) / peak
}

#[test]
fn spatstat_ks_and_sparr_agree() {
    let folder = tempfile::tempdir().unwrap();
    let script = root().join("tests/reference/density.R");
    let done = Command::new("Rscript").arg(&script).arg(folder.path()).output();
    let done = done.unwrap_or_else(|e| panic!("Rscript cannot be run ({e}): run make test-tools"));
    assert!(
        done.status.success(),
        "run make test-tools if a package is missing: {}",
        String::from_utf8_lossy(&done.stderr)
    );
    let folder = folder.path();
    let patterns = patterns(folder);
    assert!(patterns.len() >= 7);
    let mut wrong = Vec::new();
    let mut hold = |what: String, difference: f64, most: f64| {
        println!("{what}: {difference:.2e} (at most {most})");
        if difference.is_nan() || difference > most {
            wrong.push(format!("{what}: {difference} over {most}"));
        }
    };

    for (name, pattern) in &patterns {
        let surface = |kernel: Kernel, edge: Edge| {
            let (frame, window) = (pattern.frame, Some(&pattern.window[..]));
            Smoother::new(pattern.observations(), kernel, frame, window, edge, At::Centre).surface(None)
        };
        for (what, kernel, edge) in [
            ("none", Kernel::round(700.0), Edge::None),
            ("uniform", Kernel::round(700.0), Edge::Uniform),
            ("diggle", Kernel::round(700.0), Edge::Diggle),
            ("leaning", Kernel { east_m: 900.0, north_m: 600.0, lean: 250_000.0 / 540_000.0 }, Edge::None),
            ("kde", Kernel::along_axes(700.0, 500.0), Edge::None),
        ] {
            let path = folder.join(format!("{name}.{what}"));
            if !path.exists() {
                continue;
            }
            let mut expected = floats(&path);
            if what == "kde" {
                // ks knows no window.
                expected.iter_mut().zip(&pattern.window).for_each(|(value, share)| *value *= share);
            }
            hold(format!("{name} {what}"), difference(&surface(kernel, edge), &expected), 0.01);
        }
        for (what, edge) in [("adaptive-diggle", Edge::Diggle), ("adaptive-uniform", Edge::Uniform)] {
            let path = folder.join(format!("{name}.{what}"));
            if !path.exists() {
                continue;
            }
            let got = adaptive_surface(
                pattern.observations(),
                None,
                None,
                Adaptive { h0_m: 800.0, pilot_m: 1000.0 },
                pattern.frame,
                Some(&pattern.window),
                edge,
                At::Centre,
            );
            hold(format!("{name} {what}"), difference(&got.per_hectare, &floats(&path)), 0.01);
        }
    }

    for row in rows(&folder.join("bandwidths.csv")) {
        let pattern = &patterns[&row[0]];
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let (east, north, across) = (number(2), number(3), number(4));
        let selector = match row[1].as_str() {
            "scott" => Selector::Rule,
            "diggle" => Selector::Diggle,
            "likelihood" => Selector::Likelihood,
            "plug-in" => Selector::PlugIn,
            "plug-in-full" => Selector::PlugInFull,
            "least-squares-diagonal" => Selector::LeastSquaresDiagonal,
            other => panic!("{other}"),
        };
        let window = Some((&pattern.frame, &pattern.window[..]));
        let got = choose_bandwidth(pattern.observations(), None, window, selector).unwrap().kernel;
        println!(
            "{} {}: {:.1} {:.1} lean {:.3}; expected {east:.1} {north:.1} lean {:.3}",
            row[0],
            row[1],
            got.east_m,
            got.north_m,
            got.lean,
            across / east / north
        );
        let off = match row[1].as_str() {
            // spatstat gives one bandwidth a direction; ours is one for both, of the mean variance.
            "scott" => (got.east_m / ((east * east + north * north) / 2.0).sqrt() - 1.0).abs(),
            _ => (got.east_m / east - 1.0).abs().max((got.north_m / north - 1.0).abs()),
        };
        // Where two bandwidths score alike, either may win: Diggle's score is a jagged line, and spatstat takes the
        // window's overlap from the nearest pixel and a pair's distance as the lower end of its step, where ours are
        // exact; a likelihood of few points is flat. Then ours must score as well on spatstat's own line: within a
        // hundredth of Diggle's, and within a tenth of a unit of log-likelihood.
        let score = |curve: &str, sign: f64| {
            let curve = floats(&folder.join(format!("{}.{curve}", row[0].trim_end_matches("-coarse"))));
            let points = || curve.chunks_exact(2);
            let least = points().map(|p| sign * p[1]).fold(f64::INFINITY, f64::min);
            let near = |p: &&[f64]| (p[0] / got.east_m - 1.0).abs();
            let ours = points().min_by(|a, b| near(a).total_cmp(&near(b))).unwrap();
            assert!(near(&ours) < 0.05, "our bandwidth is off the line");
            println!("scores {} and {least}", sign * ours[1]);
            (sign * ours[1] - least, least.abs())
        };
        let off = match row[1].as_str() {
            "diggle" if off > 0.02 => {
                let (worse, scale) = score("diggle-curve", 1.0);
                2.0 * worse / scale
            }
            "likelihood" if off > 0.02 => 0.2 * score("likelihood-curve", -1.0).0,
            _ => off,
        };
        hold(format!("{} {}", row[0], row[1]), off, 0.02);
        hold(format!("{} {} lean", row[0], row[1]), (got.lean - across / east / north).abs(), 0.02);
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
