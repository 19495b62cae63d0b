//! Where the ground is not shown as agreed: the ladder and the rules `near` certain ground, as pieces of ground that a
//! map can be drawn from. It says again what [`Partition::told`] answers, and asks no find.

use std::collections::BTreeSet;

use geo::BoundingRect;

use super::partition::{Partition, Told};
use crate::coordinates::Cell;
use crate::study::Precision;

/// How the finds of a piece of ground are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// By squares of this side, metres.
    Square(u32),
    /// By their parish alone.
    Parish,
    /// Not at all.
    Nowhere,
}

impl Step {
    fn in_square(cell: Cell) -> Self {
        Self::Square(cell.side_m)
    }
}

impl From<Told<'_>> for Step {
    fn from(told: Told<'_>) -> Self {
        match told {
            Told::Square(cell) => Self::in_square(cell),
            Told::Parish(_) => Self::Parish,
            Told::TooSmall | Told::Far => Self::Nowhere,
        }
    }
}

impl Partition<'_> {
    /// The least side that any ground is shown at, metres.
    pub fn least_side_m(&self) -> Option<u32> {
        self.smallest_side_m().or(self.sides().first().copied())
    }

    /// The ground whose squares are not shown at the agreed side, one laid over the other: where two meet, the later
    /// holds. All other ground of the study is shown in squares of [`Partition::least_side_m`].
    pub fn steps(&self) -> Vec<(Cell, Step)> {
        let Some(finest_m) = self.least_side_m() else { return Vec::new() };
        // A square answers as any of the smallest in it does that the ladder shows.
        let answer = |cell: Cell| {
            let corner = Cell::holding(cell.west_m(), cell.south_m(), finest_m);
            corner.map_or(Step::Nowhere, |corner| Step::from(self.told(corner)))
        };
        let (mut squares, mut by_parish) = (BTreeSet::new(), BTreeSet::new());
        for (rule, shapes) in self.rules() {
            let asked_m = rule.precision.side_m().unwrap_or(finest_m).max(finest_m);
            let side_m =
                self.sides().iter().copied().find(|side| *side >= asked_m && side.is_multiple_of(finest_m));
            let side_m = side_m.unwrap_or(finest_m);
            let near =
                shapes.iter().flat_map(|shape| reached(shape.bounding_rect(), rule.distance_m, side_m));
            let near: BTreeSet<Cell> = near.filter(|cell| rule.is_near(*cell)).collect();
            match rule.precision {
                Precision::Square { .. } if side_m > finest_m => squares.extend(near),
                Precision::Square { .. } => {}
                Precision::Parish => by_parish.extend(near),
            }
        }
        // A square that a rule asks for may leave too little ground itself.
        let squares =
            squares.into_iter().map(|cell| (cell, self.rung(cell).map_or_else(Step::from, Step::in_square)));
        let by_parish = by_parish.into_iter().map(|cell| (cell, answer(cell)));
        // The ladder's own squares, from the smaller to the larger that hold them.
        let mut ladder: Vec<Cell> = self.stepped();
        ladder.sort_unstable_by_key(|cell| (cell.side_m, *cell));
        let ladder = ladder.into_iter().map(|cell| (cell, answer(cell)));
        let unshown = self
            .unshown()
            .into_iter()
            .map(|(cell, parish)| (cell, if parish.is_some() { Step::Parish } else { Step::Nowhere }));
        squares.chain(by_parish).chain(ladder).chain(unshown).collect()
    }
}

/// The squares of a side that come within a distance of a box.
fn reached(bounds: Option<geo::Rect<f64>>, distance_m: f64, side_m: u32) -> impl Iterator<Item = Cell> {
    let ends = bounds.and_then(|bounds| {
        let (min, max) = (bounds.min(), bounds.max());
        Some((
            Cell::holding(min.x - distance_m, min.y - distance_m, side_m)?,
            Cell::holding(max.x + distance_m, max.y + distance_m, side_m)?,
        ))
    });
    ends.into_iter().flat_map(move |(from, to)| {
        (from.column..=to.column)
            .flat_map(move |column| (from.row..=to.row).map(move |row| Cell { column, row, side_m }))
    })
}
