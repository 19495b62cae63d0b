//! Disclosed ground: how much of the land a shown square leaves for a find, measured exactly.
//!
//! What is on public layers is known to everybody, drawn or not: a find of a square lies on its land (or its
//! beach), and on its walked ground where that is public and the square holds any.

use std::collections::BTreeMap;

use geo::orient::Direction;
use geo::{Area, BooleanOps, BoundingRect, MultiPolygon, Orient, Rect, unary_union};

use super::Ground;
use super::cover::{Frame, area_within, shares};
use crate::coordinates::Cell;

/// Less ground than this in a square is rounding of the layers, square metres.
pub(super) const LEAST_GROUND_M2: f64 = 1.0;

/// A parcel with less ground than this in a square is no place of it, square metres.
const LEAST_PLACE_M2: f64 = 100.0;

/// Pixels of a raster that is held at once.
const MOST_PIXELS: usize = 4_000_000;

/// Ground on which finds may lie, as far as the public layers tell.
#[derive(Debug, Clone)]
pub(super) struct Region {
    /// Land and beach; parishes where no land is given. `None`: nothing is known, all of every square.
    land: Option<MultiPolygon<f64>>,
    /// The part of it that was walked, where that is public.
    walked: Option<MultiPolygon<f64>>,
    /// Parcels, to be counted.
    parcels: Vec<MultiPolygon<f64>>,
}

/// What a square leaves.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Left {
    pub area_m2: f64,
    pub places: u32,
}

impl Region {
    /// All the public ground.
    pub fn of(ground: &Ground) -> Self {
        let joined = |parts: Vec<&MultiPolygon<f64>>| -> Option<MultiPolygon<f64>> {
            let polygons: Vec<_> = parts.into_iter().flat_map(|part| part.0.iter()).collect();
            (!polygons.is_empty()).then(|| unary_union(polygons).orient(Direction::Default))
        };
        let land = if ground.land.0.is_empty() {
            joined(ground.parishes.iter().map(|parish| &parish.shape).collect())
        } else if ground.beach.0.is_empty() {
            Some(ground.land.clone())
        } else {
            joined(vec![&ground.land, &ground.beach])
        };
        let walked =
            joined(ground.walked.iter().map(|walked| &walked.shape).collect()).map(|walked| match &land {
                Some(land) => crossing(&walked, land),
                None => walked,
            });
        Self { land, walked, parcels: ground.parcels.clone() }
    }

    /// The part of this ground that lies in `shape`.
    pub fn within(&self, shape: &MultiPolygon<f64>) -> Self {
        let part = |of: &MultiPolygon<f64>| crossing(of, shape);
        Self {
            land: Some(self.land.as_ref().map_or_else(|| shape.clone(), part)),
            walked: self.walked.as_ref().map(part),
            parcels: self.parcels.clone(),
        }
    }

    /// The part of this ground in one square.
    pub fn in_cell(&self, cell: Cell) -> Self {
        let rect = cell.rect();
        let square = MultiPolygon(vec![rect.to_polygon()]);
        let meets = |shape: &MultiPolygon<f64>| {
            shape.bounding_rect().is_some_and(|b| {
                b.min().x < rect.max().x
                    && b.max().x > rect.min().x
                    && b.min().y < rect.max().y
                    && b.max().y > rect.min().y
            })
        };
        let mut inside = self.within(&square);
        inside.parcels.retain(meets);
        inside
    }

    /// Without the ground in `shape`.
    pub fn without(&self, shape: &MultiPolygon<f64>) -> Self {
        let rest = |of: &MultiPolygon<f64>| of.difference(shape).orient(Direction::Default);
        Self {
            land: self.land.as_ref().map(rest),
            walked: self.walked.as_ref().map(rest),
            parcels: self.parcels.clone(),
        }
    }

    /// All of it.
    pub fn whole(&self) -> Left {
        let area = |shape: &MultiPolygon<f64>| shape.unsigned_area();
        let land = self.land.as_ref().map_or(f64::INFINITY, area);
        let walked = self.walked.as_ref().map_or(0.0, area);
        let on = if walked > LEAST_GROUND_M2 { self.walked.as_ref() } else { self.land.as_ref() };
        let places = match on {
            Some(on) => {
                self.parcels.iter().filter(|parcel| area(&crossing(parcel, on)) > LEAST_PLACE_M2).count()
            }
            None => self.parcels.len(),
        };
        Left {
            area_m2: if walked > LEAST_GROUND_M2 { walked } else { land },
            places: u32::try_from(places).unwrap_or(u32::MAX),
        }
    }

    /// What one square leaves.
    pub fn left(&self, cell: Cell) -> Left {
        let rect = cell.rect();
        let full = f64::from(cell.side_m).powi(2);
        let land = self.land.as_ref().map_or(full, |land| area_within(land, rect));
        let walked = self.walked.as_ref().map_or(0.0, |walked| area_within(walked, rect));
        let on_walked = walked > LEAST_GROUND_M2;
        let places = if self.parcels.is_empty() { 0 } else { self.in_cell(cell).whole().places };
        Left { area_m2: if on_walked { walked } else { land }, places }
    }

