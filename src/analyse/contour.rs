//! Contours of a density surface, or of the land: marching squares with linear interpolation between pixel centres, through
//! the density over each pixel's ground, so that they meet a coast instead of running along it.

use std::collections::{BTreeMap, BTreeSet};

use geo::{Coord, LineString, MultiLineString, MultiPolygon, Polygon};

use super::Surface;

/// A surface made ready: values carried a little way past the window's edge, for contours that are cut at the
/// land afterwards.
pub struct Contours {
    columns: usize,
    rows: usize,
    /// Centre of the south-western pixel, and the step.
    west_m: f64,
    south_m: f64,
    step_m: f64,
    values: Vec<f64>,
    /// Whether each node is the centre of a pixel inside the window.
    inside: Vec<bool>,
}

/// An edge of the net: from a node east (`false`) or north (`true`).
type Edge = (usize, bool);

impl Contours {
    /// Of a surface.
    pub fn new(surface: &Surface) -> Self {
        // One ring of empty pixels closes every contour.
        let (columns, rows) = (surface.columns + 2, surface.rows + 2);
        let mut known: Vec<Option<f64>> = vec![None; columns * rows];
        for row in 0..surface.rows {
            for column in 0..surface.columns {
                known[(row + 1) * columns + column + 1] = surface.on_ground(column, row);
            }
        }
        let inside = known.iter().map(Option::is_some).collect();
        for _ in 0..3 {
            carry_outwards(&mut known, columns, rows);
        }
        let mut values: Vec<f64> = known.into_iter().map(|value| value.unwrap_or(0.0)).collect();
        for column in 0..columns {
            values[column] = 0.0;
            values[(rows - 1) * columns + column] = 0.0;
        }
        for row in 0..rows {
            values[row * columns] = 0.0;
            values[row * columns + columns - 1] = 0.0;
        }
        Self {
            columns,
            rows,
            west_m: surface.west_m - surface.pixel_m / 2.0,
            south_m: surface.south_m - surface.pixel_m / 2.0,
            step_m: surface.pixel_m,
            values,
            inside,
        }
    }

    /// Of values at the nodes of a net, row by row from the south-western one: heights of the land, say. No line
    /// comes near a node without a value.
    pub fn of_net(west_m: f64, south_m: f64, step_m: f64, columns: usize, values: &[Option<f64>]) -> Self {
        Self {
            columns,
            rows: values.len() / columns.max(1),
            west_m,
            south_m,
            step_m,
            values: values.iter().map(|value| value.unwrap_or(0.0)).collect(),
            inside: values.iter().map(Option::is_some).collect(),
        }
    }

    /// Ground with at least `level`, as rings for the even-odd rule (each a polygon of its own).
    pub fn at_least(&self, level: f64) -> MultiPolygon<f64> {
        // Each edge of the net that the contour crosses leads to the next: inside stays on the left.
        let mut next = self.net(level, |_| true);
        let mut rings = Vec::new();
        while let Some((&start, _)) = next.iter().next() {
            let ring = self.chain(&mut next, start, level);
            if ring.len() >= 3 {
                rings.push(Polygon::new(LineString::new(ring), Vec::new()));
            }
        }
        MultiPolygon::new(rings)
    }

    /// The contour of `level` inside the window alone: closed lines, and lines that end within a pixel of the
    /// window's edge. Higher ground is on the left.
    pub fn lines(&self, level: f64) -> MultiLineString<f64> {
        let mut next = self.net(level, |corners| corners.iter().all(|node| self.inside[*node]));
        let reached: BTreeSet<Edge> = next.values().copied().collect();
        let starts: Vec<Edge> = next.keys().copied().filter(|edge| !reached.contains(edge)).collect();
        let mut lines: Vec<LineString<f64>> = Vec::new();
        for start in starts {
            lines.push(LineString::new(self.chain(&mut next, start, level)));
        }
        while let Some((&start, _)) = next.iter().next() {
            lines.push(LineString::new(self.chain(&mut next, start, level)));
        }
        lines.retain(|line| line.0.len() >= 2);
        MultiLineString::new(lines)
    }

    /// Every step of the contour through the meshes that are wanted by their corners.
    fn net(&self, level: f64, wanted: impl Fn([usize; 4]) -> bool) -> BTreeMap<Edge, Edge> {
        let mut next = BTreeMap::new();
        for row in 0..self.rows.saturating_sub(1) {
            for column in 0..self.columns.saturating_sub(1) {
                if wanted(self.corners(column, row)) {
                    next.extend(self.steps(column, row, level));
                }
            }
        }
        next
    }

