//! A square of a grid, by whole numbers: the only form in which a place leaves `exact`.

use serde::{Deserialize, Serialize};

/// The square `column`, `row` of side `side_m` in a projected grid, counted from the grid's origin:
/// its south-west corner lies at `column * side_m` east and `row * side_m` north.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Cell {
    /// Side, metres.
    pub side_m: u32,
    /// Squares east of the origin.
    pub column: i32,
    /// Squares north of the origin.
    pub row: i32,
}

impl Cell {
    /// The square of side `side_m` that holds a place, by truncation (toward the south-west, also
    /// west and south of the origin). `None` when the place is not finite or out of integer range.
    pub fn holding(easting_m: f64, northing_m: f64, side_m: u32) -> Option<Self> {
        let index = |value: f64| {
            let index = (value / f64::from(side_m)).floor();
            (index.abs() < f64::from(i32::MAX)).then_some(index as i32)
        };
        Some(Self { side_m, column: index(easting_m)?, row: index(northing_m)? })
    }

    /// The square of side `side_m` that holds this one, where sides nest (`None` where they do not).
    pub fn within(self, side_m: u32) -> Option<Self> {
        if side_m < self.side_m || !side_m.is_multiple_of(self.side_m) {
            return None;
        }
        let times = (side_m / self.side_m) as i32;
        Some(Self { side_m, column: self.column.div_euclid(times), row: self.row.div_euclid(times) })
    }

    /// Easting of the west edge, metres.
    pub fn west_m(self) -> f64 {
        f64::from(self.column) * f64::from(self.side_m)
    }

    /// Northing of the south edge, metres.
    pub fn south_m(self) -> f64 {
        f64::from(self.row) * f64::from(self.side_m)
    }

    /// Easting of the east edge, metres.
    pub fn east_m(self) -> f64 {
        f64::from(self.column + 1) * f64::from(self.side_m)
    }

    /// Northing of the north edge, metres.
    pub fn north_m(self) -> f64 {
        f64::from(self.row + 1) * f64::from(self.side_m)
    }

    /// Its outline in its own grid.
    pub fn rect(self) -> geo::Rect<f64> {
        geo::Rect::new((self.west_m(), self.south_m()), (self.east_m(), self.north_m()))
    }

    /// Area, hectares.
    pub fn hectares(self) -> f64 {
        f64::from(self.side_m).powi(2) / 1e4
    }
}
