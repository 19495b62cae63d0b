//! An invented study with ground of squares, and registers drawn at random for it.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::{Converter, System};

/// A study on invented ground: two parishes, land, a shore, a protected site.
const STUDY: &str = r#"
[study]
title = "A study for a test"
date = 2026-10-01
LANGUAGE
[register]
files = ["finds.csv"]
[ground]
parishes = { file = "parishes.geojson", name = "parish" }
land = { file = "land.geojson" }
shore = { file = "shore.geojson" }
walked = { file = "walked.geojson" }
[sheets]
dpi = 72
[agreement.office]
precision = "10 m"
give = ["tables", "report", "layers", "finds"]
[agreement.society]
precision = "parish"
[agreement.farm]
landowner = "Long Farm"
precision = "100 m"
give = ["tables", "report", "layers", "finds"]
[agreement.public]
precision = "100 m"
give = ["maps", "tables", "report", "layers", "density", "concentrations"]
[[agreement.public.stricter]]
class = ["arrowhead", "axehead", "dagger"]
precision = "1 km"
[[agreement.public.stricter]]
setting = "garden"
precision = "parish"
[[agreement.public.stricter]]
near = { file = "protected.geojson", distance = "300 m" }
precision = "2 km"
"#;

/// A GeoJSON of one feature a shape, in the British grid.
fn geojson(kind: &str, shapes: &[(&str, String)]) -> String {
    let features: Vec<String> = shapes
        .iter()
        .map(|(name, coordinates)| {
            format!(
                r#"{{"type":"Feature","properties":{{"parish":"{name}"}},"geometry":{{"type":"{kind}","coordinates":{coordinates}}}}}"#
            )
        })
        .collect();
    format!(
        r#"{{"type":"FeatureCollection","crs":{{"type":"name","properties":{{"name":"urn:ogc:def:crs:EPSG::27700"}}}},"features":[{}]}}"#,
        features.join(",")
    )
}

fn ring(west: i32, south: i32, east: i32, north: i32) -> String {
    format!("[[{west},{south}],[{east},{south}],[{east},{north}],[{west},{north}],[{west},{south}]]")
}

pub fn write_ground(folder: &Path, language: &str) {
    let put = |name: &str, text: String| fs::write(folder.join(name), text).unwrap();
    put(
        "parishes.geojson",
        geojson(
            "Polygon",
            &[
                ("Eastwell", format!("[{}]", ring(555_030, 542_000, 559_000, 548_000))),
                ("Westwell", format!("[{}]", ring(550_000, 542_000, 555_030, 548_000))),
            ],
        ),
    );
    put(
        "land.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(550_000, 542_000, 559_000, 548_000)))]),
    );
    put("shore.geojson", geojson("LineString", &[("", ring(550_000, 542_000, 559_000, 548_000))]));
    put(
        "walked.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(551_000, 543_000, 552_000, 544_000)))]),
    );
    put(
        "protected.geojson",
        geojson("Polygon", &[("", format!("[{}]", ring(553_200, 545_200, 553_400, 545_400)))]),
    );
    let language = if language.is_empty() { String::new() } else { format!("language = \"{language}\"") };
    put("study.toml", STUDY.replace("LANGUAGE", &language));
}

/// One row: what may be told, and how its place is written.
#[derive(Clone)]
pub(super) struct Row {
    pub(super) number: String,
    pub(super) easting: f64,
    pub(super) northing: f64,
    pub(super) written: Written,
    pub(super) parish: &'static str,
    pub(super) class: &'static str,
    pub(super) period: &'static str,
    pub(super) count: u32,
    pub(super) marks: &'static str,
    pub(super) setting: &'static str,
    pub(super) standing: &'static str,
    pub(super) note: String,
    pub(super) finder: String,
    pub(super) date: String,
    pub(super) material: &'static str,
    pub(super) landowner: &'static str,
}

#[derive(Clone, Copy, PartialEq)]
pub(super) enum Written {
    Letters {
        figures: u32,
    },
    Degrees,
    Metres,
    ParishOnly,
    /// A place nobody can read: set aside.
    Nonsense,
}

