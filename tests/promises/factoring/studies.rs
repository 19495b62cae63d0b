//! Studies drawn at random: an island, agreements with five audiences, settings. What the program refuses to load is
//! drawn again.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

use rand::seq::IndexedRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::fault::Result;
use strew::ground::{Ground, Partition};
use strew::study::{Attribute, PublicStudy, Study};

use super::super::islands::{CENTRE, Island, island};
use super::registers::{Country, FINDS, Layout, OTHER, Redrawing, Row, columns, register, to_degrees};

/// A study drawn at random, its island, and the audience that is looked at.
pub struct Drawn {
    pub island: Island,
    pub country: Country,
    pub audience: &'static str,
    /// The study file without its register.
    text: String,
}

const AUDIENCES: [&str; 5] = ["public", "office", "society", "farm", "members"];

/// A seeded generator.
pub fn seeded(seed: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(seed)
}

/// What `of` makes of each number under `count`, in order, on every processor.
pub fn each<T: Send>(count: usize, of: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let workers = std::thread::available_parallelism().map_or(2, usize::from).min(count);
    let work = || {
        let numbers =
            std::iter::from_fn(|| Some(next.fetch_add(1, Ordering::Relaxed)).filter(|n| *n < count));
        numbers.map(|number| (number, of(number))).collect::<Vec<_>>()
    };
    let mut made: Vec<(usize, T)> = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|thread| thread.join().expect("no study failed")).collect()
    });
    made.sort_by_key(|(number, _)| *number);
    made.into_iter().map(|(_, made)| made).collect()
}

/// How much of a study is made.
#[derive(Clone, Copy, PartialEq)]
pub enum Weight {
    /// Few sheets and no report.
    Light,
    /// No report.
    Usual,
    /// A report too, which takes long to set.
    Report,
}

impl Drawn {
    /// Draws the study of a seed and writes it into `folder`, with its register laid down plainly.
    pub fn of(seed: u64, weight: Weight, folder: &Path) -> Self {
        let mut random = seeded(seed);
        let radius_m = random.random_range(450.0..900.0);
        let island = island(seed, radius_m);
        let reach = radius_m * 0.95;
        let country = Country {
            west: CENTRE.0 - reach,
            south: CENTRE.1 - reach,
            east: CENTRE.0 + reach,
            north: CENTRE.1 + reach,
            parishes: island.parishes.iter().map(|(name, _)| name.clone()).collect(),
            columns: columns(&mut random),
        };
        let audience = AUDIENCES.choose(&mut random).copied().unwrap_or("public");
        let layout = Layout::plain(FINDS, &country);
        let mut drawn = Self { island, country, audience, text: String::new() };
        for _ in 0..20 {
            drawn.text = text(&mut random, weight);
            drawn.write(folder, &layout);
            if drawn.is_one(folder).is_ok() {
                return drawn;
            }
        }
        panic!("seed {seed}: twenty studies in a row are refused");
    }

    /// Whether it can be told of at all.
    fn is_one(&self, folder: &Path) -> Result<()> {
        let study = Study::load(&folder.join("study.toml"))?;
        let public = study.audience(self.audience)?;
        Partition::fix(public, &Ground::read(public, folder)?).map(drop)
    }

    /// Writes the study with its ground, and a second study file of another register to be set beside it.
    pub fn write(&self, folder: &Path, layout: &Layout) {
        self.island.write(folder);
        fs::write(folder.join("study.toml"), format!("{}{}", layout.section(""), self.text)).unwrap();
        let other = Layout::plain(OTHER, &self.country).section("ledger = \"ledger-of-the-other\"\n");
        let text = self.text.replacen("An island", "Another island", 1);
        fs::write(folder.join("beside.toml"), format!("{other}{text}")).unwrap();
        fs::write(folder.join("key.txt"), KEY).unwrap();
        fs::write(folder.join("passphrase.txt"), "seven herons over the mill pond\n").unwrap();
    }

