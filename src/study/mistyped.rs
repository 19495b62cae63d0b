//! What is wrong with a study file that does not read, in the words of people who write one.

use super::Precision;
use super::load::nearest;
use crate::coordinates::System;
use crate::fault::Fault;
use crate::units::{Area, Date, Length};
use crate::words::Language;

/// Turns a TOML error into a fault that names the line, and says what to write there, in the study's own language as
/// far as that can be told.
pub(super) fn fault(error: &toml::de::Error, text: &str) -> Fault {
    let span =
        error.span().filter(|span| text.is_char_boundary(span.start) && text.is_char_boundary(span.end));
    let row = span.as_ref().map(|span| text[..span.start].matches('\n').count());
    let line = row.and_then(|row| text.lines().nth(row)).unwrap_or_default();
    let (key, value) = match &span {
        Some(span) => (key_before(&text[..span.start]), text[span.clone()].trim()),
        None => ("", ""),
    };
    let message = error.message().lines().next().unwrap_or_default();
    let quoted: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    let first_two: Vec<&str> = message.split_whitespace().take(2).collect();
    let fault = match (first_two.as_slice(), quoted.split_first()) {
        (["unknown", "field" | "variant"] | ["unknown", "field,"], Some((key, known))) => unknown(key, known),
        (["missing", "field"], Some((key, _))) => Fault::new("study-missing-key").with("key", key),
        (["invalid", "type:"], _) => wrong_type(message, key, value, line),
        _ if toml::from_str::<toml::Table>(text).is_ok() => wrong_value(message, value),
        _ => not_toml(message, line),
    };
    let fault = fault.said_in(language(text));
    match row {
        Some(row) => fault.at_row(row as u64 + 1),
        None => fault,
    }
}

/// The language that a study file which does not read says it is in.
fn language(text: &str) -> Language {
    let french = text.lines().filter_map(|line| line.split_once('=')).any(|(key, value)| {
        key.trim() == "language" && value.trim_start().trim_start_matches(['"', '\'']).starts_with("fr")
    });
    if french { Language::French } else { Language::English }
}

/// The key that stands before a value: the word before the last equals sign.
fn key_before(text: &str) -> &str {
    let before = text.trim_end().strip_suffix('=').unwrap_or("").trim_end();
    let start =
        before.rfind(|c: char| !(c.is_alphanumeric() || matches!(c, '-' | '_'))).map_or(0, |at| at + 1);
    &before[start..]
}

/// The fault of a value that is of the right kind and no good: what refused it is asked again, so that its own hint is
/// said.
fn wrong_value(message: &str, value: &str) -> Fault {
    // Values that may be of several kinds are refused by the name of their fault.
    const OF_SEVERAL_KINDS: [&str; 4] = ["study-bandwidth", "study-prominence", "study-dated", "study-cover"];
    if let Some(id) = OF_SEVERAL_KINDS.into_iter().find(|id| *id == message) {
        return Fault::new(id).with("text", bare(value));
    }
    let text = bare(value);
    let readers: [Option<Fault>; 5] = [
        text.parse::<Precision>().err(),
        text.parse::<Length>().err(),
        text.parse::<Area>().err(),
        text.parse::<Date>().err(),
        text.parse::<System>().err(),
    ];
    let refused = readers.into_iter().flatten().find(|fault| fault.to_string() == message);
    refused.unwrap_or_else(|| Fault::new("study-value").with("why", message))
}

/// A value without its quotes.
fn bare(value: &str) -> &str {
    value.trim().trim_matches(['"', '\''])
}

fn unknown(key: &str, known: &[&str]) -> Fault {
    match nearest(key, known.iter().copied()) {
        Some(nearest) => Fault::new("study-unknown-key-near").with("key", key).with("nearest", nearest),
        None => Fault::new("study-unknown-key").with("key", key).with("known", known.join(", ")),
    }
}

/// A number where words are wanted, one value where a list is.
fn wrong_type(message: &str, key: &str, value: &str, line: &str) -> Fault {
    let (line_key, line_value) = line.split_once('=').unwrap_or((line, ""));
    let key = if key.is_empty() { line_key.trim() } else { key };
    let value =
        if value.is_empty() { line_value.split('#').next().unwrap_or_default().trim() } else { value };
    let wanted = message.rsplit_once("expected ").map_or("", |(_, wanted)| wanted);
    let number = value.parse::<f64>().is_ok();
    let id = match wanted {
        "a sequence" | "a list" => "study-wants-list",
        "a string" if number && AREAS.contains(&key) => "study-wants-area",
        "a string" if number && LENGTHS.contains(&key) => "study-wants-length",
        "a string" => "study-wants-text",
        "a boolean" => "study-wants-yes-no",
        "a map" => "study-wants-table",
        wanted if wanted.starts_with(['f', 'i', 'u']) && wanted[1..].parse::<u8>().is_ok() => {
            "study-wants-number"
        }
        _ => return wrong_value(message.rsplit_once(", expected ").map_or(message, |(_, id)| id), value),
    };
    Fault::new(id).with("key", key).with("value", value)
}

