//! Which raster a surface is drawn on: how far it reaches, and how fine it is.

use std::collections::BTreeSet;

use geo::{BoundingRect, MultiPolygon, Rect};

use super::spots::Spot;
use crate::coordinates::Cell;
use crate::ground::cover::Frame;
use crate::study::PublicStudy;

/// The raster reaches this many bandwidths beyond the outermost cells: what lies further is under 1e-9
/// of the kernel.
const MARGIN_SD: f64 = 6.0;

/// Most pixels along a side, where the program chooses the pixel.
const MOST_CHOSEN: f64 = 1_024.0;

/// Most pixels along a side, where the study names the pixel.
const MOST_NAMED: f64 = 4_096.0;

/// The raster for a surface by a kernel of a widest and a narrowest bandwidth. Its edges lie on edges of the agreed grid, and its pixels divide the agreed
/// side (or, where that would be too fine, are a whole number of agreed sides), so that every released
/// cell is a whole number of pixels or lies in one.
pub(super) fn frame(
    spots: &[Spot],
    (h, narrowest): (f64, f64),
    land: Option<&MultiPolygon<f64>>,
    afloat: &BTreeSet<Cell>,
    study: &PublicStudy,
) -> Frame {
    let finest = spots.iter().map(|spot| spot.cell.side_m).min().unwrap_or(1);
    let side = f64::from(study.agreement.precision.side_m().unwrap_or(finest));
    let extent = extent(spots, h, land, afloat);
    let (target, most) = match study.density.pixel_m {
        Some(pixel) => (pixel, MOST_NAMED),
        None => ((narrowest / 4.0).min(side / 2.0), MOST_CHOSEN),
    };
    let pixel_m = pixel(side, target, extent.width().max(extent.height()), most);
    let step = side.max(pixel_m);
    let (west_m, south_m) = ((extent.min().x / step).floor() * step, (extent.min().y / step).floor() * step);
    let count =
        |low: f64, high: f64| (((high / step).ceil() * step - low) / pixel_m).round().max(1.0) as usize;
    let (columns, rows) = (count(west_m, extent.max().x), count(south_m, extent.max().y));
    Frame { west_m, south_m, pixel_m, columns, rows }
}

/// The box round the cells and the reach of their kernels; of that, what lies round the land.
fn extent(spots: &[Spot], h: f64, land: Option<&MultiPolygon<f64>>, afloat: &BTreeSet<Cell>) -> Rect<f64> {
    let boxes = |cells: &mut dyn Iterator<Item = Cell>| cells.map(Cell::rect).reduce(around);
    let finds = boxes(&mut spots.iter().map(|spot| spot.cell)).unwrap_or(Rect::new((0.0, 0.0), (1.0, 1.0)));
    let margin = MARGIN_SD * h;
    let reached = Rect::new(
        (finds.min().x - margin, finds.min().y - margin),
        (finds.max().x + margin, finds.max().y + margin),
    );
    let Some(land) = land.and_then(|land| land.bounding_rect()) else { return reached };
    let ground = boxes(&mut afloat.iter().copied()).map_or(land, |afloat| around(land, afloat));
    // Every cell on land meets the land's box, so the two boxes meet.
    let min = (reached.min().x.max(ground.min().x), reached.min().y.max(ground.min().y));
    let max = (reached.max().x.min(ground.max().x), reached.max().y.min(ground.max().y));
    if min.0 < max.0 && min.1 < max.1 { Rect::new(min, max) } else { reached }
}

fn around(a: Rect<f64>, b: Rect<f64>) -> Rect<f64> {
    Rect::new(
        (a.min().x.min(b.min().x), a.min().y.min(b.min().y)),
        (a.max().x.max(b.max().x), a.max().y.max(b.max().y)),
    )
}

/// The largest pixel that is at most `target` and divides `side` evenly (by twos and fives, so that it is
/// a round number of metres); larger ones in turn where it would take more than `most` of them: bigger
/// parts of the side, then 1, 2, 5, 10, … whole sides.
fn pixel(side: f64, target: f64, longest: f64, most: f64) -> f64 {
    // One side at each end may be added when the edges are laid on the grid.
    let fits = |pixel: f64| (longest + 2.0 * side.max(pixel)) / pixel <= most;
    let least = (side / target).ceil().clamp(1.0, 10_000.0) as u32;
    // The next power of two is the furthest that the search can go.
    let parts: Vec<u32> = (1..=least.next_power_of_two()).filter(|parts| is_round(*parts)).collect();
    let finest = parts.iter().position(|parts| *parts >= least).unwrap_or(0);
    let fractions = parts[..=finest].iter().rev().map(|parts| side / f64::from(*parts));
    let multiples = (0..).flat_map(|power| [1.0, 2.0, 5.0].map(|lead| side * lead * 10_f64.powi(power)));
    fractions.chain(multiples).find(|pixel| fits(*pixel)).unwrap_or(side)
}

/// Whether a number has no factor but two and five.
fn is_round(mut number: u32) -> bool {
    for factor in [2, 5] {
        while number.is_multiple_of(factor) {
            number /= factor;
        }
    }
    number == 1
}

#[cfg(test)]
mod tests {
    use super::pixel;

    #[test]
    fn pixels_divide_the_side_or_are_divided_by_it() {
        assert_eq!(pixel(100.0, 30.0, 10_000.0, 1024.0), 25.0);
        assert_eq!(pixel(100.0, 50.0, 10_000.0, 1024.0), 50.0);
        assert_eq!(pixel(1000.0, 62.0, 20_000.0, 1024.0), 1000.0 / 20.0);
        assert_eq!(pixel(10.0, 5.0, 12_000.0, 1024.0), 20.0);
        assert_eq!(pixel(1.0, 0.5, 1e6, 1024.0), 1000.0);
    }

    #[test]
    fn a_study_that_is_too_large_for_its_pixel_gets_a_larger_one() {
        assert_eq!(pixel(100.0, 10.0, 30_000.0, 1024.0), 50.0);
        assert_eq!(pixel(100.0, 10.0, 30_000.0, 4096.0), 10.0);
    }
}
