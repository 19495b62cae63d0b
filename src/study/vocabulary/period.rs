//! Periods, by country. Years are calendar years BC, as positive numbers; there is no year zero.

use serde::{Deserialize, Serialize};

use super::{Term, fold};
use crate::study::agreement::named;

named! {
    /// The country whose periods and legal cautions apply. Never guessed from the language.
    Country {
        /// England, Wales and their islands.
        EnglandWales = "england-wales",
        /// Scotland.
        Scotland = "scotland",
        /// Ireland, both jurisdictions.
        Ireland = "ireland",
        /// France (the sequence of the north-west).
        France = "france",
        /// Anywhere else: broad periods only, and no word on its law.
        Other = "other",
    }
}

named! {
    /// A named period. The same name can have other years in another country (see [`Period::years`]).
    Period {
        /// Palaeolithic.
        Palaeolithic = "palaeolithic",
        /// Mesolithic.
        Mesolithic = "mesolithic",
        /// Early Mesolithic.
        EarlyMesolithic = "early-mesolithic",
        /// Late Mesolithic.
        LateMesolithic = "late-mesolithic",
        /// Mesolithic or Early Neolithic.
        MesolithicEarlyNeolithic = "mesolithic-early-neolithic",
        /// Neolithic.
        Neolithic = "neolithic",
        /// Early Neolithic.
        EarlyNeolithic = "early-neolithic",
        /// Middle Neolithic.
        MiddleNeolithic = "middle-neolithic",
        /// Late Neolithic.
        LateNeolithic = "late-neolithic",
        /// Neolithic or Bronze Age.
        NeolithicBronzeAge = "neolithic-bronze-age",
        /// Late Neolithic to Early Bronze Age.
        LateNeolithicEarlyBronzeAge = "late-neolithic-early-bronze-age",
        /// Bell Beaker (Campaniforme).
        BellBeaker = "bell-beaker",
        /// Bronze Age.
        BronzeAge = "bronze-age",
        /// Early Bronze Age.
        EarlyBronzeAge = "early-bronze-age",
        /// Middle Bronze Age.
        MiddleBronzeAge = "middle-bronze-age",
        /// Late Bronze Age.
        LateBronzeAge = "late-bronze-age",
        /// Dated no more closely than prehistoric.
        Prehistoric = "prehistoric",
        /// No date recorded.
        Undated = "undated",
    }
}

impl Period {
    /// First and last year BC in `country`, or `None` where the list of the country has no such period
    /// (and for the undated).
    ///
    /// England and Wales: English Heritage chronology, as carried by the periods' gazetteers. Scotland and
    /// Ireland: the same broad divisions, from memory, to be checked with a specialist. France: the
    /// sequence of the north-west, from memory, to be checked with a specialist.
    pub fn years(self, country: Country) -> Option<(u32, u32)> {
        use Period as P;
        let years = match (country, self) {
            (_, P::Prehistoric | P::Undated) => return None,
            (Country::France, P::Palaeolithic) => (800_000, 9_601),
            (Country::France, P::Mesolithic) => (9_600, 5_000),
            (Country::France, P::EarlyMesolithic) => (9_600, 7_001),
            (Country::France, P::LateMesolithic) => (7_000, 5_000),
            (Country::France, P::MesolithicEarlyNeolithic) => (9_600, 4_700),
            (Country::France, P::Neolithic) => (5_100, 2_200),
            (Country::France, P::EarlyNeolithic) => (5_100, 4_700),
            (Country::France, P::MiddleNeolithic) => (4_700, 3_500),
            (Country::France, P::LateNeolithic) => (3_500, 2_200),
            (Country::France, P::BellBeaker) => (2_500, 2_150),
            (Country::France, P::NeolithicBronzeAge) => (5_100, 800),
            (Country::France, P::LateNeolithicEarlyBronzeAge) => (3_500, 1_600),
            (Country::France, P::BronzeAge) => (2_200, 800),
            (Country::France, P::EarlyBronzeAge) => (2_200, 1_600),
            (Country::France, P::MiddleBronzeAge) => (1_600, 1_350),
            (Country::France, P::LateBronzeAge) => (1_350, 800),
            (_, P::BellBeaker) => return None,
            (Country::Ireland, P::Mesolithic) => (8_000, 4_001),
            (Country::Ireland, P::EarlyMesolithic) => (8_000, 6_801),
            (Country::Ireland, P::LateMesolithic) => (6_800, 4_001),
            (Country::Ireland, P::Palaeolithic) => (31_000, 8_001),
            (_, P::Palaeolithic) => (500_000, 10_001),
            (_, P::Mesolithic) => (10_000, 4_001),
            (_, P::EarlyMesolithic) => (10_000, 7_001),
            (_, P::LateMesolithic) => (7_000, 4_001),
            (_, P::MesolithicEarlyNeolithic) => (10_000, 3_501),
            (_, P::Neolithic) => (4_000, 2_351),
            (_, P::EarlyNeolithic) => (4_000, 3_501),
            (_, P::MiddleNeolithic) => (3_500, 2_701),
            (_, P::LateNeolithic) => (2_700, 2_351),
            (_, P::NeolithicBronzeAge) => (4_000, 801),
            (_, P::LateNeolithicEarlyBronzeAge) => (2_700, 1_601),
            (_, P::BronzeAge) => (2_350, 801),
            (_, P::EarlyBronzeAge) => (2_350, 1_601),
            (_, P::MiddleBronzeAge) => (1_600, 1_001),
            (_, P::LateBronzeAge) => (1_000, 801),
        };
        Some(years)
    }