/// Keys that hold a length with its unit, and those that hold an area.
const LENGTHS: [&str; 10] = [
    "precision",
    "distance",
    "uncertainty",
    "bandwidth",
    "pixel",
    "pilot",
    "within",
    "stretch",
    "simplify",
    "line-spacing",
];
const AREAS: [&str; 1] = ["smallest_area"];

/// What is most often wrong with the marks themselves.
fn not_toml(message: &str, line: &str) -> Fault {
    let value = line.split_once('=').map_or("", |(_, value)| value.trim());
    let slashed = |text: &str| {
        let parts: Vec<&str> = text.split(['/', '.']).collect();
        parts.len() == 3 && parts.iter().all(|p| !p.is_empty() && p.chars().all(|c| c.is_ascii_digit()))
    };
    if message.contains("escape") && line.contains('\\') {
        Fault::new("study-backslash")
    } else if line.contains(['“', '”', '‘', '’', '«', '»']) {
        Fault::new("study-curly-quotes")
    } else if slashed(value.split(['#', ' ']).next().unwrap_or_default()) {
        Fault::new("study-slashed-date").with("value", value)
    } else {
        Fault::new("study-toml").with("why", message)
    }
}

#[cfg(test)]
mod tests {
    use crate::study::Study;
    use std::path::PathBuf;

    /// The identifier and the line of the fault in a study file.
    fn of(text: &str) -> (&'static str, u64) {
        match Study::parse(text, PathBuf::new()) {
            Err(fault) => (fault.id, fault.spot.row.unwrap_or_default()),
            Ok(_) => ("none", 0),
        }
    }

    #[test]
    fn a_slip_of_the_pen_is_told_in_words_that_help() {
        let whole = |study: &str, register: &str, agreement: &str| {
            format!(
                "[study]\ntitle = \"T\"\n{study}\n[register]\n{register}\n[agreement.public]\n{agreement}\n"
            )
        };
        let good = ("", "files = [\"a.csv\"]", "precision = \"1 km\"");
        assert_eq!(of(&whole(good.0, good.1, good.2)), ("none", 0));
        // One file needs no list.
        assert_eq!(of(&whole(good.0, "files = \"a.csv\"", good.2)), ("none", 0));
        for (text, expected) in [
            (whole("date = 1/10/2026", good.1, good.2), ("study-slashed-date", 3)),
            (whole("compiler = “A. Name”", good.1, good.2), ("study-curly-quotes", 3)),
            (whole("gird = \"irish-grid\"", good.1, good.2), ("study-unknown-key-near", 3)),
            (whole("edition = 2", good.1, good.2), ("study-wants-text", 3)),
            (whole(good.0, good.1, "precision = \"250 m\""), ("study-precision", 7)),
            (whole(good.0, good.1, "precision = 1000"), ("study-wants-length", 7)),
            (whole(good.0, good.1, "precision = \"1 km\"\nsmallest_area = 4"), ("study-wants-area", 8)),
            (whole(good.0, good.1, "precision = \"1 km\"\nreview = \"soon\""), ("units-date", 8)),
            (whole("grid = \"moon\"", good.1, good.2), ("coordinates-unknown-system", 3)),
            (whole(good.0, good.1, "precision = \"1 km\"\nlanguages = []"), ("study-list-empty", 0)),
            (whole(good.0, "files = [\"ground\\parishes.csv\"]", good.2), ("study-backslash", 5)),
            (
                format!("{}[density]\nbandwidth = 250\n", whole(good.0, good.1, good.2)),
                ("study-bandwidth", 9),
            ),
            (whole(good.0, good.1, "precision = \"1 km\"\nshow = \"class\""), ("study-wants-list", 8)),
            (whole(good.0, good.1, "precision = \"1 km\"\npublication = \"yes\""), ("study-wants-yes-no", 8)),
            (whole(good.0, good.1, "precision = \"1 km"), ("study-toml", 7)),
        ] {
            assert_eq!(of(&text), expected, "{text}");
        }
    }
}
