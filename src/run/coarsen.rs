//! Coarsening places: the square of an asked side that holds each, never finer than it was given.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::convert::read_pair;
use crate::coordinates::notation::{self, Pair, Written};
use crate::coordinates::{Cell, Converter, Position, System};
use crate::fault::{Fault, Result};

/// How to coarsen.
#[derive(Debug, Clone)]
pub struct Coarsening {
    /// The system of eastings and northings that say none themselves.
    pub from: Option<System>,
    /// The grid of the squares; chosen by place where none is named.
    pub to: Option<System>,
    /// Side of the squares asked for, metres.
    pub side_m: u32,
    /// A comma between figures is a decimal mark where the text leaves it open.
    pub decimal_comma: bool,
}

/// A place, coarsened.
#[derive(Debug, Clone)]
pub struct Coarsened {
    /// What was understood.
    pub written: Written,
    /// The grid of the square.
    pub system: System,
    /// The square.
    pub cell: Cell,
    /// Its reference.
    pub reference: String,
    /// It had to be larger than asked, because the place was given no finer.
    pub coarser_than_asked: bool,
}

/// Coarsens places one after another; keeps the way from each system it meets.
pub struct Squares {
    how: Coarsening,
    ways: BTreeMap<(System, System), Converter>,
}

impl Squares {
    /// Ready to coarsen.
    pub fn new(how: Coarsening) -> Self {
        Self { how, ways: BTreeMap::new() }
    }

    /// The square that holds a place.
    pub fn coarsen(&mut self, text: &str) -> Result<Coarsened> {
        let written = notation::read(text, self.how.from.as_ref(), self.how.decimal_comma)?;
        self.cut(written)
    }

    /// The square that holds a place in two columns.
    pub fn coarsen_pair(&mut self, first: &str, second: &str, pair: Pair) -> Result<Coarsened> {
        let written = read_pair(first, second, pair, self.how.from.as_ref(), self.how.decimal_comma)?;
        self.cut(written)
    }

    fn cut(&mut self, written: Written) -> Result<Coarsened> {
        let (system, position) = self.in_grid(&written)?;
        let Position::Projected { easting_m, northing_m } = position else {
            return Err(Fault::new("coarsen-in-degrees").with("system", &system));
        };
        // What the place's writer states of its doubt counts like the square: never finer than it was known.
        let known_m = written.square_m.max(2.0 * written.stated_m.unwrap_or_default());
        let side_m = side(self.how.side_m, known_m)?;
        // To the tenth of a millimetre first: a place on a line keeps its square through another system.
        let round = |metres: f64| (metres * 1e4).round() / 1e4;
        let cell = Cell::holding(round(easting_m), round(northing_m), side_m)
            .ok_or_else(|| Fault::new("place-not-carried").with("system", &system))?;
        Ok(Coarsened {
            reference: notation::reference(&system, cell),
            coarser_than_asked: side_m > self.how.side_m,
            written,
            system,
            cell,
        })
    }

    /// Where the place lies in the grid asked for; in its own grid, or the British one, where none is.
    fn in_grid(&mut self, written: &Written) -> Result<(System, Position)> {
        let grid = match (&self.how.to, written.position) {
            (Some(system), _) => system.clone(),
            (None, Position::Projected { .. }) => written.system.clone(),
            (None, Position::Geographic { .. }) => System::BritishGrid,
        };
        if grid.in_degrees() {
            return Err(Fault::new("coarsen-in-degrees").with("system", &grid));
        }
        let way = match self.ways.entry((written.system.clone(), grid.clone())) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => new.insert(Converter::new(&written.system, &grid)?),
        };
        match way.convert(written.position) {
            Err(fault) if self.how.to.is_none() && fault.id.starts_with("place-outside") => {
                Err(Fault::new("coarsen-which-grid"))
            }
            other => Ok((grid, other?)),
        }
    }
}

/// The side asked for, or the next of 1, 2 and 5 times a power of ten that holds the square a place was
/// given with, and that the asked side divides.
fn side(asked_m: u32, square_m: f64) -> Result<u32> {
    // A hair of tolerance for squares that are no whole number of metres.
    if f64::from(asked_m) >= square_m * 0.999_999 {
        return Ok(asked_m);
    }
    (0..=5)
        .flat_map(|power| [1, 2, 5].map(|lead| lead * 10_u32.pow(power)))
        .find(|side| *side <= 100_000 && f64::from(*side) >= square_m * 0.999_999 && side % asked_m == 0)
        .ok_or_else(|| Fault::new("coarsen-too-coarse"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn coarse(text: &str, side_m: u32) -> Coarsened {
        let how = Coarsening { from: None, to: None, side_m, decimal_comma: false };
        Squares::new(how).coarsen(text).unwrap()
    }

    #[test]
    fn truncates_and_never_refines() {
        assert_eq!(coarse("OV 5239 4189", 1000).reference, "OV 52 41");
        assert_eq!(coarse("OV 5239 4189", 100).reference, "OV 523 418");
        let given = coarse("OV 52 41", 100);
        assert_eq!((given.cell.side_m, given.reference.as_str()), (1000, "OV 52 41"));
        assert!(given.coarser_than_asked);
        assert_eq!(coarse("OV 53 41", 2000).reference, "OV 52 40 (2 km)");
    }

    #[test]
    fn its_own_grid_or_the_british_one() {
        let french = coarse("EPSG:2154 652760 6861000", 1000);
        assert_eq!(
            (french.system, french.reference.as_str()),
            (System::Lambert93, "E 652000 N 6861000 (1 km)")
        );
        assert_eq!(coarse("52.658007833, 1.716073973", 1000).reference, "TG 51 13");
        let how = Coarsening { from: None, to: None, side_m: 100, decimal_comma: false };
        assert_eq!(Squares::new(how).coarsen("45.0000, 12.0000").unwrap_err().id, "coarsen-which-grid");
    }

    #[test]
    fn sides_nest() {
        assert_eq!(side(100, 111.32).unwrap(), 200);
        assert_eq!(side(200, 500.0).unwrap(), 1000);
        assert_eq!(side(1, 0.001).unwrap(), 1);
        assert!(side(100, 111_320.0).is_err());
    }
}
