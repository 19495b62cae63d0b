//! A square in another system: it is one no longer there, so its outline is told, and the smallest square
//! of that system which holds the whole of it. Coarsening what is coarse already goes this way: the square
//! is converted, and the exact place never cut a second time in another grid.

use super::convert::{Converted, Places, on_lattice};
use super::target::Target;
use crate::coordinates::notation;
use crate::coordinates::{Cell, Position};
use crate::fault::Result;

/// A square of one system, seen in another.
#[derive(Debug, Clone, PartialEq)]
pub struct SquareThere {
    /// Its corners there: south-west, south-east, north-east, north-west of its own grid.
    pub outline: [Position; 4],
    /// The reference of the smallest square there that holds it, and that square's side in metres. `None` for
    /// a system of angles, and where it lies across a line that even squares of 100 km do not cross.
    pub held_by: Option<(String, u32)>,
}

/// Points carried along each edge: edges bend in another projection.
const ALONG: u32 = 8;
/// The largest square that a reference names, metres.
const LARGEST_M: u32 = 100_000;

impl Places {
    /// The square that a place was given by, in the system it was converted to; `None` where the place was
    /// given as a point.
    pub fn square_there(&mut self, converted: &Converted) -> Result<Option<SquareThere>> {
        let written = &converted.written;
        let Some(Position::Projected { easting_m, northing_m }) = written.corner else { return Ok(None) };
        let way = self.way(&written.system, &converted.system)?;
        let side = written.square_m;
        let carry = |east: f64, north: f64| {
            way.convert(Position::Projected {
                easting_m: easting_m + east * side,
                northing_m: northing_m + north * side,
            })
        };
        let outline = [carry(0.0, 0.0)?, carry(1.0, 0.0)?, carry(1.0, 1.0)?, carry(0.0, 1.0)?];
        let mut edge = Vec::new();
        for step in 0..ALONG {
            let along = f64::from(step) / f64::from(ALONG);
            for (east, north) in [(along, 0.0), (1.0, along), (1.0 - along, 1.0), (0.0, 1.0 - along)] {
                edge.push(carry(east, north)?);
            }
        }
        let held_by = self.holding(converted, &edge)?;
        Ok(Some(SquareThere { outline, held_by }))
    }

    /// The smallest square that holds all of `edge`.
    fn holding(&mut self, converted: &Converted, edge: &[Position]) -> Result<Option<(String, u32)>> {
        let Some(places) = edge.iter().map(|place| on_lattice(*place)).collect::<Option<Vec<_>>>() else {
            return Ok(None);
        };
        let low = |axis: fn(&(f64, f64)) -> f64| places.iter().map(axis).fold(f64::INFINITY, f64::min);
        let high = |axis: fn(&(f64, f64)) -> f64| places.iter().map(axis).fold(f64::NEG_INFINITY, f64::max);
        let (west, south) = (low(|p| p.0), low(|p| p.1));
        // A square reaches up to its north and east edges and holds none of them: a hair less than the lattice.
        let (east, north) = (high(|p| p.0) - 5e-5, high(|p| p.1) - 5e-5);
        // References of MGRS and of the European cells have powers of ten alone.
        let (leads, least): (&[u32], u32) = match self.target() {
            Target::Mgrs => (&[1], 1),
            Target::Cells(side) => (&[1], *side),
            Target::System(_) | Target::Utm => (&[1, 2, 5], 1),
        };
        let sides = (0..=5).flat_map(|power| leads.iter().map(move |lead| lead * 10_u32.pow(power)));
        let held = sides.filter(|side| (least..=LARGEST_M).contains(side)).find_map(|side| {
            let cell = Cell::holding(west, south, side)?;
            (cell == Cell::holding(east, north, side)?).then_some(cell)
        });
        let Some(cell) = held else { return Ok(None) };
        let centre = cell.rect().center();
        let centre = Position::Projected { easting_m: centre.x, northing_m: centre.y };
        let own = match self.target() {
            Target::Mgrs => self.reference_of(&converted.system, centre, cell.side_m)?,
            _ => Some(notation::reference(&converted.system, cell)),
        };
        Ok(own.map(|reference| (reference, cell.side_m)))
    }
}
