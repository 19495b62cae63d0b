//! The society's day-books as copied into a spreadsheet: letter references, a title above the headings,
//! headings for the years, dittos, a line of totals; commas, UTF-8 with a byte order mark.

use rand::Rng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Mark, Period, Setting, Standing};

use super::faults::{Line, Lines};
use super::{Find, Written};
use crate::island::Island;
use crate::raster::Place;

const TITLE: [&str; 2] =
    ["Hernsey Field Society: register of worked flint", "copied from the day-books by E. Oldacre"];
const HEADINGS: [&str; 17] = [
    "No.",
    "Date found",
    "Grid ref.",
    "Parish",
    "Field name",
    "Object",
    "Period",
    "No. found",
    "Marks",
    "Land use",
    "Standing",
    "Length (mm)",
    "Found by",
    "Kept at",
    "Landowner",
    "Permission",
    "Notes",
];
pub const NUMBER: usize = 0;
pub const DATE: usize = 1;
pub const REFERENCE: usize = 2;
pub const PARISH: usize = 3;
pub const FIELD: usize = 4;
pub const OBJECT: usize = 5;
pub const PERIOD: usize = 6;
pub const COUNT: usize = 7;
pub const LENGTH: usize = 11;
pub const FINDER: usize = 12;
const LANDOWNER: usize = 14;
pub const NOTES: usize = 16;

