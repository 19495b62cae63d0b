//! What may be told of a find, after all that was told of it before.
//!
//! Audiences may talk: what any of them was told counts for all of those that were promised as much. The decision
//! reads what was told and what is to be told, never the exact place:
//!
//! 1. What was told before in the same words may be told again: it adds nothing. So may a square that holds it.
//! 2. A find that moved by less than the smaller square keeps the old square: the two together would tell the edge between
//!    them. One that moved farther is told anew, and what was told before is void.
//! 3. Else the ground that all tellings share with the new one must be as large as promised. Where it is not, the
//!    find is told by the square that holds all that was told, or not at all; and so are all others for which that
//!    shared ground is large enough only because this one is told so.

use std::collections::BTreeMap;
use std::sync::Arc;

use geo::{BooleanOps, BoundingRect, Distance, Euclidean, LineString, MultiPolygon, Polygon, Rect};

use crate::coordinates::{Cell, Converter, System};
use crate::exact::{Reason, ReleasedPlace};
use crate::fault::Result;
use crate::ground::Partition;
use crate::study::{Agreement, ladder};

/// What an audience was told of where a find lies.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Telling {
    pub audience: String,
    pub grid: System,
    /// What was promised to be left, square metres and places.
    pub area_m2: f64,
    pub places: u32,
    pub place: ReleasedPlace,
    /// Where it is a parish, the slivers besides whose finds it told.
    pub slivers: Vec<Cell>,
}

/// What is to be told.
pub(super) struct Weighed {
    pub place: std::result::Result<ReleasedPlace, Reason>,
    /// What was told before is void.
    pub moved: bool,
}

/// Weighs one audience's candidates.
pub(super) struct Weigher<'a> {
    agreement: &'a Agreement,
    partition: &'a Partition<'a>,
    converters: BTreeMap<System, Converter>,
    shapes: BTreeMap<(System, ReleasedPlace, Vec<Cell>), MultiPolygon<f64>>,
}

/// More squares than this over what was told: it was told so coarsely that the squares are looked at one by one.
const MOST_SQUARES: i64 = 40_000;
/// A square's edge in another grid is bent: it is carried over in so many parts.
const PARTS: u32 = 8;
/// Places nearer than this touch, metres.
const TOUCHING_M: f64 = 1.0;

impl<'a> Weigher<'a> {
    pub fn new(agreement: &'a Agreement, partition: &'a Partition<'a>) -> Self {
        Self { agreement, partition, converters: BTreeMap::new(), shapes: BTreeMap::new() }
    }

    pub fn weigh(&mut self, history: &[Arc<Telling>], candidate: ReleasedPlace) -> Result<Weighed> {
        let told = |place| Ok(Weighed { place, moved: false });
        let own = |telling: &&Arc<Telling>| telling.audience == self.agreement.audience;
        let here = |telling: &&Arc<Telling>| telling.grid == self.agreement.grid;
        // Told so before, under a promise no smaller.
        let repeated = history.iter().filter(own).filter(here).any(|telling| {
            telling.place == candidate
                && telling.area_m2 >= self.agreement.smallest_area_m2
                && telling.slivers == self.slivers(&candidate)
        });
        if history.is_empty() || repeated {
            return told(Ok(candidate));
        }
        let last = history.iter().rev().filter(here).find(own).or_else(|| history.iter().rev().find(here));
        if let Some(last) = last {
            match (&last.place, &candidate) {
                (ReleasedPlace::Cell(old), ReleasedPlace::Cell(new))
                    if new.within(old.side_m) != Some(*old) && old.within(new.side_m) != Some(*new) =>
                {
                    let (a, b) = (old.rect(), new.rect());
                    if gap(a, b) >= f64::from(old.side_m.min(new.side_m)) {
                        return Ok(Weighed { place: Ok(candidate), moved: true });
                    }
                    let kept = if old.side_m >= new.side_m { Some(*old) } else { old.within(new.side_m) };
                    if let Some(kept) = kept {
                        // It was told under another promise, it may be, or of other ground.
                        return match self.first_that_leaves(kept) {
                            Some(kept) => self.share(history, ReleasedPlace::Cell(kept)),
                            None => told(Err(Reason::ToldBefore)),
                        };
                    }
                }
                (ReleasedPlace::Parish(old), ReleasedPlace::Parish(new)) if old != new => {
                    let (a, b) = (self.shape(last)?, self.place(&candidate));
                    if Euclidean.distance(&a, &b) > TOUCHING_M {
                        return Ok(Weighed { place: Ok(candidate), moved: true });
                    }
                    return self.share(history, last.place.clone());
                }
                _ => {}
            }
        }
        self.share(history, candidate)
    }

