//! From metres of the working grid to the page, and the cut at the frame.
//!
//! Everything is cut to the frame before it is written: what lies outside it is not in the file.

use geo::{
    Area as _, BooleanOps, BoundingRect, Coord, Intersects as _, LineString, MapCoords, MultiLineString,
    MultiPolygon, Polygon, Simplify,
};

use super::canvas::{MM, Rect, Xy, xy};

/// How far a line may stray when its points are thinned: half of what print resolves, 0.05 mm.
const THINNING: f64 = 0.05 * MM;

/// The map's frame on the page and the ground it shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    /// The frame, page units.
    pub frame: Rect,
    /// Easting of the frame's left edge, metres.
    pub west_m: f64,
    /// Northing of the frame's upper edge, metres.
    pub north_m: f64,
    /// Metres on the ground for one page unit (0.01 mm).
    pub unit_m: f64,
}

/// Ground to be shown, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub west_m: f64,
    pub south_m: f64,
    pub east_m: f64,
    pub north_m: f64,
}

impl Extent {
    pub fn of(rect: geo::Rect<f64>) -> Self {
        Self { west_m: rect.min().x, south_m: rect.min().y, east_m: rect.max().x, north_m: rect.max().y }
    }
    pub fn with(self, other: Self) -> Self {
        Self {
            west_m: self.west_m.min(other.west_m),
            south_m: self.south_m.min(other.south_m),
            east_m: self.east_m.max(other.east_m),
            north_m: self.north_m.max(other.north_m),
        }
    }
    pub fn width_m(self) -> f64 {
        self.east_m - self.west_m
    }
    pub fn height_m(self) -> f64 {
        self.north_m - self.south_m
    }
}

/// Denominators of scale that sheets use, for one decade.
const SCALES: [f64; 24] = [
    1.0, 1.1, 1.2, 1.25, 1.3, 1.4, 1.5, 1.6, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0,
    6.5, 7.0, 8.0, 9.0,
];

/// The largest round scale at which `extent` fits a frame, as its denominator (1:25,000 gives 25,000).
pub(super) fn round_scale(extent: Extent, frame: Rect) -> f64 {
    // A page unit is 0.01 mm, so 1e-5 m of paper.
    let need = (extent.width_m() / (frame.width() * 1e-5)).max(extent.height_m() / (frame.height() * 1e-5));
    let decade = 10f64.powf(need.max(1.0).log10().floor());
    SCALES.iter().map(|s| s * decade).find(|scale| *scale >= need * (1.0 - 1e-9)).unwrap_or(10.0 * decade)
}

impl View {
    /// Centres `extent` in a frame at a round scale.
    pub fn new(frame: Rect, extent: Extent) -> Self {
        Self::centred(frame, extent, round_scale(extent, frame) * 1e-5)
    }

    /// The same ground in the same frame, at no finer a scale than so many metres for a page unit.
    pub fn no_finer_than(self, unit_m: f64, extent: Extent) -> Self {
        if self.unit_m >= unit_m {
            return self;
        }
        Self::centred(self.frame, extent, unit_m)
    }

    fn centred(frame: Rect, extent: Extent, unit_m: f64) -> Self {
        let east = (extent.west_m + extent.east_m) / 2.0;
        let north = (extent.south_m + extent.north_m) / 2.0;
        Self {
            frame,
            west_m: east - frame.width() / 2.0 * unit_m,
            north_m: north + frame.height() / 2.0 * unit_m,
            unit_m,
        }
    }

    /// Denominator of the scale.
    pub fn scale(&self) -> f64 {
        (self.unit_m * 1e5).round()
    }
    pub fn x(&self, easting_m: f64) -> f64 {
        self.frame.x0 + (easting_m - self.west_m) / self.unit_m
    }
    pub fn y(&self, northing_m: f64) -> f64 {
        self.frame.y0 + (self.north_m - northing_m) / self.unit_m
    }
    /// Page units of a length on the ground.
    pub fn units(&self, metres: f64) -> f64 {
        metres / self.unit_m
    }
    pub fn easting(&self, x: f64) -> f64 {
        self.west_m + (x - self.frame.x0) * self.unit_m
    }
    pub fn northing(&self, y: f64) -> f64 {
        self.north_m - (y - self.frame.y0) * self.unit_m
    }

    /// A square of the ground, cut to the frame. `None` when it lies outside.
    pub fn square(&self, square: geo::Rect<f64>) -> Option<Rect> {
        let f = self.frame;
        let cut = Rect {
            x0: self.x(square.min().x).max(f.x0),
            x1: self.x(square.max().x).min(f.x1),
            y0: self.y(square.max().y).max(f.y0),
            y1: self.y(square.min().y).min(f.y1),
        };
        (cut.x0.round() < cut.x1.round() && cut.y0.round() < cut.y1.round()).then_some(cut)
    }

    fn frame_polygon(&self) -> Polygon<f64> {
        let f = self.frame;
        geo::Rect::new((f.x0, f.y0), (f.x1, f.y1)).to_polygon()
    }

