//! The quiet base under every map: sea, land, relief, water, roads, parish lines, names.

use std::collections::BTreeMap;

use geo::{BooleanOps, Coord, LineString, MultiLineString, MultiPolygon, Simplify, unary_union};

use super::canvas::{Canvas, Look, MM, Rect, Xy, xy};
use super::labels::{Labels, Worth};
use super::layout::{Block, Item, rank};
use super::style::Style;
use super::view::{View, edges, middle, rings};
use super::{Scene, heights, relief, view::Extent};
use crate::ground::Ground;
use crate::words::Words;

/// The ground as drawn: cut to the frame once, used by base and theme.
pub(super) struct Base<'a> {
    scene: &'a Scene<'a>,
    pub style: &'a Style,
    pub view: View,
    /// Land on the page. Empty where the study gives none.
    pub land: MultiPolygon<f64>,
    small: bool,
    relief: Relief,
}

/// What is drawn of the shape of the land.
#[derive(Clone, Copy, PartialEq)]
enum Relief {
    Nothing,
    Shades,
    ShadesAndContours,
}

/// Bends of the ground smaller than this are drawn straight on small maps.
const SMALL_THINNING: f64 = 0.13 * MM;

/// Which names of the ground a map carries as the base has them; parishes with their boundaries.
#[derive(Debug, Clone, Copy)]
pub(super) struct Named {
    pub parishes: bool,
    pub places: bool,
}

/// A line of the ground that a key names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum GroundLine {
    Parishes,
    Roads,
    Streams,
}

/// Which lines a map of some ground draws.
pub(super) fn lines_drawn(scene: &Scene<'_>, named: Named, extent: Extent) -> Vec<GroundLine> {
    let view = View::new(Rect::new(0.0, 0.0, 200.0 * MM, 200.0 * MM), extent);
    let ground = scene.ground;
    let bounds = || shared_once(ground.parishes.iter().map(|parish| &parish.shape), 1);
    let mut drawn = Vec::new();
    drawn.extend((named.parishes && !view.lines(&bounds()).is_empty()).then_some(GroundLine::Parishes));
    drawn.extend((!view.lines(&ground.roads).is_empty()).then_some(GroundLine::Roads));
    drawn.extend((!view.lines(&ground.streams).is_empty()).then_some(GroundLine::Streams));
    drawn
}

/// The key of lines of the ground, where there are any.
pub(super) fn lines_key<'a>(lines: &[GroundLine], style: &'a Style, words: &Words) -> Option<Block<'a>> {
    let key = |line: &GroundLine| {
        let (look, id) = match line {
            GroundLine::Parishes => (style.parishes.look(), "sheet-legend-parish-line"),
            GroundLine::Roads => (style.roads.look(), "sheet-legend-road"),
            GroundLine::Streams => (style.streams.look(), "sheet-legend-stream"),
        };
        let sample = move |canvas: &mut Canvas, rect: Rect| {
            let y = (rect.y0 + rect.y1) / 2.0;
            canvas.lines_with(&[vec![xy(rect.x0, y), xy(rect.x1, y)]], &look);
        };
        Item::Key(Box::new(sample), words.say(id))
    };
    let items: Vec<_> = lines.iter().map(key).collect();
    (!items.is_empty()).then_some(Block { id: "legend-lines", rank: rank::LINES, items })
}

/// Ground that a map of the scene shows, with room round it: parishes, or else land and shore, or else whatever
/// ground there is; and every cell.
pub(super) fn extent(scene: &Scene<'_>) -> Extent {
    // A landowner knows the rest of the parish, and wants to see the fields.
    if !scene.study.agreement.landowner.is_empty() && !scene.published.cells().is_empty() {
        return close_by(scene);
    }
    let mut extent = ground_and_cells(scene).unwrap_or(Extent {
        west_m: 0.0,
        south_m: 0.0,
        east_m: 10_000.0,
        north_m: 10_000.0,
    });
    // Room round the edge, and never a map of less than 200 m.
    let room = (extent.width_m().max(extent.height_m()) * 0.035)
        .max((200.0 - extent.width_m().max(extent.height_m())) / 2.0);
    extent.west_m -= room;
    extent.east_m += room;
    extent.south_m -= room;
    extent.north_m += room;
    extent
}

