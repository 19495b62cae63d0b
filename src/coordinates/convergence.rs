//! How far grid north lies from true north at a place.
//!
//! Worked out by walking a little way along the meridian and looking where the grid shows it: the same for
//! every projection, with no formula of its own to get wrong. The tests hold it to published ones.

use super::{Converter, System};
use crate::fault::Result;

/// Half of the walk along the meridian, degrees: about a kilometre, over which a meridian is straight on any
/// grid to far below a hundredth of a degree, and the steps of a shift grid are far below that too.
const STEP_DEG: f64 = 0.01;

/// The bearing of grid north from true north at a place of a grid, degrees: positive where grid north lies
/// east of true north. Fails where the place cannot be carried to degrees and back.
pub fn convergence_deg(grid: &System, easting_m: f64, northing_m: f64) -> Result<f64> {
    let (out, back) = (Converter::new(grid, &System::Wgs84)?, Converter::new(&System::Wgs84, grid)?);
    let (longitude, latitude) = out.convert_xy(easting_m, northing_m)?;
    let (south_x, south_y) = back.convert_xy(longitude, latitude - STEP_DEG)?;
    let (north_x, north_y) = back.convert_xy(longitude, latitude + STEP_DEG)?;
    Ok(-(north_x - south_x).atan2(north_y - south_y).to_degrees())
}
