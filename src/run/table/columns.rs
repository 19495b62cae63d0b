//! Which columns of a table hold its places: as they are named, or by their headings.

use crate::coordinates::notation::Pair;
use crate::fault::{Fault, Result};

/// Where the place stands in a row.
#[derive(Clone, Copy)]
pub(super) enum Spot {
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

/// The separator that the first line which has one has most of, outside quotes.
pub(super) fn separator(start: &[u8]) -> u8 {
    let mut quoted = false;
    let mut counts = [0_usize; 3];
    for byte in start {
        match byte {
            b'"' => quoted = !quoted,
            b'\n' | b'\r' if !quoted && counts != [0; 3] => break,
            b',' if !quoted => counts[0] += 1,
            b';' if !quoted => counts[1] += 1,
            b'\t' if !quoted => counts[2] += 1,
            _ => {}
        }
    }
    let most = (0..3).max_by_key(|index| (counts[*index], std::cmp::Reverse(*index))).unwrap_or(0);
    b",;\t"[most]
}

/// A heading with nothing but its letters and figures, without a unit in brackets: "Est (m)" is "est".
pub(super) fn folded(heading: &str) -> String {
    let bare = heading.trim_end().strip_suffix([')', ']']).and_then(|text| text.rsplit_once(['(', '[']));
    let heading = bare.map_or(heading, |(before, _)| before).to_lowercase();
    heading.chars().filter(|c| c.is_alphanumeric()).collect()
}

/// The columns of places: those named, or else those whose headings say so.
pub(super) fn spot(headings: &[String], columns: &[String]) -> Result<Spot> {
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
