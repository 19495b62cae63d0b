//! Latitude and longitude in every usual style: decimal degrees, degrees and minutes, degrees, minutes
//! and seconds; signs or letters, before or after; marks, words or spaces; decimal comma or point.

use super::scan::{Comma, Number, Token, scan};
use super::{Position, System, Written};
use crate::fault::{Fault, Result};

/// Metres in a degree of the equator of WGS84 (2πa / 360). The square that a writing implies comes from
/// this alone, wherever the place lies, so that it tells nothing of the latitude.
const DEGREE_M: f64 = 111_320.0;

/// No writing names less.
const FINEST_M: f64 = 0.0001;

/// Ranks of the parts of an angle.
const DEGREES: usize = 0;
const MINUTES: usize = 1;
const SECONDS: usize = 2;

/// Which of the two a letter or a label makes an angle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Axis {
    Latitude,
    Longitude,
}

/// One angle as written.
#[derive(Debug, Default)]
struct Angle {
    parts: Vec<(Number, Option<usize>)>,
    letter: Option<char>,
    label: Option<Axis>,
}

impl Angle {
    fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.letter.is_none() && self.label.is_none()
    }

    fn axis(&self) -> Option<Axis> {
        let lettered = self.letter.map(|letter| match letter {
            'N' | 'S' => Axis::Latitude,
            _ => Axis::Longitude,
        });
        lettered.or(self.label)
    }

    fn marked(&self) -> bool {
        self.letter.is_some() || self.label.is_some() || self.parts.iter().any(|(_, mark)| mark.is_some())
    }

    /// Degrees, south and west negative.
    fn value(&self) -> Result<f64> {
        let unreadable = || Fault::new("place-unreadable");
        let (first, rest) = self.parts.split_first().ok_or_else(unreadable)?;
        let last = self.parts.len() - 1;
        if self.parts.iter().take(last).any(|(number, _)| !number.fraction.is_empty())
            || rest.iter().any(|(number, _)| number.sign.is_some())
            || rest.iter().any(|(number, _)| number.whole.len() > 2)
        {
            return Err(unreadable());
        }
        if rest.iter().any(|(number, _)| number.size() >= 60.0) {
            return Err(Fault::new("place-unreadable-sixty"));
        }
        if self.letter.is_some() && first.0.sign == Some('-') {
            return Err(Fault::new("place-ambiguous-sign"));
        }
        let size = self.parts.iter().rev().fold(0.0, |sum, (number, _)| number.size() + sum / 60.0);
        let negative = first.0.sign == Some('-') || matches!(self.letter, Some('S' | 'W'));
        Ok(if negative { -size } else { size })
    }

    /// The square that the last written figure implies, metres.
    fn square_m(&self) -> f64 {
        let decimals = self.parts.last().map_or(0, |(number, _)| number.fraction.len());
        let unit = DEGREE_M / 60_f64.powi(self.parts.len() as i32 - 1);
        // More decimals than a tenth of a millimetre come from a computer, not from a measurement.
        (unit / 10_f64.powi(decimals.min(20) as i32)).max(FINEST_M)
    }
}

/// Reads latitude and longitude; `None` where the text does not have the shape of them.
pub fn read(text: &str, system: Option<&System>, decimal_comma: bool) -> Option<Result<Written>> {
    let bare = system.is_some_and(System::in_degrees);
    let read = |comma| angles(&scan(text, comma)?).and_then(|angles| pair(angles, bare));
    let readings = [read(Comma::Decimal), read(Comma::Between)];
    let found = match readings {
        [Some(Ok(a)), Some(Ok(b))] if a != b && !decimal_comma => Err(Fault::new("place-ambiguous-comma")),
        [Some(Ok(found)), _] | [_, Some(Ok(found))] => Ok(found),
        [Some(Err(fault)), _] | [_, Some(Err(fault))] => Err(fault),
        [None, None] => return None,
    };
    Some(found.map(|found| found.written(system)))
}

/// Reads latitude and longitude from two columns, in this order.
pub fn read_pair(latitude: &str, longitude: &str, system: &System, _decimal_comma: bool) -> Result<Written> {
    // In a cell of its own a comma can only be a decimal mark.
    let one = |text: &str| {
        let mut angles = scan(text, Comma::Decimal).and_then(|tokens| angles(&tokens))?;
        (angles.len() == 1).then(|| angles.pop()).flatten()
    };
    let unreadable = || Fault::new("place-unreadable");
    let (mut first, mut second) =
        (one(latitude).ok_or_else(unreadable)?, one(longitude).ok_or_else(unreadable)?);
    let wrong = |angle: &Angle, axis| angle.axis().is_some_and(|found| found != axis);
    if wrong(&first, Axis::Latitude) || wrong(&second, Axis::Longitude) {
        return Err(Fault::new("place-ambiguous-swapped"));
    }
    first.label = Some(Axis::Latitude);
    second.label = Some(Axis::Longitude);
    let found = pair(vec![first, second], true).ok_or_else(unreadable)??;
    Ok(found.written(Some(system)))
}

