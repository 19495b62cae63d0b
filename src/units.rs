//! Lengths, areas and dates as people write them ("100 m", "0.25 km2", "2026-10-01"), turned into
//! metres, square metres and calendar days once, on entry.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::fault::Fault;

/// A length in metres, written with its unit: `"100 m"`, `"1 km"`, `"2,5 km"`.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Length {
    /// The length, metres.
    pub metres: f64,
}

/// An area in square metres, written with its unit: `"0.25 km2"`, `"4 ha"`, `"900 m2"`.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Area {
    /// The area, square metres.
    pub square_metres: f64,
}

/// A day of the Gregorian calendar, `YYYY-MM-DD`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    /// Year of the common era.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
}

/// Splits "12.5 km" into its number and its unit; a comma serves as decimal mark. "1,000 m" is a kilometre to one
/// reader and a metre to another, and a metre would give places away: a mark with three figures behind it is
/// refused, unless a nought stands before it.
fn number_and_unit(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let split = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))?;
    let (number, unit) = text.split_at(split);
    let thousands = |(front, behind): (&str, &str)| behind.len() == 3 && !front.starts_with('0');
    if number.split_once([',', '.']).is_some_and(thousands) {
        return None;
    }
    let number: f64 = number.replace(',', ".").parse().ok()?;
    (number.is_finite() && number > 0.0).then_some((number, unit.trim()))
}

impl FromStr for Length {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let wrong = || Fault::new("units-length").with("text", text);
        let (number, unit) = number_and_unit(text).ok_or_else(wrong)?;
        let factor = match unit {
            "m" | "metre" | "metres" | "mètre" | "mètres" => 1.0,
            "km" => 1000.0,
            _ => return Err(wrong()),
        };
        Ok(Self { metres: number * factor })
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.metres >= 1000.0 && (self.metres / 100.0).fract() == 0.0 {
            write!(f, "{} km", self.metres / 1000.0)
        } else {
            write!(f, "{} m", self.metres)
        }
    }
}

impl FromStr for Area {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let wrong = || Fault::new("units-area").with("text", text);
        let (number, unit) = number_and_unit(text).ok_or_else(wrong)?;
        let factor = match unit {
            "m2" | "m²" => 1.0,
            "ha" => 1e4,
            "km2" | "km²" => 1e6,
            _ => return Err(wrong()),
        };
        Ok(Self { square_metres: number * factor })
    }
}

impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.square_metres >= 1e5 {
            write!(f, "{} km2", self.square_metres / 1e6)
        } else {
            write!(f, "{} m2", self.square_metres)
        }
    }
}

impl FromStr for Date {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let wrong = || Fault::new("units-date").with("text", text);
        let mut parts = text.trim().splitn(3, '-');
        let mut next = || parts.next().and_then(|p| p.parse::<i32>().ok());
        let (Some(year), Some(month), Some(day)) = (next(), next(), next()) else {
            return Err(wrong());
        };
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 => 28 + i32::from(leap),
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => return Err(wrong()),
        };
        if !(1..=days).contains(&day) || !(1..=9999).contains(&year) {
            return Err(wrong());
        }
        Ok(Self { year, month: month as u8, day: day as u8 })
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// Serde goes through the text form, so that a file shows what a person typed.
macro_rules! through_text {
    ($($name:ident),*) => {$(
        impl TryFrom<String> for $name {
            type Error = Fault;
            fn try_from(text: String) -> Result<Self, Fault> { text.parse() }
        }
        impl From<$name> for String {
            fn from(value: $name) -> Self { value.to_string() }
        }
    )*};
}
through_text!(Length, Area, Date);

impl Serialize for Date {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Date {
    /// Takes a quoted date and, in TOML, a bare one.
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Written {
            Bare(toml::value::Datetime),
            Quoted(String),
        }
        let text = match Written::deserialize(deserializer)? {
            Written::Bare(date) => date.to_string(),
            Written::Quoted(text) => text,
        };
        text.parse().map_err(|fault: Fault| serde::de::Error::custom(fault))
    }
}
