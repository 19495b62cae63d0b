//! Which pieces can be dated, and how closely: some by their form, some by the company they lie in, and
//! well over half not at all.

use rand::Rng;
use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Period};

use super::plan::Lie;

/// Dates that the form alone gives (common practice; ranges differ between authorities).
fn by_form(class: Class) -> Option<Period> {
    Some(match class {
        Class::Microlith | Class::Microburin => Period::LateMesolithic,
        Class::TranchetAxehead | Class::Burin | Class::Truncation => Period::Mesolithic,
        Class::LeafArrowhead | Class::PolishedAxehead | Class::Serrated => Period::EarlyNeolithic,
        Class::ChiselArrowhead | Class::ObliqueArrowhead => Period::LateNeolithic,
        Class::BarbedTangedArrowhead | Class::ThumbnailScraper | Class::Dagger | Class::PlanoConvexKnife => {
            Period::LateNeolithicEarlyBronzeAge
        }
        Class::Axehead => Period::Neolithic,
        _ => return None,
    })
}

pub fn date(class: Class, lie: Lie, rng: &mut ChaCha12Rng) -> Period {
    if let Some(period) = by_form(class) {
        // Now and then the recorder is less sure.
        return match period {
            Period::LateMesolithic if rng.random_bool(0.15) => Period::Mesolithic,
            Period::EarlyNeolithic if rng.random_bool(0.15) => Period::Neolithic,
            period => period,
        };
    }
    let share = match (class, lie) {
        (Class::Chip | Class::IrregularWaste | Class::Unclassified, _) => 0.03,
        (_, Lie::Beach) => 0.14,
        (Class::Flake, Lie::CliffPath | Lie::CliffField) => 0.5,
        (Class::Flake, Lie::Spring) => 0.4,
        (Class::Flake, Lie::Spread) => 0.36,
        (Class::Flake, _) => 0.2,
        (Class::Blade | Class::Bladelet, Lie::CliffPath | Lie::CliffField) => 0.9,
        (Class::Blade | Class::Bladelet, _) => 0.72,
        (Class::Core | Class::CoreTrimming, Lie::CliffPath | Lie::CliffField) => 0.8,
        (_, Lie::Paddock | Lie::Background) => 0.36,
        _ => 0.6,
    };
    if !rng.random_bool(share) {
        return Period::Undated;
    }
    let bladed = matches!(class, Class::Blade | Class::Bladelet);
    // Of a hundred dated pieces: Late Mesolithic, Mesolithic, Early Neolithic, Neolithic, Late Neolithic
    // to Early Bronze Age, Early Bronze Age, Mesolithic or Early Neolithic; the rest only prehistoric.
    let shares: [u32; 7] = match lie {
        Lie::CliffPath | Lie::CliffField => [84, 12, 0, 0, 0, 0, 4],
        Lie::Spring if bladed => [24, 20, 30, 4, 2, 0, 18],
        Lie::Spring => [12, 14, 52, 6, 9, 2, 3],
        Lie::Spread if bladed => [4, 14, 36, 14, 14, 0, 16],
        Lie::Spread => [0, 2, 14, 12, 58, 8, 0],
        _ if bladed => [14, 34, 26, 6, 2, 0, 16],
        _ => [6, 24, 38, 10, 12, 4, 2],
    };
    const PERIODS: [Period; 7] = [
        Period::LateMesolithic,
        Period::Mesolithic,
        Period::EarlyNeolithic,
        Period::Neolithic,
        Period::LateNeolithicEarlyBronzeAge,
        Period::EarlyBronzeAge,
        Period::MesolithicEarlyNeolithic,
    ];
    let mut draw = rng.random_range(0..100);
    for (period, share) in PERIODS.into_iter().zip(shares) {
        if draw < share {
            return period;
        }
        draw -= share;
    }
    Period::Prehistoric
}
