//! Setting, standing, marks of human work and how strongly they speak. Common practice.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::{Term, by_label, fold};
use crate::study::agreement::named;

named! {
    /// Where a find lay.
    Setting {
        /// Ploughland.
        Ploughland = "ploughland",
        /// Pasture.
        Pasture = "pasture",
        /// Garden.
        Garden = "garden",
        /// Woodland.
        Woodland = "woodland",
        /// Path or track.
        Path = "path",
        /// Beach.
        Beach = "beach",
        /// Seen in a cliff section.
        CliffSection = "cliff-section",
        /// In fallen cliff.
        CliffFall = "cliff-fall",
        /// Dune.
        Dune = "dune",
        /// Thrown up by burrowing, ditching or building.
        Upcast = "upcast",
        /// Brought in with other material (hardcore, topsoil, ballast).
        BroughtIn = "brought-in",
        /// Not recorded.
        Unknown = "unknown",
    }
}

named! {
    /// Whether a find was where it was dropped.
    Standing {
        /// In place.
        InPlace = "in-place",
        /// Disturbed, but near where it was dropped (ploughsoil).
        Disturbed = "disturbed",
        /// Derived: carried here by sea, river or slope.
        Derived = "derived",
        /// Brought in by people in later times.
        BroughtIn = "brought-in",
        /// Not recorded.
        Unknown = "unknown",
    }
}

named! {
    /// A mark that a recorder looks for.
    Mark {
        /// Striking platform.
        Platform = "striking-platform",
        /// Bulb of percussion.
        Bulb = "bulb",
        /// Ripples on the bulbar face.
        Ripples = "ripples",
        /// Dorsal scars of earlier removals.
        DorsalScars = "dorsal-scars",
        /// Contiguous, regular retouch.
        Retouch = "retouch",
    }
}

named! {
    /// How strongly the recorded marks speak for human work.
    Strength {
        /// Several aligned dorsal scars with a platform, or regular retouch.
        Strong = "strong",
        /// A bulb with a platform, or dorsal scars alone.
        Moderate = "moderate",
        /// A bulb, a platform or ripples alone: beaches, frost and ploughs make these too.
        Weak = "weak",
        /// No marks recorded.
        NotRecorded = "not-recorded",
    }
}

/// The marks recorded on one find, or that none were looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Marks(u8);

impl Marks {
    /// With `mark` added.
    #[must_use]
    pub fn with(self, mark: Mark) -> Self {
        Self(self.0 | 1 << mark as u8)
    }

    /// Whether `mark` was seen.
    pub fn has(self, mark: Mark) -> bool {
        self.0 & 1 << mark as u8 != 0
    }

    /// The marks seen, in order.
    pub fn list(self) -> impl Iterator<Item = Mark> {
        Mark::ALL.iter().copied().filter(move |mark| self.has(*mark))
    }

    /// How strongly they speak for human work (rules of thumb from common practice, see
    /// `docs/method.md`).
    pub fn strength(self) -> Strength {
        let (platform, bulb) = (self.has(Mark::Platform), self.has(Mark::Bulb));
        let scars = self.has(Mark::DorsalScars);
        if self.has(Mark::Retouch) || scars && platform {
            Strength::Strong
        } else if bulb && platform || scars {
            Strength::Moderate
        } else if self.0 != 0 {
            Strength::Weak
        } else {
            Strength::NotRecorded
        }
    }
}

static SETTINGS: LazyLock<BTreeMap<String, Setting>> = LazyLock::new(|| by_label(Setting::ALL));
static STANDINGS: LazyLock<BTreeMap<String, Standing>> = LazyLock::new(|| by_label(Standing::ALL));

impl Setting {
    /// Reads what a person wrote in a register. `None` when no word of the list is meant.
    pub fn read(text: &str) -> Option<Self> {
        let folded = fold(text);
        Some(match folded.as_str() {
            "ploughland" | "plough" | "ploughed field" | "arable" | "plowed field" | "ploughsoil"
            | "labour" | "champ" | "champ laboure" | "terre labouree" | "field" | "stubble"
            | "terre arable" => Self::Ploughland,
            "pasture" | "grass" | "meadow" | "prairie" | "pre" | "paddock" | "herbage" | "grassland" => {
                Self::Pasture
            }
            "garden" | "jardin" | "allotment" | "flower bed" | "potager" | "back garden" => Self::Garden,
            "woodland" | "wood" | "boi" | "forest" | "foret" | "sou boi" | "copse" => Self::Woodland,
            "path" | "track" | "footpath" | "chemin" | "sentier" | "cliff path" => Self::Path,
            "beach" | "foreshore" | "plage" | "estran" | "shore" | "greve" | "shingle" => Self::Beach,
            "cliff section" | "cliff face" | "cliff" | "coupe de falaise" | "falaise" | "section" => {
                Self::CliffSection
            }
            "cliff fall" | "fallen cliff" | "slip" | "eboulement" | "ebouli" | "landslip" => Self::CliffFall,
            "dune" | "dune slack" | "sand dune" => Self::Dune,
            "upcast" | "molehill" | "mole hill" | "rabbit hole" | "ditch upcast" | "taupiniere"
            | "deblai" | "burrow" | "spoil heap" | "spoil" => Self::Upcast,
            "brought in" | "imported" | "hardcore" | "rapporte" | "apporte" | "remblai" | "ballast"
            | "topsoil delivery" => Self::BroughtIn,
            "unknown" | "" | "inconnu" | "not known" | "not recorded" | "unk" => Self::Unknown,
            other => return SETTINGS.get(other).copied(),
        })
    }
}

impl Standing {
    /// Reads what a person wrote in a register. `None` when no word of the list is meant.
    pub fn read(text: &str) -> Option<Self> {
        let folded = fold(text);
        Some(match folded.as_str() {
            "in place" | "in situ" | "en place" | "insitu" => Self::InPlace,
            "disturbed" | "ploughsoil" | "perturbe" | "remanie" | "surface" | "ploughed" => Self::Disturbed,
            "derived" | "rolled" | "derive" | "roule" | "waterworn" | "redeposited" | "redepose" => {
                Self::Derived
            }
            "brought in" | "imported" | "apporte" | "rapporte" => Self::BroughtIn,
            "unknown" | "" | "inconnu" | "not recorded" | "not known" => Self::Unknown,
            other => return STANDINGS.get(other).copied(),
        })
    }

    /// Whether the stone is out of place, and so kept out of density.
    pub fn out_of_place(self) -> bool {
        matches!(self, Self::Derived | Self::BroughtIn)
    }
}

impl Term for Setting {
    fn message(&self) -> String {
        format!("setting-{}", self.name())
    }
}

impl Term for Standing {
    fn message(&self) -> String {
        format!("standing-{}", self.name())
    }
}

impl Term for Mark {
    fn message(&self) -> String {
        format!("mark-{}", self.name())
    }
}

impl Term for Strength {
    fn message(&self) -> String {
        format!("strength-{}", self.name())
    }
}
