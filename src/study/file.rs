//! The study file as typed: serde shapes, every key known. `load` turns them into checked settings.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::Precision;
use super::vocabulary::{Class, Country, Period, Setting};
use crate::coordinates::System;
use crate::units::{Area, Date, Length};
use crate::words::Language;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StudyFile {
    pub study: StudySection,
    pub register: RegisterSection,
    #[serde(default)]
    pub ground: BTreeMap<String, LayerEntry>,
    #[serde(default)]
    pub fieldwork: Vec<Fieldwork>,
    pub agreement: BTreeMap<String, AgreementSection>,
    #[serde(default)]
    pub density: DensitySection,
    #[serde(default)]
    pub concentrations: ConcentrationsSection,
    #[serde(default)]
    pub shore: ShoreSection,
    #[serde(default)]
    pub sheets: SheetsSection,
    #[serde(default)]
    pub tables: TablesSection,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StudySection {
    pub title: String,
    pub grid: Option<System>,
    #[serde(default)]
    pub language: Language,
    pub country: Option<Country>,
    pub date: Option<Date>,
    pub compiler: Option<String>,
    pub edition: Option<String>,
    /// The years in which the finds were collected, as printed: stated here, never worked out from dates
    /// that an audience is not shown.
    pub collected: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RegisterSection {
    /// One file, or a list.
    pub files: OneOrMore<String>,
    #[serde(default)]
    pub columns: Columns,
    /// The system of eastings and northings that say none themselves.
    pub system: Option<System>,
    /// How sure an undescribed place is, metres.
    pub uncertainty: Option<Length>,
    pub ledger: Option<String>,
    /// `"number"` or `"content"`.
    pub known_by: Option<String>,
    pub decimal: Option<String>,
}

/// Which heading holds which field, where the guess from headings will not do.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[allow(missing_docs)] // each is the field of the same name, described in docs/study-file.md
pub struct Columns {
    pub number: Option<String>,
    pub class: Option<String>,
    pub period: Option<String>,
    pub date_from: Option<String>,
    pub date_to: Option<String>,
    pub count: Option<String>,
    pub place: Option<String>,
    pub easting: Option<String>,
    pub northing: Option<String>,
    pub latitude: Option<String>,
    pub longitude: Option<String>,
    pub parish: Option<String>,
    pub uncertainty: Option<String>,
    pub marks: Option<String>,
    pub platform: Option<String>,
    pub bulb: Option<String>,
    pub ripples: Option<String>,
    pub dorsal_scars: Option<String>,
    pub retouch: Option<String>,
    pub setting: Option<String>,
    pub standing: Option<String>,
    pub material: Option<String>,
    pub length: Option<String>,
    pub weight: Option<String>,
    pub date: Option<String>,
    pub finder: Option<String>,
    pub looked_at_by: Option<String>,
    pub kept_at: Option<String>,
    pub landowner: Option<String>,
    pub permission: Option<String>,
    pub how_found: Option<String>,
    pub depth: Option<String>,
    pub breadth: Option<String>,
    pub thickness: Option<String>,
    pub condition: Option<String>,
    pub examined: Option<String>,
    pub owner: Option<String>,
    pub place_name: Option<String>,
    pub commune_code: Option<String>,
    pub how_placed: Option<String>,
    pub section: Option<String>,
    pub parcel: Option<String>,
    pub plan_year: Option<String>,
    pub authorisation: Option<String>,
    pub declaration: Option<String>,
    pub photographs: Option<String>,
    pub kept_or_left: Option<String>,
    pub publication: Option<String>,
    pub names_consent: Option<String>,
    pub embargo: Option<String>,
    pub note: Option<String>,
    pub site: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LayerEntry {
    pub file: String,
    /// The layer inside a file of several.
    pub layer: Option<String>,
    /// The attribute that names each shape.
    pub name: Option<String>,
    /// The attribute with the share of ground looked at, 0 to 1.
    pub cover: Option<String>,
    pub public: Option<bool>,
    /// Whom to credit, as printed on sheets.
    pub credit: Option<String>,
    /// The licence and its number, as printed behind the credit.
    pub licence: Option<String>,
    /// Of the parishes alone: what kind of boundary they are, as printed.
    pub kind: Option<String>,
    /// Of the parishes alone: the year or day that the boundaries are of.
    pub dated: Option<Dated>,
    /// Of the beach alone: how far from the shore finds of the beach may lie.
    pub strip: Option<Length>,
    /// The coordinate system, where the file states none.
    pub system: Option<System>,
}

/// A year, or a day. What is expected is the fault of anything else: see `mistyped`.
#[derive(Debug, Deserialize)]
#[serde(untagged, expecting = "study-dated")]
pub(super) enum Dated {
    Year(i32),
    Day(Date),
}

/// Who walked what ground, when and how: the activity that finds come from, blank fields included.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Fieldwork {
    /// The name of the ground walked.
    pub ground: String,
    /// Who walked it.
    pub by: Option<String>,
    /// Whose land it is.
    pub landowner: Option<String>,
    /// First and last day, or the only day.
    #[serde(default)]
    pub dates: Vec<Date>,
    /// How many visits.
    pub visits: Option<u32>,
    /// Person-hours on the ground.
    pub people_hours: Option<f64>,
    /// Metres between walked lines.
    pub line_spacing: Option<Length>,
    /// The ground looked at: a share from 0 to 1, or a word.
    pub cover: Option<Cover>,
    /// How well the surface could be seen, in the walkers' words.
    pub visibility: Option<String>,
    /// How it was looked at: walked in lines, a square at a time, test pits.
    pub method: Option<String>,
    /// The light: low sun, overcast.
    pub light: Option<String>,
    /// What grew there, and how high.
    pub crop: Option<String>,
    /// What was kept.
    pub kept: Option<Kept>,
    /// What was left where it lay, in the walkers' words.
    pub left: Option<String>,
    /// How many pieces were picked up; 0 says that the ground was walked and gave none.
    pub pieces: Option<u32>,
    /// Hectares walked.
    pub hectares: Option<f64>,
    /// Anything else.
    pub note: Option<String>,
}

/// Share of ground looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(untagged, expecting = "study-cover")]
pub enum Cover {
    /// From 0 to 1.
    Share(f64),
    /// In words.
    Words(String),
}

/// What was kept of what was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kept {
    /// Everything.
    All,
    /// Tools alone.
    Tools,
    /// A selection.
    Selected,
    /// Not recorded.
    Unknown,
}

/// How a square's count may be known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum CountsAre {
    /// As its band.
    Bands,
    /// Exactly.
    Exact,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AgreementSection {
    pub recipient: Option<String>,
    pub grid: Option<System>,
    pub precision: Option<Precision>,
    pub smallest_area: Option<Area>,
    pub smallest_places: Option<u32>,
    pub protect_scatters: Option<bool>,
    pub smallest_count: Option<u32>,
    pub show: Option<Vec<String>>,
    pub give: Option<Vec<String>>,
    pub reason: Option<String>,
    pub review: Option<Date>,
    /// What the recipient may publish, in the owner's words.
    pub may_publish: Option<String>,
    /// Nothing is to be published before.
    pub embargo: Option<Date>,
    /// Keys that a submission is sealed to.
    pub seal_to: Option<OneOrMore<String>>,
    pub publication: Option<bool>,
    pub counts: Option<CountsAre>,
    /// Finds off this land alone: the landowner's or the holding's name as the register writes it.
    pub landowner: Option<OneOrMore<String>>,
    pub languages: Option<Vec<Language>>,
    #[serde(default)]
    pub stricter: Vec<StricterSection>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StricterSection {
    pub class: Option<OneOrMore<Class>>,
    pub period: Option<OneOrMore<Period>>,
    pub setting: Option<OneOrMore<Setting>>,
    pub near: Option<NearSection>,
    pub precision: Precision,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NearSection {
    pub file: String,
    pub layer: Option<String>,
    pub distance: Length,
    pub system: Option<System>,
}

/// One word or a list of words. Read by hand, so that a mistyped word is named with those that are known.
#[derive(Debug)]
pub(super) struct OneOrMore<T>(pub Vec<T>);

impl<'de, T: Deserialize<'de>> Deserialize<'de> for OneOrMore<T> {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader<T>(std::marker::PhantomData<T>);

        impl<'de, T: Deserialize<'de>> serde::de::Visitor<'de> for Reader<T> {
            type Value = OneOrMore<T>;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a word or a list of words")
            }

            fn visit_str<E: serde::de::Error>(self, word: &str) -> Result<OneOrMore<T>, E> {
                T::deserialize(serde::de::value::StrDeserializer::new(word)).map(|one| OneOrMore(vec![one]))
            }

            fn visit_seq<A: serde::de::SeqAccess<'de>>(self, words: A) -> Result<OneOrMore<T>, A::Error> {
                Vec::deserialize(serde::de::value::SeqAccessDeserializer::new(words)).map(OneOrMore)
            }
        }

        deserializer.deserialize_any(Reader(std::marker::PhantomData))
    }
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DensitySection {
    /// A length, two lengths, or the name of a way of choosing.
    pub bandwidth: Option<BandwidthEntry>,
    /// Degrees from grid north, clockwise: two lengths are then along it and across it.
    pub bearing: Option<f64>,
    pub pixel: Option<Length>,
    /// `"diggle"`, `"uniform"` or `"none"`.
    pub edge: Option<String>,
    /// The short form: `true` for `"diggle"`, `false` for `"none"`.
    pub edge_correction: Option<bool>,
    /// `"none"`, `"walked"` or `"covered"`.
    pub effort: Option<String>,
    pub settings: Option<Vec<String>>,
    pub off_land: Option<bool>,
    pub adaptive: Option<bool>,
    pub pilot: Option<Length>,
}

