//! Symbols of our own: the shape says the class, the colour (or, in one ink, the filling) the period.

use std::collections::BTreeMap;

use super::canvas::{Canvas, Look, MM, Rect, Thing, Xy, xy};
use super::style::{Dye, Filling, Periods, Symbols};
use crate::study::vocabulary::{Class, Period};

/// Classes that share a symbol.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Dagger,
    Axehead,
    Arrowhead,
    Microlith,
    Scraper,
    Tool,
    Core,
    Blade,
    Waste,
    Other,
}

impl Kind {
    #[cfg(test)]
    pub const ALL: [Self; 10] = [
        Self::Dagger,
        Self::Axehead,
        Self::Arrowhead,
        Self::Microlith,
        Self::Scraper,
        Self::Tool,
        Self::Core,
        Self::Blade,
        Self::Waste,
        Self::Other,
    ];

    /// The symbol of a class; a class that is not shown has that of worked stone of no stated class.
    pub fn of(class: Option<Class>) -> Self {
        use Class as C;
        match class {
            None | Some(C::Unclassified) => Self::Other,
            Some(C::Dagger) => Self::Dagger,
            Some(C::Axehead | C::TranchetAxehead | C::PolishedAxehead | C::Pick) => Self::Axehead,
            Some(class) if class.is(C::Arrowhead) => Self::Arrowhead,
            Some(C::Microlith | C::Microburin) => Self::Microlith,
            Some(class) if class.is(C::Scraper) => Self::Scraper,
            Some(C::Core) => Self::Core,
            Some(class) if class.is(C::Blade) => Self::Blade,
            Some(class) if class.is_waste() => Self::Waste,
            Some(_) => Self::Tool,
        }
    }

    /// Its message in `words/`.
    pub fn message(self) -> &'static str {
        match self {
            Self::Dagger => "sheet-kind-dagger",
            Self::Axehead => "sheet-kind-axehead",
            Self::Arrowhead => "sheet-kind-arrowhead",
            Self::Microlith => "sheet-kind-microlith",
            Self::Scraper => "sheet-kind-scraper",
            Self::Tool => "sheet-kind-tool",
            Self::Core => "sheet-kind-core",
            Self::Blade => "sheet-kind-blade",
            Self::Waste => "sheet-kind-waste",
            Self::Other => "sheet-kind-other",
        }
    }

    /// Corners in a box from −1 to 1, right and down.
    fn corners(self) -> Vec<(f64, f64)> {
        let around = |n: usize, turn: f64, r: f64| -> Vec<(f64, f64)> {
            (0..n)
                .map(|i| {
                    let a = (i as f64 / n as f64 + turn) * std::f64::consts::TAU;
                    (r * a.sin(), -r * a.cos())
                })
                .collect()
        };
        match self {
            // A long lozenge, widest above its middle.
            Self::Dagger => vec![(0.0, -1.15), (0.46, -0.2), (0.0, 1.15), (-0.46, -0.2)],
            // A butt above, a flaring edge below.
            Self::Axehead => {
                vec![
                    (-0.3, -1.0),
                    (0.3, -1.0),
                    (0.85, 0.72),
                    (0.45, 0.95),
                    (0.0, 1.02),
                    (-0.45, 0.95),
                    (-0.85, 0.72),
                ]
            }
            // A point with a notched base.
            Self::Arrowhead => vec![(0.0, -1.1), (0.92, 0.95), (0.0, 0.4), (-0.92, 0.95)],
            // A slender right-angled triangle.
            Self::Microlith => vec![(-0.5, -1.1), (0.62, 1.0), (-0.5, 1.0)],
            // Half a disc on its straight edge.
            Self::Scraper => {
                let mut out = vec![(-0.98, 0.62)];
                out.extend((0..=10).map(|i| {
                    let a = std::f64::consts::PI * (1.0 - f64::from(i) / 10.0);
                    (0.98 * a.cos(), 0.35 - 1.1 * a.sin())
                }));
                out.push((0.98, 0.62));
                out
            }
            // A triangle on its point.
            Self::Tool => vec![(-1.0, -0.85), (1.0, -0.85), (0.0, 1.05)],
            Self::Core => around(6, 1.0 / 12.0, 0.98),
            // An upright bar.
            Self::Blade => vec![(-0.33, -1.1), (0.33, -1.1), (0.33, 1.1), (-0.33, 1.1)],
            // A dot, smaller than the rest, since there are so many.
            Self::Waste => around(16, 0.0, 0.68),
            // An upright cross.
            Self::Other => {
                let (a, b) = (0.3, 0.9);
                vec![
                    (-a, -b),
                    (a, -b),
                    (a, -a),
                    (b, -a),
                    (b, a),
                    (a, a),
                    (a, b),
                    (-a, b),
                    (-a, a),
                    (-b, a),
                    (-b, -a),
                    (-a, -a),
                ]
            }
        }
    }
}