pub fn write(
    island: &Island,
    finds: Vec<Find>,
    rng: &mut ChaCha12Rng,
) -> Result<Written, Box<dyn std::error::Error>> {
    let mut book = Lines { lines: Vec::new() };
    let mut numbers = std::collections::BTreeMap::new();
    for find in finds {
        let number = numbers.entry(find.day.year).or_insert(0u32);
        *number += 1;
        let cells = row(island, &find, *number, rng);
        book.lines.push(Line { cells, find: Some(find), faults: Vec::new() });
    }
    super::society_faults::plant(island, &mut book, rng);
    dittos(&mut book, rng);
    year_headings(&mut book);
    let total: u32 = book.lines.iter().filter_map(|line| line.find.as_ref()).map(|find| find.count).sum();
    let mut last = vec![String::new(); HEADINGS.len()];
    last[NUMBER] = "Total".to_owned();
    last[COUNT] = total.to_string();
    book.lines.push(Line { cells: last, find: None, faults: vec![("total-line", "set-aside:total-line")] });

    let mut writer = csv::WriterBuilder::new()
        .flexible(true)
        .terminator(csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    for title in TITLE {
        let mut cells = vec![""; HEADINGS.len()];
        cells[0] = title;
        writer.write_record(&cells)?;
    }
    writer.write_record(HEADINGS)?;
    for line in &book.lines {
        writer.write_record(&line.cells)?;
    }
    Ok(Written {
        name: "finds-society.csv",
        bytes: writer.into_inner()?,
        faults: book.faults(TITLE.len() as u64 + 1),
    })
}

/// The reference of a place: letters and so many figures, cut, never rounded.
pub fn reference(at: Place, figures: u32) -> String {
    let half = figures / 2;
    let cut = |metres: f64| {
        let within = (metres.floor() as u64) % 100_000;
        format!("{:0width$}", within / 10u64.pow(5 - half), width = half as usize)
    };
    format!("OV {} {}", cut(at.x), cut(at.y))
}

fn row(island: &Island, find: &Find, number: u32, rng: &mut ChaCha12Rng) -> Vec<String> {
    let figures = match rng.random_range(0..100) {
        0..76 => 6,
        76..84 => 4,
        84..96 => 8,
        _ => 10,
    };
    let mut place = if find.parish_only { String::new() } else { reference(find.at, figures) };
    match rng.random_range(0..10) {
        0 => place = place.replace(' ', ""),
        1 => place = place.to_lowercase(),
        _ => {}
    }
    let day = find.day;
    let months = ["Jan", "Feb", "March", "April", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec"];
    let date = match rng.random_range(0..10) {
        0..3 => format!("{:02}/{:02}/{}", day.day, day.month, day.year),
        3..9 => format!("{} {} {}", day.day, months[day.month as usize - 1], day.year),
        _ => format!("{} {}", months[day.month as usize - 1], day.year),
    };
    let count = match find.count {
        1 if rng.random_bool(0.5) => String::new(),
        3 if rng.random_bool(0.2) => "several".to_owned(),
        5 | 6 if rng.random_bool(0.3) => format!("{}+", find.count),
        count if count > 7 && rng.random_bool(0.4) => format!("c. {count}"),
        count => count.to_string(),
    };
    let note = if find.parish_only {
        ["old box, findspot not kept", "given by a farmer", "from the school collection"]
            .choose(rng)
            .copied()
            .unwrap_or("")
    } else if rng.random_bool(0.1) {
        [
            "patinated white",
            "broken, recent",
            "burnt",
            "fresh",
            "plough-damaged edge",
            "cortex on dorsal face",
        ]
        .choose(rng)
        .copied()
        .unwrap_or("")
    } else {
        ""
    };
    let field = find.ground.map_or("", |i| island.walked[i].name.as_str());
    [
        format!("{:02}/{number:03}", day.year % 100).as_str(),
        &date,
        &place,
        find.parish,
        field,
        object(find.class, rng),
        period(find.period, rng),
        &count,
        &marks(find, rng),
        setting(find.setting),
        standing(find.standing),
        &find.length_mm.map_or(String::new(), |mm| mm.to_string()),
        find.finder,
        if rng.random_bool(0.85) { "Society room" } else { "" },
        &landowner(field, find.parish),
        ["yes", "yes", "yes, verbal", ""].choose(rng).copied().unwrap_or(""),
        note,
    ]
    .map(str::to_owned)
    .to_vec()
}

/// Whose land a field is, by its name alone. Beaches and paths are nobody's that the day-books name.
fn landowner(field: &str, parish: &str) -> String {
    match field.split(' ').next().unwrap_or_default() {
        "Long" | "Far" | "Upper" | "Nether" => format!("{parish} Grange"),
        "Little" | "Great" | "Middle" | "Stony" | "Crooked" | "Home" => format!("{parish} Home Farm"),
        "Lantern" => "Lantern House".to_owned(),
        _ => String::new(),
    }
}

fn marks(find: &Find, rng: &mut ChaCha12Rng) -> String {
    let words: Vec<&str> = find
        .marks
        .list()
        .map(|mark| match mark {
            Mark::Platform => "platform",
            Mark::Bulb => "bulb",
            Mark::Ripples => "ripples",
            Mark::DorsalScars => "dorsal scars",
            Mark::Retouch => "retouch",
        })
        .collect();
    words.join(if rng.random_bool(0.8) { ", " } else { " + " })
}

fn object(class: Class, rng: &mut ChaCha12Rng) -> &'static str {
    let words: &[&'static str] = match class {
        Class::Flake => &["Flake", "Flake", "flake", "Waste flake", "Flakes"],
        Class::Chip => &["Chip", "Spall"],
        Class::IrregularWaste => &["Irregular waste", "Shatter", "Chunk"],
        Class::Blade => &["Blade", "Blades", "blade"],
        Class::Core => &["Core", "Core", "Core fragment", "Blade core", "Flake core"],
        Class::CoreTrimming => &["Core rejuvenation flake", "Core tablet", "Crested blade"],
        Class::Retouched => &["Retouched flake", "Retouched piece", "Misc. retouch"],
        Class::Scraper => &["Scraper", "End scraper", "Side scraper", "scraper"],
        Class::Piercer => &["Piercer", "Awl"],
        Class::LeafArrowhead => &["Leaf arrowhead"],
        Class::BarbedTangedArrowhead => &["Barbed and tanged arrowhead"],
        Class::PolishedAxehead => &["Polished axe fragment", "Polished axe"],
        Class::Unclassified => &["Worked flint"],
        other => return plain(other),
    };
    words.choose(rng).copied().unwrap_or(words[0])
}

/// The vocabulary's own name, as a person would type it.
pub fn plain(class: Class) -> &'static str {
    match class {
        Class::Bladelet => "Bladelet",
        Class::ThumbnailScraper => "Thumbnail scraper",
        Class::Microlith => "Microlith",
        Class::Microburin => "Microburin",
        Class::ChiselArrowhead => "Chisel arrowhead",
        Class::ObliqueArrowhead => "Oblique arrowhead",
        Class::TranchetAxehead => "Tranchet axe",
        Class::Axehead => "Axehead",
        Class::Dagger => "Dagger",
        Class::Notch => "Notched flake",
        Class::Serrated => "Serrated flake",
        Class::Knife => "Knife",
        Class::PlanoConvexKnife => "Plano-convex knife",
        Class::Burin => "Burin",
        Class::Truncation => "Truncated blade",
        Class::Hammerstone => "Hammerstone",
        Class::Fabricator => "Fabricator",
        other => other.name(),
    }
}

