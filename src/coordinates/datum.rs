//! How far off latitude and longitude may be whose datum nobody wrote down.

use std::cell::RefCell;

use proj::Proj;

use super::area;

/// Datums that older maps and lists of north-west Europe give latitude and longitude on: OSGB36, TM75 and
/// TM65 (Ireland), NTF (France), ED50, Amersfoort, BD72, CH1903, DHDN, ED87; codes of the EPSG dataset.
const DATUMS: [u32; 10] = [4277, 4300, 4299, 4275, 4230, 4289, 4313, 4149, 4314, 4231];

/// Chapman and Wieczorek 2020, *Georeferencing Best Practices* (doi 10.15468/doc-gg7h-s853): the most that an
/// unknown datum can amount to anywhere, metres. Taken where none of the datums above was in use.
const WORST_M: f64 = 5359.0;

thread_local! {
    static WAYS: RefCell<Vec<Option<(area::Bounds, Proj)>>> = const { RefCell::new(Vec::new()) };
}

/// The most that a place may be off, in metres, when its latitude and longitude (taken as WGS84) may be on
/// any datum that was in use there: the largest of the shifts from those to WGS84 at the place.
pub fn unknown_datum_m(latitude_deg: f64, longitude_deg: f64) -> f64 {
    super::start();
    WAYS.with_borrow_mut(|ways| {
        if ways.is_empty() {
            ways.extend(DATUMS.map(|code| {
                let bounds = area::bounds(code)?;
                let way = Proj::new_known_crs(&format!("EPSG:{code}"), "EPSG:4326", None).ok()?;
                Some((bounds, way))
            }));
        }
        let shifts = ways.iter().flatten().filter_map(|(((west, east), (south, north)), way)| {
            let there = (*west..=*east).contains(&longitude_deg) && (*south..=*north).contains(&latitude_deg);
            let (x, y) = there.then(|| way.convert((longitude_deg, latitude_deg)).ok()).flatten()?;
            let degree_m = 111_320.0;
            let east_m = (x - longitude_deg) * degree_m * latitude_deg.to_radians().cos();
            let metres = east_m.hypot((y - latitude_deg) * degree_m);
            metres.is_finite().then_some(metres)
        });
        shifts.max_by(f64::total_cmp).unwrap_or(WORST_M)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed with PROJ 9.5.1 for the tests: latitude and longitude on OSGB36 taken as WGS84 are 62 to
    /// 137 m off over Great Britain; ED50, used beside it, up to 150 m.
    #[test]
    fn in_britain_a_hundred_metres_and_elsewhere_the_worst() {
        for (latitude, longitude) in [(50.2, -5.4), (52.6, 1.7), (58.6, -3.1)] {
            let metres = unknown_datum_m(latitude, longitude);
            assert!((62.0..=200.0).contains(&metres), "{latitude} {longitude}: {metres}");
        }
        assert_eq!(unknown_datum_m(-20.0, 130.0), WORST_M);
    }
}