/// Periods that share a colour, in the order of the vocabulary, which tables follow too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Era {
    Palaeolithic,
    Mesolithic,
    MesolithicEarlyNeolithic,
    // A broad period before its parts, as tables have them.
    Neolithic,
    EarlyNeolithic,
    LateNeolithicEarlyBronzeAge,
    BronzeAge,
    Undated,
}

impl Era {
    /// The colour of a period; a period that is not shown has that of the undated.
    pub fn of(period: Option<Period>) -> Self {
        use Period as P;
        match period {
            Some(P::Palaeolithic) => Self::Palaeolithic,
            Some(P::Mesolithic | P::EarlyMesolithic | P::LateMesolithic) => Self::Mesolithic,
            Some(P::MesolithicEarlyNeolithic) => Self::MesolithicEarlyNeolithic,
            Some(P::EarlyNeolithic) => Self::EarlyNeolithic,
            Some(P::Neolithic | P::MiddleNeolithic) => Self::Neolithic,
            Some(
                P::LateNeolithic
                | P::LateNeolithicEarlyBronzeAge
                | P::NeolithicBronzeAge
                | P::BellBeaker
                | P::EarlyBronzeAge,
            ) => Self::LateNeolithicEarlyBronzeAge,
            Some(P::BronzeAge | P::MiddleBronzeAge | P::LateBronzeAge) => Self::BronzeAge,
            None | Some(P::Prehistoric | P::Undated) => Self::Undated,
        }
    }

    /// Its message in `words/`.
    pub fn message(self) -> &'static str {
        match self {
            Self::Palaeolithic => "sheet-era-palaeolithic",
            Self::Mesolithic => "sheet-era-mesolithic",
            Self::MesolithicEarlyNeolithic => "sheet-era-mesolithic-early-neolithic",
            Self::EarlyNeolithic => "sheet-era-early-neolithic",
            Self::Neolithic => "sheet-era-neolithic",
            Self::LateNeolithicEarlyBronzeAge => "sheet-era-late-neolithic-early-bronze-age",
            Self::BronzeAge => "sheet-era-bronze-age",
            Self::Undated => "sheet-era-undated",
        }
    }

    pub fn dye(self, periods: &Periods) -> Dye {
        match self {
            Self::Palaeolithic => periods.palaeolithic,
            Self::Mesolithic => periods.mesolithic,
            Self::MesolithicEarlyNeolithic => periods.mesolithic_early_neolithic,
            Self::EarlyNeolithic => periods.early_neolithic,
            Self::Neolithic => periods.neolithic,
            Self::LateNeolithicEarlyBronzeAge => periods.late_neolithic_early_bronze_age,
            Self::BronzeAge => periods.bronze_age,
            Self::Undated => periods.undated,
        }
    }
}

/// Draws a symbol of a size (its box) centred on a point.
pub(super) fn symbol(
    canvas: &mut Canvas,
    kind: Kind,
    dye: Dye,
    look: &Symbols,
    x: f64,
    y: f64,
    size_mm: f64,
) {
    canvas.note(Thing::Symbol, kind.message(), symbol_box(x, y, size_mm));
    let half = size_mm * MM / 2.0 / 1.15;
    let ring: Vec<(f64, f64)> =
        kind.corners().iter().map(|(dx, dy)| (x + dx * half, y + dy * half)).collect();
    let whole = |ring: &[(f64, f64)]| -> Vec<Xy> { ring.iter().map(|(x, y)| xy(*x, *y)).collect() };
    let outline = &look.outline;
    let edge = if dye.filling == Filling::Solid { outline.ink } else { dye.ink };
    let fill = if dye.filling == Filling::Solid { dye.ink } else { look.open };
    canvas.rings_with(&[whole(&ring)], &Look::fill(fill).with_line(edge, outline.width_pt));
    let within = Look::fill(dye.ink);
    match dye.filling {
        Filling::Solid | Filling::Open => {}
        Filling::Left => canvas.rings_with(&[whole(&cut(&ring, |p| x - p.0))], &within),
        Filling::Lower => canvas.rings_with(&[whole(&cut(&ring, |p| p.1 - y))], &within),
        Filling::Dot => canvas.circle_with(x, y, half * 0.36, &within),
        Filling::Ruled => {
            let lines: Vec<Vec<Xy>> =
                [-0.5, 0.0, 0.5].iter().flat_map(|share| across(&ring, y + share * half)).collect();
            canvas.lines_with(&lines, &Look::line(dye.ink, 0.5));
        }
    }
}