    /// Rule 3.
    fn share(&mut self, history: &[Arc<Telling>], candidate: ReleasedPlace) -> Result<Weighed> {
        let promise = (self.agreement.smallest_area_m2, self.agreement.smallest_places);
        let mut promises: Vec<(f64, u32)> =
            history.iter().map(|telling| (telling.area_m2, telling.places)).chain([promise]).collect();
        promises.retain(|other| other.0 <= promise.0);
        promises.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        promises.dedup();
        // What those who were promised at least as much were told together, for each promise: the more was promised,
        // the fewer they are and the larger is the ground.
        let mut regions: Vec<((f64, u32), MultiPolygon<f64>)> = Vec::new();
        for promise in promises {
            let mut region: Option<MultiPolygon<f64>> = None;
            for telling in history.iter().filter(|telling| telling.area_m2 >= promise.0) {
                let shape = self.shape(telling)?;
                region = Some(region.map_or_else(|| shape.clone(), |region| region.intersection(&shape)));
            }
            regions.extend(region.map(|region| (promise, region)));
        }
        let Some((_, largest)) = regions.last() else {
            return Ok(Weighed { place: Ok(candidate), moved: false });
        };
        let shape = self.place(&candidate);
        for ((area_m2, places), region) in &regions {
            let shared = region.intersection(&shape);
            let Some(bounds) = shared.bounding_rect().and_then(|_| region.bounding_rect()) else {
                if Euclidean.distance(region, &shape) >= smallest_side(history, &candidate) {
                    return Ok(Weighed { place: Ok(candidate), moved: true });
                }
                return Ok(self.fall_back(history, largest, &candidate));
            };
            let leaves = |part: &MultiPolygon<f64>| self.partition.leaves(part, *area_m2, *places);
            let mut failing = MultiPolygon(Vec::new());
            for other in self.others(&candidate, bounds) {
                let part = region.intersection(&other);
                if !leaves(&part) {
                    failing.0.extend(part.0);
                }
            }
            let rest = failing.0.is_empty() || leaves(&geo::unary_union(&failing.0));
            if !leaves(&shared) || !rest {
                return Ok(self.fall_back(history, largest, &candidate));
            }
        }
        Ok(Weighed { place: Ok(candidate), moved: false })
    }

    /// Every place of the candidate's kind over a box.
    fn others(&self, candidate: &ReleasedPlace, bounds: Rect<f64>) -> Vec<MultiPolygon<f64>> {
        match candidate {
            ReleasedPlace::Cell(cell) => {
                let corner = |x, y| Cell::holding(x, y, cell.side_m);
                let (Some(first), Some(last)) =
                    (corner(bounds.min().x, bounds.min().y), corner(bounds.max().x, bounds.max().y))
                else {
                    return Vec::new();
                };
                let across = i64::from(last.column) - i64::from(first.column) + 1;
                let up = i64::from(last.row) - i64::from(first.row) + 1;
                if across * up > MOST_SQUARES {
                    return Vec::new();
                }
                let columns = first.column..=last.column;
                let squares = columns.flat_map(|column| {
                    (first.row..=last.row).map(move |row| Cell { side_m: cell.side_m, column, row })
                });
                squares.map(|cell| MultiPolygon(vec![cell.rect().to_polygon()])).collect()
            }
            ReleasedPlace::Parish(_) => {
                let names = self.partition.parish_names().into_iter();
                let places = names.map(|name| ReleasedPlace::Parish(name.to_owned()));
                places.map(|place| self.place(&place)).collect()
            }
        }
    }

    /// What adds nothing to what was told: this audience's last telling, or the smallest square that holds all the
    /// ground that was told.
    fn fall_back(
        &self,
        history: &[Arc<Telling>],
        region: &MultiPolygon<f64>,
        candidate: &ReleasedPlace,
    ) -> Weighed {
        let side_m = match candidate {
            ReleasedPlace::Cell(cell) => cell.side_m,
            ReleasedPlace::Parish(_) => u32::MAX,
        };
        let coarse_enough = |place: &ReleasedPlace| match place {
            ReleasedPlace::Cell(cell) => cell.side_m >= side_m,
            ReleasedPlace::Parish(_) => true,
        };
        let own = history.iter().rev().find(|telling| {
            telling.audience == self.agreement.audience
                && telling.grid == self.agreement.grid
                && telling.area_m2 >= self.agreement.smallest_area_m2
                && coarse_enough(&telling.place)
        });
        let place = own.map(|telling| telling.place.clone()).or_else(|| {
            let bounds = region.bounding_rect()?;
            let from = self.agreement.precision.side_m().unwrap_or(1_000).max(side_m.min(100_000));
            let holds = |side: u32| {
                let first = Cell::holding(bounds.min().x, bounds.min().y, side)?;
                let last = Cell::holding(bounds.max().x, bounds.max().y, side)?;
                (first == last).then_some(first)
            };
            let held = ladder(from).into_iter().filter(|_| side_m != u32::MAX).find_map(holds)?;
            self.first_that_leaves(held).map(ReleasedPlace::Cell)
        });
        Weighed { place: place.ok_or(Reason::ToldBefore), moved: false }
    }

