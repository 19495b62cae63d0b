//! Cells of Europe's reference grid (EPSG:3035): "1kmN2599E4695", "100mN25991E46952".
//!
//! Source: INSPIRE data specification on geographical grid systems, cell codes: the side, then northing
//! and easting of the south-west corner, with as many figures cut off as the side has zeros in metres.
//! (From memory; the shape agrees with the cells that national statistics are published by.)

use super::{Cell, Position, System, Written};
use crate::coordinates::names::EUROPEAN_GRID;
use crate::fault::{Fault, Result};

/// Reads a cell's code; `None` where the text does not have its shape.
pub fn read(text: &str) -> Option<Result<Written>> {
    let upper = text.to_uppercase().replace(' ', "");
    let code = upper.strip_prefix("CRS3035RES").unwrap_or(&upper);
    let long = code.len() < upper.len();
    let digits = code.find(|c: char| !c.is_ascii_digit())?;
    let (number, rest) = code.split_at(digits);
    let (unit_m, rest) = match rest.strip_prefix("KM") {
        Some(rest) => (1000_u32, rest),
        None => (1, rest.strip_prefix('M')?),
    };
    let (north, east) = rest.strip_prefix('N')?.split_once('E')?;
    let side_m = number.parse::<u32>().ok()?.checked_mul(unit_m)?;
    if side_m == 0 || side_m > 100_000 {
        return None;
    }
    // The long form gives whole metres.
    let step = if long { 1 } else { step(side_m) };
    let metres = |figures: &str| -> Option<f64> {
        let steps: u32 = figures.parse().ok()?;
        let metres = steps.checked_mul(step)?;
        // Europe lies within 10 000 km of the grid's origin.
        (metres % side_m == 0 && metres < 10_000_000).then_some(f64::from(metres))
    };
    let (Some(northing_m), Some(easting_m)) = (metres(north), metres(east)) else {
        return Some(Err(Fault::new("place-unreadable")));
    };
    let at =
        |offset: f64| Position::Projected { easting_m: easting_m + offset, northing_m: northing_m + offset };
    let (system, half) = (System::Epsg(EUROPEAN_GRID), f64::from(side_m) / 2.0);
    if system.holds(easting_m + half, northing_m + half) == Some(false) {
        return Some(Err(Fault::new("place-outside").with("system", system)));
    }
    Some(Ok(Written {
        understood_as: "notation-reference-cell",
        system,
        position: at(half),
        corner: Some(at(0.0)),
        square_m: f64::from(side_m),
        height_m: None,
        stated_m: None,
    }))
}

/// Metres in the last figure of a code.
fn step(side_m: u32) -> u32 {
    let mut step = 1;
    while side_m.is_multiple_of(step * 10) {
        step *= 10;
    }
    step
}

/// The code of a cell; `None` south or west of the grid.
pub fn reference(cell: Cell) -> Option<String> {
    let (column, row) = (u64::try_from(cell.column).ok()?, u64::try_from(cell.row).ok()?);
    let (side, step) = (u64::from(cell.side_m), u64::from(step(cell.side_m)));
    let name = match cell.side_m {
        side if side % 1000 == 0 => format!("{}km", side / 1000),
        side => format!("{side}m"),
    };
    Some(format!("{name}N{}E{}", row * side / step, column * side / step))
}
