//! Reads the study file, checks it whole, fills in every default, and parts it into what passes the
//! wall and what does not.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::Precision;
use super::agreement::{Agreement, Attribute, Giving, Stricter, StricterRule};
use super::file::{
    self, AgreementSection, CountsAre, Fieldwork, LayerEntry, OneOrMore, StricterSection, StudyFile,
};
use super::settings::{Dated, KnownBy, LayerKind, LayerSpec, PrivateStudy, PublicStudy, ShoreSettings};
use super::vocabulary::Country;
use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::units::Length;
use crate::words::Language;

/// A whole study, of which each audience's part is asked for by name.
pub struct Study {
    /// What stays with the owner.
    pub private: PrivateStudy,
    /// Every audience's public part, by name.
    audiences: BTreeMap<String, PublicStudy>,
    language: Language,
}

impl Study {
    /// Reads and checks a study file. Faults name the key and the nearest known one.
    pub fn load(path: &Path) -> Result<Self> {
        let shown = path.display().to_string();
        if path.is_dir() {
            return Err(Fault::new("study-is-folder").in_file(&shown));
        }
        let text = std::fs::read_to_string(path)
            .map_err(|e| Fault::new("study-unreadable").because(&e).in_file(&shown))?;
        let root = match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        };
        Self::parse(&text, root).map_err(|fault| fault.in_file(&shown))
    }

    /// Parses a study file's text; `root` is the folder that paths are relative to.
    pub fn parse(text: &str, root: PathBuf) -> Result<Self> {
        let file: StudyFile = toml::from_str(text).map_err(|e| super::mistyped::fault(&e, text))?;
        let language = file.study.language;
        resolve(file, root).map_err(|fault| fault.said_in(language))
    }

    /// The public part for one audience.
    pub fn audience(&self, name: &str) -> Result<&PublicStudy> {
        self.audiences.get(name).ok_or_else(|| {
            let known: Vec<&str> = self.audiences.keys().map(String::as_str).collect();
            if let Some(nearest) = nearest(name, known.iter().copied()) {
                return Fault::new("study-no-audience-near").with("name", name).with("nearest", nearest);
            }
            Fault::new("study-no-audience").with("name", name).with("known", known.join(", "))
        })
    }

    /// The audiences' names, sorted.
    pub fn audiences(&self) -> impl Iterator<Item = &str> {
        self.audiences.keys().map(String::as_str)
    }

    /// The language that messages are said in: that of the study.
    pub fn language(&self) -> Language {
        self.language
    }
}

/// A path as one system writes it, for all of them.
fn slashed(path: &str) -> String {
    path.replace('\\', "/")
}

/// The nearest of `known` to a mistyped word, if any comes near.
pub(super) fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|candidate| (strsim::jaro_winkler(word, candidate), candidate))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate)
}

pub(super) fn unknown_word(id_near: &'static str, key: &str, word: &str, known: &[&str]) -> Fault {
    let likely = nearest(word, known.iter().copied()).map_or_else(|| known.join(", "), str::to_owned);
    Fault::new(id_near).with("key", word).with("nearest", likely).in_column(key)
}

