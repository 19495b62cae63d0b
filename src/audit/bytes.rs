//! Numbers in bytes: floating and whole, either end first, as databases, shapes and pictures hold them.

use super::frames::Frames;

/// How a number lies in bytes.
#[derive(Clone, Copy)]
struct Way {
    width: usize,
    read: fn(&[u8]) -> Option<f64>,
    /// The size of the last figure at some value.
    unit: fn(f64) -> f64,
    float: bool,
}

fn exactly(_: f64) -> f64 {
    1e-6
}
fn single(value: f64) -> f64 {
    value.abs() * f64::from(f32::EPSILON)
}
fn whole(_: f64) -> f64 {
    1.0
}

const WAYS: [Way; 7] = [
    Way {
        width: 8,
        read: |b| Some(f64::from_le_bytes(b.get(..8)?.try_into().ok()?)),
        unit: exactly,
        float: true,
    },
    Way {
        width: 8,
        read: |b| Some(f64::from_be_bytes(b.get(..8)?.try_into().ok()?)),
        unit: exactly,
        float: true,
    },
    Way {
        width: 4,
        read: |b| Some(f32::from_le_bytes(b.get(..4)?.try_into().ok()?).into()),
        unit: single,
        float: true,
    },
    Way {
        width: 4,
        read: |b| Some(f32::from_be_bytes(b.get(..4)?.try_into().ok()?).into()),
        unit: single,
        float: true,
    },
    Way {
        width: 4,
        read: |b| Some(i32::from_le_bytes(b.get(..4)?.try_into().ok()?).into()),
        unit: whole,
        float: false,
    },
    Way {
        width: 4,
        read: |b| Some(i32::from_be_bytes(b.get(..4)?.try_into().ok()?).into()),
        unit: whole,
        float: false,
    },
    // A database's whole number of three bytes.
    Way {
        width: 3,
        read: |b| Some(i32::from_be_bytes([0, *b.first()?, *b.get(1)?, *b.get(2)?]).into()),
        unit: whole,
        float: false,
    },
];

/// The two figures of a place lie within so many bytes of each other; whole numbers and short ones, which chance
/// makes more easily, side by side or a few numbers apart.
const APART: usize = 64;

/// A pair of numbers that may be a place.
pub(super) struct Couple {
    pub frame: usize,
    pub x: f64,
    pub y: f64,
    pub unit_x: f64,
    pub unit_y: f64,
}

/// A frame's number, what its figures are multiplied by, and the least and most of either axis.
type Target = (usize, f64, (f64, f64), (f64, f64));

/// Every pair of numbers in bytes that may be a place.
pub(super) fn couples(bytes: &[u8], frames: &Frames) -> Vec<Couple> {
    let mut found = Vec::new();
    if frames.reach.is_none() {
        return found;
    }
    for (number, way) in WAYS.iter().enumerate() {
        let targets: Vec<Target> = frames
            .frames
            .iter()
            .enumerate()
            .filter(|(_, frame)| frame.added == (0.0, 0.0))
            .filter(|(_, frame)| {
                if way.float {
                    frame.times >= 1.0 && frame.times < 100.0
                } else {
                    frame.times <= 1.0 && !(frame.degrees && frame.times == 1.0)
                }
            })
            .map(|(index, frame)| (index, frame.times, frame.x, frame.y))
            .collect();
        // The least and the most of all: nearly every number is outside.
        let all =
            targets.iter().flat_map(|(_, times, x, y)| [x.0 / times, x.1 / times, y.0 / times, y.1 / times]);
        let (low, high) =
            all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        let mut recent: Vec<(usize, usize, f64, bool, bool)> = Vec::new();
        for at in 0..bytes.len().saturating_sub(way.width - 1) {
            let Some(value) = bytes.get(at..).and_then(way.read) else { break };
            // Not a number is outside too.
            if !(value >= low && value <= high) {
                continue;
            }
            for (frame, times, x, y) in &targets {
                let scaled = value * times;
                let (in_x, in_y) = ((x.0..=x.1).contains(&scaled), (y.0..=y.1).contains(&scaled));
                if !(in_x || in_y) {
                    continue;
                }
                recent.retain(|(before, ..)| at - before <= APART);
                let reach = if number < 2 { APART } else { way.width * 4 };
                for (before, other, earlier, was_x, was_y) in &recent {
                    let apart = at - before;
                    if other != frame
                        || apart < way.width
                        || apart > reach
                        || (number >= 2 && apart % way.width != 0)
                    {
                        continue;
                    }
                    let unit = |value: f64| (way.unit)(value) * times;
                    let mut add = |x: f64, y: f64| {
                        found.push(Couple { frame: *frame, x, y, unit_x: unit(x), unit_y: unit(y) });
                    };
                    if *was_x && in_y {
                        add(*earlier, scaled);
                    }
                    if *was_y && in_x {
                        add(scaled, *earlier);
                    }
                }
                recent.push((at, *frame, scaled, in_x, in_y));
                if recent.len() > 4096 {
                    recent.clear();
                }
            }
        }
    }
    found
}