/// Reads what follows "geo:" in a location URI (RFC 5870): latitude, longitude, perhaps height, then
/// parameters (`u`: how far off it may be). Only WGS84, its default, is taken.
pub fn read_uri(rest: &str) -> Result<Written> {
    let unreadable = || Fault::new("place-unreadable");
    let (place, parameters) = rest.split_once([';', '?']).unwrap_or((rest, ""));
    if parameters.split(';').any(|p| p.strip_prefix("crs=").is_some_and(|crs| crs != "wgs84")) {
        return Err(unreadable());
    }
    let metres = |text: &str| text.parse::<f64>().ok().filter(|metres| metres.is_finite());
    let numbers: Vec<&str> = place.split(',').collect();
    let (latitude, longitude, height_m) = match numbers[..] {
        [latitude, longitude] => (latitude, longitude, None),
        [latitude, longitude, height] => (latitude, longitude, Some(metres(height).ok_or_else(unreadable)?)),
        _ => return Err(unreadable()),
    };
    let stated_m = match parameters.split([';', '&']).find_map(|p| p.strip_prefix("u=")) {
        Some(stated) => Some(metres(stated).filter(|stated| *stated >= 0.0).ok_or_else(unreadable)?),
        None => None,
    };
    let place = read_pair(latitude, longitude, &System::Wgs84, false)?;
    Ok(Written { height_m, stated_m, ..place })
}

/// Latitude and longitude, read.
#[derive(Debug, Clone, PartialEq)]
struct Found {
    latitude_deg: f64,
    longitude_deg: f64,
    parts: usize,
    square_m: f64,
}

impl Found {
    fn written(self, system: Option<&System>) -> Written {
        Written {
            understood_as: match self.parts {
                1 => "notation-decimal-degrees",
                2 => "notation-degrees-minutes",
                _ => "notation-degrees-minutes-seconds",
            },
            system: system.filter(|system| system.in_degrees()).cloned().unwrap_or(System::Wgs84),
            position: Position::Geographic {
                latitude_deg: self.latitude_deg,
                longitude_deg: self.longitude_deg,
            },
            corner: None,
            square_m: self.square_m,
            height_m: None,
            stated_m: None,
        }
    }
}

/// Groups tokens into angles; `None` where a word or an order belongs to no angle.
fn angles(tokens: &[Token]) -> Option<Vec<Angle>> {
    let meanings: Vec<Meaning> = meanings(tokens)?;
    let first = meanings.iter().find(|m| matches!(m, Meaning::Letter(_) | Meaning::Number(_)))?;
    let letters_lead = matches!(first, Meaning::Letter(_));
    let lettered = meanings.iter().any(|m| matches!(m, Meaning::Letter(_)));
    let (mut done, mut angle) = (Vec::new(), Angle::default());
    let mut commas = 0;
    let mut after_number = false;
    for meaning in meanings {
        let was_number = std::mem::take(&mut after_number);
        match meaning {
            Meaning::Space | Meaning::Label(None) => {}
            Meaning::Label(axis) => {
                finish(&mut done, &mut angle);
                angle.label = axis;
            }
            Meaning::Letter(letter) if letters_lead => {
                if !angle.parts.is_empty() || angle.letter.is_some() {
                    finish(&mut done, &mut angle);
                }
                angle.letter = Some(letter);
            }
            Meaning::Letter(letter) => {
                if angle.parts.is_empty() {
                    return None;
                }
                angle.letter = Some(letter);
                finish(&mut done, &mut angle);
            }
            Meaning::Between(c) => {
                commas += usize::from(c == ',' && !(angle.parts.is_empty() && done.is_empty()));
                if !angle.parts.is_empty() {
                    finish(&mut done, &mut angle);
                }
            }
            Meaning::Number(mut number) => {
                // "N52-39-27": hyphens that join, where letters say the hemisphere.
                if was_number && lettered && number.sign == Some('-') {
                    number.sign = None;
                }
                // Only the last part of an angle has decimals, and nothing follows seconds.
                let full = angle
                    .parts
                    .last()
                    .is_some_and(|(last, mark)| *mark == Some(SECONDS) || !last.fraction.is_empty());
                if full || (number.sign.is_some() && !angle.parts.is_empty()) {
                    finish(&mut done, &mut angle);
                }
                angle.parts.push((number, None));
                after_number = true;
            }
            Meaning::Mark(rank) => {
                let (number, marked) = angle.parts.pop()?;
                if marked.is_some() {
                    return None;
                }
                // More parts than this mark can have before it: the last of them begin a new angle.
                let before = angle.parts.len().checked_sub(rank)?;
                if before > 0 {
                    let parts = angle.parts.split_off(before);
                    finish(&mut done, &mut angle);
                    angle.parts = parts;
                }
                angle.parts.push((number, Some(rank)));
            }
        }
    }
    finish(&mut done, &mut angle);
    (commas <= 1).then_some(done)
}

