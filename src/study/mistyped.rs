//! What is wrong with a study file that does not read, in the words of people who write one.

use super::load::nearest;
use crate::fault::Fault;

/// Turns a TOML error into a fault that names the line, and says what to write there.
pub(super) fn fault(error: &toml::de::Error, text: &str) -> Fault {
    let row = error.span().map(|span| text[..span.start.min(text.len())].matches('\n').count());
    let line = row.and_then(|row| text.lines().nth(row)).unwrap_or_default();
    let message = error.message().lines().next().unwrap_or_default();
    let quoted: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    let first_two: Vec<&str> = message.split_whitespace().take(2).collect();
    let fault = match (first_two.as_slice(), quoted.split_first()) {
        (["unknown", "field" | "variant"] | ["unknown", "field,"], Some((key, known))) => unknown(key, known),
        (["missing", "field"], Some((key, _))) => Fault::new("study-missing-key").with("key", key),
        (["invalid", "type:"], _) => wrong_type(message, line),
        _ if toml::from_str::<toml::Table>(text).is_ok() => Fault::new("study-value").with("why", message),
        _ => not_toml(message, line),
    };
    match row {
        Some(row) => fault.at_row(row as u64 + 1),
        None => fault,
    }
}

fn unknown(key: &str, known: &[&str]) -> Fault {
    match nearest(key, known.iter().copied()) {
        Some(nearest) => Fault::new("study-unknown-key-near").with("key", key).with("nearest", nearest),
        None => Fault::new("study-unknown-key").with("key", key).with("known", known.join(", ")),
    }
}

/// A number where words are wanted, one value where a list is.
fn wrong_type(message: &str, line: &str) -> Fault {
    let (key, value) = line.split_once('=').unwrap_or((line, ""));
    let (key, value) = (key.trim(), value.split('#').next().unwrap_or_default().trim());
    let wanted = message.rsplit_once("expected ").map_or("", |(_, wanted)| wanted);
    let id = match wanted {
        "a sequence" | "a list" => "study-wants-list",
        "a string" => "study-wants-text",
        "a boolean" => "study-wants-yes-no",
        "a map" => "study-wants-table",
        wanted if wanted.starts_with(['f', 'i', 'u']) && wanted[1..].parse::<u8>().is_ok() => {
            "study-wants-number"
        }
        _ => return Fault::new("study-value").with("why", message),
    };
    Fault::new(id).with("key", key).with("value", value)
}

/// What is most often wrong with the marks themselves.
fn not_toml(message: &str, line: &str) -> Fault {
    let value = line.split_once('=').map_or("", |(_, value)| value.trim());
    let slashed = |text: &str| {
        let parts: Vec<&str> = text.split(['/', '.']).collect();
        parts.len() == 3 && parts.iter().all(|p| !p.is_empty() && p.chars().all(|c| c.is_ascii_digit()))
    };
    if line.contains(['“', '”', '‘', '’', '«', '»']) {
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
            (whole(good.0, good.1, "precision = \"250 m\""), ("study-value", 7)),
            (whole(good.0, good.1, "precision = \"1 km\"\nshow = \"class\""), ("study-wants-list", 8)),
            (whole(good.0, good.1, "precision = \"1 km\"\npublication = \"yes\""), ("study-wants-yes-no", 8)),
            (whole(good.0, good.1, "precision = \"1 km"), ("study-toml", 7)),
        ] {
            assert_eq!(of(&text), expected, "{text}");
        }
    }
}
