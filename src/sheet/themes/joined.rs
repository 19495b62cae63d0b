//! Squares joined into larger ones, for maps on which they would be too small to see or too full to read.
//! Nothing here is finer than what is published.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use crate::coordinates::Cell;
use crate::sheet::view::View;

/// Sides that squares may be joined into, the finest first: 1, 2 or 5 times a power of ten, each a whole
/// number of times the finest.
pub(super) fn sides(finest_m: u32) -> Vec<u32> {
    let round = (0..=5).flat_map(|power| [1, 2, 5].map(|lead| lead * 10u32.pow(power)));
    let mut sides = vec![finest_m];
    sides.extend(round.filter(|side| *side > finest_m && side.is_multiple_of(finest_m)));
    sides
}

/// The finest side of at least `least_m` that holds whole squares of a side.
pub(super) fn wider(own_m: u32, least_m: u32) -> u32 {
    sides(own_m).into_iter().find(|side| *side >= least_m).unwrap_or(own_m)
}

/// Squares of one side, and those that are larger.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Joined<T> {
    pub squares: BTreeMap<Cell, T>,
    pub larger: BTreeMap<Cell, T>,
}

/// Joins squares into those of a side that hold them whole; a larger square stays as it is.
pub(super) fn join<T: Default>(
    cells: &BTreeMap<Cell, T>,
    side_m: u32,
    add: impl Fn(&mut T, &T),
) -> Joined<T> {
    let mut joined = Joined { squares: BTreeMap::new(), larger: BTreeMap::new() };
    for (cell, one) in cells {
        let here = match cell.within(side_m) {
            Some(square) => joined.squares.entry(square).or_default(),
            None => joined.larger.entry(*cell).or_default(),
        };
        add(here, one);
    }
    joined
}

/// What was last worked out for a scale and a frame: a sheet asks for the same several times over.
pub(super) struct AtScale<T>(RefCell<Option<(Scale, Rc<T>)>>);

/// Metres a unit, width and height of the frame.
type Scale = (f64, f64, f64);

impl<T> AtScale<T> {
    pub fn new() -> Self {
        Self(RefCell::new(None))
    }

    pub fn get(&self, view: &View, make: impl FnOnce() -> T) -> Rc<T> {
        let scale = (view.unit_m, view.frame.width(), view.frame.height());
        if let Some((known, value)) = &*self.0.borrow()
            && *known == scale
        {
            return Rc::clone(value);
        }
        let value = Rc::new(make());
        *self.0.borrow_mut() = Some((scale, Rc::clone(&value)));
        value
    }
}

#[cfg(test)]
mod tests {
    use super::{join, sides, wider};
    use crate::coordinates::Cell;
    use std::collections::BTreeMap;

    #[test]
    fn sides_are_whole_numbers_of_times_the_finest() {
        assert_eq!(&sides(100)[..5], [100, 200, 500, 1_000, 2_000]);
        assert_eq!(&sides(20)[..4], [20, 100, 200, 500]);
        assert_eq!(&sides(5_000)[..3], [5_000, 10_000, 20_000]);
        assert_eq!(sides(5_000).last(), Some(&500_000));
        assert_eq!((wider(200, 500), wider(100, 500), wider(1_000, 500)), (1_000, 500, 1_000));
    }

    #[test]
    fn nothing_is_lost_by_joining() {
        let cell = |side_m, column, row| Cell { side_m, column, row };
        let cells = BTreeMap::from([
            (cell(100, 0, 0), 3u64),
            (cell(100, 4, 4), 4),
            (cell(100, 5, 0), 5),
            (cell(1_000, 0, 0), 6),
        ]);
        let joined = join(&cells, 500, |a, b| *a += b);
        assert_eq!(joined.squares, BTreeMap::from([(cell(500, 0, 0), 7), (cell(500, 1, 0), 5)]));
        assert_eq!(joined.larger, BTreeMap::from([(cell(1_000, 0, 0), 6)]));
        assert_eq!(join(&cells, 1_000, |a, b| *a += b).squares.values().sum::<u64>(), 18);
    }
}