    /// The study as it lies in a folder, and what this audience is told by.
    pub fn open(&self, folder: &Path) -> (Study, PublicStudy, Ground) {
        let study = Study::load(&folder.join("study.toml")).unwrap();
        let public = study.audience(self.audience).unwrap().clone();
        let ground = Ground::read(&public, folder).unwrap();
        (study, public, ground)
    }

    /// Draws a register for the study as it was opened, and re-draws it: two registers with the same release.
    pub fn twins(
        &self,
        random: &mut ChaCha8Rng,
        (study, public, ground): &(Study, PublicStudy, Ground),
        rows: usize,
    ) -> (Vec<Row>, Vec<Row>) {
        let partition = Partition::fix(public, ground).unwrap();
        let first = register(random, &self.country, rows);
        let (country, to_degrees) = (&self.country, &to_degrees());
        let drawing = Redrawing { study, public, partition: &partition, country, to_degrees };
        let second = drawing.redraw(random, &first);
        (first, second)
    }
}

/// A key to seal to, an example of the format, written from memory.
pub const KEY: &str = "age1ql3z7hjy54pw3hyww5ayyfg7zqgvc7w3j2elw8zmrj2kg5sfn9aqmcac8p";

fn text(random: &mut ChaCha8Rng, weight: Weight) -> String {
    let mut text = String::new();
    let language = ["en", "fr"][random.random_range(0..2)];
    let paper = pick(random, &["a5", "a5", "a4", "figure-column", "120x100"]);
    let style = pick(random, &["colour", "ink", "contrast"]);
    let forms = pick(random, &["[\"svg\"]", "[\"svg\"]", "[\"svg\"]", "[\"png\"]", "[\"svg\", \"pdf\"]"]);
    let parishes = random.random_bool(0.9);
    let shore = random.random_bool(0.7);
    write!(text, "[study]\ntitle = \"An island for a test\"\ndate = 2026-10-01\nlanguage = \"{language}\"\n")
        .unwrap();
    text.push_str("[ground]\n");
    let mut layer = |kept: bool, line: &str| {
        if kept {
            writeln!(text, "{line}").unwrap();
        }
    };
    layer(parishes, "parishes = { file = \"parishes.geojson\", name = \"parish\" }");
    layer(random.random_bool(0.9), "land = { file = \"land.geojson\" }");
    layer(shore, "shore = { file = \"shore.geojson\" }");
    let strip = random.random_bool(0.5);
    layer(shore && strip, "beach = { file = \"beach.geojson\", public = true, strip = \"300 m\" }");
    let parcels = random.random_bool(0.3);
    layer(parcels, "parcels = { file = \"parcels.geojson\", public = true }");
    let public = random.random_bool(0.4);
    layer(random.random_bool(0.6), &format!("walked = {{ file = \"walked.geojson\", public = {public} }}"));
    write!(
        text,
        "[sheets]\ndpi = 72\npaper = \"{paper}\"\nstyle = \"{style}\"\nforms = {forms}\n[tables]\ndecimal = \"{}\"\n",
        pick(random, &["comma", "point"])
    )
    .unwrap();
    write!(
        text,
        "[density]\npixel = \"50 m\"\nbandwidth = {}\nedge = \"{}\"\nadaptive = {}\n",
        pick(random, &["\"rule\"", "\"120 m\"", "\"plug-in\"", "[\"200 m\", \"90 m\"]"]),
        pick(random, &["diggle", "uniform", "none"]),
        random.random_bool(0.2)
    )
    .unwrap();
    write!(
        text,
        "[concentrations]\nbound = \"{}\"\nsimulations = 19\nresamples = {}\nsmallest = {}\nseed = {}\n\
         [shore]\nwithin = \"300 m\"\nstretch = \"500 m\"\n",
        pick(random, &["share", "share", "envelope"]),
        pick(random, &["0", "9"]),
        random.random_range(1..6),
        random.random_range(1..99)
    )
    .unwrap();
    if random.random_bool(0.4) {
        text.push_str(
            "[[fieldwork]]\nground = \"The long close\"\nvisits = 3\nhectares = 4.5\npieces = 0\nkept = \"all\"\n",
        );
    }
    for audience in AUDIENCES {
        agreement(random, &mut text, audience, parishes, parcels, weight);
    }
    text
}