    /// The box round all that is known; `None` where nothing is.
    fn bounds(&self) -> Option<Rect<f64>> {
        let parts = self.land.iter().chain(&self.walked).chain(&self.parcels);
        parts.filter_map(BoundingRect::bounding_rect).reduce(|a, b| {
            Rect::new(
                (a.min().x.min(b.min().x), a.min().y.min(b.min().y)),
                (a.max().x.max(b.max().x), a.max().y.max(b.max().y)),
            )
        })
    }

    /// Every square of this side that holds any ground, with what it leaves. `wanted` says which are kept: a
    /// country of small squares is mostly squares that are land all over.
    pub fn squares(&self, side_m: u32, wanted: impl Fn(&Left) -> bool) -> BTreeMap<Cell, Left> {
        let mut kept = BTreeMap::new();
        let Some(bounds) = self.bounds() else { return kept };
        let corner = |x: f64, y: f64| Cell::holding(x, y, side_m);
        let (Some(first), Some(last)) =
            (corner(bounds.min().x, bounds.min().y), corner(bounds.max().x, bounds.max().y))
        else {
            return kept;
        };
        let columns = usize::try_from(last.column - first.column + 1).unwrap_or(0);
        let band = i32::try_from((MOST_PIXELS / columns.max(1)).max(1)).unwrap_or(i32::MAX);
        let full = f64::from(side_m).powi(2);
        let mut row = first.row;
        while row <= last.row {
            let rows = band.min(last.row - row + 1);
            let frame = Frame {
                west_m: first.west_m(),
                south_m: f64::from(row) * f64::from(side_m),
                pixel_m: f64::from(side_m),
                columns,
                rows: usize::try_from(rows).unwrap_or(0),
            };
            let land = self.land.as_ref().map(|land| shares(land, &frame));
            let walked = self.walked.as_ref().map(|walked| shares(walked, &frame));
            let places = self.count_places(&frame);
            for index in 0..frame.columns * frame.rows {
                let of = |shares: &Option<Vec<f64>>, none: f64| {
                    shares.as_ref().and_then(|shares| shares.get(index).copied()).unwrap_or(none) * full
                };
                let (land, walked) = (of(&land, 1.0), of(&walked, 0.0));
                let area_m2 = if walked > LEAST_GROUND_M2 { walked } else { land };
                let left = Left { area_m2, places: places.get(index).copied().unwrap_or(0) };
                if area_m2 > LEAST_GROUND_M2 && wanted(&left) {
                    let (column, up) = (index % frame.columns, index / frame.columns);
                    let cell = Cell {
                        side_m,
                        column: first.column + i32::try_from(column).unwrap_or(0),
                        row: row + i32::try_from(up).unwrap_or(0),
                    };
                    kept.insert(cell, left);
                }
            }
            row += rows;
        }
        kept
    }

    /// How many parcels have ground in each square of a frame: on its walked ground where it holds any, and
    /// on its land otherwise.
    fn count_places(&self, frame: &Frame) -> Vec<u32> {
        if self.parcels.is_empty() {
            return Vec::new();
        }
        let full = frame.pixel_m.powi(2);
        let mut counts = vec![0_u32; frame.columns * frame.rows];
        let walked = self.walked.as_ref().map(|walked| shares(walked, frame));
        let mut count = |shape: &MultiPolygon<f64>, on_walked: bool| {
            let Some((part, at)) = part_of(frame, shape) else { return };
            for (index, share) in shares(shape, &part).into_iter().enumerate() {
                let (column, row) = (at.0 + index % part.columns, at.1 + index / part.columns);
                let pixel = row * frame.columns + column;
                let is_walked = walked
                    .as_ref()
                    .and_then(|walked| walked.get(pixel))
                    .is_some_and(|share| share * full > LEAST_GROUND_M2);
                if share * full > LEAST_PLACE_M2
                    && is_walked == on_walked
                    && let Some(count) = counts.get_mut(pixel)
                {
                    *count += 1;
                }
            }
        };
        for parcel in &self.parcels {
            match &self.land {
                Some(land) => count(&crossing(parcel, land), false),
                None => count(parcel, false),
            }
            if let Some(walked) = &self.walked {
                count(&crossing(parcel, walked), true);
            }
        }
        counts
    }
}

/// The pixels of a frame that a shape may touch, and where they begin (column, row).
fn part_of(frame: &Frame, shape: &MultiPolygon<f64>) -> Option<(Frame, (usize, usize))> {
    let bounds = shape.bounding_rect()?;
    let low = |value: f64, origin: f64| ((value - origin) / frame.pixel_m).floor().max(0.0) as usize;
    let high = |value: f64, origin: f64, most: usize| {
        (((value - origin) / frame.pixel_m).ceil().max(0.0) as usize).min(most)
    };
    let (west, south) = (low(bounds.min().x, frame.west_m), low(bounds.min().y, frame.south_m));
    let east = high(bounds.max().x, frame.west_m, frame.columns);
    let north = high(bounds.max().y, frame.south_m, frame.rows);
    (west < east && south < north).then(|| {
        let part = Frame {
            west_m: frame.west_m + west as f64 * frame.pixel_m,
            south_m: frame.south_m + south as f64 * frame.pixel_m,
            pixel_m: frame.pixel_m,
            columns: east - west,
            rows: north - south,
        };
        (part, (west, south))
    })
}

/// The ground that two shapes share.
pub(super) fn crossing(a: &MultiPolygon<f64>, b: &MultiPolygon<f64>) -> MultiPolygon<f64> {
    a.intersection(b).orient(Direction::Default)
}
