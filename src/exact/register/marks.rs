//! Marks of human work: words in one column, or yes and no in a column each.

use crate::study::vocabulary::{Mark, fold};

/// What a cell of a yes-or-no column says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Answer {
    Yes,
    No,
    /// With a query: not counted as seen.
    Queried,
}

/// Reads a yes-or-no cell. Other words describe the mark, and so say that it was seen.
pub(super) fn answer(text: &str) -> Answer {
    let trimmed = text.trim();
    if matches!(trimmed, "" | "-" | "–" | "—" | "☐" | "✗" | "✘" | "0" | ".") {
        return Answer::No;
    }
    let folded = fold(trimmed);
    if matches!(
        folded.as_str(),
        "n" | "no"
            | "non"
            | "none"
            | "absent"
            | "absente"
            | "false"
            | "faux"
            | "aucun"
            | "aucune"
            | "nil"
            | "not seen"
            | "n a"
            | "na"
            | "removed"
            | "ote"
            | "missing"
    ) {
        return Answer::No;
    }
    if trimmed.contains('?')
        || matches!(folded.as_str(), "unknown" | "inconnu" | "possible" | "poss" | "maybe")
    {
        return Answer::Queried;
    }
    Answer::Yes
}

/// Reads a column of words. Gives the marks seen, and the words that are no mark.
pub(super) fn words(text: &str) -> (Vec<Mark>, Vec<String>) {
    const STEMS: &[(&str, Mark)] = &[
        ("platform", Mark::Platform),
        ("talon", Mark::Platform),
        ("plan de frappe", Mark::Platform),
        ("butt", Mark::Platform),
        ("bulb", Mark::Bulb),
        ("ripple", Mark::Ripples),
        ("ondulation", Mark::Ripples),
        ("onde", Mark::Ripples),
        ("scar", Mark::DorsalScars),
        ("nervure", Mark::DorsalScars),
        ("arete", Mark::DorsalScars),
        ("ridge", Mark::DorsalScars),
        ("enlevement", Mark::DorsalScars),
        ("negatif", Mark::DorsalScars),
        ("removal", Mark::DorsalScars),
        ("dorsal", Mark::DorsalScars),
        ("retouch", Mark::Retouch),
        ("secondary working", Mark::Retouch),
    ];
    let mut seen = Vec::new();
    let mut unknown = Vec::new();
    let lower = text.to_lowercase().replace(" and ", ",").replace(" et ", ",").replace(" & ", ",");
    for chunk in lower.split([',', ';', '+', '/', '\n', '.', '|']) {
        let folded = fold(chunk);
        if folded.is_empty() || matches!(folded.as_str(), "none" | "aucun" | "aucune" | "no" | "non" | "nil")
        {
            continue;
        }
        // The scar on a bulb is part of the bulb.
        if folded.contains("bulbar scar") {
            seen.push(Mark::Bulb);
            continue;
        }
        let found: Vec<Mark> =
            STEMS.iter().filter(|(stem, _)| folded.contains(stem)).map(|(_, mark)| *mark).collect();
        // `fold` takes the s off "sans".
        let denied =
            ["no ", "san ", "pas de ", "without ", "not ", "aucun ", "aucune ", "lacks ", "missing "]
                .iter()
                .any(|word| folded.starts_with(word));
        let queried = chunk.contains('?');
        if found.is_empty() || queried && !denied {
            unknown.push(chunk.trim().to_owned());
        } else if !denied {
            seen.extend(found);
        }
    }
    (seen, unknown)
}

#[cfg(test)]
mod tests {
    use super::{Answer, Mark, answer, words};

    #[test]
    fn yes_no_and_descriptions() {
        for text in ["yes", "Y", "x", "X", "✓", "oui", "O", "1", "lisse", "diffuse", "3"] {
            assert_eq!(answer(text), Answer::Yes, "{text}");
        }
        for text in ["", "no", "N", "-", "non", "0", "absent"] {
            assert_eq!(answer(text), Answer::No, "{text}");
        }
        assert_eq!(answer("x?"), Answer::Queried);
    }

    #[test]
    fn words_name_marks() {
        assert_eq!(words("bulb, platform").0, [Mark::Bulb, Mark::Platform]);
        assert_eq!(words("talon lisse; bulbe; nervures").0, [Mark::Platform, Mark::Bulb, Mark::DorsalScars]);
        assert_eq!(words("no bulb, retouch and ripples").0, [Mark::Retouch, Mark::Ripples]);
        assert_eq!(words("sans bulbe").0, []);
        assert_eq!(words("cortex; bulb").1, ["cortex"]);
    }
}
