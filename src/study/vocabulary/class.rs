//! Classes of worked stone.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::{Term, by_label, fold};
use crate::study::agreement::named;

named! {
    /// A class of worked stone. Common practice in British and French lithic recording; a class may
    /// stand under a broader one (see [`Class::broader`]).
    Class {
        /// A flake, unretouched.
        Flake = "flake",
        /// A chip: a tiny flake or spall.
        Chip = "chip",
        /// Irregular waste: shatter, chunks.
        IrregularWaste = "irregular-waste",
        /// A blade, at least twice as long as wide.
        Blade = "blade",
        /// A bladelet: a small blade.
        Bladelet = "bladelet",
        /// A core or core fragment.
        Core = "core",
        /// A flake struck to renew a core.
        CoreTrimming = "core-trimming",
        /// A retouched flake or blade of no special form.
        Retouched = "retouched-piece",
        /// A scraper.
        Scraper = "scraper",
        /// A small, thumbnail-sized scraper.
        ThumbnailScraper = "thumbnail-scraper",
        /// A piercer, borer or awl.
        Piercer = "piercer",
        /// A burin.
        Burin = "burin",
        /// A notched or denticulated piece.
        Notch = "notched-piece",
        /// A truncated piece.
        Truncation = "truncated-piece",
        /// A serrated blade or flake.
        Serrated = "serrated-blade",
        /// A knife.
        Knife = "knife",
        /// A plano-convex knife.
        PlanoConvexKnife = "plano-convex-knife",
        /// A discoidal or polished-edge knife.
        DiscoidalKnife = "discoidal-knife",
        /// A laurel leaf or other bifacial point.
        LaurelLeaf = "laurel-leaf",
        /// A microlith.
        Microlith = "microlith",
        /// A microburin.
        Microburin = "microburin",
        /// An arrowhead of no stated form.
        Arrowhead = "arrowhead",
        /// A leaf-shaped arrowhead.
        LeafArrowhead = "leaf-arrowhead",
        /// A chisel or transverse arrowhead.
        ChiselArrowhead = "chisel-arrowhead",
        /// An oblique arrowhead.
        ObliqueArrowhead = "oblique-arrowhead",
        /// A barbed and tanged arrowhead.
        BarbedTangedArrowhead = "barbed-and-tanged-arrowhead",
        /// An axehead or adzehead of no stated form.
        Axehead = "axehead",
        /// A tranchet axehead or adzehead.
        TranchetAxehead = "tranchet-axehead",
        /// A ground or polished axehead.
        PolishedAxehead = "polished-axehead",
        /// A dagger.
        Dagger = "dagger",
        /// A pick.
        Pick = "pick",
        /// A fabricator or strike-a-light.
        Fabricator = "fabricator",
        /// A hammerstone.
        Hammerstone = "hammerstone",
        /// Worked stone recorded with another word, or none.
        Unclassified = "unclassified",
    }
}

impl Class {
    /// The broader class it stands under.
    pub fn broader(self) -> Option<Self> {
        match self {
            Self::Bladelet => Some(Self::Blade),
            Self::ThumbnailScraper => Some(Self::Scraper),
            Self::PlanoConvexKnife | Self::DiscoidalKnife => Some(Self::Knife),
            Self::LeafArrowhead
            | Self::ChiselArrowhead
            | Self::ObliqueArrowhead
            | Self::BarbedTangedArrowhead => Some(Self::Arrowhead),
            Self::TranchetAxehead | Self::PolishedAxehead => Some(Self::Axehead),
            _ => None,
        }
    }

    /// Whether it is `other` or stands under it.
    pub fn is(self, other: Self) -> bool {
        self == other || self.broader() == Some(other)
    }

    /// Whether it is waste of working (as against a core, a blade or a tool).
    pub fn is_waste(self) -> bool {
        matches!(
            self,
            Self::Flake | Self::Chip | Self::IrregularWaste | Self::CoreTrimming | Self::Microburin
        )
    }