fn resolve(file: StudyFile, root: PathBuf) -> Result<Study> {
    let grid = file.study.grid.clone().unwrap_or(System::BritishGrid);
    check_projected(&grid, "study.grid")?;
    let country = file.study.country.unwrap_or(match grid {
        System::BritishGrid => Country::EnglandWales,
        System::Lambert93 => Country::France,
        System::Epsg(2157 | 29902 | 29903) => Country::Ireland,
        _ => Country::Other,
    });
    if file.study.title.trim().is_empty() {
        return Err(Fault::new("study-missing-key").with("key", "title").in_column("study"));
    }
    if file.register.files.0.is_empty() {
        return Err(Fault::new("study-no-register").in_column("register.files"));
    }
    let (public_layers, private_layers) = layers(file.ground)?;
    let density = super::density::resolve(file.density)?;
    let concentrations = super::concentrations::resolve(file.concentrations)?;
    let shore = ShoreSettings {
        within_m: file.shore.within.map_or(1_000.0, |l| l.metres),
        stretch_m: file.shore.stretch.map_or(1_000.0, |l| l.metres),
        simplify_m: file.shore.simplify.map_or(50.0, |l| l.metres),
        start: file.shore.start.map(|[easting, northing]| (easting, northing)),
    };
    let sheets = super::outputs::sheets(file.sheets)?;
    let tables = super::outputs::tables(&file.tables)?;
    let mut audiences = BTreeMap::new();
    let mut seal_to = BTreeMap::new();
    let public_precision = file.agreement.get("public").and_then(|section| section.precision);
    for (name, mut section) in file.agreement {
        if let Some(OneOrMore(keys)) = section.seal_to.take() {
            if section.publication.unwrap_or(name == "public") {
                return Err(Fault::new("study-seal-published")
                    .with("name", &name)
                    .in_column(format!("agreement.{name}.seal_to")));
            }
            seal_to.insert(name.clone(), keys);
        }
        let mut agreement = agreement(&name, section, &grid).map_err(|fault| {
            let column = format!("agreement.{name}");
            match fault.spot.column.clone() {
                Some(inner) => {
                    let mut fault = fault;
                    fault.spot.column = Some(format!("{column}.{inner}"));
                    fault
                }
                None => fault.in_column(column),
            }
        })?;
        if !agreement.for_publication {
            agreement.public_precision = public_precision;
        }
        let fieldwork = walks(&file.fieldwork, &agreement);
        let study = PublicStudy {
            title: file.study.title.trim().to_owned(),
            grid: agreement.grid.clone(),
            language: agreement.languages.first().copied().unwrap_or(file.study.language),
            country,
            date: file.study.date,
            compiler: file.study.compiler.clone(),
            edition: file.study.edition.clone(),
            collected: file.study.collected.clone(),
            layers: public_layers.clone(),
            agreement,
            fieldwork,
            density: density.clone(),
            concentrations: concentrations.clone(),
            shore: shore.clone(),
            sheets: sheets.clone(),
            tables,
        };
        audiences.insert(name, study);
    }
    if audiences.is_empty() {
        return Err(Fault::new("study-missing-key").with("key", "agreement.public"));
    }
    let decimal_comma = super::outputs::decimal_comma("register.decimal", file.register.decimal.as_deref())?;
    let known_by = match &file.register.known_by {
        Some(word) => {
            names("register.known_by", std::slice::from_ref(word), KnownBy::ALL, KnownBy::name)?.pop_first()
        }
        None => None,
    };
    let private = PrivateStudy {
        root,
        files: file.register.files.0.iter().map(|file| slashed(file)).collect(),
        columns: file.register.columns,
        system: file.register.system.unwrap_or(grid),
        uncertainty_m: file.register.uncertainty.map(|l: Length| l.metres),
        decimal_comma,
        ledger: file.register.ledger.map_or_else(|| "ledger".to_owned(), |ledger| slashed(&ledger)),
        known_by,
        seal_to,
        layers: private_layers,
    };
    Ok(Study { private, audiences, language: file.study.language })
}

/// The walks that an audience is told of: those on its own land where it is a landowner. Whose land it is
/// stays with the owner unless landowners are shown.
fn walks(all: &[Fieldwork], agreement: &Agreement) -> Vec<Fieldwork> {
    if !agreement.show.contains(&Attribute::Fieldwork) {
        return Vec::new();
    }
    let mut walks: Vec<Fieldwork> =
        all.iter().filter(|walk| agreement.is_of_land(walk.landowner.as_deref())).cloned().collect();
    if !agreement.show.contains(&Attribute::Landowner) {
        walks.iter_mut().for_each(|walk| walk.landowner = None);
    }
    walks
}

/// Everything is measured in metres of a projected grid; degrees are refused.
fn check_projected(grid: &System, key: &str) -> Result<()> {
    if matches!(grid, System::Wgs84 | System::Epsg(4258 | 4277 | 4171 | 4269 | 4267)) {
        return Err(Fault::new("study-grid-in-degrees").with("grid", grid).in_column(key));
    }
    Ok(())
}

