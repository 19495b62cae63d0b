//! Exact areas of shapes inside squares: one square at a time, or all pixels of a raster at once.

use geo::{Coord, LineString, MultiPolygon, Rect};

/// A square raster, row 0 the southernmost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Easting of the west edge, metres.
    pub west_m: f64,
    /// Northing of the south edge, metres.
    pub south_m: f64,
    /// Side of a pixel, metres.
    pub pixel_m: f64,
    /// Pixels across.
    pub columns: usize,
    /// Pixels up.
    pub rows: usize,
}

/// The area of `shape` inside `rect`, square metres, exact to rounding. `shape` must be valid: outer
/// rings of one turn, holes of the other.
pub fn area_within(shape: &MultiPolygon<f64>, rect: Rect<f64>) -> f64 {
    let rings = shape.iter().flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()));
    // Counter-clockwise outer rings count up, clockwise holes count down.
    rings.map(|ring| ring_within(ring, rect)).sum::<f64>().abs()
}

/// Signed area of a ring clipped to a rectangle, half-plane by half-plane (Sutherland and Hodgman 1974,
/// Communications of the ACM 17:32–42). A clipped ring may run along the rectangle's sides and back:
/// that changes its outline and not its area.
fn ring_within(ring: &LineString<f64>, rect: Rect<f64>) -> f64 {
    // From the rectangle's corner, so that large coordinates cost no digits.
    let origin = rect.min();
    let (width, height) = (rect.width(), rect.height());
    let mut points: Vec<Coord<f64>> = ring.0.iter().map(|c| *c - origin).collect();
    points.pop();
    for side in 0..4 {
        // How far inside the half-plane a place lies.
        let inside = |c: Coord<f64>| match side {
            0 => c.x,
            1 => width - c.x,
            2 => c.y,
            _ => height - c.y,
        };
        let mut kept = Vec::with_capacity(points.len());
        for (index, &here) in points.iter().enumerate() {
            let before = points[(index + points.len() - 1) % points.len()];
            let (a, b) = (inside(before), inside(here));
            if (a >= 0.0) != (b >= 0.0) {
                kept.push(before + (here - before) * (a / (a - b)));
            }
            if b >= 0.0 {
                kept.push(here);
            }
        }
        points = kept;
        if points.len() < 3 {
            return 0.0;
        }
    }
    let next = |i: usize| points[(i + 1) % points.len()];
    points.iter().enumerate().map(|(i, a)| a.x * next(i).y - next(i).x * a.y).sum::<f64>() / 2.0
}

/// The share of each pixel that `shape` covers, 0 to 1, row by row from the south. Exact to rounding:
/// each edge adds the signed area between itself and the east side of the pixels it crosses, and a sum
/// from west to east fills what lies between edges.
pub fn shares(shape: &MultiPolygon<f64>, frame: &Frame) -> Vec<f64> {
    let width = frame.columns + 1;
    // For each pixel: area to the east of edges inside the pixel, and full height carried to all pixels
    // further east.
    let mut part = vec![0.0; width * frame.rows];
    let mut carried = vec![0.0; width * frame.rows];
    for polygon in shape {
        for ring in std::iter::once(polygon.exterior()).chain(polygon.interiors()) {
            for edge in ring.lines() {
                let scale = |c: Coord<f64>| {
                    ((c.x - frame.west_m) / frame.pixel_m, (c.y - frame.south_m) / frame.pixel_m)
                };
                add_edge(scale(edge.start), scale(edge.end), frame, &mut part, &mut carried);
            }
        }
    }
    let mut shares = Vec::with_capacity(frame.columns * frame.rows);
    for row in 0..frame.rows {
        let mut sum = 0.0;
        for column in 0..frame.columns {
            let index = row * width + column;
            shares.push(snap((sum + part[index]).abs()));
            sum += carried[index];
        }
    }
    shares
}

/// Rounding leaves shares a hair off nothing and all.
fn snap(share: f64) -> f64 {
    if share < 1e-9 {
        0.0
    } else if share > 1.0 - 1e-9 {
        1.0
    } else {
        share
    }
}

