//! Reads the study file, checks it whole, fills in every default, and parts it into what passes the
//! wall and what does not.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::Precision;
use super::agreement::{Agreement, Attribute, Giving, Stricter, StricterRule, named};
use super::file::{AgreementSection, Columns, Fieldwork, LayerEntry, StricterSection, StudyFile};
use super::vocabulary::Country;
use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::units::{Date, Length};
use crate::words::Language;

named! {
    /// What a ground layer holds. The names are the keys of `[ground]`.
    LayerKind {
        /// Parishes, communes or townlands: polygons with names.
        Parishes = "parishes",
        /// Land: polygons.
        Land = "land",
        /// The shore: lines.
        Shore = "shore",
        /// Ground walked: polygons, with cover.
        Walked = "walked",
        /// Height of the ground: a raster.
        Relief = "relief",
        /// Roads: lines, for orientation.
        Roads = "roads",
        /// Streams and rivers: lines, for orientation.
        Streams = "streams",
        /// Standing water: polygons, for orientation.
        Water = "water",
        /// Named places: points, for orientation.
        Places = "places",
        /// Protected sites: polygons.
        Protected = "protected",
        /// The beach: polygons.
        Beach = "beach",
    }
}

impl LayerKind {
    /// Whether a layer of this kind is public unless the study says otherwise.
    fn public_by_default(self) -> bool {
        matches!(self, Self::Parishes | Self::Land | Self::Shore)
    }
}

/// A layer of the ground and how to read it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LayerSpec {
    /// What it holds.
    pub kind: LayerKind,
    /// The file, relative to the study file's folder.
    pub file: String,
    /// The layer inside a file of several.
    pub layer: Option<String>,
    /// The attribute that names each shape.
    pub name: Option<String>,
    /// The attribute with the share of ground looked at.
    pub cover: Option<String>,
    /// Whom to credit on sheets.
    pub credit: Option<String>,
    /// The system, where the file states none.
    pub system: Option<System>,
}

/// Kernel density settings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DensitySettings {
    /// How the bandwidth is chosen.
    pub bandwidth: Bandwidth,
    /// Side of the surface's pixels, metres; chosen from the bandwidth and the cells when absent.
    pub pixel_m: Option<f64>,
    /// Whether mass is kept on land (or on walked ground).
    pub edge_correction: bool,
}

/// How the bandwidth (the standard deviation of the kernel) is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bandwidth {
    /// Fixed, metres.
    Fixed(f64),
    /// Scott's rule of thumb for two dimensions, never under the side of the cells.
    Rule,
}

/// Settings of concentrations.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConcentrationSettings {
    /// Share of the surface's mass that they hold together, 0 to 1.
    pub share: f64,
    /// A patch with fewer pieces is not listed.
    pub smallest: u32,
}

/// Settings of the shore analysis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShoreSettings {
    /// Finds further from the shore than this are left out, metres.
    pub within_m: f64,
    /// Length of a stretch, metres.
    pub stretch_m: f64,
    /// Tolerance by which the shoreline is simplified before it is measured, metres.
    pub simplify_m: f64,
    /// Where kilometre 0 lies, easting and northing in metres; the line's own start when absent.
    pub start: Option<(f64, f64)>,
}

/// Settings of sheets: looks, never thresholds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SheetSettings {
    /// The style's name (a file in `styles/`, carried inside the program).
    pub style: String,
    /// The paper's name, `a4`, `a3`, or `WIDTHxHEIGHT` in millimetres.
    pub paper: String,
    /// Dots an inch of PNG pictures.
    pub dpi: u32,
}

/// All that passes the wall, for one audience.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PublicStudy {
    /// Title.
    pub title: String,
    /// The working grid: the audience's agreed grid, in which all is measured.
    pub grid: System,
    /// The language of sheets, tables and report.
    pub language: Language,
    /// Whose periods and legal cautions apply.
    pub country: Country,
    /// The date printed on sheets (no clock is ever read).
    pub date: Option<Date>,
    /// Who compiled it, as printed.
    pub compiler: Option<String>,
    /// The edition, as printed.
    pub edition: Option<String>,
    /// Public layers of the ground, in the order of [`LayerKind::ALL`].
    pub layers: Vec<LayerSpec>,
    /// The agreement with this audience.
    pub agreement: Agreement,
    /// Fieldwork, where the agreement shows it.
    pub fieldwork: Vec<Fieldwork>,
    /// Density settings.
    pub density: DensitySettings,
    /// Concentration settings.
    pub concentrations: ConcentrationSettings,
    /// Shore settings.
    pub shore: ShoreSettings,
    /// Sheet settings.
    pub sheets: SheetSettings,
}

