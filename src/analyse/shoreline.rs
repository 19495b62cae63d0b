//! The shore as one measured line: pieces joined end to end, the longest kept, simplified, with a start
//! and a direction.

use std::collections::BTreeMap;

use geo::winding_order::{Winding, WindingOrder};
use geo::{Coord, Euclidean, Length, Line, LineString, MultiLineString, Rect, Simplify};

use crate::ground::Edges;
use crate::study::ShoreSettings;

/// Ends of lines closer than this are one place, metres.
const SAME_PLACE_M: f64 = 0.01;

/// A shore with metres along it.
pub(super) struct Shoreline {
    line: LineString<f64>,
    /// Metres along the shore at each vertex.
    along: Vec<f64>,
    /// Each edge a shape of its own, so that the index answers which edge.
    edges: Edges,
    pub closed: bool,
    /// Lines that do not join the longest, and are left out.
    pub others: usize,
}

impl Shoreline {
    /// Makes one line of a shore layer. `None` when nothing of any length is left.
    ///
    /// A closed shore runs clockwise on the map, as a walker goes who has the sea on the left, from the
    /// place nearest to the study's start, or else from the line's own. An open shore runs as the layer
    /// has it, or from the end that is nearer to the study's start.
    pub(super) fn of(shore: &MultiLineString<f64>, settings: &ShoreSettings) -> Option<Self> {
        let mut joined: Vec<LineString<f64>> = join(&shore.0)
            .into_iter()
            .map(|line| line.simplify(settings.simplify_m))
            .filter(|line| length(line) > 0.0)
            .collect();
        let longest =
            (0..joined.len()).rev().max_by(|a, b| length(&joined[*a]).total_cmp(&length(&joined[*b])))?;
        let others = joined.len() - 1;
        let mut line = joined.swap_remove(longest);
        let closed = line.is_closed() && line.0.len() >= 4;
        let start = settings.start.map(|(x, y)| Coord { x, y });
        if closed {
            line.make_winding_order(WindingOrder::Clockwise);
            if let Some(start) = start {
                line = turned(&line, start);
            }
        } else if let (Some(start), Some(&first), Some(&last)) = (start, line.0.first(), line.0.last())
            && distance(start, last) < distance(start, first)
        {
            line.0.reverse();
        }
        let mut along = vec![0.0];
        for edge in line.lines() {
            along.push(along[along.len() - 1] + distance(edge.start, edge.end));
        }
        let edges = Edges::of(line.lines().map(|edge| [edge]));
        Some(Self { line, along, edges, closed, others })
    }

    pub(super) fn length_m(&self) -> f64 {
        self.along.last().copied().unwrap_or_default()
    }

    /// The least distance from a square to the shore, metres.
    pub(super) fn distance_to(&self, rect: Rect<f64>) -> f64 {
        self.edges.distance_to(rect).unwrap_or(f64::INFINITY)
    }

    /// Metres along the shore of the place on it nearest to a point, and how far that is.
    pub(super) fn nearest(&self, point: Coord<f64>) -> Option<(f64, f64)> {
        let near = self.edges.nearest(point.x, point.y)?;
        let edge = self.edge(near.shape);
        let t = project(edge, point).clamp(0.0, 1.0);
        Some((self.position(near.shape, t), near.distance_m))
    }

    /// Metres along the shore of its places in a square, or of those nearest to it at `distance_m`: the
    /// ends of each stretch inside, and the vertices at that distance.
    pub(super) fn places_at(&self, rect: Rect<f64>, distance_m: f64) -> Vec<f64> {
        let mut places = Vec::new();
        for index in self.edges.meeting(rect, distance_m + 1e-6) {
            let edge = self.edge(index);
            if let Some((from, to)) = clip(edge, rect) {
                places.extend([self.position(index, from), self.position(index, to)]);
            } else {
                let ends = [(0.0, edge.start), (1.0, edge.end)].into_iter();
                let near = ends.filter(|(_, end)| distance_to_rect(*end, rect) <= distance_m + 1e-6);
                places.extend(near.map(|(t, _)| self.position(index, t)));
            }
        }
        places
    }

    fn edge(&self, index: usize) -> Line<f64> {
        Line::new(self.line.0[index], self.line.0[index + 1])
    }

