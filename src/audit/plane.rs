//! The plane that a drawing lies in, and the figures along a map's frame, which take it back to the ground.

use super::opening::{Here, Opened};
use super::{Part, Vertex};

/// `[a, b, c, d, e, f]` as SVG and PDF have it.
pub(super) type Matrix = [f64; 6];
/// The plane that changes nothing.
pub(super) const SAME: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

/// The plane `n` inside the plane `m`.
pub(super) fn then(m: Matrix, n: Matrix) -> Matrix {
    [
        m[0] * n[0] + m[2] * n[1],
        m[1] * n[0] + m[3] * n[1],
        m[0] * n[2] + m[2] * n[3],
        m[1] * n[2] + m[3] * n[3],
        m[0] * n[4] + m[2] * n[5] + m[4],
        m[1] * n[4] + m[3] * n[5] + m[5],
    ]
}

/// Where a point of a plane lies on the page.
pub(super) fn at(m: Matrix, x: f64, y: f64) -> (f64, f64) {
    (m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5])
}

/// Words on a page, and where their middle is.
pub(super) struct Label {
    pub x: f64,
    pub y: f64,
    /// They run up or down the page.
    pub upright: bool,
    pub text: String,
}

/// How page and ground lie to each other: metres for each page unit and metres at its origin, east and north.
#[derive(Clone, Copy)]
pub(super) struct Fit {
    east: (f64, f64),
    north: (f64, f64),
}

/// Figures that stand in one line along a frame: how they count, and how many agree.
struct Row {
    metres: (f64, f64),
    agree: usize,
}

/// Both axes of a map have one scale, to this share.
const ONE_SCALE: f64 = 0.005;
/// Figures that agree stand where they should to this share of their row.
const BESIDE: f64 = 0.02;

/// A figure along a frame.
struct Figure {
    /// Where it stands, across its row and along it.
    across: f64,
    along: f64,
    metres: f64,
    /// Letters that it is written in.
    letters: usize,
}

/// Finds a map's frame by its figures: a row along the page and one up the page, of one scale, on which most agree.
/// Figures of a row stand in line to `in_line` page units.
pub(super) fn fit(labels: &[Label], in_line: f64) -> Option<Fit> {
    let (along, up) = (rows(labels, false, in_line), rows(labels, true, in_line));
    let pairs = along.iter().flat_map(|east| up.iter().map(move |north| (east, north)));
    let of_one_scale = pairs.filter(|(east, north)| {
        let (a, b) = (east.metres.0.abs(), north.metres.0.abs());
        (a - b).abs() <= ONE_SCALE * a.max(b)
    });
    let (east, north) = of_one_scale.max_by_key(|(east, north)| east.agree + north.agree)?;
    Some(Fit { east: east.metres, north: north.metres })
}

fn rows(labels: &[Label], upright: bool, in_line: f64) -> Vec<Row> {
    let mut figures: Vec<Figure> = labels
        .iter()
        .filter(|label| label.upright == upright)
        .filter_map(|label| {
            let metres = kilometres(&label.text)? * 1000.0;
            let (across, along) = if upright { (label.x, label.y) } else { (label.y, label.x) };
            Some(Figure { across, along, metres, letters: label.text.chars().count() })
        })
        .collect();
    figures.sort_by(|a, b| a.across.total_cmp(&b.across).then(a.along.total_cmp(&b.along)));
    figures.chunk_by(|a, b| b.across - a.across <= in_line).filter_map(row).collect()
}

fn row(figures: &[Figure]) -> Option<Row> {
    // Figures written alike have their middles alike, however wide a letter is taken to be.
    let alike = |letters: usize| figures.iter().filter(move |figure| figure.letters == letters);
    let letters =
        figures.iter().map(|figure| figure.letters).max_by_key(|letters| alike(*letters).count())?;
    let best: Vec<&Figure> =
        if alike(letters).count() > 1 { alike(letters).collect() } else { figures.iter().collect() };
    let first = best.iter().min_by(|a, b| a.along.total_cmp(&b.along))?;
    let last = best.iter().max_by(|a, b| a.along.total_cmp(&b.along))?;
    let unit = (last.metres - first.metres) / (last.along - first.along);
    // A row that begins at nought is a scale bar's.
    let begins_at_nought = figures.iter().any(|figure| figure.metres == 0.0);
    if !unit.is_finite() || unit == 0.0 || begins_at_nought {
        return None;
    }
    let origin = first.metres - unit * first.along;
    let slack = BESIDE * (last.metres - first.metres).abs();
    let agrees = |figure: &&Figure| (figure.metres - origin - unit * figure.along).abs() <= slack;
    let agree = figures.iter().filter(agrees).count();
    (agree * 4 >= figures.len() * 3).then_some(Row { metres: (unit, origin), agree })
}

/// The kilometres that a label along the frame says, its last figure; `None` where it is words.
fn kilometres(label: &str) -> Option<f64> {
    const MOST_LETTERS: usize = 4;
    let kept: String = label.chars().filter(|c| !matches!(c, '\u{202f}' | '\u{a0}')).collect();
    if kept.chars().filter(|c| c.is_alphabetic()).count() > MOST_LETTERS {
        return None;
    }
    let figure = kept
        .split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
        .rfind(|part| part.starts_with(|c: char| c.is_ascii_digit()))?;
    match figure.split_once(',') {
        Some((whole, group)) if group.len() == 3 => format!("{whole}{group}").parse().ok(),
        Some((whole, decimals)) => format!("{whole}.{decimals}").parse().ok(),
        None => figure.parse().ok(),
    }
}

/// Notes marks (where they are on the page, and whether they lie in a group that has a name) as places on the ground.
/// The page is drawn to `unit`.
pub(super) fn to_ground(
    opened: &mut Opened,
    here: &Here,
    fit: Fit,
    unit: f64,
    marks: impl Iterator<Item = (f64, f64, bool)>,
) {
    for (x, y, named) in marks {
        opened.vertices.push(Vertex {
            within: here.within.clone(),
            kind: "audit-kind-mark",
            system: None,
            x: fit.east.1 + fit.east.0 * x,
            y: fit.north.1 + fit.north.0 * y,
            unit: fit.east.0.abs() * unit,
            part: Part::Mark { named },
        });
    }
}