fn layers(entries: BTreeMap<String, LayerEntry>) -> Result<(Vec<LayerSpec>, Vec<LayerSpec>)> {
    let known: Vec<&str> = LayerKind::ALL.iter().map(|kind| kind.name()).collect();
    let mut public = Vec::new();
    let mut private = Vec::new();
    for (key, entry) in entries {
        let kind = LayerKind::ALL
            .iter()
            .copied()
            .find(|kind| kind.name() == key)
            .ok_or_else(|| unknown_word("study-unknown-word", "ground", &key, &known))?;
        let is_public = entry.public.unwrap_or(kind.public_by_default());
        let key = |name: &str| format!("ground.{key}.{name}");
        if kind != LayerKind::Parishes && (entry.kind.is_some() || entry.dated.is_some()) {
            let name = if entry.kind.is_some() { "kind" } else { "dated" };
            return Err(Fault::new("study-boundaries-of-parishes").in_column(key(name)));
        }
        if entry.licence.is_some() && entry.credit.is_none() {
            return Err(Fault::new("study-licence-of-nobody").in_column(key("licence")));
        }
        if kind != LayerKind::Beach && entry.strip.is_some() {
            return Err(Fault::new("study-strip-of-beach").in_column(key("strip")));
        }
        let spec = LayerSpec {
            kind,
            file: slashed(&entry.file),
            layer: entry.layer,
            name: entry.name,
            cover: entry.cover,
            credit: entry.credit,
            licence: entry.licence,
            boundaries: entry.kind,
            dated: entry.dated.map(|dated| match dated {
                file::Dated::Year(year) => Dated::Year(year),
                file::Dated::Day(day) => Dated::Day(day),
            }),
            strip_m: entry.strip.map(|strip| strip.metres),
            system: entry.system,
        };
        if is_public { public.push(spec) } else { private.push(spec) }
    }
    public.sort_by_key(|spec| spec.kind);
    private.sort_by_key(|spec| spec.kind);
    Ok((public, private))
}

/// Reads a list of names, each of a closed list.
pub(super) fn names<T: Copy + Ord>(
    key: &str,
    words: &[String],
    all: &[T],
    name: impl Fn(T) -> &'static str,
) -> Result<std::collections::BTreeSet<T>> {
    words
        .iter()
        .map(|word| {
            all.iter().copied().find(|item| name(*item) == word.trim()).ok_or_else(|| {
                let known: Vec<&str> = all.iter().map(|item| name(*item)).collect();
                unknown_word("study-unknown-word", key, word, &known)
            })
        })
        .collect()
}

fn agreement(audience: &str, section: AgreementSection, study_grid: &System) -> Result<Agreement> {
    if audience.is_empty() || !audience.chars().all(|c| c.is_ascii_alphanumeric() || c == '-') {
        return Err(Fault::new("study-audience-name").with("name", audience));
    }
    let office = audience == "office";
    let landowner = landowner(audience, &section)?;
    let grid = section.grid.unwrap_or_else(|| study_grid.clone());
    check_projected(&grid, "grid")?;
    // No default: the precision is what was agreed with somebody, and the program cannot know it.
    let precision =
        section.precision.ok_or_else(|| Fault::new("study-missing-key").with("key", "precision"))?;
    let said = section.languages.is_some();
    let languages = section.languages.unwrap_or_default();
    if said && languages.is_empty() {
        return Err(Fault::new("study-list-empty").with("key", "languages").in_column("languages"));
    }
    let mut twice = languages.iter().enumerate();
    if let Some((_, language)) = twice.find(|(index, language)| languages[..*index].contains(language)) {
        return Err(Fault::new("study-language-twice")
            .with("language", language.code())
            .in_column("languages"));
    }
    let show = match &section.show {
        Some(words) => names("show", words, Attribute::ALL, Attribute::name)?,
        None if office => Attribute::ALL.iter().copied().collect(),
        None if !landowner.is_empty() => LANDOWNER_SEES.into(),
        None => {
            [Attribute::Class, Attribute::Period, Attribute::Count, Attribute::Strength, Attribute::Parish]
                .into()
        }
    };
    let give = match &section.give {
        Some(words) => names("give", words, Giving::ALL, Giving::name)?,
        None if office => Giving::ALL.iter().copied().collect(),
        None => [Giving::Maps, Giving::Tables, Giving::Report].into(),
    };
    let smallest_area_m2 = match (section.smallest_area, precision) {
        (Some(area), _) => area.square_metres,
        (None, _) if office => 0.0,
        (None, Precision::Square { side_m }) => f64::from(side_m).powi(2) / 2.0,
        (None, Precision::Parish) => 0.0,
    };
    // A setting that is told is told as the beach or not at all where ground is protected, and not in every square:
    // the side of a square would tell the rest.
    let mut told = show.clone();
    if smallest_area_m2 > 0.0 || section.smallest_places.unwrap_or(0) > 0 {
        told.remove(&Attribute::Setting);
    }
    let stricter =
        section.stricter.into_iter().map(|rule| stricter(rule, &told, precision)).collect::<Result<_>>()?;
    let for_publication = section.publication.unwrap_or(audience == "public");
    // A list of finds gives the number of each: with it, bands would be for show.
    let by_find = give.contains(&Giving::Finds) || show.contains(&Attribute::Number);
    let exact_counts = match section.counts {
        Some(CountsAre::Bands) if by_find => {
            return Err(Fault::new("study-counts-by-find").with("name", audience).in_column("counts"));
        }
        Some(counts) => counts == CountsAre::Exact,
        None => by_find || !for_publication,
    };
    Ok(Agreement {
        audience: audience.to_owned(),
        recipient: section.recipient,
        grid,
        precision,
        smallest_area_m2,
        smallest_places: section.smallest_places.unwrap_or(0),
        protect_scatters: section.protect_scatters.unwrap_or(false),
        smallest_count: section.smallest_count.unwrap_or(1),
        show,
        give,
        reason: section.reason,
        review: section.review,
        may_publish: section.may_publish,
        public_precision: None,
        embargo: section.embargo,
        stricter,
        languages,
        for_publication,
        exact_counts,
        landowner,
    })
}

