//! Which finds a surface is made from, and which are left out and counted.

use std::collections::BTreeMap;

use super::kde::{Observations, Sides};
use crate::coordinates::Cell;
use crate::exact::{Published, ReleasedFind, ReleasedPlace};
use crate::study::vocabulary::Setting;
use crate::study::{Attribute, PublicStudy};

/// The finds of one cell: what the surface is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub cell: Cell,
    pub pieces: u64,
    /// Rows of the register: a bag of many pieces is one.
    pub records: u64,
}

/// The spots of a surface.
pub(super) struct Gathered {
    pub spots: Vec<Spot>,
    /// What to doubt, as a message of `words/`.
    pub doubt: Option<&'static str>,
}

/// Whether a find may be in the surface: it has a cell and is in place, and is of a wanted setting. Where settings
/// are shown, finds of the beach are left out unless the study names its settings or there are no others: what the
/// sea has gathered and what a plough has turned up are not one scatter.
pub(super) fn wanted<'a>(
    published: &Published,
    study: &'a PublicStudy,
) -> impl Fn(&ReleasedFind) -> bool + use<'a> {
    let shown = study.agreement.show.contains(&Attribute::Setting);
    let in_place = |find: &&ReleasedFind| matches!(find.place, ReleasedPlace::Cell(_)) && !find.out_of_place;
    let inland = published
        .finds()
        .iter()
        .filter(in_place)
        .any(|find| find.setting.is_some_and(|s| s != Setting::Beach));
    move |find: &ReleasedFind| {
        in_place(&find)
            && match (&study.density.settings, shown) {
                (Some(settings), true) => find.setting.is_some_and(|setting| settings.contains(&setting)),
                (None, true) => !inland || find.setting != Some(Setting::Beach),
                (_, false) => true,
            }
    }
}

/// The cells with their finds that may be in the surface, in order of cell.
pub(super) fn gather(published: &Published, study: &PublicStudy) -> Gathered {
    let shown = study.agreement.show.contains(&Attribute::Setting);
    let wanted = wanted(published, study);
    let mut cells: BTreeMap<Cell, Spot> = BTreeMap::new();
    for find in published.finds().iter().filter(|find| wanted(find)) {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        let spot = cells.entry(cell).or_insert(Spot { cell, pieces: 0, records: 0 });
        spot.pieces += u64::from(find.count);
        spot.records += 1;
    }
    Gathered {
        spots: cells.into_values().filter(|spot| spot.pieces > 0).collect(),
        doubt: (study.density.settings.is_some() && !shown).then_some("density-doubt-settings-hidden"),
    }
}

/// The squares of spots as plain numbers.
pub(super) struct Places {
    x_m: Vec<f64>,
    y_m: Vec<f64>,
    side_m: Vec<f64>,
}

impl Places {
    pub fn of(spots: &[Spot]) -> Self {
        let centre = |spot: &Spot| spot.cell.rect().center();
        Self {
            x_m: spots.iter().map(|spot| centre(spot).x).collect(),
            y_m: spots.iter().map(|spot| centre(spot).y).collect(),
            side_m: spots.iter().map(|spot| f64::from(spot.cell.side_m)).collect(),
        }
    }

    pub fn observations(&self) -> Observations<'_> {
        Observations { x_m: &self.x_m, y_m: &self.y_m, side_m: Sides::Each(&self.side_m) }
    }
}
