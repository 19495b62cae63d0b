//! An index of the edges of many shapes: which shape holds a place, and which edge lies nearest.

use std::collections::BTreeSet;

use geo::{Coord, Line, Rect};
use rstar::primitives::{GeomWithData, Line as TreeLine};
use rstar::{AABB, PointDistance, RTree};

/// An edge in the index: two ends, and which shape and which edge of it.
type Edge = GeomWithData<TreeLine<[f64; 2]>, (u32, u32)>;

/// Edges of shapes numbered from 0, indexed twice: an R-tree for what is near, slabs for what holds a
/// place.
#[derive(Debug, Clone)]
pub struct Edges {
    tree: RTree<Edge>,
    slabs: Slabs,
}

/// The edges that cross each of many thin slabs from west to east: a place is held by the shapes whose
/// edges cross its own latitude an odd number of times to the east of it.
#[derive(Debug, Clone, Default)]
struct Slabs {
    south: f64,
    height: f64,
    slabs: Vec<Vec<Crossing>>,
}

/// An edge from its lower to its upper end, so that both shapes on an edge reckon the same crossing.
#[derive(Debug, Clone, Copy)]
struct Crossing {
    low: Coord<f64>,
    high: Coord<f64>,
    shape: u32,
}

/// Slabs beyond this many would each be thinner than they are worth.
const MOST_SLABS: usize = 4_096;

impl Slabs {
    fn of(edges: &[Edge]) -> Self {
        let crossings = edges.iter().filter_map(|edge| {
            let ([x1, y1], [x2, y2]) = (edge.geom().from, edge.geom().to);
            let (one, two) = (Coord { x: x1, y: y1 }, Coord { x: x2, y: y2 });
            let (low, high) = if y1 < y2 { (one, two) } else { (two, one) };
            (low.y < high.y).then_some(Crossing { low, high, shape: edge.data.0 })
        });
        let crossings: Vec<Crossing> = crossings.collect();
        let south = crossings.iter().map(|c| c.low.y).fold(f64::INFINITY, f64::min);
        let north = crossings.iter().map(|c| c.high.y).fold(f64::NEG_INFINITY, f64::max);
        if crossings.is_empty() {
            return Self::default();
        }
        let count = crossings.len().clamp(1, MOST_SLABS);
        let height = (north - south) / count as f64;
        let mut slabs = vec![Vec::new(); count];
        let index = |y: f64| (((y - south) / height) as usize).min(count - 1);
        for crossing in crossings {
            for slab in &mut slabs[index(crossing.low.y)..=index(crossing.high.y)] {
                slab.push(crossing);
            }
        }
        Self { south, height, slabs }
    }

    fn at(&self, y: f64) -> &[Crossing] {
        let index = (y - self.south) / self.height;
        // Where there is no slab at all, `index` is no number.
        if index.is_nan() || index < 0.0 {
            return &[];
        }
        // The north edge of the last slab belongs to no edge's half-open span.
        self.slabs.get(index as usize).map_or(&[], Vec::as_slice)
    }
}

/// Distances that differ by less than this are alike, metres.
const ALIKE_M: f64 = 1e-6;

/// What lies nearest to a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// Which shape.
    pub shape: usize,
    /// Which of its edges, in the order they were given.
    pub edge: usize,
    /// How far, metres.
    pub distance_m: f64,
}

impl Edges {
    /// Indexes the edges of `shapes`, in their order. Edges are taken as they come, rings and lines alike.
    pub fn of<S: IntoIterator<Item = Line<f64>>>(shapes: impl IntoIterator<Item = S>) -> Self {
        let mut edges = Vec::new();
        for (shape, lines) in (0_u32..).zip(shapes) {
            for (number, line) in (0_u32..).zip(lines) {
                let line = TreeLine::new([line.start.x, line.start.y], [line.end.x, line.end.y]);
                edges.push(Edge::new(line, (shape, number)));
            }
        }
        Self { slabs: Slabs::of(&edges), tree: RTree::bulk_load(edges) }
    }

    /// Whether it holds no edge.
    pub fn is_empty(&self) -> bool {
        self.tree.size() == 0
    }

    /// The shapes whose ground holds a place, by the even-odd rule along a ray to the east. An edge owns
    /// its lower end and not its upper one, so where shapes share an edge every place is in one of them.
    pub fn holding(&self, x: f64, y: f64) -> BTreeSet<usize> {
        let mut odd = BTreeSet::new();
        for Crossing { low, high, shape } in self.slabs.at(y) {
            let spans = low.y <= y && y < high.y;
            if spans && x < low.x + (high.x - low.x) * ((y - low.y) / (high.y - low.y)) {
                let shape = *shape as usize;
                if !odd.remove(&shape) {
                    odd.insert(shape);
                }
            }
        }
        odd
    }

    /// The edge nearest to a place. Of those equally near (within a micrometre), the one of the lowest
    /// shape, then the lowest edge. `None` when there is no edge.
    pub fn nearest(&self, x: f64, y: f64) -> Option<Near> {
        let first = self.tree.nearest_neighbor(&[x, y])?;
        let distance_m = first.distance_2(&[x, y]).sqrt();
        let alike = self.tree.locate_within_distance([x, y], (distance_m + ALIKE_M).powi(2));
        let (shape, edge) = alike.map(|edge| edge.data).fold(first.data, Ord::min);
        Some(Near { shape: shape as usize, edge: edge as usize, distance_m })
    }

