//! The ladder: which squares an audience may be shown, so that no shown square leaves less ground than was
//! agreed. It is fixed by public layers and the agreement alone, before any register is read, and it is
//! published: that a square is large tells nothing of where finds lie.
//!
//! 1. The first side of the ladder whose squares are large enough at all is the *first* side, the next one the
//!    *second*.
//! 2. A square of the first side that leaves too little takes its siblings with it: all of them are shown as the
//!    square of the second side that holds them.
//! 3. A square of the second side that leaves too little itself (a sliver of land at the edge of the sea) is
//!    not shown. Its finds are told by the parish that has most of it, where such squares of one parish leave
//!    enough together; the nearest square that could be shown joins them where they do not. Without parishes
//!    they are set aside together.
//! 4. Open water leaves the whole square: nothing is known of where on it a thing lies.
//!
//! Stepping on from rule 2 until every square passes would show a coast by squares of ten kilometres for the
//! sake of one rock (`docs/decisions/0130-ladder.md`).

use std::collections::{BTreeMap, BTreeSet};

use super::Ground;
use super::disclosed::{LEAST_GROUND_M2, Left, Region};
use crate::coordinates::Cell;
use crate::fault::{Fault, Result};
use crate::study::Agreement;

/// Areas that differ by less than this share are alike.
const ALIKE: f64 = 1e-9;

/// What must be left to a find.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Needed {
    pub area_m2: f64,
    pub places: u32,
}

impl Needed {
    pub fn of(agreement: &Agreement) -> Self {
        Self { area_m2: agreement.smallest_area_m2, places: agreement.smallest_places }
    }

    /// Whether anything is asked for.
    pub fn anything(self) -> bool {
        self.area_m2 > 0.0 || self.places > 0
    }

    pub fn met_by(self, left: Left) -> bool {
        left.area_m2 >= self.area_m2 * (1.0 - ALIKE) && left.places >= self.places
    }
}

/// Where the finds of a square that is not shown are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Pool {
    /// By a parish, as its number.
    Parish(usize),
    /// Nowhere: they are set aside together.
    Nowhere,
}

/// The squares that are not shown at the agreed side.
#[derive(Debug, Clone, Default)]
pub(super) struct Ladder {
    /// The smallest side that is shown, metres; 0 where nothing is asked.
    first_m: u32,
    /// The side that squares step to.
    second_m: u32,
    /// Squares of the second side that are shown as one.
    closed: BTreeSet<Cell>,
    /// Squares of the second side that are not shown.
    pooled: BTreeMap<Cell, Pool>,
}

/// How a square may be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rung {
    /// As this square, the same or a larger one.
    Square(Cell),
    /// Not as a square.
    Pool(Pool),
    /// Not at all: a square above the second side that leaves too little.
    Beyond,
}

impl Ladder {
    /// Fixes the ladder. `sides` are the sides that squares may step up through, the agreed one first;
    /// `parish_of` names the parish that has most of a square.
    pub fn fix(
        ground: &Ground,
        needed: Needed,
        sides: &[u32],
        parish_of: impl Fn(Cell) -> Option<usize>,
    ) -> Result<Self> {
        if !needed.anything() {
            return Ok(Self::default());
        }
        let region = Region::of(ground);
        if needed.places > 0 && ground.parcels.is_empty() {
            return Err(Fault::new("ground-no-parcels"));
        }
        let large = |side: &u32| f64::from(*side).powi(2) >= needed.area_m2 * (1.0 - ALIKE);
        let too_much = || Fault::new("ground-too-little").with("hectares", needed.area_m2 / 1e4);
        let mut from = sides.iter().position(large).ok_or_else(too_much)?;
        loop {
            let (Some(&first_m), Some(&second_m)) = (sides.get(from), sides.get(from + 1)) else {
                return Err(too_much());
            };
            let failing = region.squares(first_m, |left| !needed.met_by(*left));
            let second = region.squares(second_m, |_| true);
            // Where no square at all can be shown, the next pair of sides is tried.
            if !second.is_empty() && !second.values().any(|left| needed.met_by(*left)) {
                from += 1;
                continue;
            }
            let mut ladder = Self { first_m, second_m, ..Self::default() };
            let parents: BTreeSet<Cell> = failing.keys().filter_map(|cell| cell.within(second_m)).collect();
            let (closed, slivers): (BTreeSet<Cell>, BTreeSet<Cell>) = parents
                .into_iter()
                .partition(|cell| second.get(cell).is_some_and(|left| needed.met_by(*left)));
            ladder.closed = closed;
            ladder.pool(&slivers, &second, needed, parish_of).ok_or_else(too_much)?;
            return Ok(ladder);
        }
    }

