//! What was agreed with one audience: grid, precision, smallest area, what is shown, what is given.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::vocabulary::{Class, Period, Setting};
use super::{LayerSpec, Precision};
use crate::coordinates::System;
use crate::units::Date;
use crate::words::Language;

/// An agreement with one audience, complete: every default is filled in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Agreement {
    /// The audience's name in the study file: `public`, `office`, or one the owner chose.
    pub audience: String,
    /// Who receives it, in words.
    pub recipient: Option<String>,
    /// The grid in which places are shown, and in which everything for this audience is measured.
    pub grid: System,
    /// How finely a place may be shown.
    pub precision: Precision,
    /// The smallest ground a shown place may leave, square metres.
    pub smallest_area_m2: f64,
    /// How many places (parcels of the layer of that name) it must leave.
    #[serde(default)]
    pub smallest_places: u32,
    /// Whether a pack in which a tight scatter betrays itself is refused, or written with a warning.
    #[serde(default)]
    pub protect_scatters: bool,
    /// A cell with fewer pieces than this is not shown.
    pub smallest_count: u32,
    /// What may be said of a find besides its cell.
    pub show: BTreeSet<Attribute>,
    /// What kinds of file the pack holds.
    pub give: BTreeSet<Giving>,
    /// Why places are not shown more finely, in the owner's words.
    pub reason: Option<String>,
    /// When the agreement is to be looked at again.
    pub review: Option<Date>,
    /// What the recipient may publish, in the owner's words.
    #[serde(default)]
    pub may_publish: Option<String>,
    /// How finely the public is shown places, where the study says so.
    #[serde(default)]
    pub public_precision: Option<Precision>,
    /// Nothing is to be published before.
    #[serde(default)]
    pub embargo: Option<Date>,
    /// Rules that ask for a coarser precision.
    pub stricter: Vec<Stricter>,
    /// The languages of the pack, where it is in others than the study's own: the first leads.
    #[serde(default)]
    pub languages: Vec<Language>,
    /// Whether the pack may be published. If not, every page and file says so.
    pub for_publication: bool,
    /// Whether a square's count may be known exactly, and not only its band.
    #[serde(default)]
    pub exact_counts: bool,
    /// Finds that the register states as off this land alone, by any of these names; empty for all finds.
    #[serde(default)]
    pub landowner: Vec<String>,
}

/// A published square of a smaller side than this can be walked in an evening, metres. Common practice shows
/// finds to the public by the kilometre.
const CLOSE_M: u32 = 100;

impl Agreement {
    /// Whether what is stated as off `land` is this audience's to see. Names are the same but for case and
    /// spaces: a likeness that let in a neighbour's finds would be worse than one that leaves some out.
    pub fn is_of_land(&self, land: Option<&str>) -> bool {
        self.landowner.is_empty()
            || land.is_some_and(|land| self.landowner.iter().any(|name| land_key(name) == land_key(land)))
    }

    /// Whether anything is held back for the sake of the ground: the office, and whoever is promised no smallest
    /// area, is told of each find as it lies.
    pub fn protects_ground(&self) -> bool {
        self.smallest_area_m2 > 0.0 || self.smallest_places > 0
    }

    /// Whether the public is shown squares so small that they are as good as the place.
    pub fn publishes_closely(&self) -> bool {
        self.for_publication && self.precision.side_m().is_some_and(|side_m| side_m < CLOSE_M)
    }
}

/// A rule that asks for a coarser precision for some finds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stricter {
    /// Which finds.
    pub rule: StricterRule,
    /// How coarse.
    pub precision: Precision,
}

/// What a stricter rule keys on: something that is shown, or public ground; never the exact place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StricterRule {
    /// Finds of these classes and the classes under them.
    Class(Vec<Class>),
    /// Finds dated to these periods or to a part of one of them.
    Period(Vec<Period>),
    /// Finds from these settings.
    Setting(Vec<Setting>),
    /// Finds in those whole squares of the rule's precision that come within the distance.
    Near {
        /// A public layer.
        layer: Box<LayerSpec>,
        /// Metres.
        distance_m: f64,
    },
}

/// A landowner's name as names are compared: lower case, single spaces.
pub fn land_key(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

macro_rules! named {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $text:literal),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum $name { $($(#[$variant_doc])* #[serde(rename = $text)] $variant),* }

        impl $name {
            /// Every one, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// Its name in the study file.
            pub fn name(self) -> &'static str {
                match self { $(Self::$variant => $text),* }
            }
        }
    };
}
pub(crate) use named;

named! {
    /// Something that may be said of a find besides its cell. The names are those of `show`.
    Attribute {
        /// Class from the vocabulary.
        Class = "class",
        /// Named period.
        Period = "period",
        /// How many pieces (in a cell as a band; exact in totals).
        Count = "count",
        /// Strength of the marks of human work.
        Strength = "strength",
        /// The parish that the cell lies in, shared by area.
        Parish = "parish",
        /// The parish as the finder stated it.
        StatedParish = "stated-parish",
        /// The register's own number.
        Number = "number",
        /// Where it lay: ploughland, beach and so on.
        Setting = "setting",
        /// Whether it was in place, disturbed, derived or brought in.
        Standing = "standing",
        /// Which marks of human work were recorded.
        Marks = "marks",
        /// What it is made of.
        Material = "material",
        /// Length and weight.
        Measurements = "measurements",
        /// When it was found.
        Date = "date",
        /// Who found or showed it.
        Finder = "finder",
        /// Who looked at it.
        LookedAtBy = "looked-at-by",
        /// Where it is kept.
        KeptAt = "kept-at",
        /// The landowner or the holding.
        Landowner = "landowner",
        /// Whether the landowner gave permission.
        Permission = "permission",
        /// The note. Anything in it that reads as a place is cut out.
        Note = "note",
        /// The place as written, cut to the agreed precision, and its uncertainty.
        Written = "written",
        /// Who walked what ground, when and how.
        Fieldwork = "fieldwork",
        /// How it was found and how deep it lay.
        HowFound = "how-found",
        /// Its condition.
        Condition = "condition",
        /// Who owns it.
        Owner = "owner",
        /// A place by its name: told with squares of 100 m or less alone.
        PlaceName = "place-name",
        /// Section and parcel with the year of the plan: told with squares of 100 m or less alone.
        Parcel = "parcel",
        /// Authorisation and declaration, where the country works by them.
        Authorisation = "authorisation",
        /// Photographs, by their names.
        Photographs = "photographs",
        /// What was kept and what was left.
        KeptOrLeft = "kept-or-left",
        /// Earlier publication.
        Publication = "publication",
        /// Consent to hold names.
        NamesConsent = "names-consent",
        /// Not to be shown to others before.
        Embargo = "embargo",
    }
}

named! {
    /// A kind of file in a pack. The names are those of `give`.
    Giving {
        /// Map sheets.
        Maps = "maps",
        /// Tables.
        Tables = "tables",
        /// The report.
        Report = "report",
        /// Cells as layers for a mapping program.
        Layers = "layers",
        /// The density surface.
        Density = "density",
        /// Outlines of concentrations.
        Concentrations = "concentrations",
        /// One row a find (the submission).
        Finds = "finds",
    }
}