    /// The shapes with an edge that comes within `distance_m` of a rectangle (0: that meets it).
    pub fn meeting(&self, rect: Rect<f64>, distance_m: f64) -> BTreeSet<usize> {
        let d = distance_m;
        let envelope =
            AABB::from_corners([rect.min().x - d, rect.min().y - d], [rect.max().x + d, rect.max().y + d]);
        self.tree
            .locate_in_envelope_intersecting(&envelope)
            .filter(|edge| distance_to_rect(edge, rect) <= d)
            .map(|edge| edge.data.0 as usize)
            .collect()
    }

    /// The least distance from a rectangle to any edge. `None` when there is no edge.
    pub fn distance_to(&self, rect: Rect<f64>) -> Option<f64> {
        let centre = rect.center();
        let reach = rect.width().hypot(rect.height()) / 2.0;
        let first = self.tree.nearest_neighbor(&[centre.x, centre.y])?;
        let bound = first.distance_2(&[centre.x, centre.y]).sqrt() + reach;
        let envelope =
            AABB::from_corners([centre.x - bound, centre.y - bound], [centre.x + bound, centre.y + bound]);
        self.tree
            .locate_in_envelope_intersecting(&envelope)
            .map(|edge| distance_to_rect(edge, rect))
            .min_by(f64::total_cmp)
    }
}

/// Distance from an edge to a rectangle: 0 where they meet.
fn distance_to_rect(edge: &Edge, rect: Rect<f64>) -> f64 {
    use geo::{Distance, Euclidean, Intersects};
    let (from, to) = (edge.geom().from, edge.geom().to);
    let line = Line::new(Coord { x: from[0], y: from[1] }, Coord { x: to[0], y: to[1] });
    if line.intersects(&rect) {
        return 0.0;
    }
    rect.to_lines().iter().map(|side| Euclidean.distance(&line, side)).fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use geo::{LinesIter, Polygon, Rect, wkt};

    use super::Edges;

    fn two_fields() -> Edges {
        let west: Polygon<f64> = wkt!(POLYGON((0. 0.,10. 0.,12. 10.,0. 10.,0. 0.)));
        let east: Polygon<f64> = wkt!(POLYGON((10. 0.,20. 0.,20. 10.,12. 10.,10. 0.)));
        Edges::of([west.lines_iter().collect::<Vec<_>>(), east.lines_iter().collect()])
    }

    #[test]
    fn every_place_is_in_one_field_also_on_the_shared_edge() {
        let edges = two_fields();
        for i in 0..100 {
            let t = f64::from(i) / 100.0;
            assert_eq!(edges.holding(10.0 + 2.0 * t, 10.0 * t).len(), 1, "at {t}");
        }
        assert_eq!(edges.holding(3.0, 5.0).into_iter().collect::<Vec<_>>(), [0]);
        assert_eq!(edges.holding(15.0, 5.0).into_iter().collect::<Vec<_>>(), [1]);
        assert!(edges.holding(25.0, 5.0).is_empty() && edges.holding(-1.0, 5.0).is_empty());
    }

    #[test]
    fn a_crooked_shape_holds_what_a_slow_test_says() {
        use geo::Contains;
        let ring: Vec<(f64, f64)> = (0..700)
            .map(|i| {
                let t = std::f64::consts::TAU * f64::from(i) / 700.0;
                let r = 100.0 + 30.0 * (9.0 * t).sin() + 7.0 * (53.0 * t).cos();
                (r * t.cos(), r * t.sin())
            })
            .collect();
        let shape = Polygon::new(ring.into(), vec![]);
        let edges = Edges::of([shape.lines_iter()]);
        for i in -70..70 {
            for j in -70..70 {
                let (x, y) = (2.03 * f64::from(i), 2.07 * f64::from(j));
                let held = !edges.holding(x, y).is_empty();
                assert_eq!(held, shape.contains(&geo::Point::new(x, y)), "{x} {y}");
            }
        }
    }

    #[test]
    fn a_hole_is_outside() {
        let ring: Polygon<f64> =
            wkt!(POLYGON((0. 0.,9. 0.,9. 9.,0. 9.,0. 0.),(3. 3.,6. 3.,6. 6.,3. 6.,3. 3.)));
        let edges = Edges::of([ring.lines_iter().collect::<Vec<_>>()]);
        assert!(edges.holding(4.0, 4.0).is_empty());
        assert_eq!(edges.holding(1.0, 4.0).len(), 1);
    }

    #[test]
    fn distances_and_ties() {
        let edges = two_fields();
        let near = edges.nearest(25.0, 5.0).unwrap();
        assert_eq!((near.shape, near.distance_m), (1, 5.0));
        // The middle of the shared edge is as near to one as to the other: the lower number has it.
        assert_eq!(edges.nearest(11.0, 5.0).unwrap().shape, 0);
        let rect = Rect::new((23.0, 14.0), (30.0, 30.0));
        assert_eq!(edges.distance_to(rect), Some(5.0));
        assert!(edges.meeting(rect, 4.999).is_empty());
        assert_eq!(edges.meeting(rect, 5.0).len(), 1);
        assert_eq!(edges.distance_to(Rect::new((1.0, 1.0), (2.0, 2.0))), Some(1.0));
    }
}