    /// Tells slivers by parish, or nowhere, so that what tells them leaves enough. `None` where even all the
    /// ground would not do.
    fn pool(
        &mut self,
        slivers: &BTreeSet<Cell>,
        second: &BTreeMap<Cell, Left>,
        needed: Needed,
        parish_of: impl Fn(Cell) -> Option<usize>,
    ) -> Option<()> {
        let mut pools: BTreeMap<Pool, BTreeSet<Cell>> = BTreeMap::new();
        for cell in slivers {
            let pool = parish_of(*cell).map_or(Pool::Nowhere, Pool::Parish);
            pools.entry(pool).or_default().insert(*cell);
        }
        let open: BTreeSet<Cell> = second.keys().filter(|cell| !slivers.contains(*cell)).copied().collect();
        let mut of_parish: BTreeMap<usize, BTreeSet<Cell>> = BTreeMap::new();
        for cell in &open {
            if let Some(parish) = parish_of(*cell) {
                of_parish.entry(parish).or_default().insert(*cell);
            }
        }
        let mut taken = BTreeSet::new();
        let mut nowhere = pools.remove(&Pool::Nowhere).unwrap_or_default();
        for (pool, cells) in pools {
            let Pool::Parish(parish) = pool else { continue };
            let near = of_parish.get(&parish).cloned().unwrap_or_default();
            match enough(cells.clone(), &near, second, needed) {
                Some(cells) => {
                    taken.extend(cells.iter().copied());
                    self.pooled.extend(cells.into_iter().map(|cell| (cell, pool)));
                }
                None => nowhere.extend(cells),
            }
        }
        if !nowhere.is_empty() {
            let free: BTreeSet<Cell> = open.difference(&taken).copied().collect();
            let cells = enough(nowhere, &free, second, needed)?;
            self.pooled.extend(cells.into_iter().map(|cell| (cell, Pool::Nowhere)));
        }
        self.closed.retain(|cell| !self.pooled.contains_key(cell));
        Some(())
    }

    /// How a square of any side of the ladder may be shown. `left` measures a square; it is asked of squares
    /// above the second side alone.
    pub fn rung(&self, cell: Cell, enough: impl Fn(Cell) -> bool) -> Rung {
        if self.first_m == 0 {
            return Rung::Square(cell);
        }
        let cell = if cell.side_m < self.first_m { cell.within(self.first_m).unwrap_or(cell) } else { cell };
        if cell.side_m > self.second_m {
            if enough(cell) {
                return Rung::Square(cell);
            }
            // All its ground is slivers: they are told in their own way, and so is what is only known to lie there.
            let inside = self.pooled.iter().filter(|(sliver, _)| sliver.within(cell.side_m) == Some(cell));
            return inside.map(|(_, pool)| *pool).min().map_or(Rung::Beyond, Rung::Pool);
        }
        let Some(parent) = cell.within(self.second_m) else { return Rung::Square(cell) };
        match self.pooled.get(&parent) {
            Some(pool) => Rung::Pool(*pool),
            None if self.closed.contains(&parent) => Rung::Square(parent),
            None => Rung::Square(cell),
        }
    }

    /// The smallest side that is shown, metres; `None` where nothing is asked of the ground.
    pub fn first_m(&self) -> Option<u32> {
        (self.first_m > 0).then_some(self.first_m)
    }

    /// Squares that are shown as one, in order.
    pub fn closed(&self) -> impl Iterator<Item = Cell> {
        self.closed.iter().copied()
    }

    /// Squares that are not shown, and where their finds are told.
    pub fn pooled(&self) -> impl Iterator<Item = (Cell, Pool)> {
        self.pooled.iter().map(|(cell, pool)| (*cell, *pool))
    }
}

/// `cells`, joined by the nearest of `near` one by one until they leave enough. `None` when they never do.
fn enough(
    mut cells: BTreeSet<Cell>,
    near: &BTreeSet<Cell>,
    second: &BTreeMap<Cell, Left>,
    needed: Needed,
) -> Option<BTreeSet<Cell>> {
    let left = |cell: &Cell| second.get(cell).copied().unwrap_or_default();
    let mut near = near.clone();
    loop {
        let area_m2 = cells.iter().map(|cell| left(cell).area_m2).sum();
        // A parcel may lie in several squares: it counts once, as it lies in the square that has most of them.
        let places = cells.iter().map(|cell| left(cell).places).max().unwrap_or(0);
        if needed.met_by(Left { area_m2, places }) {
            return Some(cells);
        }
        let distance = |a: Cell, b: Cell| {
            let (dx, dy) = (i64::from(a.column) - i64::from(b.column), i64::from(a.row) - i64::from(b.row));
            dx * dx + dy * dy
        };
        let nearest = near
            .iter()
            .filter(|cell| left(cell).area_m2 > LEAST_GROUND_M2)
            .min_by_key(|cell| (cells.iter().map(|other| distance(**cell, *other)).min(), **cell))
            .copied()?;
        near.remove(&nearest);
        cells.insert(nearest);
    }
}
