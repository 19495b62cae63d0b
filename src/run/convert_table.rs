//! Converting a table: each row goes out as it came in, with columns added at its end.

use std::io::{BufRead, BufReader, Read, Write};

use super::convert::{Converted, Places};
use super::target::Target;
use crate::coordinates::Position;
use crate::coordinates::notation::Pair;
use crate::fault::{Fault, Result};
use crate::words::Language;

/// How many rows there were.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Rows {
    /// Rows read, without the header.
    pub read: u64,
    /// Rows whose place could not be converted; each has its reason in the column `error`.
    pub failed: u64,
}

/// Where the place stands in a row.
enum Spot {
    One(usize),
    Two(usize, usize, Pair),
}

/// Headings of a column that holds whole places, as people write them (lower case, letters alone).
const WHOLE: &[&str] = &[
    "place",
    "gridref",
    "gridreference",
    "ngr",
    "osgridref",
    "osgridreference",
    "gr",
    "reference",
    "ref",
    "coordinates",
    "coords",
    "location",
    "position",
    "latlong",
    "latlon",
    "nationalgridreference",
    "lieu",
    "coordonnees",
    "coordonnées",
    "localisation",
    "carroyage",
    "findspot",
];
/// Headings of two columns, each pair in the order that [`Pair`] names.
const PAIRS: &[(&[&str], &[&str], Pair)] = &[
    (
        &["latitude", "lat", "latdeg", "latitudedeg"],
        &["longitude", "long", "lon", "lng", "londeg", "longitudedeg"],
        Pair::LatitudeLongitude,
    ),
    (
        &["easting", "eastings", "east", "e", "x", "xl93", "xlambert", "est", "eastingm"],
        &["northing", "northings", "north", "n", "y", "yl93", "ylambert", "nord", "northingm"],
        Pair::EastingNorthing,
    ),
];

/// The columns added, in order; easting and northing or latitude and longitude come first.
const ADDED: [&str; 6] =
    ["reference", "understood_as", "square_m", "uncertainty_m", "operation", "accuracy_m"];

/// Converts a table of separated values (comma, semicolon or tab; UTF-8 or Windows-1252), row by row, so
/// that its length does not matter. `columns` names the place's column or its two; they are found by
/// their headings where it is empty.
pub fn convert_table(
    input: impl Read,
    output: &mut dyn Write,
    places: &mut Places,
    columns: &[String],
    to: &Target,
    language: Language,
) -> Result<Rows> {
    let mut input = BufReader::with_capacity(1 << 16, input);
    let start = input.fill_buf().map_err(unreadable)?;
    let bom = start.starts_with(b"\xef\xbb\xbf");
    let separator = separator(start);
    if bom {
        input.consume(3);
    }
    let mut reader = csv::ReaderBuilder::new().delimiter(separator).flexible(true).from_reader(input);
    let mut writer = csv::WriterBuilder::new().delimiter(separator).flexible(true).from_writer(output);
    let headings: Vec<String> = reader.byte_headers().map_err(unreadable)?.iter().map(decoded).collect();
    let spot = spot(&headings, columns)?;
    let names = added(&headings, to);
    writer.write_record(headings.iter().chain(&names)).map_err(unwritable)?;
    let mut rows = Rows::default();
    let mut record = csv::ByteRecord::new();
    while reader.read_byte_record(&mut record).map_err(unreadable)? {
        rows.read += 1;
        let mut cells: Vec<String> = record.iter().map(decoded).collect();
        if cells.len() < headings.len() {
            cells.resize(headings.len(), String::new());
        }
        let cell = |index: usize| cells.get(index).map_or("", String::as_str);
        let converted = match spot {
            Spot::One(index) => places.convert(cell(index)),
            Spot::Two(first, second, pair) => places.convert_pair(cell(first), cell(second), pair),
        };
        match converted {
            Ok(converted) => cells.extend(filled(&converted)),
            Err(fault) => {
                rows.failed += 1;
                cells.extend(vec![String::new(); names.len() - 1]);
                cells.push(said(&fault, language));
            }
        }
        writer.write_record(&cells).map_err(unwritable)?;
    }
    writer.flush().map_err(|why| unwritable(why.into()))?;
    Ok(rows)
}

/// A fault and what to do about it, in one cell.
fn said(fault: &Fault, language: Language) -> String {
    let text = fault.text(language);
    match fault.hint(language) {
        Some(hint) => format!("{text}. {hint}"),
        None => text,
    }
}