/// What stays with the register's owner.
#[derive(Clone)]
pub struct PrivateStudy {
    /// The study file's folder.
    pub root: PathBuf,
    /// Register files, as typed (globs allowed), relative to `root`.
    pub files: Vec<String>,
    /// Columns named by hand.
    pub columns: Columns,
    /// The system of eastings and northings that say none themselves.
    pub system: System,
    /// How sure an undescribed place is, metres.
    pub uncertainty_m: Option<f64>,
    /// Whether a comma is the decimal mark, where the files leave it open.
    pub decimal_comma: Option<bool>,
    /// The private ledger's folder, relative to `root`.
    pub ledger: String,
    /// Layers that are not public: seen by `check` alone.
    pub layers: Vec<LayerSpec>,
}

/// A whole study, of which each audience's part is asked for by name.
pub struct Study {
    /// What stays with the owner.
    pub private: PrivateStudy,
    /// Every audience's public part, by name.
    audiences: BTreeMap<String, PublicStudy>,
}

impl Study {
    /// Reads and checks a study file. Faults name the key and the nearest known one.
    pub fn load(path: &Path) -> Result<Self> {
        let shown = path.display().to_string();
        let text = std::fs::read_to_string(path)
            .map_err(|e| Fault::new("study-unreadable").with("why", e).in_file(&shown))?;
        let root = match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        };
        Self::parse(&text, root).map_err(|fault| fault.in_file(&shown))
    }

    /// Parses a study file's text; `root` is the folder that paths are relative to.
    pub fn parse(text: &str, root: PathBuf) -> Result<Self> {
        let file: StudyFile = toml::from_str(text).map_err(|e| toml_fault(&e, text))?;
        resolve(file, root)
    }

    /// The public part for one audience.
    pub fn audience(&self, name: &str) -> Result<&PublicStudy> {
        self.audiences.get(name).ok_or_else(|| {
            let known: Vec<&str> = self.audiences.keys().map(String::as_str).collect();
            Fault::new("study-no-audience").with("name", name).with("known", known.join(", "))
        })
    }

    /// The audiences' names, sorted.
    pub fn audiences(&self) -> impl Iterator<Item = &str> {
        self.audiences.keys().map(String::as_str)
    }

    /// The language that messages are said in: that of the study.
    pub fn language(&self) -> Language {
        self.audiences.values().next().map_or(Language::English, |study| study.language)
    }
}

/// Turns a TOML error into one that names the line, the key and the nearest known key.
fn toml_fault(error: &toml::de::Error, text: &str) -> Fault {
    let row = error.span().map(|span| text[..span.start.min(text.len())].matches('\n').count() as u64 + 1);
    let message = error.message();
    let quoted: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    let mut fault =
        match (message.split_whitespace().take(2).collect::<Vec<_>>().as_slice(), quoted.split_first()) {
            (["unknown", "field" | "variant"] | ["unknown", "field,"], Some((key, known))) => {
                let nearest = nearest(key, known.iter().copied()).unwrap_or_default();
                let fault = Fault::new("study-unknown-key").with("key", key).with("known", known.join(", "));
                if nearest.is_empty() {
                    fault
                } else {
                    Fault::new("study-unknown-key-near").with("key", key).with("nearest", nearest)
                }
            }
            (["missing", "field"], Some((key, _))) => Fault::new("study-missing-key").with("key", key),
            _ => Fault::new("study-toml").with("why", message.lines().next().unwrap_or(message)),
        };
    if let Some(row) = row {
        fault = fault.at_row(row);
    }
    fault
}

/// The nearest of `known` to a mistyped word, if any comes near.
pub(super) fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|candidate| (strsim::jaro_winkler(word, candidate), candidate))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate)
}