    /// Polygons on the page, thinned and cut to the frame, page units.
    pub fn polygons(&self, shape: &MultiPolygon<f64>) -> MultiPolygon<f64> {
        let page = shape.map_coords(|c| Coord { x: self.x(c.x), y: self.y(c.y) });
        let f = self.frame;
        let frame = geo::Rect::new((f.x0, f.y0), (f.x1, f.y1));
        let mut inside = Vec::new();
        let mut across = Vec::new();
        for polygon in page {
            let Some(bounds) = polygon.bounding_rect() else { continue };
            if !bounds.intersects(&frame) {
                continue;
            }
            let thin = polygon.simplify(THINNING);
            let held = bounds.min().x >= f.x0
                && bounds.max().x <= f.x1
                && bounds.min().y >= f.y0
                && bounds.max().y <= f.y1;
            if held { inside.push(thin) } else { across.push(thin) }
        }
        if !across.is_empty() {
            let cut = MultiPolygon::new(across).intersection(&MultiPolygon::new(vec![self.frame_polygon()]));
            inside.extend(cut);
        }
        MultiPolygon::new(inside)
    }

    /// Lines on the page, thinned and cut to the frame.
    pub fn lines(&self, lines: &MultiLineString<f64>) -> Vec<Vec<Xy>> {
        let mut out = Vec::new();
        for line in lines {
            let page = line.map_coords(|c| Coord { x: self.x(c.x), y: self.y(c.y) }).simplify(THINNING);
            out.extend(cut_line(&page.0, self.frame));
        }
        out
    }

    /// The outlines of polygons as lines that stop at the frame (an outline does not run along it).
    pub fn outlines(&self, shape: &MultiPolygon<f64>) -> Vec<Vec<Xy>> {
        self.lines(&edges(shape))
    }
}

/// Every ring of some polygons as a line.
pub(super) fn edges(shape: &MultiPolygon<f64>) -> MultiLineString<f64> {
    let rings = shape.iter().flat_map(|p| std::iter::once(p.exterior()).chain(p.interiors()));
    MultiLineString::new(rings.cloned().collect())
}

/// Cuts a line to a box, edge by edge (Liang and Barsky 1984).
fn cut_line(points: &[Coord<f64>], frame: Rect) -> Vec<Vec<Xy>> {
    let mut out: Vec<Vec<Xy>> = Vec::new();
    let mut run: Vec<Xy> = Vec::new();
    let mut finish = |run: &mut Vec<Xy>| {
        run.dedup();
        if run.len() >= 2 {
            out.push(std::mem::take(run));
        }
        run.clear();
    };
    for pair in points.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let (mut from, mut to) = (0.0f64, 1.0f64);
        let mut visible = true;
        for (p, q) in
            [(-dx, a.x - frame.x0), (dx, frame.x1 - a.x), (-dy, a.y - frame.y0), (dy, frame.y1 - a.y)]
        {
            if p == 0.0 {
                visible &= q >= 0.0;
            } else if p < 0.0 {
                from = from.max(q / p);
            } else {
                to = to.min(q / p);
            }
        }
        if !visible || from > to {
            finish(&mut run);
            continue;
        }
        let start = xy(a.x + from * dx, a.y + from * dy);
        if run.last() != Some(&start) {
            finish(&mut run);
            run.push(start);
        }
        run.push(xy(a.x + to * dx, a.y + to * dy));
        if to < 1.0 {
            finish(&mut run);
        }
    }
    finish(&mut run);
    out
}

/// Rings in whole page units; rings that shrink to nothing are left out.
pub(super) fn rings(page: &MultiPolygon<f64>) -> Vec<Vec<Xy>> {
    page.iter().flat_map(polygon_rings).collect()
}

/// The rings of one polygon in whole page units.
pub(super) fn polygon_rings(polygon: &Polygon<f64>) -> Vec<Vec<Xy>> {
    if polygon.unsigned_area() < THINNING * THINNING {
        return Vec::new();
    }
    std::iter::once(polygon.exterior())
        .chain(polygon.interiors())
        .filter_map(|ring: &LineString<f64>| {
            let mut points: Vec<Xy> = ring.0.iter().map(|c| xy(c.x, c.y)).collect();
            points.dedup();
            (points.len() > 3).then_some(points)
        })
        .collect()
}

/// The middle of a polygon's ground: a point inside it, as far from its edges as a coarse search finds.
pub(super) fn middle(polygon: &Polygon<f64>) -> Option<Coord<f64>> {
    use geo::{Centroid, Contains, Distance, Euclidean, InteriorPoint};
    let bounds = polygon.bounding_rect()?;
    let mut best: Option<(f64, Coord<f64>)> = None;
    let mut try_at = |c: Coord<f64>| {
        let point = geo::Point(c);
        if polygon.contains(&point) {
            let room = Euclidean.distance(&point, polygon.exterior());
            if best.is_none_or(|(most, _)| room > most) {
                best = Some((room, c));
            }
        }
    };
    if let Some(centroid) = polygon.centroid() {
        try_at(centroid.0);
    }
    const STEPS: usize = 12;
    for i in 1..STEPS {
        for j in 1..STEPS {
            let share = |n: usize| n as f64 / STEPS as f64;
            try_at(Coord {
                x: bounds.min().x + bounds.width() * share(i),
                y: bounds.min().y + bounds.height() * share(j),
            });
        }
    }
    best.map(|(_, c)| c).or_else(|| polygon.interior_point().map(|p| p.0))
}
