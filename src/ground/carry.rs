//! Carries shapes from a layer's system into the working grid, by the same conversions as the finds.

use geo::{Coord, LineString, Point, Polygon};

use super::source::{Row, Source};
use crate::coordinates::{Converter, System};
use crate::fault::{Fault, Result};

/// A straight edge in one system is bent in another. Edges longer than this are given vertices in
/// between before they are carried: over 1 km the bend stays within 0.02 m at 50 degrees north
/// (length² × tan(latitude) / 8 R for an edge along a parallel).
const LONGEST_EDGE_M: f64 = 1_000.0;

/// The same in degrees, about 1 km of latitude.
const LONGEST_EDGE_DEG: f64 = 0.01;

/// More vertices than this on one edge are no map: an edge round the world in metres of error.
const MOST_PARTS: f64 = 100_000.0;

/// Carries every row of `source` into `grid`.
pub(super) fn carry(source: Source, grid: &System) -> Result<Vec<Row>> {
    if source.system == *grid {
        return Ok(source.rows);
    }
    let way = Way { converter: Converter::new(&source.system, grid)?, longest: longest_edge(&source) };
    source
        .rows
        .into_iter()
        .enumerate()
        .map(|(i, row)| way.row(row).map_err(|f| f.at_row(i as u64 + 1)))
        .collect()
}

/// Degrees are told from metres by their size: a layer of a projected grid within 360 m of the grid's
/// origin would only be cut more finely than it needs.
fn longest_edge(source: &Source) -> f64 {
    let geographic = source.system == System::Wgs84
        || source.rows.iter().all(|row| {
            row.polygons.iter().flat_map(|p| p.exterior().0.iter()).all(small)
                && row.lines.iter().flat_map(|l| l.0.iter()).all(small)
        });
    if geographic { LONGEST_EDGE_DEG } else { LONGEST_EDGE_M }
}

fn small(c: &Coord<f64>) -> bool {
    c.x.abs() <= 360.0 && c.y.abs() <= 90.0
}

struct Way {
    converter: Converter,
    longest: f64,
}

impl Way {
    fn row(&self, row: Row) -> Result<Row> {
        Ok(Row {
            name: row.name,
            cover: row.cover,
            polygons: row.polygons.iter().map(|p| self.polygon(p)).collect::<Result<_>>()?,
            lines: row.lines.iter().map(|l| self.line(l)).collect::<Result<_>>()?,
            points: row.points.iter().map(|p| Ok(Point(self.place(p.0)?))).collect::<Result<_>>()?,
        })
    }

    fn polygon(&self, polygon: &Polygon<f64>) -> Result<Polygon<f64>> {
        let holes = polygon.interiors().iter().map(|ring| self.line(ring)).collect::<Result<_>>()?;
        Ok(Polygon::new(self.line(polygon.exterior())?, holes))
    }

    fn line(&self, line: &LineString<f64>) -> Result<LineString<f64>> {
        let mut carried = Vec::with_capacity(line.0.len());
        for edge in line.lines() {
            let length = edge.dx().hypot(edge.dy());
            let parts = (length / self.longest).ceil().clamp(1.0, MOST_PARTS);
            for part in 0..parts as u32 {
                let t = f64::from(part) / parts;
                carried.push(self.place(edge.start + edge.delta() * t)?);
            }
        }
        if let Some(last) = line.0.last() {
            carried.push(self.place(*last)?);
        }
        Ok(LineString(carried))
    }

    fn place(&self, place: Coord<f64>) -> Result<Coord<f64>> {
        let (x, y) = self.converter.convert_xy(place.x, place.y)?;
        if x.is_finite() && y.is_finite() { Ok(Coord { x, y }) } else { Err(Fault::new("ground-not-finite")) }
    }
}