/// `None` where the study gives no ground and no find has a square.
pub(super) fn ground_and_cells(scene: &Scene<'_>) -> Option<Extent> {
    use geo::BoundingRect;
    let ground = scene.ground;
    let all =
        |rects: Vec<Option<geo::Rect<f64>>>| rects.into_iter().flatten().map(Extent::of).reduce(Extent::with);
    let relief = ground.relief.as_ref().map(|relief| {
        let (wide, tall) = (relief.columns as f64 * relief.pixel_m, relief.rows as f64 * relief.pixel_m);
        let (west, north) = (relief.west_m, relief.north_m);
        geo::Rect::new((west, north - tall), (west + wide, north))
    });
    let places = ground.places.iter().map(|place| Some(geo::Rect::new(place.at.0, place.at.0)));
    let shown = all(ground.parishes.iter().map(|parish| parish.shape.bounding_rect()).collect())
        .or_else(|| all(vec![ground.land.bounding_rect(), ground.shore.bounding_rect()]));
    let cells = all(scene.published.cells().iter().map(|summary| Some(summary.cell.rect())).collect());
    let known = shown.into_iter().chain(cells).reduce(Extent::with);
    known
        .or_else(|| all(ground.walked.iter().map(|walked| walked.shape.bounding_rect()).collect()))
        .or_else(|| {
            all(vec![
                ground.roads.bounding_rect(),
                ground.streams.bounding_rect(),
                ground.water.bounding_rect(),
                ground.beach.bounding_rect(),
                ground.protected.bounding_rect(),
            ])
        })
        .or_else(|| all(places.collect()))
        .or_else(|| all(vec![relief]))
}

/// The squares with finds, with as much again round them as finds one's way by, and never under 1.5 km.
fn close_by(scene: &Scene<'_>) -> Extent {
    let cells = scene.published.cells().iter().map(|summary| Extent::of(summary.cell.rect()));
    let mut extent = cells.reduce(Extent::with).unwrap_or(Extent {
        west_m: 0.0,
        south_m: 0.0,
        east_m: 1_500.0,
        north_m: 1_500.0,
    });
    let size = extent.width_m().max(extent.height_m());
    let room = (size * 0.25).max((1_500.0 - size) / 2.0);
    extent.west_m -= room;
    extent.east_m += room;
    extent.south_m -= room;
    extent.north_m += room;
    extent
}

impl<'a> Base<'a> {
    pub fn new(scene: &'a Scene<'a>, style: &'a Style, view: View) -> Self {
        let land = view.polygons(&scene.ground.land);
        Self { scene, style, view, land, small: false, relief: Relief::Shades }
    }

    /// For one of several small maps: shore, water and parish lines, and nothing that needs room.
    pub fn small(scene: &'a Scene<'a>, style: &'a Style, view: View) -> Self {
        let land = view.polygons(&scene.ground.land.simplify(SMALL_THINNING * view.unit_m));
        Self { scene, style, view, land, small: true, relief: Relief::Nothing }
    }

    /// Lines on the page; on a small map with fewer bends.
    fn lines(&self, lines: &MultiLineString<f64>) -> Vec<Vec<Xy>> {
        match self.small {
            true => self.view.lines(&lines.simplify(SMALL_THINNING * self.view.unit_m)),
            false => self.view.lines(lines),
        }
    }

    /// With contours of the land, for a sheet that says how far apart they are.
    pub fn with_contours(self) -> Self {
        Self { relief: Relief::ShadesAndContours, ..self }
    }

    /// Without the shape of the land, for a sheet that shades the land all over.
    pub fn without_relief(self) -> Self {
        Self { relief: Relief::Nothing, ..self }
    }

    /// Whether it is one of several small maps.
    pub fn is_small(&self) -> bool {
        self.small
    }

    /// The language of the sheet.
    pub fn language(&self) -> crate::words::Language {
        self.scene.study.language
    }

    /// Whether land is told from sea.
    pub fn has_land(&self) -> bool {
        !self.scene.ground.land.0.is_empty()
    }