    /// Takes a line out of the net, from an edge on. A closed line ends where it began.
    fn chain(&self, next: &mut BTreeMap<Edge, Edge>, start: Edge, level: f64) -> Vec<Coord<f64>> {
        let mut line = vec![self.crossing(start, level)];
        let mut edge = start;
        while let Some(to) = next.remove(&edge) {
            line.push(self.crossing(to, level));
            edge = to;
        }
        line
    }

    /// The nodes of a mesh, round from its south-western one.
    fn corners(&self, column: usize, row: usize) -> [usize; 4] {
        let node = row * self.columns + column;
        [node, node + 1, node + self.columns + 1, node + self.columns]
    }

    /// The steps of the contour through one mesh. Edges: (node, false) runs east of the node,
    /// (node, true) north of it. A saddle is parted by the mean of its corners.
    fn steps(&self, column: usize, row: usize, level: f64) -> Vec<(Edge, Edge)> {
        let corner = self.corners(column, row);
        let node = corner[0];
        let high = corner.map(|at| self.values[at] >= level);
        let (south, east, north, west) =
            ((node, false), (node + 1, true), (node + self.columns, false), (node, true));
        let case = high.iter().enumerate().map(|(i, h)| usize::from(*h) << i).sum::<usize>();
        let mean_high = corner.iter().map(|at| self.values[*at]).sum::<f64>() / 4.0 >= level;
        match case {
            1 => vec![(south, west)],
            2 => vec![(east, south)],
            3 => vec![(east, west)],
            4 => vec![(north, east)],
            5 if mean_high => vec![(south, east), (north, west)],
            5 => vec![(south, west), (north, east)],
            6 => vec![(north, south)],
            7 => vec![(north, west)],
            8 => vec![(west, north)],
            9 => vec![(south, north)],
            10 if mean_high => vec![(east, north), (west, south)],
            10 => vec![(east, south), (west, north)],
            11 => vec![(east, north)],
            12 => vec![(west, east)],
            13 => vec![(south, east)],
            14 => vec![(west, south)],
            _ => Vec::new(),
        }
    }

    fn crossing(&self, (node, northwards): Edge, level: f64) -> Coord<f64> {
        let other = if northwards { node + self.columns } else { node + 1 };
        let (a, b) = (self.values[node], self.values[other]);
        let share = if (b - a).abs() > 1e-12 { ((level - a) / (b - a)).clamp(0.0, 1.0) } else { 0.5 };
        let (column, row) = ((node % self.columns) as f64, (node / self.columns) as f64);
        let (dx, dy) = if northwards { (0.0, share) } else { (share, 0.0) };
        Coord { x: self.west_m + (column + dx) * self.step_m, y: self.south_m + (row + dy) * self.step_m }
    }
}

/// Gives pixels without a value the mean of their neighbours that have one.
fn carry_outwards(values: &mut [Option<f64>], columns: usize, rows: usize) {
    let before = values.to_vec();
    for row in 0..rows {
        for column in 0..columns {
            if before[row * columns + column].is_some() {
                continue;
            }
            let (mut sum, mut n) = (0.0, 0u32);
            for r in row.saturating_sub(1)..(row + 2).min(rows) {
                for c in column.saturating_sub(1)..(column + 2).min(columns) {
                    if let Some(value) = before[r * columns + c] {
                        sum += value;
                        n += 1;
                    }
                }
            }
            if n > 0 {
                values[row * columns + column] = Some(sum / f64::from(n));
            }
        }
    }
}

/// Most levels of one map: as many as there are shades.
const MOST_LEVELS: usize = 5;

/// Up to five round levels (1, 2, 5 times a power of ten) under the peaks of surfaces, from the lowest up: the
/// highest there are, or, where surfaces of very different height share them, every second or third, so that
/// each shows some.
pub fn contour_levels<'s>(surfaces: impl IntoIterator<Item = &'s Surface>) -> Vec<f64> {
    let peaks: Vec<f64> = surfaces.into_iter().map(Surface::peak).collect();
    let highest = peaks.iter().copied().fold(0.0, f64::max);
    let lowest = peaks.iter().copied().fold(highest, f64::min);
    levels(lowest, highest)
}