/// The part of a ring where `side` is not negative (Sutherland and Hodgman 1974, one edge).
fn cut(ring: &[(f64, f64)], side: impl Fn(&(f64, f64)) -> f64) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    for (index, a) in ring.iter().enumerate() {
        let b = &ring[(index + 1) % ring.len()];
        let (sa, sb) = (side(a), side(b));
        if sa >= 0.0 {
            out.push(*a);
        }
        if (sa < 0.0) != (sb < 0.0) {
            let t = sa / (sa - sb);
            out.push((a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1)));
        }
    }
    out
}

/// The stretches of a level line inside a ring.
fn across(ring: &[(f64, f64)], y: f64) -> Vec<Vec<Xy>> {
    let mut at: Vec<f64> = Vec::new();
    for (index, a) in ring.iter().enumerate() {
        let b = ring[(index + 1) % ring.len()];
        if (a.1 <= y) != (b.1 <= y) {
            at.push(a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0));
        }
    }
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|pair| vec![xy(pair[0], y), xy(pair[1], y)]).collect()
}

/// The box that a symbol needs.
pub(super) fn symbol_box(x: f64, y: f64, size_mm: f64) -> Rect {
    Rect::new(x, y, 0.0, 0.0).grown(size_mm * MM / 2.0)
}

/// Slanting lines across boxes, from lower left to upper right, cut to them. Where boxes meet a line goes on.
pub(super) fn hatching(boxes: &[Rect], spacing_mm: f64) -> Vec<Vec<Xy>> {
    let step = spacing_mm * MM * std::f64::consts::SQRT_2;
    // On each line x + y is constant.
    let mut parts: BTreeMap<i64, Vec<(f64, f64)>> = BTreeMap::new();
    for rect in boxes {
        let mut line = ((rect.x0 + rect.y0) / step).ceil() as i64;
        while line as f64 * step < rect.x1 + rect.y1 {
            let sum = line as f64 * step;
            let (from_x, to_x) = ((sum - rect.y1).max(rect.x0), (sum - rect.y0).min(rect.x1));
            if to_x - from_x > 1.0 {
                parts.entry(line).or_default().push((from_x, to_x));
            }
            line += 1;
        }
    }
    let mut lines = Vec::new();
    for (line, mut parts) in parts {
        let sum = line as f64 * step;
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let joined = parts.into_iter().fold(Vec::<(f64, f64)>::new(), |mut joined, part| {
            match joined.last_mut() {
                Some(last) if part.0 - last.1 < 1.0 => last.1 = last.1.max(part.1),
                _ => joined.push(part),
            }
            joined
        });
        lines.extend(joined.into_iter().map(|(from, to)| vec![xy(from, sum - from), xy(to, sum - to)]));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::Kind;
    use geo::{Area, BooleanOps, LineString, MultiPolygon, Polygon};

    fn shape(kind: Kind) -> MultiPolygon<f64> {
        MultiPolygon::new(vec![Polygon::new(LineString::from(kind.corners()), Vec::new())])
    }

    /// Two black symbols are told apart when a good part of what either covers is not shared: at 2.2 mm
    /// a quarter of a symbol's area is about 0.5 mm², which print and eye keep.
    #[test]
    fn symbols_are_told_apart_in_black() {
        for (i, a) in Kind::ALL.iter().enumerate() {
            for b in &Kind::ALL[i + 1..] {
                let (first, second) = (shape(*a), shape(*b));
                let apart = first.xor(&second).unsigned_area() / first.union(&second).unsigned_area();
                assert!(apart >= 0.2, "{a:?} and {b:?} differ by {apart:.2}");
            }
        }
    }

    #[test]
    fn every_symbol_stays_in_its_box() {
        for kind in Kind::ALL {
            for (x, y) in kind.corners() {
                assert!(x.abs() <= 1.15 && y.abs() <= 1.15, "{kind:?}");
            }
        }
    }
}
