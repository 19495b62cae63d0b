//! One member's phone: fixes in degrees with their accuracy, ISO dates and times, plain UTF-8.

use rand::Rng;
use rand_chacha::ChaCha12Rng;
use strew::study::vocabulary::{Class, Mark, Period, Setting};

use super::faults::{Line, Lines};
use super::society::plain;
use super::{Find, Written};
use crate::island::Island;
use crate::raster::Place;
use crate::write::geojson::Degrees;

const HEADINGS: [&str; 17] = [
    "id",
    "when",
    "latitude",
    "longitude",
    "accuracy (m)",
    "what",
    "period",
    "how many",
    "platform",
    "bulb",
    "ripples",
    "scars",
    "retouch",
    "found in",
    "length (mm)",
    "who",
    "note",
];
const LATITUDE: usize = 2;
const LONGITUDE: usize = 3;
const WHAT: usize = 5;
const PERIOD: usize = 6;
const COUNT: usize = 7;
const LENGTH: usize = 14;
const NOTE: usize = 16;

pub fn write(
    island: &Island,
    degrees: &Degrees,
    finds: Vec<Find>,
    rng: &mut ChaCha12Rng,
) -> Result<Written, Box<dyn std::error::Error>> {
    let mut log = Lines { lines: Vec::new() };
    for (i, find) in finds.into_iter().enumerate() {
        let cells = row(degrees, &find, i + 1, rng)?;
        log.lines.push(Line { cells, find: Some(find), faults: Vec::new() });
    }
    plant(island, degrees, &mut log, rng)?;
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::new());
    writer.write_record(HEADINGS)?;
    for line in &log.lines {
        writer.write_record(&line.cells)?;
    }
    Ok(Written { name: "finds-phone.csv", bytes: writer.into_inner()?, faults: log.faults(1) })
}

fn row(
    degrees: &Degrees,
    find: &Find,
    id: usize,
    rng: &mut ChaCha12Rng,
) -> Result<Vec<String>, strew::fault::Fault> {
    let accuracy = rng.random_range(3..=9);
    // The fix wanders within its accuracy.
    let wander = |rng: &mut ChaCha12Rng| rng.random_range(-0.4..0.4) * f64::from(accuracy);
    let fix = Place { x: find.at.x + wander(rng), y: find.at.y + wander(rng) };
    let (longitude, latitude) = degrees.of(fix)?;
    let day = find.day;
    let when = format!(
        "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z",
        day.year,
        day.month,
        day.day,
        rng.random_range(9..16),
        rng.random_range(0..60),
        rng.random_range(0..60)
    );
    let seen = |mark| if find.marks.has(mark) { "x" } else { "" }.to_owned();
    Ok(vec![
        id.to_string(),
        when,
        format!("{latitude:.6}"),
        format!("{longitude:.6}"),
        accuracy.to_string(),
        what(find.class).to_lowercase(),
        period(find.period).to_owned(),
        find.count.to_string(),
        seen(Mark::Platform),
        seen(Mark::Bulb),
        seen(Mark::Ripples),
        seen(Mark::DorsalScars),
        seen(Mark::Retouch),
        found_in(find.setting).to_owned(),
        find.length_mm.map_or(String::new(), |mm| mm.to_string()),
        find.finder.to_owned(),
        if rng.random_bool(0.06) { "photo taken".to_owned() } else { String::new() },
    ])
}

fn what(class: Class) -> &'static str {
    match class {
        Class::Flake => "flake",
        Class::Chip => "chip",
        Class::IrregularWaste => "chunk",
        Class::Blade => "blade",
        Class::Core => "core",
        Class::CoreTrimming => "core tablet",
        Class::Retouched => "retouched flake",
        Class::Scraper => "scraper",
        Class::Piercer => "piercer",
        other => plain(other),
    }
}

fn period(period: Period) -> &'static str {
    match period {
        Period::Undated => "",
        Period::LateMesolithic => "late mesolithic",
        Period::Mesolithic => "mesolithic",
        Period::EarlyNeolithic => "early neolithic",
        Period::Neolithic => "neolithic",
        Period::LateNeolithic => "late neolithic",
        Period::LateNeolithicEarlyBronzeAge => "late neolithic to early bronze age",
        Period::EarlyBronzeAge => "early bronze age",
        Period::MesolithicEarlyNeolithic => "mesolithic to early neolithic",
        _ => "prehistoric",
    }
}

fn found_in(setting: Setting) -> &'static str {
    match setting {
        Setting::Ploughland => "ploughed field",
        Setting::Pasture => "grass",
        Setting::Path => "path",
        Setting::Beach => "beach",
        _ => "",
    }
}

fn plant(
    island: &Island,
    degrees: &Degrees,
    log: &mut Lines,
    rng: &mut ChaCha12Rng,
) -> Result<(), strew::fault::Fault> {
    let field = |find: &Find, _: &[String]| find.setting == Setting::Ploughland && find.class == Class::Flake;
    let swapped = log.pick(rng, field);
    log.lines[swapped].cells.swap(LATITUDE, LONGITUDE);
    log.lines[swapped].faults.push(("latitude-longitude-swapped", "set-aside:place-outside"));
    let lost = log.pick(rng, field);
    log.lines[lost].cells[LATITUDE] = "0.000000".to_owned();
    log.lines[lost].cells[LONGITUDE] = "0.000000".to_owned();
    log.lines[lost].faults.push(("no-fix", "set-aside:place-outside"));
    // A fix taken before the phone had found itself: half a mile out to sea.
    let out = log.pick(rng, field);
    let beach = &island.beaches[1];
    let middle = beach.back[beach.back.len() / 2];
    let (longitude, latitude) = degrees.of(Place { x: middle.x + 500.0, y: middle.y - 800.0 })?;
    log.lines[out].cells[LATITUDE] = format!("{latitude:.6}");
    log.lines[out].cells[LONGITUDE] = format!("{longitude:.6}");
    log.lines[out].faults.push(("fix-at-sea", "doubt:in-the-sea"));
    let (longitude, latitude) = degrees.of(island.ground(crate::island::Patch::CliffField).middle)?;
    log.spoil(rng, ("place-in-note", "doubt:note-gives-place"), NOTE, field, |_, _| {
        format!("blades too, at {latitude:.5}, {longitude:.5}")
    });
    log.spoil(rng, ("natural-flint", "set-aside:natural"), WHAT, field, |_, _| "natural flint".to_owned());
    log.spoil(rng, ("maybe-natural", "doubt:maybe-natural"), NOTE, field, |_, _| {
        "could be natural".to_owned()
    });
    log.spoil(rng, ("range-became-date", "set-aside:count-unreadable"), COUNT, field, |_, _| {
        "2023-05-03".to_owned()
    });
    log.spoil(
        rng,
        ("queried-period", "doubt:period-queried"),
        PERIOD,
        |f, _| f.class == Class::Blade,
        |_, _| "mesolithic?".to_owned(),
    );
    for _ in 0..2 {
        let tool = |find: &Find, _: &[String]| {
            find.class == Class::Core && find.length_mm.is_some_and(|mm| mm % 10 != 0)
        };
        log.spoil(rng, ("centimetres", "doubt:length-unlikely"), LENGTH, tool, |_, find| {
            find.length_mm.map_or(String::new(), |mm| format!("{:.1}", f64::from(mm) / 10.0))
        });
    }
    let twice = log.pick(rng, field);
    let copy = log.copy(twice, rng);
    log.lines[copy].faults.push(("row-sent-twice", "doubt:row-twice"));
    Ok(())
}
