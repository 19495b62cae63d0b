//! Contours of the land: quiet lines behind everything, a round height apart, and none where the ground is so
//! steep that they would run together into grey.

use geo::{MultiLineString, Simplify};

use super::canvas::{MM, Rect, Xy};
use super::view::View;
use crate::analyse::Contours;
use crate::ground::Relief;

/// Nodes of the net that contours are drawn through, apart on paper, millimetres.
const NODE_MM: f64 = 0.8;
/// On nine tenths of the land, contours lie at least this far apart, millimetres.
const APART_MM: f64 = 2.2;
/// Where they would lie nearer than this they are left out, millimetres.
const NEAREST_MM: f64 = 0.7;
/// Shorter pieces of contour say nothing, millimetres.
const SHORTEST_MM: f64 = 5.0;
/// Bends smaller than this are drawn straight, millimetres.
const THINNING_MM: f64 = 0.1;
/// Most contours from the lowest land to the highest.
const MOST: f64 = 15.0;
/// Land is tried at this many places a side, to learn how steep and high it is.
const TRIED: usize = 120;

/// The height between contours at a scale, metres: 1, 2 or 5 times a power of ten. `None` where the land is so
/// flat that there would be no more than one contour, or so steep that they would say nothing.
pub(super) fn interval_m(relief: &Relief, view: &View) -> Option<f64> {
    let (columns, rows) = (relief.columns, relief.rows);
    let (across, down) = (columns.div_ceil(TRIED).max(1), rows.div_ceil(TRIED).max(1));
    let step_m = across.max(down) as f64 * relief.pixel_m;
    let stride = across.max(down);
    let dry = |column: usize, row: usize| relief.height(column, row).map(f64::from).filter(|h| *h > 0.0);
    let (mut slopes, mut lowest, mut highest) = (Vec::new(), f64::INFINITY, f64::NEG_INFINITY);
    for row in (0..rows).step_by(stride) {
        for column in (0..columns).step_by(stride) {
            let Some(here) = dry(column, row) else { continue };
            lowest = lowest.min(here);
            highest = highest.max(here);
            if let (Some(east), Some(south)) = (dry(column + stride, row), dry(column, row + stride)) {
                slopes.push((east - here).hypot(south - here) / step_m);
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let steep = *slopes.get(slopes.len() * 9 / 10)?;
    let range = highest - lowest;
    let least = (steep * APART_MM * MM * view.unit_m).max(range / MOST).max(1.0);
    let round = (0..=3).flat_map(|power| [1.0, 2.0, 5.0].map(|lead| lead * 10f64.powi(power)));
    let interval = round.into_iter().find(|interval| *interval >= least)?;
    (range >= 2.0 * interval).then_some(interval)
}

/// Contours on the page.
pub(super) fn contours(relief: &Relief, view: &View) -> Vec<Vec<Xy>> {
    let (Some(interval), Some(net)) = (interval_m(relief, view), Net::over(relief, view)) else {
        return Vec::new();
    };
    let nearest_m = NEAREST_MM * MM * view.unit_m;
    let clear = net.where_gentler(interval / nearest_m);
    let heights = clear.iter().flatten();
    let (lowest, highest) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), height| {
        (low.min(*height), high.max(*height))
    });
    let drawn = Contours::of_net(net.west_m, net.south_m, net.step_m, net.columns, &clear);
    let mut lines = Vec::new();
    let mut level = (lowest / interval).ceil() * interval;
    while level <= highest {
        lines.extend(drawn.lines(level));
        level += interval;
    }
    let thin = THINNING_MM * MM * view.unit_m;
    let mut page = view.lines(&MultiLineString::new(lines).simplify(thin));
    page.retain(|line| length(line) >= SHORTEST_MM * MM);
    page
}

fn length(line: &[Xy]) -> f64 {
    line.windows(2).map(|pair| f64::from(pair[1].0 - pair[0].0).hypot(f64::from(pair[1].1 - pair[0].1))).sum()
}

/// Heights on a net of nodes, row by row from the south-western one, each the mean of the relief round it.
struct Net {
    west_m: f64,
    south_m: f64,
    step_m: f64,
    columns: usize,
    heights: Vec<Option<f64>>,
}

impl Net {
    /// Over the part of the frame that the relief covers.
    fn over(relief: &Relief, view: &View) -> Option<Self> {
        let across = relief.columns as f64 * relief.pixel_m;
        let down = relief.rows as f64 * relief.pixel_m;
        let f = view.frame;
        let part = Rect {
            x0: view.x(relief.west_m).max(f.x0),
            x1: view.x(relief.west_m + across).min(f.x1),
            y0: view.y(relief.north_m).max(f.y0),
            y1: view.y(relief.north_m - down).min(f.y1),
        };
        if part.width() < 2.0 * NODE_MM * MM || part.height() < 2.0 * NODE_MM * MM {
            return None;
        }
        // Whole pixels apart, and on whole pixels: the same nodes whatever the frame.
        let pixels = (NODE_MM * MM * view.unit_m / relief.pixel_m).round().max(1.0) as usize;
        let step_m = pixels as f64 * relief.pixel_m;
        let at = |metres: f64| (metres / step_m).floor().max(0.0) as usize;
        let (first, last) =
            (at(view.easting(part.x0) - relief.west_m), at(view.easting(part.x1) - relief.west_m));
        let (top, bottom) =
            (at(relief.north_m - view.northing(part.y0)), at(relief.north_m - view.northing(part.y1)));
        let (columns, rows) = (last - first + 1, bottom - top + 1);
        let mut heights = Vec::with_capacity(columns * rows);
        for row in (top..=bottom).rev() {
            for column in first..=last {
                heights.push(mean(relief, column * pixels, row * pixels, pixels));
            }
        }
        let mut net = Self {
            west_m: relief.west_m + (first as f64 + 0.5) * step_m,
            south_m: relief.north_m - (bottom as f64 + 0.5) * step_m,
            step_m,
            columns,
            heights,
        };
        net.soften();
        Some(net)
    }

    /// The mean of each node and its neighbours, which hides the steps of a coarse relief.
    fn soften(&mut self) {
        let before = self.heights.clone();
        for (at, height) in self.heights.iter_mut().enumerate() {
            if height.is_some() {
                let near = neighbours(at, self.columns, before.len()).filter_map(|other| before[other]);
                let (sum, n) = near.fold((0.0, 0u32), |(sum, n), height| (sum + height, n + 1));
                *height = Some(sum / f64::from(n));
            }
        }
    }

    /// The heights where the slope is gentler than so many metres a metre.
    fn where_gentler(&self, slope: f64) -> Vec<Option<f64>> {
        let get = |at: usize| self.heights.get(at).copied().flatten();
        let steepness = |at: usize, here: f64| {
            let (east, north) = (get(at + 1).unwrap_or(here), get(at + self.columns).unwrap_or(here));
            (east - here).hypot(north - here) / self.step_m
        };
        let gentle =
            |(at, height): (usize, &Option<f64>)| height.filter(|here| steepness(at, *here) <= slope);
        self.heights.iter().enumerate().map(gentle).collect()
    }
}

/// A node and those round it.
fn neighbours(at: usize, columns: usize, count: usize) -> impl Iterator<Item = usize> {
    let (row, column, rows) = (at / columns, at % columns, count / columns);
    (row.saturating_sub(1)..(row + 2).min(rows)).flat_map(move |row| {
        (column.saturating_sub(1)..(column + 2).min(columns)).map(move |column| row * columns + column)
    })
}

/// The mean height of the land in a square of pixels; `None` where most of it is sea or unknown.
fn mean(relief: &Relief, column: usize, row: usize, pixels: usize) -> Option<f64> {
    let (mut sum, mut n) = (0.0, 0usize);
    for r in row..row + pixels {
        for c in column..column + pixels {
            if let Some(height) = relief.height(c, r).filter(|height| *height > 0.0) {
                sum += f64::from(height);
                n += 1;
            }
        }
    }
    (n * 2 >= pixels * pixels && n > 0).then(|| sum / n as f64)
}

#[cfg(test)]
mod tests {
    use super::{contours, interval_m};
    use crate::ground::Relief;
    use crate::sheet::canvas::{MM, Rect};
    use crate::sheet::view::{Extent, View};

    /// A cone of a height on flat ground at 1 m, 200 pixels of 20 m a side.
    fn cone(height: f64) -> Relief {
        let at = |i: usize| i as f64 * 20.0 - 1_990.0;
        let heights = (0..200 * 200).map(|i| {
            let (x, y) = (at(i % 200), at(i / 200));
            (1.0 + height * (1.0 - x.hypot(y) / 1_500.0).max(0.0)) as f32
        });
        Relief::new(0.0, 4_000.0, 20.0, 200, heights.collect()).unwrap()
    }

    fn view() -> View {
        let extent = Extent { west_m: 0.0, south_m: 0.0, east_m: 4_000.0, north_m: 4_000.0 };
        View::new(Rect::new(0.0, 0.0, 160.0 * MM, 160.0 * MM), extent)
    }

    #[test]
    fn intervals_are_round_and_leave_room() {
        // 25 m to a millimetre. A hundred metres in 1.5 km rise 3.7 m in 2.2 mm; a fifteenth of them is 6.7 m.
        assert_eq!(interval_m(&cone(100.0), &view()), Some(10.0));
        assert_eq!(interval_m(&cone(40.0), &view()), Some(5.0));
        assert_eq!(interval_m(&cone(0.5), &view()), None, "flat ground has none");
        assert_eq!(interval_m(&cone(9_000.0), &view()), Some(1_000.0));
    }

    #[test]
    fn contours_of_a_cone_are_circles() {
        let lines = contours(&cone(100.0), &view());
        // That of 100 m would be a ring of 15 m round the top, shorter than any that is drawn.
        assert_eq!(lines.len(), 9, "from 10 m to 90 m");
        // The contour of 50 m has a radius of 1,500 × 51 / 100 m.
        let radius = 1_500.0 * 0.51 / view().unit_m;
        let (x, y) = (view().x(2_000.0), view().y(2_000.0));
        let near = lines.iter().filter(|line| {
            line.iter().all(|at| ((f64::from(at.0) - x).hypot(f64::from(at.1) - y) - radius).abs() < 0.4 * MM)
        });
        assert_eq!(near.count(), 1);
    }

    #[test]
    fn a_cliff_has_no_contours() {
        // A step of 200 m within 40 m, on a slope of one in forty.
        let heights = (0..200 * 200).map(|i| {
            let column = i % 200;
            let step = if column >= 100 { 200.0 } else { 0.0 };
            10.0 + column as f32 * 0.5 + step
        });
        let relief = Relief::new(0.0, 4_000.0, 20.0, 200, heights.collect()).unwrap();
        let (cliff, view) = (view().x(2_000.0), view());
        let lines = contours(&relief, &view);
        assert!(lines.len() >= 4, "{}", lines.len());
        for line in &lines {
            assert!(line.iter().all(|at| (f64::from(at.0) - cliff).abs() > 0.5 * MM), "{line:?}");
        }
    }
}