/// `"250 m"` or `"plug-in"`; `["400 m", "200 m"]`.
#[derive(Debug, Deserialize)]
#[serde(untagged, expecting = "study-bandwidth")]
pub(super) enum BandwidthEntry {
    One(String),
    Pair(String, String),
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ConcentrationsSection {
    /// Share of the mass of the surface, 0 to 1.
    pub share: Option<f64>,
    /// Pieces below which a patch is not listed.
    pub smallest: Option<u32>,
    /// A share of the peak, or pieces per hectare with the words behind.
    pub prominence: Option<ProminenceEntry>,
    /// `"share"` or `"envelope"`.
    pub bound: Option<String>,
    /// `"global"` or `"pointwise"`.
    pub envelope: Option<String>,
    pub simulations: Option<u32>,
    pub level: Option<f64>,
    pub resamples: Option<u32>,
    pub seed: Option<u64>,
}

/// `0.25`, or `"2 per hectare"`.
#[derive(Debug, Deserialize)]
#[serde(untagged, expecting = "study-prominence")]
pub(super) enum ProminenceEntry {
    Share(f64),
    Text(String),
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShoreSection {
    pub within: Option<Length>,
    pub stretch: Option<Length>,
    /// Simplification of the shoreline before it is measured (a coast has no one length).
    pub simplify: Option<Length>,
    /// Where kilometre 0 lies, as easting and northing in the study's grid: public ground.
    pub start: Option<[f64; 2]>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SheetsSection {
    pub style: Option<String>,
    pub paper: Option<String>,
    pub dpi: Option<u32>,
    /// Which files each sheet of a pack is written as.
    pub forms: Option<Vec<String>>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TablesSection {
    /// `"comma"` or `"point"`.
    pub decimal: Option<String>,
}
