//! Places in text that say what they are: references with letters, military references, packed degrees, cells.

use std::sync::LazyLock;

use regex::Regex;

use super::frames::Frames;
use crate::coordinates::notation::{self, Written};
use crate::coordinates::{Position, System};

/// A place as understood, and whether it was read the wrong way round.
pub(super) struct Noted {
    pub written: Written,
    pub swapped: bool,
}

/// Two letters and two groups of figures, or one group: "OV 764 312", "ov76453123", "O V 764/312".
static LETTERS: LazyLock<Option<Regex>> = LazyLock::new(|| {
    Regex::new(r"(?i)([A-HJ-Z])[ \u{a0}]?([A-HJ-Z])[ \u{a0}:._/,-]{0,3}([0-9]{1,12})(?:[ \u{a0}\u{202f}/,._:-]{1,3}([0-9]{1,6}))?").ok()
});

/// One letter, where Ireland's grid is in reach.
static LETTER: LazyLock<Option<Regex>> = LazyLock::new(|| {
    Regex::new(r"(?i)([A-HJ-Z])[ \u{a0}:._/,-]{0,3}([0-9]{2,10})(?:[ \u{a0}/,._:-]{1,3}([0-9]{2,5}))?").ok()
});

/// The same figures one by one: "OV 7 6 4 5 3 1 2 3".
static SPREAD: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"(?i)([A-HJ-Z]) ?([A-HJ-Z]) ?((?:[0-9] ){5,11}[0-9])").ok());

/// Forms that are read as they stand.
static OTHERS: LazyLock<Vec<Regex>> = LazyLock::new(|| {
    [
        // Military: zone, band, square, figures.
        r"(?i)[0-9]{1,2} ?[C-HJ-NP-X] ?[A-HJ-NP-Z]{2} ?[0-9]{2,5} ?[0-9]{2,5}",
        // Packed degrees.
        r"[+-][0-9]{2,6}(?:\.[0-9]+)?[+-][0-9]{3,7}(?:\.[0-9]+)?(?:[+-][0-9]+(?:\.[0-9]+)?)?(?:CRSWGS_84)?/?",
        // Cells of the European grid.
        r"(?i)(?:CRS[0-9]+RES)?[0-9]{1,4}k?mN[0-9]+E[0-9]+",
    ]
    .iter()
    .filter_map(|form| Regex::new(form).ok())
    .collect()
});

/// Every place of a text that says what it is.
pub(super) fn noted(text: &str, frames: &Frames) -> Vec<Noted> {
    let mut found = Vec::new();
    let has = |system: &System| frames.frames.iter().any(|frame| frame.system == *system);
    if has(&System::BritishGrid) {
        for captures in LETTERS.iter().flat_map(|form| form.captures_iter(text)) {
            let (Some(whole), Some(a), Some(b), Some(one)) =
                (captures.get(0), captures.get(1), captures.get(2), captures.get(3))
            else {
                continue;
            };
            let letters = format!("{}{}", a.as_str(), b.as_str());
            let both = captures.get(4).map(|two| (one.as_str(), two.as_str()));
            // "OV 764 312" is a reference; in "OV 764312 1998" the year is none of it.
            // In a name, capitals may follow a small letter: "findOV76453123".
            let capitals = letters.bytes().all(|letter| letter.is_ascii_uppercase());
            let before = text.get(..whole.start()).and_then(|text| text.chars().next_back());
            let parted = capitals && before.is_some_and(|c| c.is_ascii_lowercase());
            let ends = |end: usize| free(text, if parted { 0 } else { whole.start() }, end);
            match both {
                Some((one, two)) if one.len() == two.len() && ends(whole.end()) => {
                    take(&mut found, &format!("{letters} {one} {two}"), None, false);
                    take(&mut found, &format!("{letters} {two} {one}"), None, true);
                }
                _ if ends(one.end()) && one.len() % 2 == 0 => {
                    take(&mut found, &format!("{letters}{}", one.as_str()), None, false);
                    let (first, second) = one.as_str().split_at(one.len() / 2);
                    take(&mut found, &format!("{letters} {second} {first}"), None, true);
                }
                _ => {}
            }
        }
        for captures in SPREAD.iter().flat_map(|form| form.captures_iter(text)) {
            let (Some(a), Some(b), Some(figures)) = (captures.get(1), captures.get(2), captures.get(3))
            else {
                continue;
            };
            let figures: String = figures.as_str().split(' ').collect();
            if figures.len().is_multiple_of(2) {
                take(&mut found, &format!("{}{}{figures}", a.as_str(), b.as_str()), None, false);
            }
        }
    }
    if let Some(irish) = frames
        .frames
        .iter()
        .map(|frame| &frame.system)
        .find(|s| s.has_letters() && **s != System::BritishGrid)
    {
        for captures in LETTER.iter().flat_map(|form| form.captures_iter(text)) {
            let (Some(whole), Some(letter), Some(one)) = (captures.get(0), captures.get(1), captures.get(2))
            else {
                continue;
            };
            if !free(text, whole.start(), whole.end()) {
                continue;
            }
            let two = captures.get(3).map_or("", |two| two.as_str());
            take(&mut found, &format!("{} {} {two}", letter.as_str(), one.as_str()), Some(irish), false);
        }
    }
    for form in OTHERS.iter() {
        for place in form.find_iter(text).filter(|place| free(text, place.start(), place.end())) {
            take(&mut found, place.as_str(), None, false);
        }
    }
    found
}

/// Whether nothing before or after belongs to the same word.
fn free(text: &str, start: usize, end: usize) -> bool {
    let word = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let before = text.get(..start).and_then(|text| text.chars().next_back());
    let after = text.get(end..).and_then(|text| text.chars().next());
    // An underscore parts the words of a file's name.
    !word(before) && !digit(after) && !word(after)
}

fn take(found: &mut Vec<Noted>, text: &str, system: Option<&System>, swapped: bool) {
    if let Ok(written) = notation::read(text, system, false) {
        found.push(Noted { written, swapped });
    }
}

/// The south-west corner of what was written, or the place itself, east first.
pub(super) fn corner(written: &Written) -> (f64, f64) {
    match written.corner.unwrap_or(written.position) {
        Position::Projected { easting_m, northing_m } => (easting_m, northing_m),
        Position::Geographic { latitude_deg, longitude_deg } => (longitude_deg, latitude_deg),
    }
}
