//! Contours of a density surface: marching squares with linear interpolation between pixel centres.

use std::collections::BTreeMap;

use geo::{Coord, LineString, MultiPolygon, Polygon};

use crate::analyse::Surface;

/// A surface made ready: values carried a little way past the window's edge, so that contours meet the
/// coast instead of running along it (they are cut at the land afterwards).
pub(super) struct Field {
    columns: usize,
    rows: usize,
    /// Centre of the south-western pixel, and the step.
    west_m: f64,
    south_m: f64,
    step_m: f64,
    values: Vec<f64>,
}

impl Field {
    pub fn new(surface: &Surface) -> Self {
        // One ring of empty pixels closes every contour.
        let (columns, rows) = (surface.columns + 2, surface.rows + 2);
        let mut known: Vec<Option<f64>> = vec![None; columns * rows];
        for row in 0..surface.rows {
            for column in 0..surface.columns {
                let at = row * surface.columns + column;
                let inside = surface.inside.get(at).copied().unwrap_or(0.0) > 0.0;
                if let (true, Some(value)) = (inside, surface.per_hectare.get(at)) {
                    known[(row + 1) * columns + column + 1] = Some(*value);
                }
            }
        }
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
        }
    }

    /// Ground with at least `level`, as rings for the even-odd rule (each a polygon of its own).
    pub fn at_least(&self, level: f64) -> MultiPolygon<f64> {
        // Each edge of the net that the contour crosses leads to the next: inside stays on the left.
        let mut next: BTreeMap<(usize, bool), (usize, bool)> = BTreeMap::new();
        for row in 0..self.rows - 1 {
            for column in 0..self.columns - 1 {
                for (from, to) in self.steps(column, row, level) {
                    next.insert(from, to);
                }
            }
        }
        let mut rings = Vec::new();
        while let Some((&start, _)) = next.iter().next() {
            let mut ring = Vec::new();
            let mut edge = start;
            while let Some(to) = next.remove(&edge) {
                ring.push(self.crossing(edge, level));
                edge = to;
            }
            if ring.len() >= 3 {
                rings.push(Polygon::new(LineString::new(ring), Vec::new()));
            }
        }
        MultiPolygon::new(rings)
    }

    /// The steps of the contour through one mesh. Edges: (node, false) runs east of the node,
    /// (node, true) north of it. A saddle is parted by the mean of its corners.
    fn steps(&self, column: usize, row: usize, level: f64) -> Vec<((usize, bool), (usize, bool))> {
        let node = row * self.columns + column;
        let corner = [node, node + 1, node + self.columns + 1, node + self.columns];
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

    fn crossing(&self, (node, northwards): (usize, bool), level: f64) -> Coord<f64> {
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

/// Up to five round levels (1, 2, 5 times a power of ten) under a peak, from the lowest up.
pub(super) fn levels(peak: f64) -> Vec<f64> {
    if !(peak > 0.0 && peak.is_finite()) {
        return Vec::new();
    }
    let power = peak.log10().floor() as i32;
    let mut out: Vec<f64> = (power - 3..=power)
        .flat_map(|p| [1.0, 2.0, 5.0].map(|lead| lead * 10f64.powi(p)))
        .filter(|level| *level < peak * 0.98)
        .collect();
    let spare = out.len().saturating_sub(5);
    out.drain(..spare);
    out
}

#[cfg(test)]
mod tests {
    use super::{Field, levels};
    use crate::analyse::Surface;
    use geo::{Area, BooleanOps, Contains, Point};

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
            pieces: 1.0,
            left_out_of_place: 0,
            left_out_by_parish: 0,
        }
    }

    #[test]
    fn a_cone_is_cut_in_circles() {
        // Height 100 − distance from (200, 200): ground of at least 40 is a disc of radius 60.
        let cone = surface(40, 40, |x, y| 100.0 - (x - 200.0).hypot(y - 200.0));
        let disc = Field::new(&cone).at_least(40.0);
        assert_eq!(disc.0.len(), 1);
        let expected = std::f64::consts::PI * 60.0f64.powi(2);
        assert!((disc.unsigned_area() / expected - 1.0).abs() < 0.01, "{}", disc.unsigned_area());
        assert!(disc.contains(&Point::new(200.0, 200.0)));
    }

    #[test]
    fn a_crater_keeps_its_hole() {
        let rim = surface(40, 40, |x, y| 100.0 - ((x - 200.0).hypot(y - 200.0) - 80.0).abs());
        let rings = Field::new(&rim).at_least(70.0);
        assert_eq!(rings.0.len(), 2);
        let whole = rings.union(&geo::MultiPolygon::<f64>::new(vec![]));
        assert!(!whole.contains(&Point::new(200.0, 200.0)));
        assert!(whole.contains(&Point::new(280.0, 200.0)));
    }

    #[test]
    fn levels_are_round_and_below_the_peak() {
        assert_eq!(levels(37.0), [1.0, 2.0, 5.0, 10.0, 20.0]);
        assert!(levels(0.0).is_empty());
    }
}
