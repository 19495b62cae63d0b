//! What may be said of a find besides its square: a stated parish or a beach narrows the ground that the square
//! leaves, so that each is told for every find of a square or for none.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use geo::MultiPolygon;

use super::Ground;
use super::disclosed::{LEAST_GROUND_M2, Region};
use super::ladder::Needed;
use super::partition::Sayable;
use crate::coordinates::Cell;
use crate::study::{Attribute, PublicStudy};

/// The masks of one audience.
#[derive(Debug)]
pub(super) struct Masks {
    needed: Needed,
    stated_parish: bool,
    setting: bool,
    /// The beach as far from the shore as the study says that finds of the beach may lie; `None` where it does
    /// not say, so that nothing measures how much ground "beach" leaves.
    beach: Option<MultiPolygon<f64>>,
    known: Mutex<BTreeMap<Cell, Sayable>>,
}

const NOTHING: Sayable = Sayable { stated_parish: false, beach: false, setting: false };

impl Masks {
    pub fn of(study: &PublicStudy, ground: &Ground, needed: Needed) -> Self {
        let shows = |attribute| study.agreement.show.contains(&attribute);
        Self {
            needed,
            stated_parish: shows(Attribute::StatedParish),
            setting: shows(Attribute::Setting),
            beach: ground.beach_strip.clone(),
            known: Mutex::default(),
        }
    }

    /// For the finds of a square. `parishes` are those with ground in it.
    pub fn of_cell<'g>(
        &self,
        cell: Cell,
        region: &Region,
        parishes: impl FnOnce() -> Vec<&'g MultiPolygon<f64>>,
    ) -> Sayable {
        if !self.needed.anything() {
            return Sayable { stated_parish: true, beach: true, setting: true };
        }
        if !self.stated_parish && !self.setting {
            return NOTHING;
        }
        let lock = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = lock().get(&cell) {
            return *known;
        }
        let inside = region.in_cell(cell);
        // Where on open water a thing lies no layer tells; neither do words about it that no layer measures.
        let sayable = if inside.whole().area_m2 > LEAST_GROUND_M2 {
            let parted: Vec<Region> = if self.stated_parish {
                parishes().into_iter().map(|parish| inside.within(parish)).collect()
            } else {
                Vec::new()
            };
            self.most(&inside, &parted)
        } else {
            NOTHING
        };
        lock().insert(cell, sayable);
        sayable
    }

    /// For the finds told by a parish alone: anything more would narrow it, to where two parishes meet or to the
    /// beach of the squares that are told so.
    pub fn of_parish(&self) -> Sayable {
        if self.needed.anything() {
            NOTHING
        } else {
            Sayable { stated_parish: true, beach: true, setting: true }
        }
    }

    /// As much as can be said: both, the parish, the beach, or neither.
    fn most(&self, inside: &Region, parted: &[Region]) -> Sayable {
        let fine = |region: &Region| {
            let left = region.whole();
            left.area_m2 <= LEAST_GROUND_M2 || self.needed.met_by(left)
        };
        let stated_parish = self.stated_parish && parted.iter().all(fine);
        let both = stated_parish && self.setting && parted.iter().all(|part| self.splits(part));
        let beach = both || (!stated_parish && self.setting && self.splits(inside));
        Sayable { stated_parish, beach, setting: false }
    }

    /// Whether ground still leaves enough when it is told whether a find lay on the beach.
    fn splits(&self, region: &Region) -> bool {
        let Some(beach) = &self.beach else { return false };
        [region.within(beach), region.without(beach)].iter().all(|part| {
            let left = part.whole();
            left.area_m2 <= LEAST_GROUND_M2 || self.needed.met_by(left)
        })
    }
}