fn unknown_word(id_near: &'static str, key: &str, word: &str, known: &[&str]) -> Fault {
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
    if file.register.files.is_empty() {
        return Err(Fault::new("study-no-register").in_column("register.files"));
    }
    let (public_layers, private_layers) = layers(file.ground)?;
    let density = DensitySettings {
        bandwidth: bandwidth(file.density.bandwidth.as_deref())?,
        pixel_m: file.density.pixel.map(|pixel| pixel.metres),
        edge_correction: file.density.edge_correction.unwrap_or(true),
    };
    let concentrations = ConcentrationSettings {
        share: file.concentrations.share.unwrap_or(0.5),
        smallest: file.concentrations.smallest.unwrap_or(5),
    };
    if !(concentrations.share > 0.0 && concentrations.share < 1.0) {
        return Err(Fault::new("study-share")
            .with("value", concentrations.share)
            .in_column("concentrations.share"));
    }
    let shore = ShoreSettings {
        within_m: file.shore.within.map_or(1_000.0, |l| l.metres),
        stretch_m: file.shore.stretch.map_or(1_000.0, |l| l.metres),
        simplify_m: file.shore.simplify.map_or(50.0, |l| l.metres),
        start: file.shore.start.map(|[easting, northing]| (easting, northing)),
    };
    let dpi = file.sheets.dpi.unwrap_or(300);
    if !(72..=1200).contains(&dpi) {
        return Err(Fault::new("study-dpi").with("value", dpi).in_column("sheets.dpi"));
    }
    let sheets = SheetSettings {
        style: file.sheets.style.unwrap_or_else(|| "colour".to_owned()),
        paper: file.sheets.paper.unwrap_or_else(|| "a4".to_owned()),
        dpi,
    };
    let mut audiences = BTreeMap::new();
    for (name, section) in file.agreement {
        let agreement = agreement(&name, section, &grid).map_err(|fault| {
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
        let fieldwork =
            if agreement.show.contains(&Attribute::Fieldwork) { file.fieldwork.clone() } else { Vec::new() };
        let study = PublicStudy {
            title: file.study.title.trim().to_owned(),
            grid: agreement.grid.clone(),
            language: file.study.language,
            country,
            date: file.study.date,
            compiler: file.study.compiler.clone(),
            edition: file.study.edition.clone(),
            layers: public_layers.clone(),
            agreement,
            fieldwork,
            density: density.clone(),
            concentrations: concentrations.clone(),
            shore: shore.clone(),
            sheets: sheets.clone(),
        };
        audiences.insert(name, study);
    }
    if audiences.is_empty() {
        return Err(Fault::new("study-missing-key").with("key", "agreement.public"));
    }
    let decimal_comma = match file.register.decimal.as_deref() {
        None => None,
        Some(",") | Some("comma") => Some(true),
        Some(".") | Some("point") => Some(false),
        Some(other) => {
            return Err(unknown_word("study-unknown-word", "register.decimal", other, &["comma", "point"]));
        }
    };
    let private = PrivateStudy {
        root,
        files: file.register.files,
        columns: file.register.columns,
        system: file.register.system.unwrap_or(grid),
        uncertainty_m: file.register.uncertainty.map(|l: Length| l.metres),
        decimal_comma,
        ledger: file.register.ledger.unwrap_or_else(|| "ledger".to_owned()),
        layers: private_layers,
    };
    Ok(Study { private, audiences })
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
        let spec = LayerSpec {
            kind,
            file: entry.file,
            layer: entry.layer,
            name: entry.name,
            cover: entry.cover,
            credit: entry.credit,
            system: entry.system,
        };
        if is_public { public.push(spec) } else { private.push(spec) }
    }
    public.sort_by_key(|spec| spec.kind);
    private.sort_by_key(|spec| spec.kind);
    Ok((public, private))
}

fn bandwidth(text: Option<&str>) -> Result<Bandwidth> {
    match text {
        None | Some("rule") => Ok(Bandwidth::Rule),
        Some(text) => {
            let length: Length = text.parse().map_err(|_| {
                Fault::new("study-bandwidth").with("text", text).in_column("density.bandwidth")
            })?;
            Ok(Bandwidth::Fixed(length.metres))
        }
    }
}

/// Reads a list of names, each of a closed list.
fn names<T: Copy + Ord>(
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
    let grid = section.grid.unwrap_or_else(|| study_grid.clone());
    check_projected(&grid, "grid")?;
    // No default: the precision is what was agreed with somebody, and the program cannot know it.
    let precision =
        section.precision.ok_or_else(|| Fault::new("study-missing-key").with("key", "precision"))?;
    let show = match &section.show {
        Some(words) => names("show", words, Attribute::ALL, Attribute::name)?,
        None if office => Attribute::ALL.iter().copied().collect(),
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
    let stricter = section.stricter.into_iter().map(|rule| stricter(rule, &show)).collect::<Result<_>>()?;
    Ok(Agreement {
        audience: audience.to_owned(),
        recipient: section.recipient,
        grid,
        precision,
        smallest_area_m2,
        smallest_count: section.smallest_count.unwrap_or(1),
        show,
        give,
        reason: section.reason,
        review: section.review,
        stricter,
        for_publication: section.publication.unwrap_or(audience == "public"),
    })
}

/// A stricter rule keys on exactly one thing, and that thing must be shown, or its strict value told by
/// the cell itself (a parish says "something here asked for a parish"), or be public ground.
fn stricter(section: StricterSection, show: &std::collections::BTreeSet<Attribute>) -> Result<Stricter> {
    let precision = section.precision;
    let shown = |attribute: Attribute| -> Result<()> {
        if show.contains(&attribute) || precision == Precision::Parish {
            return Ok(());
        }
        Err(Fault::new("study-stricter-hidden").with("attribute", attribute.name()).in_column("stricter"))
    };
    let rule = match (section.class, section.period, section.setting, section.near) {
        (Some(classes), None, None, None) => {
            shown(Attribute::Class)?;
            StricterRule::Class(classes.list())
        }
        (None, Some(periods), None, None) => {
            shown(Attribute::Period)?;
            StricterRule::Period(periods.list())
        }
        (None, None, Some(settings), None) => {
            shown(Attribute::Setting)?;
            StricterRule::Setting(settings.list())
        }
        (None, None, None, Some(near)) => StricterRule::Near {
            layer: LayerSpec {
                kind: LayerKind::Protected,
                file: near.file,
                layer: near.layer,
                name: None,
                cover: None,
                credit: None,
                system: near.system,
            },
            distance_m: near.distance.metres,
        },
        _ => return Err(Fault::new("study-stricter-one-key").in_column("stricter")),
    };
    Ok(Stricter { rule, precision })
}