    /// The first square of the ladder that holds a square and leaves as much as is promised now.
    fn first_that_leaves(&self, cell: Cell) -> Option<Cell> {
        let (area_m2, places) = (self.agreement.smallest_area_m2, self.agreement.smallest_places);
        let mut squares = ladder(cell.side_m).into_iter().filter_map(|side_m| cell.within(side_m));
        squares.find(|square| {
            let ground = MultiPolygon(vec![square.rect().to_polygon()]);
            self.partition.leaves(&ground, area_m2, places)
        })
    }

    fn shape(&mut self, telling: &Telling) -> Result<MultiPolygon<f64>> {
        let key = (telling.grid.clone(), telling.place.clone(), telling.slivers.clone());
        if let Some(shape) = self.shapes.get(&key) {
            return Ok(shape.clone());
        }
        let shape = match &telling.place {
            ReleasedPlace::Cell(cell) => self.square(*cell, &telling.grid)?,
            ReleasedPlace::Parish(name) => {
                let mut polygons = self.partition.parish_shape(name).map_or_else(Vec::new, |shape| shape.0);
                for cell in &telling.slivers {
                    polygons.extend(self.square(*cell, &telling.grid)?.0);
                }
                geo::unary_union(&polygons)
            }
        };
        self.shapes.insert(key, shape.clone());
        Ok(shape)
    }

    /// A square of some grid, in the agreed one.
    fn square(&mut self, cell: Cell, grid: &System) -> Result<MultiPolygon<f64>> {
        if *grid == self.agreement.grid {
            return Ok(MultiPolygon(vec![cell.rect().to_polygon()]));
        }
        if !self.converters.contains_key(grid) {
            self.converters.insert(grid.clone(), Converter::new(grid, &self.agreement.grid)?);
        }
        carried(cell, &self.converters[grid])
    }

    /// The slivers that a place tells besides itself.
    pub fn slivers(&self, place: &ReleasedPlace) -> Vec<Cell> {
        match place {
            ReleasedPlace::Cell(_) => Vec::new(),
            ReleasedPlace::Parish(name) => self.partition.slivers_of(name),
        }
    }

    /// The ground of a place in the agreed grid. A parish that the layer no longer has is told by no ground.
    fn place(&self, place: &ReleasedPlace) -> MultiPolygon<f64> {
        match place {
            ReleasedPlace::Cell(cell) => MultiPolygon(vec![cell.rect().to_polygon()]),
            ReleasedPlace::Parish(name) => {
                let mut polygons = self.partition.parish_shape(name).map_or_else(Vec::new, |shape| shape.0);
                polygons.extend(self.slivers(place).into_iter().map(|cell| cell.rect().to_polygon()));
                geo::unary_union(&polygons)
            }
        }
    }
}

/// A square in another grid.
fn carried(cell: Cell, converter: &Converter) -> Result<MultiPolygon<f64>> {
    let corners = [
        (cell.west_m(), cell.south_m()),
        (cell.east_m(), cell.south_m()),
        (cell.east_m(), cell.north_m()),
        (cell.west_m(), cell.north_m()),
    ];
    let mut ring = Vec::new();
    for (index, (x, y)) in corners.into_iter().enumerate() {
        let (next_x, next_y) = corners[(index + 1) % 4];
        for part in 0..PARTS {
            let t = f64::from(part) / f64::from(PARTS);
            ring.push(converter.convert_xy(x + t * (next_x - x), y + t * (next_y - y))?);
        }
    }
    Ok(MultiPolygon(vec![Polygon::new(LineString::from(ring), Vec::new())]))
}

/// The smallest side of what was told and is to be told, metres: a find that moved by less has not moved far.
/// Parishes have none.
fn smallest_side(history: &[Arc<Telling>], candidate: &ReleasedPlace) -> f64 {
    let side = |place: &ReleasedPlace| match place {
        ReleasedPlace::Cell(cell) => Some(f64::from(cell.side_m)),
        ReleasedPlace::Parish(_) => None,
    };
    let sides = history.iter().map(|telling| &telling.place).chain([candidate]).filter_map(side);
    sides.reduce(f64::min).unwrap_or(TOUCHING_M)
}

/// How far two boxes lie apart, metres; 0 where they touch.
fn gap(a: Rect<f64>, b: Rect<f64>) -> f64 {
    let apart = |a_min: f64, a_max: f64, b_min: f64, b_max: f64| (b_min - a_max).max(a_min - b_max).max(0.0);
    apart(a.min().x, a.max().x, b.min().x, b.max().x).hypot(apart(a.min().y, a.max().y, b.min().y, b.max().y))
}
