//! The judge that needs no register: is a place finer than what was agreed?
//!
//! Allowed are corners and middles of squares of the agreed side, which those of every larger square of the ladder
//! are too; the public ground's own vertices; and a long line whose vertices are written so coarsely that they are
//! no places (contours). Everything else that anybody would read as a place is told.

use geo::{CoordsIter, MultiPolygon};
use rstar::RTree;

use super::{Part, Sight};
use crate::ground::Ground;
use crate::study::PublicStudy;

/// Where a parish is agreed, the only squares are of this side or larger, metres.
const SIDE_WITHOUT_SQUARE_M: f64 = 1_000.0;
/// A line's vertices are places when they are written to less than this share of the side.
const SHARE_OF_A_LINE: f64 = 1.0 / 30.0;
/// What carrying a place to another system and back may change, metres.
const SLACK_M: f64 = 0.02;

/// What was agreed, and what is public.
pub struct Agreed {
    side_m: f64,
    /// The pixel of the surface that outlines follow.
    pixel_m: Option<f64>,
    ground: RTree<[f64; 2]>,
}

impl Agreed {
    /// Of one audience, over its public ground.
    pub fn of(study: &PublicStudy, ground: &Ground) -> Self {
        let mut vertices: Vec<[f64; 2]> = Vec::new();
        let mut polygons =
            |shape: &MultiPolygon<f64>| vertices.extend(shape.coords_iter().map(|c| [c.x, c.y]));
        ground.parishes.iter().for_each(|parish| polygons(&parish.shape));
        ground.walked.iter().for_each(|walked| polygons(&walked.shape));
        [&ground.land, &ground.water, &ground.protected, &ground.beach, &ground.around]
            .into_iter()
            .for_each(&mut polygons);
        ground.near.iter().for_each(polygons);
        for lines in [&ground.shore, &ground.roads, &ground.streams] {
            vertices.extend(lines.coords_iter().map(|c| [c.x, c.y]));
        }
        vertices.extend(ground.places.iter().map(|place| [place.at.x(), place.at.y()]));
        Self {
            side_m: study.agreement.precision.side_m().map_or(SIDE_WITHOUT_SQUARE_M, f64::from),
            pixel_m: study.density.pixel_m,
            ground: RTree::bulk_load(vertices),
        }
    }

    /// The agreed side, metres.
    pub fn side_m(&self) -> f64 {
        self.side_m
    }

    /// Whether a place is finer than agreed, to anybody's eyes.
    pub fn is_finer(&self, sight: &Sight) -> bool {
        if !sight.plain {
            return false;
        }
        let coarse_line = match sight.part {
            Part::Camera => return true,
            Part::Mark { named: true } => return false,
            Part::Edge { extent_m } => {
                extent_m > 1.5 * self.side_m && size(sight) >= SHARE_OF_A_LINE * self.side_m
            }
            _ => false,
        };
        size(sight) < self.side_m * 0.999 && !coarse_line && !self.is_corner(sight) && !self.is_ground(sight)
    }

    /// Whether a place is a corner or a middle of a square that may be shown, as far as its figures tell.
    pub fn is_corner(&self, sight: &Sight) -> bool {
        // Two systems are turned against each other by a few degrees: each axis has some of the other's rounding.
        let on = |value: f64, step: f64, unit: f64, other: f64| {
            let slack = if sight.side_m.is_some() { SLACK_M } else { unit * 0.51 + other * 0.05 + SLACK_M };
            (value - (value / step).round() * step).abs() <= slack
        };
        let (east, north) = (sight.east_m, sight.north_m);
        let lies = |step: f64, from: f64| {
            on(sight.easting_m - from, step, east, north) && on(sight.northing_m - from, step, north, east)
        };
        let outline = || match (sight.part, self.pixel_m) {
            (Part::Edge { extent_m }, Some(pixel_m)) => extent_m > 1.5 * self.side_m && lies(pixel_m, 0.0),
            _ => false,
        };
        lies(self.side_m, 0.0) || lies(self.side_m, self.side_m / 2.0) || outline()
    }

    fn is_ground(&self, sight: &Sight) -> bool {
        let near =
            self.ground.nearest_neighbor_iter_with_distance_2(&[sight.easting_m, sight.northing_m]).next();
        let slack = sight.east_m.max(sight.north_m) * 0.75 + 3.0 * SLACK_M;
        near.is_some_and(|(_, squared)| squared <= slack * slack)
    }

    /// Whether a place is written finely enough to be one place of the register rather than any of many, and is no
    /// corner: what is worth setting beside the exact places.
    pub fn is_worth_matching(&self, sight: &Sight) -> bool {
        let named = sight.side_m.is_some();
        let finest = if named || sight.plain && !matches!(sight.part, Part::Edge { .. }) {
            self.side_m * 0.999
        } else {
            (self.side_m * SHARE_OF_A_LINE).max(2.0).min(self.side_m * 0.5)
        };
        sight.part != Part::Camera && size(sight) < finest && !self.is_corner(sight)
            || sight.part == Part::Camera && sight.easting_m < f64::MAX
    }
}

/// The side of a square as large as what a place leaves open, metres.
fn size(sight: &Sight) -> f64 {
    sight.side_m.unwrap_or_else(|| (sight.east_m * sight.north_m).sqrt())
}

impl Sight {
    /// West, south, east and north of the ground in which a place written like this lies: its figures were cut off
    /// or rounded. Metres.
    pub fn bounds(&self) -> [f64; 4] {
        if let Some(side_m) = self.side_m {
            let (east, north) = (self.easting_m + side_m, self.northing_m + side_m);
            return [self.easting_m - 0.01, self.northing_m - 0.01, east - 0.01, north - 0.01];
        }
        let mark = matches!(self.part, Part::Mark { .. });
        // A drawing is rounded both ways; figures may be cut off as well, toward nothing.
        let over = |unit: f64| (unit * if mark { 0.75 } else { 0.999 }).max(0.06);
        let under = |unit: f64| (unit * if mark { 0.75 } else { 0.5 } + 0.002).max(0.06);
        let west = if self.westward { over(self.east_m) } else { under(self.east_m) };
        let east = if self.westward { under(self.east_m) } else { over(self.east_m) };
        [
            self.easting_m - west,
            self.northing_m - under(self.north_m),
            self.easting_m + east,
            self.northing_m + over(self.north_m),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_and_middles_of_squares_are_no_places_and_middles_of_edges_are() {
        let agreed = Agreed { side_m: 100.0, pixel_m: None, ground: RTree::new() };
        let at = |easting_m: f64, northing_m: f64| Sight {
            within: Vec::new(),
            through: Vec::new(),
            kind: "audit-kind-reference",
            easting_m,
            northing_m,
            east_m: 10.0,
            north_m: 10.0,
            side_m: Some(10.0),
            plain: true,
            part: Part::Place,
            westward: false,
            in_name: false,
        };
        for (x, y, finer) in
            [(0.0, 0.0, false), (50.0, 50.0, false), (0.0, 50.0, true), (50.0, 0.0, true), (40.0, 0.0, true)]
        {
            assert_eq!(agreed.is_finer(&at(568_700.0 + x, 532_300.0 + y)), finer, "{x} {y}");
        }
    }
}