fn period(period: Period, rng: &mut ChaCha12Rng) -> &'static str {
    let words: &[&'static str] = match period {
        Period::Undated => &["", "", "", "unknown", "?"],
        Period::LateMesolithic => &["Late Mesolithic", "Late Meso", "LM"],
        Period::Mesolithic => &["Mesolithic", "Meso"],
        Period::EarlyNeolithic => &["Early Neolithic", "Early Neo", "EN", "4000-3500 BC"],
        Period::Neolithic => &["Neolithic", "Neo"],
        Period::LateNeolithic => &["Late Neolithic", "Late Neo"],
        Period::LateNeolithicEarlyBronzeAge => &["LN/EBA", "Late Neolithic to Early Bronze Age", "LN/EBA"],
        Period::EarlyBronzeAge => &["Early Bronze Age", "EBA"],
        Period::MesolithicEarlyNeolithic => &["Meso/Early Neo", "Late Mesolithic/Early Neolithic"],
        _ => &["Prehistoric"],
    };
    words.choose(rng).copied().unwrap_or(words[0])
}

fn setting(setting: Setting) -> &'static str {
    match setting {
        Setting::Ploughland => "plough",
        Setting::Pasture => "pasture",
        Setting::Garden => "garden",
        Setting::Path => "cliff path",
        Setting::Beach => "beach",
        Setting::CliffSection => "cliff section",
        Setting::CliffFall => "cliff fall",
        Setting::BroughtIn => "hardcore",
        _ => "",
    }
}

fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::InPlace => "in situ",
        Standing::Disturbed => "disturbed",
        Standing::Derived => "rolled",
        Standing::BroughtIn => "brought in",
        Standing::Unknown => "",
    }
}

/// Writes ditto marks where a row repeats the one above.
fn dittos(book: &mut Lines, rng: &mut ChaCha12Rng) {
    let before: Vec<Vec<String>> = book.lines.iter().map(|line| line.cells.clone()).collect();
    for i in 1..before.len() {
        let same_year = |i: usize| book.lines[i].find.as_ref().map(|find| find.day.year);
        if !book.lines[i].faults.is_empty()
            || !book.lines[i - 1].faults.is_empty()
            || same_year(i) != same_year(i - 1)
            || !rng.random_bool(0.4)
        {
            continue;
        }
        let ditto = if rng.random_bool(0.6) { "\"" } else { "do." };
        for column in [DATE, REFERENCE, PARISH, FIELD, FINDER, LANDOWNER] {
            if before[i].len() > column
                && before[i][column] == before[i - 1][column]
                && !before[i][column].is_empty()
            {
                book.lines[i].cells[column] = ditto.to_owned();
            }
        }
    }
}

/// A blank line and a heading before each year's finds.
fn year_headings(book: &mut Lines) {
    let mut year = 0;
    let mut lines = Vec::new();
    for line in std::mem::take(&mut book.lines) {
        if let Some(find) = line.find.as_ref().filter(|find| find.day.year != year) {
            year = find.day.year;
            if !lines.is_empty() {
                lines.push(Line { cells: vec![String::new(); HEADINGS.len()], ..Line::default() });
            }
            let mut cells = vec![String::new(); HEADINGS.len()];
            cells[0] = year.to_string();
            lines.push(Line { cells, find: None, faults: vec![("year-heading", "set-aside:heading")] });
        }
        lines.push(line);
    }
    book.lines = lines;
}
