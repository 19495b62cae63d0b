//! What finds are sorted under in tables: the order of rows and columns, and where each find belongs.

use super::Concentration;
use super::concentrations::{Extent, Held};
use super::tables::Dimension;
use crate::exact::{Published, ReleasedFind, ReleasedPlace};
use crate::ground::Partition;
use crate::study::PublicStudy;
use crate::study::vocabulary::{Class, Period, Setting, Strength, Term};
use crate::words::{Language, Words};

/// A row or column of a table. Its order is that in which tables show them.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Key {
    /// A class, after the broader one it stands under.
    Class(Class, Class),
    /// A period. The vocabulary lists them in order of time, a broad one before its parts; prehistoric
    /// and undated come last.
    Period(Period),
    Parish(String),
    Strength(Strength),
    Setting(Setting),
    /// A concentration, by its place in their list.
    Concentration(usize),
    /// In no concentration, in one of the larger squares, or out of place.
    Elsewhere,
    /// In a cell that no parish reaches.
    ParishUnknown,
    /// The release does not say.
    NotShown,
    /// Derived or brought in: tallied apart in a column of their own.
    OutOfPlace,
}

impl Key {
    pub(super) fn label(&self, language: Language, concentrations: &[Concentration]) -> String {
        let words = Words::of(language);
        match self {
            Self::Class(_, class) => class.label(language),
            Self::Period(period) => period.label(language),
            Self::Parish(name) => name.clone(),
            Self::Strength(strength) => strength.label(language),
            Self::Setting(setting) => setting.label(language),
            Self::Concentration(index) => {
                concentrations.get(*index).map_or_else(String::new, |patch| patch.letter.clone())
            }
            Self::Elsewhere => words.say("tables-elsewhere"),
            Self::ParishUnknown => words.say("tables-parish-unknown"),
            Self::NotShown => words.say("tables-not-shown"),
            Self::OutOfPlace => words.say("tables-out-of-place"),
        }
    }
}

/// Finds that are alike in all that tables look at, counted together.
pub(super) struct Group<'a> {
    pub find: &'a ReleasedFind,
    pub pieces: u64,
}

/// The published finds, neighbours that are alike together. A release is in order of what is told of
/// its finds, so that finds alike are neighbours.
pub(super) fn groups(published: &Published) -> Vec<Group<'_>> {
    let alike = |a: &ReleasedFind, b: &ReleasedFind| {
        a.place == b.place
            && (a.class, a.period, a.strength, a.setting) == (b.class, b.period, b.strength, b.setting)
            && a.out_of_place == b.out_of_place
            && a.stated_parish == b.stated_parish
    };
    let group = |finds: &'_ [ReleasedFind]| finds.iter().map(|find| u64::from(find.count)).sum();
    published
        .finds()
        .chunk_by(alike)
        .filter_map(|finds| finds.first().map(|find| Group { find, pieces: group(finds) }))
        .collect()
}

/// Sorts finds under the keys of one dimension.
pub(super) struct Sorter<'a> {
    dimension: Dimension,
    partition: &'a Partition<'a>,
    held: Vec<Held>,
    /// Whether a find may be on the surface that concentrations come from.
    wanted: Box<dyn Fn(&ReleasedFind) -> bool + 'a>,
}

impl<'a> Sorter<'a> {
    pub(super) fn new(
        dimension: Dimension,
        partition: &'a Partition<'a>,
        concentrations: &[Concentration],
        wanted: impl Fn(&ReleasedFind) -> bool + 'a,
    ) -> Self {
        let held = match dimension {
            Dimension::Concentration => concentrations.iter().map(|patch| Held::by(&patch.cells)).collect(),
            _ => Vec::new(),
        };
        Self { dimension, partition, held, wanted: Box::new(wanted) }
    }

    /// The keys that are shown whether or not a find falls under them.
    pub(super) fn standing(&self) -> Vec<Key> {
        match self.dimension {
            Dimension::Period => vec![Key::Period(Period::Prehistoric), Key::Period(Period::Undated)],
            Dimension::Parish => {
                self.partition.parish_names().into_iter().map(|name| Key::Parish(name.to_owned())).collect()
            }
            Dimension::Concentration => (0..self.held.len()).map(Key::Concentration).collect(),
            Dimension::Class | Dimension::Strength | Dimension::Setting => Vec::new(),
        }
    }

    /// Where a find belongs, with shares that add to 1.
    pub(super) fn keys(&self, find: &ReleasedFind) -> Vec<(Key, f64)> {
        let one = |key: Option<Key>| vec![(key.unwrap_or(Key::NotShown), 1.0)];
        match self.dimension {
            Dimension::Class => {
                one(find.class.map(|class| Key::Class(class.broader().unwrap_or(class), class)))
            }
            Dimension::Period => one(find.period.map(Key::Period)),
            Dimension::Strength => one(find.strength.map(Key::Strength)),
            Dimension::Setting => one(find.setting.map(Key::Setting)),
            Dimension::Concentration => one(Some(self.concentration(find))),
            Dimension::Parish => parishes(find, self.partition)
                .into_iter()
                .map(|(name, share)| (name.map_or(Key::ParishUnknown, Key::Parish), share))
                .collect(),
        }
    }

    fn concentration(&self, find: &ReleasedFind) -> Key {
        match find.place {
            ReleasedPlace::Cell(cell) if (self.wanted)(find) => self
                .held
                .iter()
                .position(|held| held.of(cell) == Extent::Whole)
                .map_or(Key::Elsewhere, Key::Concentration),
            _ => Key::Elsewhere,
        }
    }
}

/// The parishes of a find, with shares that add to 1: the one it is shown by, the one that was stated
/// where that is shown, or those of its cell by area. `None` where no parish reaches its cell.
pub(super) fn parishes(find: &ReleasedFind, partition: &Partition<'_>) -> Vec<(Option<String>, f64)> {
    let spelt = |stated: &str| partition.parish_named(stated).unwrap_or(stated).to_owned();
    match (&find.place, &find.stated_parish) {
        (ReleasedPlace::Parish(name), _) | (_, Some(name)) => vec![(Some(spelt(name)), 1.0)],
        (ReleasedPlace::Cell(cell), None) => {
            let shares = partition.parish_shares(*cell);
            if shares.is_empty() {
                return vec![(None, 1.0)];
            }
            shares.into_iter().map(|(name, share)| (Some(name.to_owned()), share)).collect()
        }
    }
}

/// Whether a dimension's attribute may be shown to this audience.
pub(super) fn shown(dimension: Dimension, study: &PublicStudy) -> bool {
    use crate::study::Attribute;
    let shows = |attribute| study.agreement.show.contains(&attribute);
    match dimension {
        Dimension::Class => shows(Attribute::Class),
        Dimension::Period => shows(Attribute::Period),
        Dimension::Strength => shows(Attribute::Strength),
        Dimension::Setting => shows(Attribute::Setting),
        Dimension::Parish => shows(Attribute::Parish) || shows(Attribute::StatedParish),
        Dimension::Concentration => true,
    }
}
