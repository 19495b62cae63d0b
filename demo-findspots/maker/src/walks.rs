//! Who walked which ground, when, how closely and for how long.

use rand::Rng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha12Rng;

use crate::island::Patch;

/// Who keeps the register that a piece of ground's finds went into.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Keeper {
    /// The society's day-books, letter references.
    Society,
    /// One member's phone, degrees.
    Phone,
    /// A summer visitor, eastings and northings under French headings.
    Visitor,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Day {
    pub year: u32,
    pub month: u32,
    pub day: u32,
}

#[derive(Clone)]
pub struct Walk {
    pub keepers: Vec<Keeper>,
    pub by: &'static str,
    /// Days on the ground, in order.
    pub days: Vec<Day>,
    pub visits: u32,
    pub people_hours: f64,
    pub spacing_m: u32,
    /// Share of the ground that was looked at, 0 to 1.
    pub share: f64,
    pub visibility: &'static str,
    pub kept: &'static str,
}

/// A walker sees the metre to each side of his line.
const SEEN_M: f64 = 2.0;
/// Walking and picking up, kilometres of line an hour.
const PACE_KMH: f64 = 1.3;

/// One day that suits the keeper's years and season.
pub fn day(keeper: Keeper, rng: &mut ChaCha12Rng) -> Day {
    let (years, months): (_, &[u32]) = match keeper {
        Keeper::Society => (1994..=2015, &[1, 2, 3, 10, 10, 11, 11, 12]),
        Keeper::Phone => (2017..=2026, &[1, 2, 3, 3, 4]),
        Keeper::Visitor => (2004..=2014, &[7, 8, 8, 9]),
    };
    let month = months.choose(rng).copied().unwrap_or(3);
    Day { year: rng.random_range(years), month, day: rng.random_range(1..=28) }
}

/// The walks of one piece of ground.
pub fn plan(patch: Option<Patch>, hectares: f64, rng: &mut ChaCha12Rng) -> Walk {
    let keepers = match patch {
        Some(Patch::CliffPath) => vec![Keeper::Phone, Keeper::Phone, Keeper::Society],
        Some(Patch::CliffField) => vec![Keeper::Phone],
        Some(Patch::Spring) => vec![Keeper::Visitor, Keeper::Society],
        Some(Patch::Spread) => vec![Keeper::Visitor, Keeper::Visitor, Keeper::Society],
        Some(Patch::BeachStrip) => vec![Keeper::Phone, Keeper::Phone, Keeper::Society],
        Some(Patch::Paddock) => vec![Keeper::Society],
        None => match rng.random_range(0..100) {
            0..31 => vec![Keeper::Society],
            31..68 => vec![Keeper::Phone],
            _ => vec![Keeper::Visitor],
        },
    };
    let (spacing_m, visits) = match patch {
        Some(Patch::Paddock) => (8, 40),
        Some(Patch::CliffPath) => (4, 9),
        Some(Patch::BeachStrip) => (5, 11),
        Some(Patch::Spring) => (4, 6),
        Some(Patch::CliffField | Patch::Spread) => (5, 4),
        None => (*[5, 10, 10, 10, 10, 20].choose(rng).unwrap_or(&10), rng.random_range(1..=2)),
    };
    let mut days: Vec<Day> =
        (0..visits.min(12)).map(|i| day(keepers[i as usize % keepers.len()], rng)).collect();
    days.sort();
    days.dedup();
    let spacing = f64::from(spacing_m);
    let hours = hectares * 1e4 / spacing / 1_000.0 / PACE_KMH * f64::from(visits);
    let by = match keepers[0] {
        Keeper::Society => *["Saturday walkers", "Saturday walkers", "E. Oldacre and others", "school party"]
            .choose(rng)
            .unwrap_or(&"Saturday walkers"),
        Keeper::Phone => "T. Wrackham",
        Keeper::Visitor => "Y. Kersaluc and family",
    };
    let by = if patch == Some(Patch::Paddock) { "E. Oldacre" } else { by };
    Walk {
        by,
        days,
        visits,
        people_hours: (hours * 2.0).ceil() / 2.0,
        spacing_m,
        share: (SEEN_M / spacing).min(1.0),
        visibility: ["good, weathered", "fair", "good", "poor, stubble", "fair, low sun"]
            .choose(rng)
            .copied()
            .unwrap_or("fair"),
        kept: if keepers[0] == Keeper::Visitor { "selected" } else { "all" },
        keepers,
    }
}
