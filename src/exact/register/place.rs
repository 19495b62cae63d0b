//! Where a row says its find was picked up: one column, two columns, or the parish alone.

use super::field::Field;
use super::lines::is_blank;
use super::measure;
use crate::coordinates::notation::{self, Pair, Written};
use crate::coordinates::{Position, System};
use crate::exact::{ExactPlace, Reason};
use crate::fault::Fault;
use crate::study::vocabulary::fold;

/// The cells of a row that have to do with its place; blank where there is none.
pub(super) struct PlaceCells<'a> {
    pub place: &'a str,
    pub easting: &'a str,
    pub northing: &'a str,
    pub latitude: &'a str,
    pub longitude: &'a str,
    pub parish: &'a str,
    pub uncertainty: &'a str,
    pub uncertainty_heading: &'a str,
}

/// How the file writes its places.
pub(super) struct Habit<'a> {
    /// The system of eastings and northings: by heading, or else the study's.
    pub system: &'a System,
    pub decimal_comma: bool,
    /// X and Y are degrees.
    pub degrees: bool,
    /// The uncertainty of a place that states none, metres.
    pub uncertainty_m: Option<f64>,
    /// Letters of the last reference read, for a hint where letters are lost.
    pub letters: Option<&'a str>,
}

/// A place that was read.
pub(super) struct Found {
    pub place: ExactPlace,
    /// The place is in words, and the parish is used.
    pub in_words: bool,
    /// The stated uncertainty could not be read.
    pub uncertainty_unreadable: bool,
}

/// Why there is no place, and which cell is to blame.
pub(super) struct Lost {
    pub reason: Reason,
    pub field: Field,
    pub text: String,
    pub detail: Option<Fault>,
}

/// Reads the place of a row.
pub(super) fn read(cells: &PlaceCells<'_>, habit: &Habit<'_>) -> Result<Found, Box<Lost>> {
    let (place, stated_beside) = split_uncertainty(cells.place);
    let stated = if is_blank(cells.uncertainty) { stated_beside } else { cells.uncertainty };
    let stated_m = measure::uncertainty_m(stated, cells.uncertainty_heading);
    let uncertainty_unreadable = !is_blank(stated) && stated_m.is_none();
    // The letters of the square in one column, its figures in two.
    let letters_apart = (1..=2).contains(&place.len())
        && place.bytes().all(|b| b.is_ascii_alphabetic())
        && !is_blank(cells.easting)
        && !is_blank(cells.northing);
    let joined;
    let place = if letters_apart {
        joined = format!("{place} {} {}", cells.easting.trim(), cells.northing.trim());
        joined.as_str()
    } else {
        place
    };
    let found = |written: Written, text: String| {
        let (x, y) = match written.position {
            Position::Geographic { latitude_deg, longitude_deg } => (longitude_deg, latitude_deg),
            Position::Projected { easting_m, northing_m } => (easting_m, northing_m),
        };
        let place = ExactPlace::Point {
            system: written.system,
            x,
            y,
            square_m: written.square_m,
            uncertainty_m: stated_m.or(written.stated_m).or(habit.uncertainty_m),
            written: text.into_boxed_str(),
        };
        Found { place, in_words: false, uncertainty_unreadable }
    };
    let by_parish = |in_words| Found { place: ExactPlace::ParishOnly, in_words, uncertainty_unreadable };
    let has_parish = !is_blank(cells.parish);
    if !is_blank(place) && !says_no_place(place) {
        return match notation::read(place, Some(habit.system), habit.decimal_comma) {
            Ok(written) => Ok(found(written, place.to_owned())),
            // "by the gate": words, which a person can look up and a program cannot.
            Err(_) if has_parish && !place.bytes().any(|b| b.is_ascii_digit()) => Ok(by_parish(true)),
            Err(fault) => Err(unreadable(fault, Field::Place, place.to_owned(), habit)),
        };
    }
    let (grid, degrees) = ((cells.easting, cells.northing), (cells.latitude, cells.longitude));
    let wgs84 = System::Wgs84;
    for (field, (first, second), pair, system) in [
        (Field::Easting, grid, Pair::EastingNorthing, habit.system),
        (Field::Latitude, degrees, Pair::LatitudeLongitude, &wgs84),
    ] {
        if is_blank(first) && is_blank(second) || says_no_place(first) && says_no_place(second) {
            continue;
        }
        let other = if field == Field::Easting { Field::Northing } else { Field::Longitude };
        let text = format!("{first} {second}");
        if is_blank(first) || is_blank(second) {
            return Err(Box::new(Lost {
                reason: Reason::PlaceUnreadable,
                field: if is_blank(first) { field } else { other },
                text,
                detail: Some(Fault::new("register-half-a-place")),
            }));
        }
        // X and Y in degrees: X is the longitude.
        let read = if field == Field::Easting && habit.degrees {
            notation::read_pair(second, first, Pair::LatitudeLongitude, &wgs84, habit.decimal_comma)
        } else {
            notation::read_pair(first, second, pair, system, habit.decimal_comma)
        };
        return match read {
            Ok(written) => Ok(found(written, text)),
            Err(fault) => Err(unreadable(fault, field, text, habit)),
        };
    }
    if has_parish {
        return Ok(by_parish(false));
    }
    Err(Box::new(Lost {
        reason: Reason::NoPlace,
        field: Field::Place,
        text: cells.place.to_owned(),
        detail: None,
    }))
}