const CLASSES: [&str; 8] =
    ["flake", "blade", "core", "scraper", "leaf arrowhead", "polished axe", "microlith", "waste"];
const PERIODS: [&str; 5] = ["", "Mesolithic", "Early Neolithic", "LN/EBA", "prehistoric"];
/// Marks by strength: the same strength can be told by other marks.
pub(super) const MARKS: [&[&str]; 4] = [
    &[""],
    &["bulb", "ripples"],
    &["bulb, platform", "dorsal scars"],
    &["retouch", "platform, dorsal scars"],
];
pub(super) const LANDOWNERS: [&str; 4] = ["", "Long Farm", "Long Farm", "Far Farm"];
const SETTINGS: [&str; 4] = ["ploughland", "beach", "garden", "pasture"];

pub(super) fn row(random: &mut ChaCha8Rng, index: usize) -> Row {
    let strength: &[&str] = MARKS[random.random_range(0..4)];
    Row {
        number: format!("N{index}"),
        easting: random.random_range(550_010.0..558_990.0_f64),
        northing: random.random_range(542_010.0..547_990.0_f64),
        written: match random.random_range(0..12) {
            0..=3 => Written::Letters { figures: 10 },
            4 | 5 => Written::Letters { figures: 6 },
            6 => Written::Letters { figures: 4 },
            7 | 8 => Written::Degrees,
            9 => Written::Metres,
            10 => Written::ParishOnly,
            _ => Written::Nonsense,
        },
        parish: ["Eastwell", "Westwell"][random.random_range(0..2)],
        class: CLASSES[random.random_range(0..CLASSES.len())],
        period: PERIODS[random.random_range(0..PERIODS.len())],
        count: random.random_range(1..30),
        marks: strength[random.random_range(0..strength.len())],
        setting: SETTINGS[random.random_range(0..SETTINGS.len())],
        standing: ["", "derived", "in situ"][random.random_range(0..3)],
        note: String::new(),
        finder: String::new(),
        date: String::new(),
        material: "",
        landowner: LANDOWNERS[random.random_range(0..LANDOWNERS.len())],
    }
}

/// The register as a file.
pub(super) fn csv(rows: &[Row], to_degrees: &Converter) -> String {
    let mut text = String::from(
        "No,Grid ref,Easting,Northing,Latitude,Longitude,Parish,Class,Period,Count,Marks,Setting,Standing,Note,Finder,Date found,Material,Landowner\n",
    );
    for row in rows {
        let (mut reference, mut e, mut n, mut lat, mut lon) = Default::default();
        match row.written {
            Written::Letters { figures } => {
                let each = (figures / 2) as usize;
                let by = 10_i64.pow(5 - figures / 2);
                let (east, north) = (row.easting as i64 % 100_000 / by, row.northing as i64 % 100_000 / by);
                reference = format!("OV {east:0each$} {north:0each$}");
            }
            Written::Metres => {
                e = format!("{:.0}", row.easting.floor());
                n = format!("{:.0}", row.northing.floor());
            }
            Written::Degrees => {
                let (x, y) = to_degrees.convert_xy(row.easting, row.northing).unwrap();
                lat = format!("{y:.6}");
                lon = format!("{x:.6}");
            }
            Written::ParishOnly => {}
            Written::Nonsense => reference = "by the old gate".to_owned(),
        }
        let Row {
            number,
            parish,
            class,
            period,
            count,
            marks,
            setting,
            standing,
            note,
            finder,
            date,
            material,
            landowner,
            ..
        } = row;
        let parish = if row.written == Written::Nonsense { "" } else { parish };
        writeln!(
            text,
            "{number},{reference},{e},{n},{lat},{lon},{parish},{class},{period},{count},\"{marks}\",{setting},{standing},{note},{finder},{date},{material},{landowner}"
        )
        .unwrap();
    }
    text
}

/// A register drawn at random, as a file.
pub fn random_register(seed: u64, rows: usize) -> String {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let rows: Vec<Row> = (0..rows).map(|index| row(&mut random, index)).collect();
    csv(&rows, &Converter::new(&System::BritishGrid, &System::Wgs84).unwrap())
}
