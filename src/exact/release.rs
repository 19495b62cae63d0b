//! The register as one audience may see it: the shape of a release. `releasing` makes it.

use std::cmp::Ordering;

use serde::{Deserialize, Serialize};

use super::Tally;
use crate::coordinates::Cell;
use crate::study::vocabulary::{Class, Marks, Period, Setting, Standing, Strength};

/// All that one audience may be told of a register. It can be serialised: nothing in it is finer than
/// agreed, and the whole pack is made from it (see `docs/location-safety.md`).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Release {
    /// The audience.
    pub audience: String,
    /// Rows read, used and set aside.
    pub tally: Tally,
    /// Finds, in order of what is told of them (so that the order tells nothing more).
    pub finds: Vec<ReleasedFind>,
    /// Numbers of the rows that an audience shown numbers was given and that are no longer in the register.
    #[serde(default)]
    pub withdrawn: Vec<String>,
}

/// One find as it may be told. A field the agreement does not show is `None`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReleasedFind {
    /// Its cell, or its parish.
    pub place: ReleasedPlace,
    /// Class.
    pub class: Option<Class>,
    /// Period.
    pub period: Option<Period>,
    /// Pieces.
    pub count: u32,
    /// Strength of marks.
    pub strength: Option<Strength>,
    /// Whether its setting or standing says it is out of place: tallied apart, kept out of density.
    pub out_of_place: bool,
    /// The parish as stated, as the layer spells it.
    pub stated_parish: Option<String>,
    /// Setting.
    pub setting: Option<Setting>,
    /// What a record office sees besides.
    pub details: Option<Box<Details>>,
}

/// Where a find may be said to lie.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ReleasedPlace {
    /// A square of the agreed grid.
    Cell(Cell),
    /// A parish alone: recorded so, or shown so by the agreement; the two are not told apart.
    Parish(String),
}

/// Fields that the public allow-list leaves out. Each is `None` unless the agreement shows it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Details {
    /// The register's own number.
    pub number: Option<String>,
    /// Standing.
    pub standing: Option<Standing>,
    /// Marks.
    pub marks: Option<Marks>,
    /// Class as the finder wrote it.
    pub class_as_written: Option<String>,
    /// Period as the finder wrote it.
    pub period_as_written: Option<String>,
    /// Whether the count is rough ("c. 20", "several").
    pub count_is_rough: bool,
    /// Material.
    pub material: Option<String>,
    /// Greatest length, millimetres.
    pub length_mm: Option<f64>,
    /// Weight, grams.
    pub weight_g: Option<f64>,
    /// Date found.
    pub date: Option<String>,
    /// Found or shown by.
    pub finder: Option<String>,
    /// Looked at by.
    pub looked_at_by: Option<String>,
    /// Kept at.
    pub kept_at: Option<String>,
    /// The landowner or the holding.
    pub landowner: Option<String>,
    /// Landowner's permission.
    pub permission: Option<String>,
    /// The note, with anything that reads as a place cut out.
    pub note: Option<String>,
    /// How it was found.
    pub how_found: Option<String>,
    /// How deep it lay, with its unit.
    pub depth: Option<String>,
    /// Breadth, millimetres.
    pub breadth_mm: Option<f64>,
    /// Thickness, millimetres.
    pub thickness_mm: Option<f64>,
    /// Condition.
    pub condition: Option<String>,
    /// Looked at in hand or from a photograph.
    pub examined: Option<String>,
    /// Who owns it.
    pub owner: Option<String>,
    /// A place by its name.
    pub place_name: Option<String>,
    /// The commune's code.
    pub commune_code: Option<String>,
    /// How the place was read.
    pub how_placed: Option<String>,
    /// Section of the land register's plan.
    pub section: Option<String>,
    /// Parcel.
    pub parcel: Option<String>,
    /// Year of the plan.
    pub plan_year: Option<String>,
    /// Authorisation, as stated.
    pub authorisation: Option<String>,
    /// Declaration, as stated.
    pub declaration: Option<String>,
    /// Photographs, by their names.
    pub photographs: Option<String>,
    /// What was kept and what was left.
    pub kept_or_left: Option<String>,
    /// Earlier publication.
    pub publication: Option<String>,
    /// Consent to hold names, as stated.
    pub names_consent: Option<String>,
    /// Names were taken out: those named did not agree that they are held.
    pub names_withheld: bool,
    /// A name or a parcel was taken out: it could tell more than the agreed square.
    pub name_of_place_withheld: bool,
    /// Not to be shown to others before.
    pub embargo: Option<String>,
    /// How the row stands to what this audience was given before.
    pub state: Option<RowState>,
    /// The system that the place was written in.
    pub written_system: Option<String>,
    /// The operation that carried it into the agreed grid, and its accuracy.
    pub operation: Option<String>,
    /// Side of the square it was given with, metres: the precision held.
    pub held_m: Option<f64>,
    /// Uncertainty of the cell as a place: stated uncertainty, or half the diagonal of the square.
    pub uncertainty_m: Option<f64>,
}

/// How a row stands to what the same audience was given before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RowState {
    /// Not given before.
    New,
    /// Given before in other words.
    Amended,
    /// Given before and no longer in the register.
    Withdrawn,
    /// Given before in the same words.
    Unchanged,
}

impl RowState {
    /// Every one, in order.
    pub const ALL: [Self; 4] = [Self::New, Self::Amended, Self::Withdrawn, Self::Unchanged];

    /// Its name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Amended => "amended",
            Self::Withdrawn => "withdrawn",
            Self::Unchanged => "unchanged",
        }
    }
}

impl ReleasedFind {
    /// Order by all that is told of a find, so that the order of a release tells nothing more. Finds that
    /// compare equal are told of in the same words.
    pub(in crate::exact) fn by_what_is_told(&self, other: &Self) -> Ordering {
        self.place
            .cmp(&other.place)
            .then_with(|| self.class.cmp(&other.class))
            .then_with(|| self.period.cmp(&other.period))
            .then_with(|| self.count.cmp(&other.count))
            .then_with(|| self.strength.cmp(&other.strength))
            .then_with(|| self.out_of_place.cmp(&other.out_of_place))
            .then_with(|| self.stated_parish.cmp(&other.stated_parish))
            .then_with(|| self.setting.cmp(&other.setting))
            .then_with(|| match (&self.details, &other.details) {
                (Some(mine), Some(others)) => mine
                    .number
                    .cmp(&others.number)
                    .then_with(|| format!("{mine:?}").cmp(&format!("{others:?}"))),
                (mine, others) => mine.is_some().cmp(&others.is_some()),
            })
    }
}
