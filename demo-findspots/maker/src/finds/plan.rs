//! How many pieces of each class lie in each patch, as a real coastal collection looks (proportions:
//! common practice): six in ten flakes and chips, one dagger.

use strew::study::vocabulary::Class;

/// Where a find lies. The order is that of the table's columns.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Lie {
    CliffPath,
    CliffField,
    Spring,
    Spread,
    Beach,
    Paddock,
    Background,
}

pub const LIES: [Lie; 7] =
    [Lie::CliffPath, Lie::CliffField, Lie::Spring, Lie::Spread, Lie::Beach, Lie::Paddock, Lie::Background];

/// Pieces by class and by where they lie: 2,400 together.
pub const PIECES: [(Class, [u32; LIES.len()]); 30] = [
    (Class::Flake, [70, 88, 196, 236, 160, 108, 478]),
    (Class::Chip, [22, 26, 18, 22, 0, 6, 10]),
    (Class::Blade, [16, 20, 44, 20, 26, 13, 75]),
    (Class::Bladelet, [14, 16, 8, 2, 0, 1, 9]),
    (Class::IrregularWaste, [8, 10, 26, 30, 24, 18, 76]),
    (Class::Scraper, [4, 5, 21, 28, 14, 7, 52]),
    (Class::ThumbnailScraper, [0, 0, 1, 10, 0, 0, 2]),
    (Class::Core, [8, 11, 18, 14, 14, 7, 48]),
    (Class::Retouched, [6, 8, 19, 20, 8, 8, 51]),
    (Class::Microlith, [6, 6, 3, 0, 0, 0, 4]),
    (Class::Microburin, [3, 2, 0, 0, 0, 0, 0]),
    (Class::LeafArrowhead, [0, 0, 2, 0, 0, 0, 1]),
    (Class::ChiselArrowhead, [0, 0, 0, 2, 0, 0, 0]),
    (Class::ObliqueArrowhead, [0, 0, 0, 2, 0, 0, 0]),
    (Class::BarbedTangedArrowhead, [0, 0, 0, 3, 0, 0, 1]),
    (Class::TranchetAxehead, [0, 0, 1, 0, 1, 0, 0]),
    (Class::PolishedAxehead, [0, 0, 1, 0, 0, 0, 2]),
    (Class::Axehead, [0, 0, 0, 0, 0, 0, 2]),
    (Class::Dagger, [0, 0, 0, 1, 0, 0, 0]),
    (Class::CoreTrimming, [3, 3, 5, 3, 1, 1, 6]),
    (Class::Piercer, [1, 1, 3, 3, 1, 0, 5]),
    (Class::Notch, [1, 1, 2, 2, 1, 1, 4]),
    (Class::Serrated, [0, 0, 3, 1, 0, 0, 4]),
    (Class::Knife, [0, 0, 1, 2, 0, 0, 3]),
    (Class::PlanoConvexKnife, [0, 0, 0, 1, 0, 0, 0]),
    (Class::Burin, [1, 1, 1, 0, 0, 0, 1]),
    (Class::Truncation, [0, 1, 1, 0, 0, 0, 1]),
    (Class::Hammerstone, [0, 0, 0, 1, 1, 0, 1]),
    (Class::Fabricator, [0, 0, 0, 1, 0, 0, 1]),
    (Class::Unclassified, [0, 0, 0, 0, 0, 1, 1]),
];

/// Whether people bag it by the handful.
pub fn is_bulk(class: Class) -> bool {
    matches!(class, Class::Flake | Class::Chip | Class::Blade | Class::Bladelet | Class::IrregularWaste)
}
