//! Where on its ground a find lies.

use geo::{BoundingRect, Contains, Polygon};
use rand::Rng;
use rand_chacha::ChaCha12Rng;

use super::plan::Lie;
use crate::beaches::on_beach;
use crate::island::{Island, Patch};
use crate::raster::Place;

/// A normal draw, cut off at two standard deviations (sum of twelve uniform draws).
fn normal(rng: &mut ChaCha12Rng) -> f64 {
    loop {
        let draw = (0..12).map(|_| rng.random_range(0.0..1.0)).sum::<f64>() - 6.0;
        if draw.abs() < 2.0 {
            return draw;
        }
    }
}

/// Anywhere in a polygon.
pub fn within(shape: &Polygon<f64>, rng: &mut ChaCha12Rng) -> Place {
    let bounds = shape.bounding_rect().expect("a field has an extent");
    loop {
        let at = Place {
            x: rng.random_range(bounds.min().x..bounds.max().x),
            y: rng.random_range(bounds.min().y..bounds.max().y),
        };
        if shape.contains(&at) {
            return at;
        }
    }
}

/// An oval scatter `long` by `wide` metres, thick in the middle.
fn scatter(middle: Place, long: f64, wide: f64, turn: f64, rng: &mut ChaCha12Rng) -> Place {
    let (x, y) = (normal(rng) * long / 4.0, normal(rng) * wide / 4.0);
    Place { x: middle.x + x * turn.cos() - y * turn.sin(), y: middle.y + x * turn.sin() + y * turn.cos() }
}

/// A place in a patch; the background's lies within the field given.
pub fn draw(island: &Island, lie: Lie, field: &Polygon<f64>, rng: &mut ChaCha12Rng) -> Place {
    let ground = |patch| island.ground(patch);
    match lie {
        Lie::CliffPath => {
            let path = ground(Patch::CliffPath);
            inside(&path.shape, rng, |rng| scatter(path.middle, 60.0, 40.0, path.turn, rng))
        }
        Lie::CliffField => {
            let field = ground(Patch::CliffField);
            inside(&field.shape, rng, |rng| scatter(field.middle, 90.0, 50.0, 0.7, rng))
        }
        Lie::Spring => {
            // 1.5 ha: an even spread with a thicker side.
            let spring = ground(Patch::Spring);
            inside(&spring.shape, rng, |rng| scatter(spring.middle, 165.0, 120.0, 0.5, rng))
        }
        Lie::Spread => {
            // 4 ha of a larger field, three knots in it.
            let field = ground(Patch::Spread);
            let share = (4.0 / field.hectares).min(1.0).sqrt();
            inside(&field.shape, rng, |rng| {
                let even = within(&field.shape, rng);
                let towards = |at: Place, share: f64| Place {
                    x: field.middle.x + (at.x - field.middle.x) * share,
                    y: field.middle.y + (at.y - field.middle.y) * share,
                };
                if rng.random_bool(0.55) {
                    return towards(even, share);
                }
                let knots = [(-48.0, 30.0), (22.0, -52.0), (56.0, 44.0)];
                let (x, y) = knots[rng.random_range(0..knots.len())];
                scatter(Place { x: field.middle.x + x, y: field.middle.y + y }, 60.0, 46.0, 0.0, rng)
            })
        }
        Lie::Beach => {
            // The strip is 400 by 20 metres, from a third of the way down the beach.
            on_beach(&island.beaches[0], rng.random_range(110.0..510.0), rng.random_range(3.0..23.0))
        }
        Lie::Paddock => within(&ground(Patch::Paddock).shape, rng),
        Lie::Background => within(field, rng),
    }
}

/// Draws again until the place is on its ground.
fn inside(shape: &Polygon<f64>, rng: &mut ChaCha12Rng, draw: impl Fn(&mut ChaCha12Rng) -> Place) -> Place {
    for _ in 0..200 {
        let at = draw(rng);
        if shape.contains(&at) {
            return at;
        }
    }
    within(shape, rng)
}