    /// Whether it is `other` or lies wholly within it, in `country`.
    pub fn is(self, other: Self, country: Country) -> bool {
        self == other
            || match (self.years(country), other.years(country)) {
                (Some((from, to)), Some((other_from, other_to))) => from <= other_from && to >= other_to,
                _ => false,
            }
    }

    /// The shortest named period of `country` that holds the years from `from_bc` to `to_bc`;
    /// [`Period::Prehistoric`] when none does.
    pub fn holding(from_bc: u32, to_bc: u32, country: Country) -> Self {
        Self::ALL
            .iter()
            .copied()
            .filter_map(|period| period.years(country).map(|years| (period, years)))
            .filter(|(_, (from, to))| *from >= from_bc && *to <= to_bc)
            .min_by_key(|(_, (from, to))| from - to)
            .map_or(Self::Prehistoric, |(period, _)| period)
    }

    /// Reads what a person wrote ("Late Neo", "Mésolithique", "LN/EBA", "Neolithic?"), as words alone;
    /// years are the register reader's work. `None` when no period of the list is meant.
    pub fn read(text: &str) -> Option<Self> {
        let folded = fold(text);
        if let Some(period) = Self::ALL.iter().copied().find(|p| fold(p.name()) == folded) {
            return Some(period);
        }
        Some(match folded.as_str() {
            "palaeo" | "paleolithic" | "paleolithique" | "pal" | "palaeolithique" => Self::Palaeolithic,
            "meso" | "mesolithique" | "mes" => Self::Mesolithic,
            "early meso" | "emeso" | "e meso" | "mesolithique ancien" | "premier mesolithique" | "em" => {
                Self::EarlyMesolithic
            }
            "late meso"
            | "lmeso"
            | "l meso"
            | "mesolithique recent"
            | "second mesolithique"
            | "mesolithique final"
            | "later mesolithic"
            | "lm" => Self::LateMesolithic,
            "meso neo"
            | "meso early neo"
            | "mesolithic neolithic"
            | "late mesolithic early neolithic"
            | "mesolithique neolithique"
            | "meso en" => Self::MesolithicEarlyNeolithic,
            "neo" | "neolithique" | "n" | "neol" => Self::Neolithic,
            "early neo" | "en" | "eneo" | "e neo" | "neolithique ancien" | "earlier neolithic"
            | "e neolithic" => Self::EarlyNeolithic,
            "middle neo" | "mn" | "mid neo" | "neolithique moyen" | "mid neolithic" => Self::MiddleNeolithic,
            "late neo" | "ln" | "lneo" | "l neo" | "neolithique recent" | "neolithique final"
            | "later neolithic" | "l neolithic" => Self::LateNeolithic,
            "neo ba"
            | "neo bronze age"
            | "neolithic to bronze age"
            | "neolithique age du bronze"
            | "neolithique bronze" => Self::NeolithicBronzeAge,
            "ln eba"
            | "late neo eba"
            | "late neolithic to early bronze age"
            | "late neolithic eba"
            | "neolithique final bronze ancien"
            | "late neo early bronze age"
            | "lneba"
            | "later neolithic early bronze age"
            | "beaker" => Self::LateNeolithicEarlyBronzeAge,
            "campaniforme" => Self::BellBeaker,
            "ba" | "bronze" | "age du bronze" => Self::BronzeAge,
            "eba" | "early ba" | "bronze ancien" | "early bronze" | "age du bronze ancien" => {
                Self::EarlyBronzeAge
            }
            "mba" | "middle ba" | "bronze moyen" | "middle bronze" => Self::MiddleBronzeAge,
            "lba" | "late ba" | "bronze final" | "late bronze" => Self::LateBronzeAge,
            "prehistorique" | "prehist" | "prehistory" | "prehistoire" | "preh" => Self::Prehistoric,
            "" | "unknown" | "undated" | "uncertain" | "inconnu" | "indetermine" | "non date" | "no date"
            | "nd" | "unk" => Self::Undated,
            _ => return None,
        })
    }
}

impl Term for Period {
    fn message(&self) -> String {
        format!("period-{}", self.name())
    }
}

impl Term for Country {
    fn message(&self) -> String {
        format!("country-{}", self.name())
    }
}