fn levels(lowest: f64, highest: f64) -> Vec<f64> {
    if !(highest > 0.0 && highest.is_finite()) {
        return Vec::new();
    }
    let power = highest.log10().floor() as i32;
    let under: Vec<f64> = (power - 3..=power)
        .rev()
        .flat_map(|p| [5.0, 2.0, 1.0].map(|lead| round_level(lead, p)))
        .filter(|level| *level < highest * 0.98)
        .collect();
    // Enough that the lowest peak has two of them.
    let wanted = under.iter().position(|level| *level < lowest * 0.98).unwrap_or(0) + 2;
    let step = wanted.div_ceil(MOST_LEVELS).max(1);
    let mut levels: Vec<f64> = under.into_iter().step_by(step).take(MOST_LEVELS).collect();
    levels.reverse();
    levels
}

/// Whole powers up and down, so that 0.2 is 0.2 to the last digit.
fn round_level(lead: f64, power: i32) -> f64 {
    if power >= 0 { lead * 10f64.powi(power) } else { lead / 10f64.powi(-power) }
}

#[cfg(test)]
mod tests {
    use geo::{Area, BooleanOps, Contains, Point};

    use crate::exact::Figure;

    use super::{Contours, Surface, contour_levels, levels};

    fn surface(columns: usize, rows: usize, value: impl Fn(f64, f64) -> f64) -> Surface {
        let mut per_hectare = Vec::new();
        for row in 0..rows {
            for column in 0..columns {
                per_hectare.push(value(column as f64 * 10.0 + 5.0, row as f64 * 10.0 + 5.0));
            }
        }
        Surface {
            west_m: 0.0,
            south_m: 0.0,
            pixel_m: 10.0,
            columns,
            rows,
            inside: vec![1.0; per_hectare.len()],
            per_hectare,
            bandwidth_m: 10.0,
            bandwidth_method: "bandwidth-fixed",
            made: Default::default(),
            pieces: 1.0,
            held: Figure::default(),
            left_out_of_place: Figure::default(),
            left_out_by_parish: Figure::default(),
        }
    }

    #[test]
    fn a_cone_is_cut_in_circles() {
        // Height 100 − distance from (200, 200): ground of at least 40 is a disc of radius 60.
        let cone = surface(40, 40, |x, y| 100.0 - (x - 200.0).hypot(y - 200.0));
        let disc = Contours::new(&cone).at_least(40.0);
        assert_eq!(disc.0.len(), 1);
        let expected = std::f64::consts::PI * 60.0f64.powi(2);
        assert!((disc.unsigned_area() / expected - 1.0).abs() < 0.01, "{}", disc.unsigned_area());
        assert!(disc.contains(&Point::new(200.0, 200.0)));
    }

    #[test]
    fn a_crater_keeps_its_hole() {
        let rim = surface(40, 40, |x, y| 100.0 - ((x - 200.0).hypot(y - 200.0) - 80.0).abs());
        let rings = Contours::new(&rim).at_least(70.0);
        assert_eq!(rings.0.len(), 2);
        let whole = rings.union(&geo::MultiPolygon::<f64>::new(vec![]));
        assert!(!whole.contains(&Point::new(200.0, 200.0)));
        assert!(whole.contains(&Point::new(280.0, 200.0)));
    }

    #[test]
    fn levels_are_round_and_below_the_peak() {
        assert_eq!(levels(37.0, 37.0), [1.0, 2.0, 5.0, 10.0, 20.0]);
        assert_eq!(levels(0.7, 0.7), [0.02, 0.05, 0.1, 0.2, 0.5]);
        assert!(levels(0.0, 0.0).is_empty());
        // The lowest peak shows two levels.
        assert_eq!(levels(3.0, 37.0), [1.0, 2.0, 5.0, 10.0, 20.0]);
        assert_eq!(levels(0.4, 37.0), [0.05, 0.2, 1.0, 5.0, 20.0]);
    }

    #[test]
    fn lines_are_those_of_the_ground_and_stop_at_the_window() {
        let mut cone = surface(40, 40, |x, y| 100.0 - (x - 200.0).hypot(y - 200.0));
        let whole = Contours::new(&cone).lines(40.0);
        assert_eq!(whole.0.len(), 1);
        assert!(whole.0[0].is_closed());
        // The eastern half is sea.
        for (at, inside) in cone.inside.iter_mut().enumerate() {
            if at % 40 >= 20 {
                *inside = 0.0;
            }
        }
        let half = Contours::new(&cone).lines(40.0);
        assert_eq!(half.0.len(), 1);
        assert!(!half.0[0].is_closed());
        for c in &half.0[0].0 {
            assert!(c.x <= 195.0 + 1e-9, "{c:?}");
            assert!(((c.x - 200.0).hypot(c.y - 200.0) - 60.0).abs() < 0.3, "{c:?}");
        }
        assert_eq!(contour_levels([&cone]), [2.0, 5.0, 10.0, 20.0, 50.0]);
    }
}
