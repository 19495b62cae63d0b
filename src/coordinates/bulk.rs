//! Long arrays of places, on every core.

use std::sync::{Mutex, PoisonError};

use super::{Converter, System};
use crate::fault::{Fault, Result};

/// Places that a worker takes at a time: some milliseconds of work, so that none waits long at the end.
const BLOCK: usize = 16_384;

/// Carries places given as (easting or longitude, northing or latitude) from one system to another in
/// place, on every core. Angles are degrees. A place that cannot be carried becomes NaN in both arrays;
/// the answer is how many did. Each place goes as [`Converter::convert_xy`] would take it.
///
/// Fails where there is no way between the systems or the arrays differ in length.
pub fn convert_many(from: &System, to: &System, xs: &mut [f64], ys: &mut [f64]) -> Result<u64> {
    if xs.len() != ys.len() {
        return Err(Fault::new("place-half"));
    }
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let workers = cores.min(xs.len().div_ceil(BLOCK)).max(1);
    let blocks = Mutex::new(xs.chunks_mut(BLOCK).zip(ys.chunks_mut(BLOCK)));
    let work = || -> Result<u64> {
        // PROJ's objects stay on the thread that made them.
        let converter = Converter::new(from, to)?;
        let mut failed = 0;
        loop {
            let block = blocks.lock().unwrap_or_else(PoisonError::into_inner).next();
            let Some((xs, ys)) = block else { return Ok(failed) };
            failed += converter.convert_block(xs, ys);
        }
    };
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..workers).map(|_| scope.spawn(work)).collect();
        let mut failed = work()?;
        for other in others {
            failed += other.join().map_err(|_| Fault::new("place-not-carried-at-all"))??;
        }
        Ok(failed)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every route (own series, one operation of PROJ's, a choice among several, a grid) gives for an
    /// array what it gives for its places one by one, and NaN for what cannot be carried.
    #[test]
    fn arrays_as_one_by_one() {
        let pairs = [(4326, 27700), (27700, 4326), (4326, 2154), (4326, 32630), (4326, 29902), (4326, 27572)];
        for (from, to) in pairs.map(|(from, to)| (System::from_epsg(from), System::from_epsg(to))) {
            let places = |index: usize| {
                let (u, v) = ((index * 7919 % 1000) as f64 / 1000.0, (index * 104_729 % 997) as f64 / 997.0);
                match (&from, index % 1500) {
                    (_, 700) => (f64::NAN, 1.0),
                    (System::BritishGrid, _) => (1000.0 + u * 600_000.0, 1000.0 + v * 1_000_000.0),
                    _ => (-10.0 + 18.0 * u, 42.0 + 16.0 * v),
                }
            };
            let (mut xs, mut ys): (Vec<f64>, Vec<f64>) = (0..BLOCK + 2000).map(places).unzip();
            let failed = convert_many(&from, &to, &mut xs, &mut ys).unwrap();
            let single = Converter::new(&from, &to).unwrap();
            let mut expected = 0;
            for (index, carried) in xs.iter().zip(&ys).enumerate() {
                let (x, y) = places(index);
                match single.convert_xy(x, y) {
                    Ok((x, y)) => assert_eq!((*carried.0, *carried.1), (x, y), "{from} {to} {index}"),
                    Err(_) => {
                        expected += 1;
                        assert!(carried.0.is_nan() && carried.1.is_nan(), "{from} {to} {index}");
                    }
                }
            }
            assert_eq!(failed, expected);
            assert!(failed > 0 && (failed as usize) < xs.len(), "{from} {to} {failed}");
        }
    }

    #[test]
    fn arrays_of_other_lengths_are_refused() {
        let (from, to) = (System::Wgs84, System::BritishGrid);
        assert!(convert_many(&from, &to, &mut [1.0], &mut []).is_err());
        assert_eq!(convert_many(&from, &to, &mut [], &mut []).unwrap(), 0);
    }
}