fn finish(done: &mut Vec<Angle>, angle: &mut Angle) {
    if !angle.is_empty() {
        done.push(std::mem::take(angle));
    }
}

/// A token as it counts in an angle.
enum Meaning {
    Number(Number),
    Mark(usize),
    Letter(char),
    Label(Option<Axis>),
    Between(char),
    Space,
}

fn meanings(tokens: &[Token]) -> Option<Vec<Meaning>> {
    let mut minutes_by_word = false;
    tokens
        .iter()
        .map(|token| {
            Some(match token {
                Token::Number(number) => Meaning::Number(number.clone()),
                Token::Mark('°') => Meaning::Mark(DEGREES),
                Token::Mark('\'') => Meaning::Mark(MINUTES),
                Token::Mark(_) => Meaning::Mark(SECONDS),
                Token::Between(':' | '=') => Meaning::Label(None),
                Token::Between(c) => Meaning::Between(*c),
                Token::Space => Meaning::Space,
                Token::Word(word) => match word.as_str() {
                    "n" | "north" | "nord" => Meaning::Letter('N'),
                    "e" | "east" | "est" => Meaning::Letter('E'),
                    // O is the French "ouest".
                    "w" | "west" | "o" | "ouest" => Meaning::Letter('W'),
                    "d" | "deg" | "degs" | "degree" | "degrees" | "degré" | "degrés" => {
                        Meaning::Mark(DEGREES)
                    }
                    "m" | "mn" | "min" | "mins" | "minute" | "minutes" => {
                        minutes_by_word = true;
                        Meaning::Mark(MINUTES)
                    }
                    // "52d39m27s", and not the south of "52 39 27 S".
                    "s" if std::mem::take(&mut minutes_by_word) => Meaning::Mark(SECONDS),
                    "s" | "south" | "sud" => Meaning::Letter('S'),
                    "sec" | "secs" | "second" | "seconds" | "seconde" | "secondes" => Meaning::Mark(SECONDS),
                    "lat" | "latitude" => Meaning::Label(Some(Axis::Latitude)),
                    "lon" | "long" | "lng" | "longitude" => Meaning::Label(Some(Axis::Longitude)),
                    "and" | "et" | "by" => Meaning::Between(';'),
                    _ => return None,
                },
            })
        })
        .collect()
}

/// Makes latitude and longitude of what was grouped. `bare`: whole numbers without any mark count too,
/// because degrees are expected.
fn pair(mut angles: Vec<Angle>, bare: bool) -> Option<Result<Found>> {
    if let [one] = &mut angles[..]
        && !one.marked()
        && matches!(one.parts.len(), 2 | 4 | 6)
    {
        let second = one.parts.split_off(one.parts.len() / 2);
        angles.push(Angle { parts: second, ..Angle::default() });
    }
    let [first, second] = <[Angle; 2]>::try_from(angles).ok()?;
    let marked = first.marked() || second.marked();
    let parts = first.parts.len().max(second.parts.len());
    if parts == 0 || parts > 3 || first.parts.is_empty() || second.parts.is_empty() {
        return None;
    }
    let fraction = |angle: &Angle| angle.parts.last().is_some_and(|(number, _)| !number.fraction.is_empty());
    if !marked && !bare && parts < 3 && !fraction(&first) && !fraction(&second) {
        return None;
    }
    if !marked && first.parts.len() != second.parts.len() {
        return None;
    }
    let swapped = match (first.axis(), second.axis()) {
        (Some(a), Some(b)) if a == b => return Some(Err(Fault::new("place-unreadable"))),
        (Some(Axis::Longitude), _) | (_, Some(Axis::Latitude)) => true,
        _ => false,
    };
    let (latitude, longitude) = if swapped { (second, first) } else { (first, second) };
    let square_m = latitude.square_m().min(longitude.square_m());
    let (latitude_deg, longitude_deg) = match (latitude.value(), longitude.value()) {
        (Ok(latitude), Ok(longitude)) => (latitude, longitude),
        (Err(fault), _) | (_, Err(fault)) => return marked.then_some(Err(fault)),
    };
    if latitude_deg.abs() > 90.0 || longitude_deg.abs() > 180.0 {
        let other_way = latitude_deg.abs() <= 180.0 && longitude_deg.abs() <= 90.0;
        if other_way {
            return Some(Err(Fault::new("place-ambiguous-swapped")));
        }
        return (marked && latitude_deg.abs() <= 400.0 && longitude_deg.abs() <= 400.0)
            .then(|| Err(Fault::new("place-no-latitude")));
    }
    // "52.6N 1.7": west may have been lost. A latitude without its letter is north.
    if latitude.letter.is_some() && longitude.letter.is_none() {
        return Some(Err(Fault::new("place-ambiguous-hemisphere")));
    }
    Some(Ok(Found { latitude_deg, longitude_deg, parts, square_m }))
}