/// What a landowner is told of each find unless the agreement says otherwise.
const LANDOWNER_SEES: [Attribute; 6] = [
    Attribute::Class,
    Attribute::Period,
    Attribute::Count,
    Attribute::Strength,
    Attribute::Parish,
    Attribute::KeptAt,
];

/// Whose land an agreement is about. It is between two people: never for publication, and never `public`.
fn landowner(audience: &str, section: &AgreementSection) -> Result<Vec<String>> {
    let Some(OneOrMore(names)) = &section.landowner else { return Ok(Vec::new()) };
    let names: Vec<String> = names.iter().map(|name| name.trim().to_owned()).collect();
    if names.is_empty() || names.iter().any(String::is_empty) {
        return Err(Fault::new("study-landowner-blank").in_column("landowner"));
    }
    if section.publication == Some(true) || matches!(audience, "public" | "office") {
        return Err(Fault::new("study-landowner-published").with("name", audience).in_column("landowner"));
    }
    Ok(names)
}

/// A stricter rule keys on exactly one thing, and that thing must be shown, or its strict value told by
/// the cell itself (a parish says "something here asked for a parish"), or be public ground.
fn stricter(
    section: StricterSection,
    show: &std::collections::BTreeSet<Attribute>,
    agreed: Precision,
) -> Result<Stricter> {
    let precision = section.precision;
    // A rule that would do nothing is a slip, and a slip here gives places away.
    if agreed.coarser(precision) == agreed {
        return Err(Fault::new("study-stricter-not")
            .with("precision", precision)
            .with("agreed", agreed)
            .in_column("stricter"));
    }
    let shown = |attribute: Attribute| -> Result<()> {
        if show.contains(&attribute) || precision == Precision::Parish {
            return Ok(());
        }
        Err(Fault::new("study-stricter-hidden").with("attribute", attribute.name()).in_column("stricter"))
    };
    let rule = match (section.class, section.period, section.setting, section.near) {
        (Some(classes), None, None, None) => {
            shown(Attribute::Class)?;
            StricterRule::Class(classes.0)
        }
        (None, Some(periods), None, None) => {
            shown(Attribute::Period)?;
            StricterRule::Period(periods.0)
        }
        (None, None, Some(settings), None) => {
            shown(Attribute::Setting)?;
            StricterRule::Setting(settings.0)
        }
        (None, None, None, Some(near)) => StricterRule::Near {
            layer: Box::new(LayerSpec {
                kind: LayerKind::Protected,
                file: slashed(&near.file),
                layer: near.layer,
                name: None,
                cover: None,
                credit: None,
                licence: None,
                boundaries: None,
                dated: None,
                strip_m: None,
                system: near.system,
            }),
            distance_m: near.distance.metres,
        },
        _ => return Err(Fault::new("study-stricter-one-key").in_column("stricter")),
    };
    Ok(Stricter { rule, precision })
}
