//! The Ordnance Survey's OSTN15: how OSGB36 lies on ETRS89, kilometre by kilometre.
//!
//! Source: Ordnance Survey, *A guide to coordinate systems in Great Britain* (bilinear interpolation of
//! east and north shifts, and the inverse by iteration) and the OSTN15 developer pack (the shifts).

use std::io::Read;
use std::sync::LazyLock;

use crate::fault::{Fault, Result};

/// The notice that must travel with the shifts, in the binary too.
pub const LICENCE: &str = include_str!("../../docs/licences/OSTN15.txt");

const COLUMNS: usize = 701;
const ROWS: usize = 1251;
const NODE_M: f64 = 1000.0;

/// East edge of the table, metres.
pub const EAST_M: f64 = 700_000.0;
/// North edge of the table, metres.
pub const NORTH_M: f64 = 1_250_000.0;

/// East and north shifts, millimetres, row by row from the south-west.
static SHIFTS: LazyLock<Option<Vec<[i32; 2]>>> = LazyLock::new(unpack);

/// The reverse of what `build.rs` packs.
fn unpack() -> Option<Vec<[i32; 2]>> {
    let packed: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/ostn15.bin"));
    let mut plain = Vec::new();
    flate2::read::ZlibDecoder::new(packed).read_to_end(&mut plain).ok()?;
    let mut shifts = vec![[0, 0]; COLUMNS * ROWS];
    let mut bytes = plain.into_iter();
    for axis in 0..2 {
        for row in shifts.chunks_exact_mut(COLUMNS) {
            let mut last = 0;
            for node in row {
                last += variable(&mut bytes)?;
                node[axis] = last;
            }
        }
    }
    bytes.next().is_none().then_some(shifts)
}

fn variable(bytes: &mut impl Iterator<Item = u8>) -> Option<i32> {
    let mut zigzag = 0_u32;
    for shift in (0..32).step_by(7) {
        let byte = bytes.next()?;
        zigzag |= u32::from(byte & 0x7f) << shift;
        if byte < 0x80 {
            return Some((zigzag >> 1) as i32 ^ -((zigzag & 1) as i32));
        }
    }
    None
}

/// The shifts to add to ETRS89 easting and northing (on the national projection) to get OSGB36's.
fn shift(easting_m: f64, northing_m: f64) -> Result<(f64, f64)> {
    let inside = (0.0..=EAST_M).contains(&easting_m) && (0.0..=NORTH_M).contains(&northing_m);
    if !inside {
        return Err(Fault::new("place-outside-british-grid"));
    }
    let shifts = SHIFTS.as_ref().ok_or_else(|| Fault::new("coordinates-damaged"))?;
    let column = ((easting_m / NODE_M) as usize).min(COLUMNS - 2);
    let row = ((northing_m / NODE_M) as usize).min(ROWS - 2);
    let t = easting_m / NODE_M - column as f64;
    let u = northing_m / NODE_M - row as f64;
    let at = |column: usize, row: usize, axis: usize| f64::from(shifts[row * COLUMNS + column][axis]);
    let between = |axis| {
        ((1.0 - t) * (1.0 - u) * at(column, row, axis)
            + t * (1.0 - u) * at(column + 1, row, axis)
            + t * u * at(column + 1, row + 1, axis)
            + (1.0 - t) * u * at(column, row + 1, axis))
            / 1000.0
    };
    Ok((between(0), between(1)))
}

/// ETRS89 easting and northing to the national grid's, metres.
pub fn to_osgb36(easting_m: f64, northing_m: f64) -> Result<(f64, f64)> {
    let (east, north) = shift(easting_m, northing_m)?;
    Ok((easting_m + east, northing_m + north))
}

/// The national grid's easting and northing to ETRS89's, metres, by iteration to a micrometre.
pub fn to_etrs89(easting_m: f64, northing_m: f64) -> Result<(f64, f64)> {
    // A start within the table: the shift is 90 to 105 m east and −80 to +60 m north.
    let (mut e, mut n) = (easting_m.clamp(0.0, EAST_M), northing_m.clamp(0.0, NORTH_M));
    for _ in 0..50 {
        let (east, north) = shift(e, n)?;
        let (next_e, next_n) = (easting_m - east, northing_m - north);
        let still = (next_e - e).abs() < 1e-6 && (next_n - n).abs() < 1e-6;
        (e, n) = (next_e, next_n);
        if still {
            return Ok((e, n));
        }
    }
    Err(Fault::new("place-outside-british-grid"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Node values as the developer pack prints them for the square of Caister Water Tower (quoted in
    /// the documentation of the crate that carries the table).
    #[test]
    fn nodes_as_published() {
        let (east, north) = shift(651_000.0, 313_000.0).unwrap();
        assert!((east - 102.787).abs() < 1e-9 && (north + 78.242).abs() < 1e-9);
    }

    #[test]
    fn outside_is_a_fault() {
        for (e, n) in [(-0.1, 5.0), (700_000.1, 5.0), (5.0, -0.1), (5.0, 1_250_000.1), (f64::NAN, 5.0)] {
            assert!(to_osgb36(e, n).is_err(), "{e} {n}");
        }
        assert!(to_osgb36(700_000.0, 1_250_000.0).is_ok());
    }
}