    /// Ground under the theme: sea, land, hill shading, contours, ground not walked.
    pub fn under(&self, canvas: &mut Canvas) {
        let (style, view) = (self.style, &self.view);
        let back = if self.has_land() { style.sea.fill } else { style.land.fill };
        canvas.group("sea", &Look::fill(back), |c| c.rect(view.frame));
        canvas.group("land", &Look::fill(style.land.fill), |c| c.rings(&rings(&self.land)));
        let beach = rings(&view.polygons(&self.scene.ground.beach));
        canvas.group("beach", &Look::fill(style.beach.fill), |c| c.rings(&beach));
        let relief = self.scene.ground.relief.as_ref().filter(|_| self.relief != Relief::Nothing);
        if let Some((rect, png)) = relief.and_then(|relief| relief::shade(relief, view, style)) {
            canvas.bare_group("relief", |c| c.picture(rect, &png));
        }
        let contours = self.relief == Relief::ShadesAndContours;
        if let (true, Some(relief), Some(line)) = (contours, relief, &style.relief.contour) {
            canvas.group("land-contours", &line.look(), |c| c.lines(&heights::contours(relief, view)));
        }
        canvas.group("unwalked", &style.unwalked.line.look(), |c| c.lines(&self.unwalked()));
    }

    /// Lines over the theme: water, streams, roads, parish lines, coast.
    pub fn over(&self, canvas: &mut Canvas, named: Named) {
        let (style, view, ground) = (self.style, &self.view, self.scene.ground);
        let mut water = Look::fill(style.water.fill);
        if let Some(line) = &style.water.line {
            water = water.with_line(line.ink, line.width_pt);
        }
        canvas.group("water", &water, |c| c.rings(&rings(&view.polygons(&ground.water))));
        if !self.small {
            canvas.group("streams", &style.streams.look(), |c| c.lines(&view.lines(&ground.streams)));
            canvas.group("roads", &style.roads.look(), |c| c.lines(&view.lines(&ground.roads)));
        }
        canvas.group("parishes", &style.parishes.look(), |c| {
            if !named.parishes {
                return;
            }
            c.lines(&self.lines(&shared_once(ground.parishes.iter().map(|parish| &parish.shape), 1)));
        });
        if let Some(line) = &style.land.line {
            canvas.group("coast", &line.look(), |c| {
                c.lines(&self.lines(&edges(&ground.land)));
                if ground.land.0.is_empty() {
                    c.lines(&self.lines(&ground.shore));
                }
            });
        }
    }

    fn places(&self) -> impl Iterator<Item = (f64, f64, &str)> {
        let (view, frame) = (self.view, self.view.frame.grown(-1.5 * MM));
        self.scene.ground.places.iter().filter_map(move |place| {
            let (x, y) = (view.x(place.at.x()), view.y(place.at.y()));
            let inside = x > frame.x0 && x < frame.x1 && y > frame.y0 && y < frame.y1;
            inside.then_some((x, y, place.name.as_str()))
        })
    }

    /// Parish names in the room that is left, then place names. A parish called as a village in it is not named
    /// twice.
    pub fn names(&self, labels: &mut Labels, named: Named) {
        let style = self.style;
        if named.parishes {
            let look = style.label(style.names.parishes).bold();
            for parish in &self.scene.ground.parishes {
                let spots = self.spots(&parish.shape);
                if spots.is_empty() || self.places().any(|(_, _, name)| name == parish.name) {
                    continue;
                }
                let lines: Vec<_> = two_lines(&parish.name).into_iter().map(|line| (line, look)).collect();
                labels.centred(&lines, &spots, Worth::Parish);
            }
        }
        if named.places {
            let look = style.label(style.names.places).oblique();
            let mark = Look::fill(style.names.places).with_line(style.names.halo, 0.5);
            for (x, y, name) in self.places() {
                labels.beside(name, &look, (x, y), 0.4 * MM, mark.clone());
            }
        }
    }

    /// Points inside a shape where a name could be centred, the best first.
    pub fn spots(&self, shape: &MultiPolygon<f64>) -> Vec<(f64, f64)> {
        use geo::{Area, BoundingRect, Contains};
        let page = self.view.polygons(shape);
        let Some(largest) = page.0.iter().max_by(|a, b| a.unsigned_area().total_cmp(&b.unsigned_area()))
        else {
            return Vec::new();
        };
        let Some(centre) = middle(largest) else { return Vec::new() };
        let mut spots = vec![(centre.x, centre.y)];
        if let Some(bounds) = largest.bounding_rect() {
            const STEPS: usize = 14;
            let mut others = Vec::new();
            for i in 1..STEPS {
                for j in 1..STEPS {
                    let x = bounds.min().x + bounds.width() * i as f64 / STEPS as f64;
                    let y = bounds.min().y + bounds.height() * j as f64 / STEPS as f64;
                    if largest.contains(&geo::Point::new(x, y)) {
                        others.push((x, y));
                    }
                }
            }
            let far = |p: &(f64, f64)| (p.0 - centre.x).hypot(p.1 - centre.y);
            others.sort_by(|a, b| far(a).total_cmp(&far(b)));
            spots.extend(others);
        }
        spots
    }

