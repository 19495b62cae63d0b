//! The area that a system is made for, as the EPSG dataset states it, in metres of the system (or degrees).

use std::cell::RefCell;
use std::collections::BTreeMap;

use proj::Proj;

use super::System;
use super::kind::Kind;

/// West and east, south and north.
pub type Bounds = ((f64, f64), (f64, f64));

/// Bounds are drawn outward to the next multiple of this: finds lie on foreshores and in shallow water,
/// which the dataset's areas often leave out.
const STEP_M: f64 = 10_000.0;
/// The same for a system of angles.
const STEP_DEG: f64 = 0.1;
/// Points looked at along each edge of the area, which is bent in a projection.
const ALONG: u32 = 32;
/// An area wider than this is half the world's, and says nothing of a slip.
const WIDEST_DEG: f64 = 120.0;

/// For systems on NTF: a degree more than IGN's grid covers. In between, three constants serve, and are told.
const NTF: [f64; 4] = [-6.5, 40.0, 11.0, 53.0];

thread_local! {
    /// Bounds that were asked for: they are looked at for every place.
    static KNOWN: RefCell<BTreeMap<u32, Option<Bounds>>> = const { RefCell::new(BTreeMap::new()) };
}

/// Bounds of a system by its code; `None` where the dataset states none, or so wide ones that they say
/// nothing.
pub fn bounds(code: u32) -> Option<Bounds> {
    KNOWN.with_borrow_mut(|known| {
        *known.entry(code).or_insert_with(|| {
            super::start();
            let kind = Kind::of(&System::from_epsg(code)).ok()?;
            let area = if kind.ntf { NTF } else { stated(&kind.definition)? };
            carried(&kind, area)
        })
    })
}

/// West, south, east and north edges, degrees, as the dataset states them for a system.
fn stated(definition: &str) -> Option<[f64; 4]> {
    let area = Proj::new(definition).ok()?.area_of_use().ok()?.0?;
    let (west, south, east, north) = (area.west, area.south, area.east, area.north);
    // Across the 180th meridian, or without figures (PROJ says −1000).
    let told = west >= -180.0 && south >= -90.0 && west < east && south < north;
    (told && east - west <= WIDEST_DEG).then_some([west, south, east, north])
}

fn carried(kind: &Kind, [west, south, east, north]: [f64; 4]) -> Option<Bounds> {
    let carry = Proj::new_known_crs("EPSG:4326", &kind.definition, None).ok()?;
    let edge = (0..=ALONG).flat_map(|step| {
        let share = f64::from(step) / f64::from(ALONG);
        let (x, y) = (west + share * (east - west), south + share * (north - south));
        [(x, south), (x, north), (west, y), (east, y)]
    });
    let mut bounds: Option<Bounds> = None;
    for place in edge {
        let (x, y): (f64, f64) = carry.convert(place).ok()?;
        if !(x.is_finite() && y.is_finite()) {
            return None;
        }
        bounds = Some(
            bounds.map_or(((x, x), (y, y)), |((w, e), (s, n))| ((w.min(x), e.max(x)), (s.min(y), n.max(y)))),
        );
    }
    let ((w, e), (s, n)) = bounds?;
    let step = if kind.geographic { STEP_DEG } else { STEP_M };
    let down = |value: f64| (value * kind.unit_deg / step).floor() * step;
    let up = |value: f64| (value * kind.unit_deg / step).ceil() * step;
    Some(((down(w), up(e)), (down(s), up(n))))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EPSG dataset, areas of the systems (in PROJ 9.6): Jersey 49.11 to 49.44° N, 2.72 to 1.83° W;
    /// the Netherlands on shore 50.75 to 53.7° N, 3.2 to 7.22° E; on OSGB36 in degrees 49.79 to 60.94° N.
    #[test]
    fn areas_in_the_systems_unit() {
        let ((w, e), (s, n)) = bounds(3109).unwrap();
        assert!(w < 30_000.0 && e > 50_000.0 && s < 60_000.0 && n > 80_000.0 && e - w < 100_000.0);
        let ((w, e), (s, n)) = bounds(28992).unwrap();
        // Vaals and Cadzand at one end, Schiermonnikoog and Bad Nieuweschans at the other (from memory, to the
        // kilometre), and not Paris.
        assert!(w <= 14_000.0 && e >= 276_000.0 && s <= 307_000.0 && n >= 613_000.0, "{w} {e} {s} {n}");
        assert!(s > 200_000.0 && n < 700_000.0);
        let ((w, e), (s, n)) = bounds(4277).unwrap();
        assert!(w < -7.0 && e > 1.7 && s <= 49.8 && (60.9..62.0).contains(&n), "{w} {e} {s} {n}");
        // The whole world says nothing; neither does a code that is none.
        assert_eq!(bounds(3857), None);
        assert_eq!(bounds(1), None);
    }
}