fn unreadable(why: impl std::fmt::Display) -> Fault {
    Fault::new("convert-table-unreadable").with("why", why)
}

fn unwritable(why: csv::Error) -> Fault {
    Fault::new("convert-not-written").with("why", why)
}

/// A cell's text: UTF-8, or else Windows-1252 (which never fails).
fn decoded(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.to_owned(),
        Err(_) => encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes).0.into_owned(),
    }
}

/// The separator that the first line has most of, outside quotes.
fn separator(start: &[u8]) -> u8 {
    let mut quoted = false;
    let mut counts = [0_usize; 3];
    for byte in start {
        match byte {
            b'"' => quoted = !quoted,
            b'\n' if !quoted => break,
            b',' if !quoted => counts[0] += 1,
            b';' if !quoted => counts[1] += 1,
            b'\t' if !quoted => counts[2] += 1,
            _ => {}
        }
    }
    let most = (0..3).max_by_key(|index| (counts[*index], std::cmp::Reverse(*index))).unwrap_or(0);
    b",;\t"[most]
}

/// A heading with nothing but its letters and figures.
fn folded(heading: &str) -> String {
    heading.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect()
}

fn spot(headings: &[String], columns: &[String]) -> Result<Spot> {
    let folded_headings: Vec<String> = headings.iter().map(|heading| folded(heading)).collect();
    let named = |name: &String| {
        headings
            .iter()
            .position(|heading| heading.trim() == name.trim())
            .or_else(|| folded_headings.iter().position(|heading| *heading == folded(name)))
            .ok_or_else(|| {
                Fault::new("convert-no-column").with("name", name).with("known", headings.join(", "))
            })
    };
    let among = |known: &[&str]| folded_headings.iter().position(|heading| known.contains(&heading.as_str()));
    match columns {
        [] => {
            for (first, second, pair) in PAIRS {
                if let (Some(first), Some(second)) = (among(first), among(second)) {
                    return Ok(Spot::Two(first, second, *pair));
                }
            }
            among(WHOLE)
                .map(Spot::One)
                .ok_or_else(|| Fault::new("convert-no-place-column").with("known", headings.join(", ")))
        }
        [one] => Ok(Spot::One(named(one)?)),
        [first, second] => {
            let (first, second) = (named(first)?, named(second)?);
            let latitude = |index: usize| PAIRS[0].0.contains(&folded_headings[index].as_str());
            let longitude = |index: usize| PAIRS[0].1.contains(&folded_headings[index].as_str());
            let northing = |index: usize| PAIRS[1].1.contains(&folded_headings[index].as_str());
            Ok(if latitude(first) {
                Spot::Two(first, second, Pair::LatitudeLongitude)
            } else if longitude(first) {
                Spot::Two(second, first, Pair::LatitudeLongitude)
            } else if northing(first) {
                Spot::Two(second, first, Pair::EastingNorthing)
            } else {
                Spot::Two(first, second, Pair::EastingNorthing)
            })
        }
        _ => Err(Fault::new("convert-many-columns")),
    }
}

/// The headings of the added columns; one that the table has already gets the system's name behind it.
fn added(headings: &[String], to: &Target) -> Vec<String> {
    let place = if to.in_degrees() { ["latitude", "longitude"] } else { ["easting", "northing"] };
    let all = place.iter().chain(&ADDED).chain(&["error"]);
    all.map(|name| {
        let mut name = (*name).to_owned();
        while headings.iter().any(|heading| heading.trim().eq_ignore_ascii_case(&name)) {
            name = format!("{name} {to}");
        }
        name
    })
    .collect()
}

/// The added cells of a row that was converted.
fn filled(converted: &Converted) -> Vec<String> {
    let (first, second) = match converted.position {
        Position::Geographic { latitude_deg, longitude_deg } => {
            (plain(latitude_deg, 9), plain(longitude_deg, 9))
        }
        Position::Projected { easting_m, northing_m } => (plain(easting_m, 3), plain(northing_m, 3)),
    };
    vec![
        first,
        second,
        converted.reference.clone().unwrap_or_default(),
        converted.written.understood_as.trim_start_matches("notation-").to_owned(),
        plain(converted.written.square_m, 4),
        converted.uncertainty_m.map_or_else(String::new, |metres| plain(metres, 2)),
        converted.operation.description.clone(),
        converted.operation.accuracy_m.map_or_else(String::new, |metres| plain(metres, 3)),
        String::new(),
    ]
}

/// A number for a machine: a point, no grouping, no idle zeros.
fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