fn pick<'a>(random: &mut ChaCha8Rng, of: &[&'a str]) -> &'a str {
    of.choose(random).copied().unwrap_or_default()
}

/// What was agreed with one audience.
fn agreement(
    random: &mut ChaCha8Rng,
    text: &mut String,
    audience: &str,
    parishes: bool,
    parcels: bool,
    weight: Weight,
) {
    let precision = match audience {
        "office" => pick(random, &["10 m", "20 m", "100 m"]),
        "society" if parishes => "parish",
        "farm" => pick(random, &["10 m", "50 m", "100 m"]),
        "members" => pick(random, &["100 m", "200 m"]),
        _ => pick(random, &["100 m", "200 m", "500 m", "1 km"]),
    };
    writeln!(text, "[agreement.{audience}]\nprecision = \"{precision}\"").unwrap();
    // Each by itself: now and then an audience of one thing, or of nearly everything.
    let rest = if audience == "office" { 0.8 } else { [0.04, 0.3][random.random_range(0..2)] };
    let five = ["class", "period", "count", "strength", "parish"];
    let show: Vec<String> = Attribute::ALL
        .iter()
        .map(|attribute| attribute.name())
        .filter(|name| random.random_bool(if five.contains(name) { 0.9 } else { rest }))
        .map(|name| format!("\"{name}\""))
        .collect();
    let by_find = show.iter().any(|name| name == "\"number\"");
    let gives = ["maps", "tables", "layers", "density", "concentrations", "report", "finds"];
    let give: Vec<String> = gives
        .iter()
        .filter(|give| match **give {
            "report" => weight == Weight::Report,
            "maps" | "density" | "concentrations" if weight == Weight::Light => random.random_bool(0.25),
            "finds" => by_find && random.random_bool(0.7),
            _ => random.random_bool(0.85),
        })
        .map(|give| format!("\"{give}\""))
        .collect();
    writeln!(text, "show = [{}]\ngive = [{}]", show.join(", "), give.join(", ")).unwrap();
    if !by_find && random.random_bool(0.6) {
        writeln!(text, "counts = \"{}\"", pick(random, &["bands", "exact"])).unwrap();
    }
    match random.random_range(0..6) {
        0 => text.push_str("languages = [\"fr\"]\n"),
        1 => text.push_str("languages = [\"en\", \"fr\"]\n"),
        _ => {}
    }
    let mut sometimes = |chance: f64, line: String| {
        if random.random_bool(chance) {
            writeln!(text, "{line}").unwrap();
        }
    };
    sometimes(0.3, "smallest_count = 3".to_owned());
    sometimes(0.3, "smallest_area = \"0.02 km2\"".to_owned());
    sometimes(if parcels { 0.5 } else { 0.0 }, "smallest_places = 2".to_owned());
    sometimes(0.04, "protect_scatters = true".to_owned());
    sometimes(0.2, "recipient = \"Whom it concerns\"".to_owned());
    sometimes(0.2, "reason = \"open fields near houses\"\nreview = 2028-01-01".to_owned());
    if audience == "farm" {
        text.push_str("landowner = \"Long Farm\"\n");
    }
    let shown = |name: &str| show.iter().any(|one| one == &format!("\"{name}\""));
    let parish = if parishes { "parish" } else { "1 km" };
    let mut rule = |wanted: bool, key: &str, precision: &str| {
        if wanted && random.random_bool(0.4) {
            write!(text, "[[agreement.{audience}.stricter]]\n{key}\nprecision = \"{precision}\"\n").unwrap();
        }
    };
    let squares = precision != "parish" && precision != "1 km";
    rule(squares && shown("class"), "class = [\"arrowhead\", \"axehead\"]", "1 km");
    rule(squares && shown("period"), "period = \"neolithic\"", "2 km");
    rule(squares && parishes, "setting = \"garden\"", parish);
    rule(squares, "near = { file = \"protected.geojson\", distance = \"120 m\" }", "1 km");
}