    /// What people write for it, folded (see [`fold`]), in English and French.
    fn written(self) -> &'static [&'static str] {
        match self {
            Self::Flake => &[
                "flake",
                "waste flake",
                "debitage",
                "eclat",
                "eclat brut",
                "struck flake",
                "secondary flake",
                "primary flake",
                "tertiary flake",
            ],
            Self::Chip => &["chip", "spall", "esquille", "microdebitage", "chipping"],
            Self::IrregularWaste => &[
                "irregular waste",
                "waste",
                "shatter",
                "chunk",
                "debri",
                "cassons",
                "casson",
                "dechet",
                "irregular",
            ],
            Self::Blade => &["blade", "lame"],
            Self::Bladelet => &["bladelet", "lamelle"],
            Self::Core => &["core", "core fragment", "nucleus", "flake core", "blade core", "nucleu"],
            Self::CoreTrimming => &[
                "core trimming flake",
                "core rejuvenation flake",
                "core tablet",
                "crested blade",
                "core trimming",
                "tablette",
                "lame a crete",
                "eclat d avivage",
            ],
            Self::Retouched => &[
                "retouched piece",
                "retouched flake",
                "retouched",
                "ret flake",
                "retouched blade",
                "piece retouchee",
                "eclat retouche",
                "lame retouchee",
                "misc retouch",
                "utilised flake",
                "utilized flake",
            ],
            Self::Scraper => &[
                "scraper",
                "end scraper",
                "side scraper",
                "grattoir",
                "racloir",
                "endscraper",
                "side and end scraper",
            ],
            Self::ThumbnailScraper => &["thumbnail scraper", "grattoir unguiforme", "grattoir onglet"],
            Self::Piercer => &["piercer", "borer", "awl", "percoir", "bec", "meche de foret"],
            Self::Burin => &["burin", "graver"],
            Self::Notch => &[
                "notch",
                "notched piece",
                "notched flake",
                "denticulate",
                "denticulated piece",
                "encoche",
                "denticule",
            ],
            Self::Truncation => {
                &["truncation", "truncated piece", "truncated blade", "troncature", "lame tronquee"]
            }
            Self::Serrated => {
                &["serrated blade", "serrated flake", "serrated", "lame denticulee", "microdenticule", "saw"]
            }
            Self::Knife => &["knife", "backed knife", "couteau", "couteau a dos"],
            Self::PlanoConvexKnife => {
                &["plano convex knife", "planoconvex knife", "slug knife", "couteau plano convexe"]
            }
            Self::DiscoidalKnife => {
                &["discoidal knife", "polished edge knife", "polished knife", "couteau discoide"]
            }
            Self::LaurelLeaf => &["laurel leaf", "bifacial point", "feuille de laurier", "piece bifaciale"],
            Self::Microlith => &[
                "microlith",
                "microlithe",
                "micro",
                "armature microlithique",
                "backed bladelet",
                "lamelle a dos",
            ],
            Self::Microburin => &["microburin", "micro burin"],
            Self::Arrowhead => &["arrowhead", "arrow head", "pointe de fleche", "armature", "arrow"],
            Self::LeafArrowhead => &[
                "leaf arrowhead",
                "leaf shaped arrowhead",
                "leaf",
                "armature percante",
                "armature foliacee",
                "pointe foliacee",
            ],
            Self::ChiselArrowhead => &[
                "chisel arrowhead",
                "transverse arrowhead",
                "petit tranchet arrowhead",
                "pt arrowhead",
                "armature tranchante",
                "fleche tranchante",
                "petit tranchet derivative",
            ],
            Self::ObliqueArrowhead => &["oblique arrowhead", "armature oblique"],
            Self::BarbedTangedArrowhead => &[
                "barbed and tanged arrowhead",
                "barbed tanged arrowhead",
                "b t arrowhead",
                "barbed and tanged",
                "armature a pedoncule et aileron",
                "pedoncule et aileron",
                "b and t arrowhead",
            ],
            Self::Axehead => {
                &["axehead", "axe", "axe head", "adzehead", "adze", "hache", "axe fragment", "herminette"]
            }
            Self::TranchetAxehead => {
                &["tranchet axehead", "tranchet axe", "tranchet adze", "tranchet", "hache tranchet"]
            }
            Self::PolishedAxehead => &[
                "polished axehead",
                "polished axe",
                "ground axe",
                "ground axehead",
                "polished axe fragment",
                "hache polie",
                "polished flint axe",
            ],
            Self::Dagger => &["dagger", "poignard"],
            Self::Pick => &["pick", "pic"],
            Self::Fabricator => &["fabricator", "strike a light", "briquet"],
            Self::Hammerstone => &["hammerstone", "hammer stone", "hammer", "percuteur"],
            Self::Unclassified => &[
                "unclassified",
                "worked flint",
                "worked stone",
                "flint",
                "silex",
                "silex taille",
                "struck flint",
                "indetermine",
                "other",
                "autre",
                "tool",
                "outil",
                "worked",
                "unknown",
                "implement",
                "lithic",
            ],
        }
    }

    /// The class whose word comes nearest to a mistyped one, if any comes near.
    pub fn nearest(text: &str) -> Option<Self> {
        const NEAR: f64 = 0.9;
        let folded = fold(text);
        let likeness = |class: Self| {
            let words = class.written().iter().map(|word| strsim::jaro_winkler(&folded, word));
            words.fold(strsim::jaro_winkler(&folded, &fold(class.name())), f64::max)
        };
        let best = Self::ALL.iter().copied().map(|class| (likeness(class), class));
        best.filter(|(near, _)| *near > NEAR).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, class)| class)
    }

    /// Reads what a person wrote. `None` when no word of the vocabulary is meant.
    pub fn read(text: &str) -> Option<Self> {
        let folded = fold(text);
        let folded =
            folded.trim_end_matches(" frag").trim_end_matches(" fragment").trim_start_matches("flint ");
        Self::ALL
            .iter()
            .copied()
            .find(|class| fold(class.name()) == folded || class.written().contains(&folded))
            .or_else(|| LABELS.get(folded).copied())
    }
}

static LABELS: LazyLock<BTreeMap<String, Class>> = LazyLock::new(|| by_label(Class::ALL));

impl Term for Class {
    fn message(&self) -> String {
        format!("class-{}", self.name())
    }
}