fn unreadable(fault: Fault, field: Field, text: String, habit: &Habit<'_>) -> Box<Lost> {
    let reason = if fault.id.contains("ambiguous") {
        Reason::PlaceAmbiguous
    } else if fault.id.contains("outside") || fault.id.contains("not-carried") {
        Reason::PlaceOutside
    } else {
        Reason::PlaceUnreadable
    };
    let figures = text.chars().filter(char::is_ascii_digit).count();
    let only_figures = text.chars().all(|c| c.is_ascii_digit() || c.is_whitespace());
    let detail = if field == Field::Place && only_figures && matches!(figures, 4 | 6 | 8 | 10) {
        match habit.letters {
            Some(letters) => Fault::new("register-letters-lost").with("letters", letters),
            None => Fault::new("register-letters-lost-unknown"),
        }
    } else {
        fault
    };
    Box::new(Lost { reason, field, text, detail: Some(detail) })
}

/// "OV 5234 4173 ±10 m": the place, and what follows the sign.
fn split_uncertainty(text: &str) -> (&str, &str) {
    for sign in ["±", "+/-", "+-"] {
        if let Some((place, rest)) = text.split_once(sign) {
            return (
                place.trim().trim_end_matches(['(', ',', ';']).trim(),
                rest.trim().trim_end_matches(')'),
            );
        }
    }
    (text.trim(), "")
}

/// Words that stand where a place is not recorded.
fn says_no_place(text: &str) -> bool {
    if text.bytes().any(|b| b.is_ascii_digit()) {
        return false;
    }
    matches!(
        fold(text).as_str(),
        "" | "parish only"
            | "parish"
            | "commune"
            | "commune seule"
            | "unknown"
            | "not known"
            | "unrecorded"
            | "not recorded"
            | "inconnu"
            | "inconnue"
            | "none"
            | "no grid ref"
            | "no ref"
            | "lost"
            | "perdu"
            | "non localise"
            | "unprovenanced"
            | "sans provenance"
            | "no gr"
            | "not given"
            | "na"
            | "n a"
    )
}

/// The letters that a reference begins with: "OV".
pub(super) fn letters_of(place: &str) -> Option<String> {
    let letters: String = place.trim().chars().take_while(char::is_ascii_alphabetic).collect();
    let figures = place.trim()[letters.len()..].trim_start().starts_with(|c: char| c.is_ascii_digit());
    ((1..=2).contains(&letters.len()) && figures).then(|| letters.to_uppercase())
}

#[cfg(test)]
mod tests {
    use super::{letters_of, says_no_place, split_uncertainty};

    #[test]
    fn uncertainty_beside_the_place() {
        assert_eq!(split_uncertainty("OV 5234 4173 ±10 m"), ("OV 5234 4173", "10 m"));
        assert_eq!(split_uncertainty("OV 5234 4173 (+/- 6)"), ("OV 5234 4173", "6"));
        assert_eq!(split_uncertainty("OV 523 417"), ("OV 523 417", ""));
    }

    #[test]
    fn words_for_no_place() {
        assert!(says_no_place("Parish only") && says_no_place("?") && !says_no_place("OV 52 41"));
        assert_eq!(letters_of("ov523417").as_deref(), Some("OV"));
        assert_eq!(letters_of("by 3 gates"), Some("BY".to_owned()));
        assert_eq!(letters_of("523 417"), None);
    }
}