    /// Metres along the shore at a share of an edge; the end of a closed shore is its start.
    fn position(&self, edge: usize, t: f64) -> f64 {
        let place = self.along[edge] + t * (self.along[edge + 1] - self.along[edge]);
        if self.closed && place >= self.length_m() { 0.0 } else { place }
    }
}

fn length(line: &LineString<f64>) -> f64 {
    Euclidean.length(line)
}

fn distance(a: Coord<f64>, b: Coord<f64>) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

fn distance_to_rect(c: Coord<f64>, rect: Rect<f64>) -> f64 {
    let outside = |value: f64, low: f64, high: f64| (low - value).max(value - high).max(0.0);
    outside(c.x, rect.min().x, rect.max().x).hypot(outside(c.y, rect.min().y, rect.max().y))
}

/// The share of an edge at which a point's foot lies, unbounded.
fn project(edge: Line<f64>, point: Coord<f64>) -> f64 {
    let (d, p) = (edge.delta(), point - edge.start);
    let squared = d.x * d.x + d.y * d.y;
    if squared > 0.0 { (p.x * d.x + p.y * d.y) / squared } else { 0.0 }
}

/// The part of an edge inside a rectangle, as shares of it (Liang and Barsky 1984, ACM Transactions on
/// Graphics 3:1–22).
fn clip(edge: Line<f64>, rect: Rect<f64>) -> Option<(f64, f64)> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let axes = [
        (edge.dx(), edge.start.x, rect.min().x, rect.max().x),
        (edge.dy(), edge.start.y, rect.min().y, rect.max().y),
    ];
    for (delta, start, low, high) in axes {
        if delta == 0.0 {
            if start < low || start > high {
                return None;
            }
            continue;
        }
        let (a, b) = ((low - start) / delta, (high - start) / delta);
        from = from.max(a.min(b));
        to = to.min(a.max(b));
    }
    (from <= to).then_some((from, to))
}

/// A closed line turned so that it starts at its place nearest to `start`.
fn turned(line: &LineString<f64>, start: Coord<f64>) -> LineString<f64> {
    let foot = |edge: Line<f64>| edge.start + edge.delta() * project(edge, start).clamp(0.0, 1.0);
    let nearest = line
        .lines()
        .enumerate()
        .min_by(|a, b| distance(foot(a.1), start).total_cmp(&distance(foot(b.1), start)));
    let Some((index, edge)) = nearest else { return line.clone() };
    let first = foot(edge);
    let ring = &line.0[..line.0.len() - 1];
    let after = ring.iter().cycle().skip(index + 1).take(ring.len()).copied();
    let mut turned: Vec<Coord<f64>> = std::iter::once(first).chain(after).chain([first]).collect();
    turned.dedup();
    LineString(turned)
}

/// Joins lines whose ends meet two and two. Where three or more meet, no two belong together and all
/// stay apart. The direction is that of the line that comes first in the layer.
fn join(lines: &[LineString<f64>]) -> Vec<LineString<f64>> {
    let place = |c: Coord<f64>| ((c.x / SAME_PLACE_M).round() as i64, (c.y / SAME_PLACE_M).round() as i64);
    let mut meeting: BTreeMap<(i64, i64), Vec<(usize, bool)>> = BTreeMap::new();
    for (index, line) in lines.iter().enumerate() {
        if let (Some(first), Some(last)) = (line.0.first(), line.0.last()) {
            meeting.entry(place(*first)).or_default().push((index, true));
            meeting.entry(place(*last)).or_default().push((index, false));
        }
    }
    // The line that goes on from an end, and whether it does so from its own start.
    let onward = |end: Coord<f64>, from: usize| match meeting.get(&place(end)).map(Vec::as_slice) {
        Some([a, b]) if a.0 != b.0 => Some(if a.0 == from { *b } else { *a }),
        _ => None,
    };
    let mut used = vec![false; lines.len()];
    let mut joined = Vec::new();
    for first in 0..lines.len() {
        if used[first] || lines[first].0.len() < 2 {
            continue;
        }
        used[first] = true;
        let mut chain = lines[first].0.clone();
        // Onward from the end, then onward from the start, which is the end once the chain is turned.
        for turn in 0..2 {
            let mut tail = first;
            while let Some((next, from_start)) = chain.last().and_then(|end| onward(*end, tail)) {
                if used[next] {
                    // Round to where it began: close it exactly.
                    if let Some(start) = chain.first().copied().filter(|_| chain.len() > 2) {
                        let end = chain[chain.len() - 1];
                        if place(start) == place(end) {
                            let last = chain.len() - 1;
                            chain[last] = start;
                        }
                    }
                    break;
                }
                used[next] = true;
                let points = lines[next].0.iter().copied();
                if from_start {
                    chain.extend(points.skip(1))
                } else {
                    chain.extend(points.rev().skip(1))
                }
                tail = next;
            }
            chain.reverse();
            if turn == 0 && chain.first() == chain.last() {
                // Closed already: nothing goes on from its start.
                chain.reverse();
                break;
            }
        }
        joined.push(LineString(chain));
    }
    joined
}

