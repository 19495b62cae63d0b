//! The British National Grid: ETRS89 degrees to OSGB36 metres by OSTN15, and back.

use std::sync::LazyLock;

use super::ostn15;
use super::transverse::{AIRY, GRS80, Transverse, national};
use crate::fault::Result;

/// The national projection of ETRS89's ellipsoid.
static ON_GRS80: LazyLock<Transverse> = LazyLock::new(|| national(GRS80));

/// The national projection of OSGB36's ellipsoid.
static ON_AIRY: LazyLock<Transverse> = LazyLock::new(|| national(AIRY));

/// Accuracy of ETRS89 to OSGB36 by OSTN15, metres: EPSG dataset, transformation 7709.
pub const OSTN15_ACCURACY_M: f64 = 0.03;

/// Accuracy of taking WGS84 and ETRS89 for one another, metres: EPSG dataset, transformation 1149.
pub const WGS84_ACCURACY_M: f64 = 1.0;

/// ETRS89 latitude and longitude, degrees, to the national grid's easting and northing, metres.
pub fn from_etrs89(latitude_deg: f64, longitude_deg: f64) -> Result<(f64, f64)> {
    let (e, n) = ON_GRS80.forward(latitude_deg, longitude_deg);
    ostn15::to_osgb36(e, n)
}

/// The national grid's easting and northing, metres, to ETRS89 latitude and longitude, degrees.
pub fn to_etrs89(easting_m: f64, northing_m: f64) -> Result<(f64, f64)> {
    let (e, n) = ostn15::to_etrs89(easting_m, northing_m)?;
    Ok(ON_GRS80.inverse(e, n))
}

/// OSGB36 latitude and longitude, degrees (EPSG:4277), to the national grid: projection alone.
pub fn from_osgb36(latitude_deg: f64, longitude_deg: f64) -> (f64, f64) {
    ON_AIRY.forward(latitude_deg, longitude_deg)
}

/// The national grid to OSGB36 latitude and longitude, degrees (EPSG:4277): projection alone.
pub fn to_osgb36(easting_m: f64, northing_m: f64) -> (f64, f64) {
    ON_AIRY.inverse(easting_m, northing_m)
}