    /// Whether ground walked is known, so that the rest can be hatched.
    pub fn knows_walked(&self) -> bool {
        !self.scene.ground.walked.is_empty() && self.has_land()
    }

    /// Ruling over land that was not walked.
    fn unwalked(&self) -> Vec<Vec<Xy>> {
        if !self.knows_walked() || self.land.0.is_empty() {
            return Vec::new();
        }
        ruled_unwalked(&self.land, self.scene.ground, &self.view, self.style)
    }
}

/// Ruling over the part of `land` (on the page) that was not walked.
pub(super) fn ruled_unwalked(
    land: &MultiPolygon<f64>,
    ground: &Ground,
    view: &View,
    style: &Style,
) -> Vec<Vec<Xy>> {
    let walked: Vec<MultiPolygon<f64>> =
        ground.walked.iter().map(|walked| view.polygons(&walked.shape)).collect();
    let rest = land.difference(&unary_union(walked.iter().flatten()));
    let f = view.frame;
    let step = style.unwalked.spacing_mm * MM * std::f64::consts::SQRT_2;
    let mut ruling = Vec::new();
    let mut start = f.x0 - f.height();
    while start < f.x1 {
        ruling.push(LineString::from(vec![(start, f.y1), (start + f.height(), f.y0)]));
        start += step;
    }
    rest.clip(&MultiLineString::new(ruling), false)
        .iter()
        .map(|line| line.0.iter().map(|c| xy(c.x, c.y)).collect())
        .collect()
}

/// Outlines of neighbours with each shared stretch once, so that dashes do not fall between dashes: all that
/// bound at least so many of the shapes, which for 2 is what lies between neighbours.
pub(super) fn shared_once<'p>(
    shapes: impl Iterator<Item = &'p MultiPolygon<f64>>,
    bounding: u8,
) -> MultiLineString<f64> {
    // Half a metre: closer than any map shows, wider than the rounding of a cut.
    let key = |c: Coord<f64>| ((c.x * 2.0).round() as i64, (c.y * 2.0).round() as i64);
    let edge = |line: geo::Line<f64>| {
        let (a, b) = (key(line.start), key(line.end));
        (a != b).then_some((a.min(b), a.max(b)))
    };
    let rings: Vec<&LineString<f64>> = shapes
        .flat_map(|shape| shape.iter())
        .flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()))
        .collect();
    let mut times: BTreeMap<_, u8> = BTreeMap::new();
    for edge in rings.iter().flat_map(|ring| ring.lines()).filter_map(edge) {
        let times = times.entry(edge).or_default();
        *times = times.saturating_add(1);
    }
    let mut lines = Vec::new();
    for ring in rings {
        let mut run: Vec<Coord<f64>> = Vec::new();
        for line in ring.lines() {
            let Some(edge) = edge(line) else { continue };
            // Drawn once: the first to come takes it.
            if times.remove(&edge).is_some_and(|times| times >= bounding) {
                if run.is_empty() {
                    run.push(line.start);
                }
                run.push(line.end);
            } else if !run.is_empty() {
                lines.push(LineString::new(std::mem::take(&mut run)));
            }
        }
        if !run.is_empty() {
            lines.push(LineString::new(run));
        }
    }
    MultiLineString::new(lines)
}

/// A long name on two lines, parted near its middle.
pub(super) fn two_lines(name: &str) -> Vec<String> {
    if name.chars().count() <= 14 {
        return vec![name.to_owned()];
    }
    let middle = name.len() as isize / 2;
    let gap = name.match_indices(' ').map(|(at, _)| at).min_by_key(|at| (*at as isize - middle).abs());
    match gap {
        Some(at) => vec![name[..at].to_owned(), name[at + 1..].to_owned()],
        None => vec![name.to_owned()],
    }
}