#[cfg(test)]
mod tests {
    use geo::{Coord, MultiLineString, Rect, wkt};

    use super::{Shoreline, join};
    use crate::study::ShoreSettings;

    fn settings(start: Option<(f64, f64)>) -> ShoreSettings {
        ShoreSettings { within_m: 1000.0, stretch_m: 1000.0, simplify_m: 1.0, start }
    }

    #[test]
    fn pieces_of_any_direction_join_into_a_ring() {
        let pieces: MultiLineString<f64> = wkt!(MULTILINESTRING(
            (0. 0.,1000. 0.),
            (1000. 1000.,1000. 0.),
            (0. 1000.,1000. 1000.),
            (0. 1000.,0. 0.),
            (5000. 0.,5000. 100.)
        ));
        let joined = join(&pieces.0);
        assert_eq!(joined.len(), 2);
        assert!(joined[0].is_closed(), "{:?}", joined[0]);
        let shore = Shoreline::of(&pieces, &settings(Some((300.0, -50.0)))).unwrap();
        assert!(shore.closed);
        assert_eq!((shore.length_m(), shore.others), (4000.0, 1));
        // Clockwise from (300, 0): west along the south side, then north.
        assert_eq!(shore.nearest(Coord { x: 200.0, y: -10.0 }), Some((100.0, 10.0)));
        assert_eq!(shore.nearest(Coord { x: -20.0, y: 500.0 }), Some((800.0, 20.0)));
        assert_eq!(shore.nearest(Coord { x: 400.0, y: 5.0 }), Some((3900.0, 5.0)));
    }

    #[test]
    fn where_three_meet_none_are_joined() {
        let pieces: MultiLineString<f64> =
            wkt!(MULTILINESTRING((0. 0.,10. 0.),(10. 0.,20. 0.),(10. 0.,10. 15.)));
        assert_eq!(join(&pieces.0).len(), 3);
        let shore = Shoreline::of(&pieces, &settings(None)).unwrap();
        assert_eq!((shore.length_m(), shore.others, shore.closed), (15.0, 2, false));
    }

    #[test]
    fn an_open_shore_starts_at_the_end_that_is_nearer() {
        let line: MultiLineString<f64> = wkt!(MULTILINESTRING((0. 0.,0. 900.),(0. 900.,0. 1000.)));
        let along = |start, y| {
            let shore = Shoreline::of(&line, &settings(start)).unwrap();
            shore.nearest(Coord { x: 5.0, y }).unwrap().0
        };
        assert_eq!(along(None, 950.0), 950.0);
        assert_eq!(along(Some((0.0, 990.0)), 950.0), 50.0);
        assert_eq!(along(Some((0.0, -990.0)), 950.0), 950.0);
    }

    #[test]
    fn places_in_a_square_and_beside_it() {
        let line: MultiLineString<f64> = wkt!(MULTILINESTRING((0. 0.,500. 0.,500. 700.)));
        let shore = Shoreline::of(&line, &settings(None)).unwrap();
        let inside = shore.places_at(Rect::new((400.0, -50.0), (450.0, 50.0)), 0.0);
        assert_eq!(inside, [400.0, 450.0]);
        let beside = shore.places_at(Rect::new((600.0, 700.0), (700.0, 800.0)), 100.0);
        assert_eq!(beside, [1200.0]);
        assert_eq!(shore.distance_to(Rect::new((600.0, 700.0), (700.0, 800.0))), 100.0);
    }
}