/// Adds one edge, in pixels, row by row and within a row pixel by pixel.
fn add_edge(a: (f64, f64), b: (f64, f64), frame: &Frame, part: &mut [f64], carried: &mut [f64]) {
    if a.1 == b.1 {
        return;
    }
    let (sign, low, high) = if a.1 < b.1 { (1.0, a, b) } else { (-1.0, b, a) };
    let (bottom, top) = (low.1.max(0.0), high.1.min(frame.rows as f64));
    if top <= bottom {
        return;
    }
    let slope = (high.0 - low.0) / (high.1 - low.1);
    let at = |y: f64| low.0 + (y - low.1) * slope;
    let width = frame.columns + 1;
    let last = frame.columns as f64;
    let mut y = bottom;
    let mut row = bottom as usize;
    while y < top && row < frame.rows {
        let next = top.min((row + 1) as f64);
        let (x0, x1) = (at(y), at(next));
        let (west, east) = if x0 < x1 { (x0, x1) } else { (x1, x0) };
        let line = row * width;
        let height = next - y;
        if east <= 0.0 {
            // West of the raster: all of it lies to the east.
            part[line] += sign * height;
            carried[line] += sign * height;
        } else if west < last {
            // Heights are shared among the columns the edge crosses in proportion to their width.
            let per_width = if east > west { height / (east - west) } else { 0.0 };
            if west < 0.0 {
                let h = -west * per_width;
                part[line] += sign * h;
                carried[line] += sign * h;
            }
            let (from, to) = (west.max(0.0), east.min(last));
            let mut column = from as usize;
            let mut x = from;
            loop {
                let stop = to.min((column + 1) as f64);
                let h = if east > west { (stop - x) * per_width } else { height };
                let east_of_middle = (column + 1) as f64 - (x + stop) / 2.0;
                part[line + column] += sign * h * east_of_middle;
                carried[line + column] += sign * h;
                x = stop;
                column += 1;
                if x >= to || column >= frame.columns {
                    break;
                }
            }
        }
        y = next;
        row += 1;
    }
}

#[cfg(test)]
mod tests {
    use geo::{MultiPolygon, Rect, wkt};

    use super::{Frame, area_within, shares};

    fn coast() -> MultiPolygon<f64> {
        wkt!(MULTIPOLYGON(
            ((-3. 1.3,7.7 -2.,13.1 4.4,6.2 5.5,9.9 12.,2.5 9.1,-3. 1.3),(3. 3.,3. 4.2,4.7 4.,3. 3.)),
            ((0. 11.,1.5 11.,1.5 14.,0. 11.))
        ))
    }

    #[test]
    fn a_triangle_over_half_a_pixel() {
        let triangle: MultiPolygon<f64> = wkt!(MULTIPOLYGON(((0. 0.,2. 0.,2. 2.,0. 0.))));
        let frame = Frame { west_m: 0.0, south_m: 0.0, pixel_m: 1.0, columns: 3, rows: 2 };
        assert_eq!(shares(&triangle, &frame), [0.5, 1.0, 0.0, 0.0, 0.5, 0.0]);
        assert_eq!(area_within(&triangle, Rect::new((0.5, 0.0), (1.5, 1.0))), 0.875);
    }

    #[test]
    fn both_ways_agree_on_every_pixel_of_a_crooked_coast() {
        let frame = Frame { west_m: -1.0, south_m: 0.5, pixel_m: 0.7, columns: 17, rows: 16 };
        let all = shares(&coast(), &frame);
        for row in 0..frame.rows {
            for column in 0..frame.columns {
                let x = frame.west_m + column as f64 * 0.7;
                let y = frame.south_m + row as f64 * 0.7;
                let slow = area_within(&coast(), Rect::new((x, y), (x + 0.7, y + 0.7))) / 0.49;
                let fast = all[row * frame.columns + column];
                assert!((slow - fast).abs() < 1e-9, "{column} {row}: {slow} {fast}");
            }
        }
    }

    #[test]
    fn shares_add_up_to_the_area() {
        use geo::Area;
        let frame = Frame { west_m: -5.0, south_m: -5.0, pixel_m: 0.25, columns: 80, rows: 80 };
        let sum: f64 = shares(&coast(), &frame).iter().sum::<f64>() * 0.0625;
        assert!((sum - coast().unsigned_area()).abs() < 1e-9, "{sum} {}", coast().unsigned_area());
    }
}
