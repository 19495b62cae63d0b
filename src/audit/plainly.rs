//! A text as an eye reads it: odd spaces, dashes and figures in their usual form, words for degrees as signs, a reference
//! that stands in several cells as one, columns of coordinates side by side.

use std::borrow::Cow;
use std::sync::LazyLock;

use regex::{Captures, Regex};

/// Forms, and what stands for them, in order.
static FORMS: LazyLock<Vec<(Regex, &'static str)>> = LazyLock::new(|| {
    [
        // A line broken by a letter's packing.
        (r"=\r?\n", ""),
        (r"&(?:nbsp|ensp|emsp|thinsp);", " "),
        (r"&deg;", "°"),
        (r"&(?:apos|prime|rsquo);", "'"),
        (r"&(?:quot|Prime|rdquo);", "\""),
        // 54 deg 38' 43.1", 54 degrees 38 minutes 43 seconds
        (r"(?i)([0-9])\s*(?:degrees?|degrés?|deg)\.?\s*([0-9])", "$1°$2"),
        (r"(?i)(°\s*[0-9]{1,2}(?:[.,][0-9]+)?)\s*(?:minutes?|min)\b\.?\s*", "$1'"),
        (r"(?i)('\s*[0-9]{1,2}(?:[.,][0-9]+)?)\s*(?:seconde?s?|sec)\b\.?", "$1\""),
        // 54°38'43,1"
        (r#"([°'′’]\s*[0-9]{1,2}),([0-9]+\s*["″'′’])"#, "$1.$2"),
        // OV 7640.1 3122.8
        (
            r"\b([A-HJ-Z]{2}) ?([0-9]{3,5})[.,]([0-9])[ ,/]{1,2}([0-9]{3,5})[.,]([0-9])\b",
            "$1 ${2}${3} ${4}${5}",
        ),
        // .732285
        (r"(^|[^0-9.])\.([0-9]{4,})", "${1}0.$2"),
        // 576403m
        (r"([0-9])m\b", "$1 m"),
    ]
    .into_iter()
    .filter_map(|(form, instead)| Some((Regex::new(form).ok()?, instead)))
    .collect()
});

/// The letters and the two figures of a reference, apart: in cells, in quotes, with the words that name them.
static APART: LazyLock<Option<Regex>> = LazyLock::new(|| {
    let parted = r#"[\s"';,*+|\[\]()_=:-]"#;
    Regex::new(&format!(
        r"(?i-u:\b)([A-HJ-Z]{{2}})(?:{parted}{{1,8}}(?:(?i:eastings?|east|e){parted}{{1,4}})?)([0-9]{{3,5}})(?:{parted}{{1,8}}(?:(?i:northings?|north|n){parted}{{1,4}})?)([0-9]{{3,5}})\b"
    ))
    .ok()
});

/// A text in its usual form.
pub(super) fn plainly(text: &str) -> Cow<'_, str> {
    let mut plain = letters(text);
    for (form, instead) in FORMS.iter() {
        if let Cow::Owned(better) = form.replace_all(&plain, *instead) {
            plain = Cow::Owned(better);
        }
    }
    let together = |found: &Captures<'_>| {
        let part = |index: usize| found.get(index).map_or("", |part| part.as_str());
        match part(2).len() == part(3).len() {
            true => format!("{} {} {}", part(1), part(2), part(3)),
            false => part(0).to_owned(),
        }
    };
    let better = APART.as_ref().and_then(|form| match form.replace_all(&plain, together) {
        Cow::Owned(better) => Some(better),
        Cow::Borrowed(_) => None,
    });
    better.map_or(plain, Cow::Owned)
}

/// Letters that look like others, and those that are not seen.
fn letters(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let usual = text.chars().filter_map(|c| {
        Some(match c {
            '\u{ad}' | '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{feff}' => return None,
            '\u{a0}' | '\u{2000}'..='\u{200a}' | '\u{202f}' | '\u{205f}' | '\u{3000}' => ' ',
            '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
            '·' | '٫' => '.',
            // Full width.
            '\u{ff01}'..='\u{ff5e}' => char::from_u32(c as u32 - 0xfee0).unwrap_or(c),
            c => c,
        })
    });
    Cow::Owned(usual.collect())
}

/// Headings of the two columns of a place, as far as they begin so.
const PAIRS: [([&str; 3], [&str; 3]); 3] = [
    (["easting", "east", "x"], ["northing", "north", "y"]),
    (["longitude", "lon", "lng"], ["latitude", "lat", "lat"]),
    (["e", "e", "e"], ["n", "n", "n"]),
];

/// The columns of a table that its headings call the two figures of a place, side by side. `None` without any, and where
/// they stand side by side already.
pub(super) fn columns(text: &str) -> Option<String> {
    let head = text.lines().find(|line| !line.trim().is_empty())?;
    let separator = ['\t', ';', ',', '|'].into_iter().find(|mark| head.matches(*mark).count() > 1)?;
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(u8::try_from(separator).ok()?)
        .flexible(true)
        .from_reader(text.trim_start().as_bytes());
    let headings: Vec<String> =
        reader.headers().ok()?.iter().map(|heading| heading.trim().to_lowercase()).collect();
    let column = |names: &[&str; 3]| {
        headings.iter().position(|heading| {
            names.iter().any(|name| if name.len() > 1 { heading.starts_with(name) } else { heading == name })
        })
    };
    let pairs: Vec<(usize, usize)> = PAIRS
        .iter()
        .filter_map(|(x, y)| Some((column(x)?, column(y)?)))
        .filter(|(x, y)| x.abs_diff(*y) > 1)
        .collect();
    if pairs.is_empty() {
        return None;
    }
    let mut told = String::new();
    for row in reader.records().map_while(Result::ok) {
        for (x, y) in &pairs {
            if let (Some(x), Some(y)) = (row.get(*x), row.get(*y)) {
                told.push_str(&format!("{x} {y}\n\n"));
            }
        }
    }
    Some(told)
}

#[cfg(test)]
mod tests {
    use super::{columns, plainly};

    #[test]
    fn odd_forms_become_usual_ones() {
        for (odd, usual) in [
            ("54 deg 38' 43.12\" N", "54°38' 43.12\" N"),
            ("54 degrees 38 minutes 43 seconds north", "54°38'43\" north"),
            ("54°38'43,1\" N", "54°38'43.1\" N"),
            ("54°38'43, 0°43'56", "54°38'43, 0°43'56"),
            ("54\u{b7}645, .732285", "54.645, 0.732285"),
            ("OV\u{2009}7640\u{2014}3122", "OV 7640 3122"),
            ("\u{ff2f}\u{ff36} \u{ff17}\u{ff16}40 3122", "OV 7640 3122"),
            ("OV\t7640\t3122", "OV 7640 3122"),
            ("\"OV\",\"7640\",\"3122\"", "\"OV 7640 3122\""),
            ("OV\n7640\n3122", "OV 7640 3122"),
            ("square OV, easting 7640, northing 3122", "square OV 7640 3122"),
            ("OV 7640 **3122**", "OV 7640 3122**"),
            ("54&deg;38'43&quot;N", "54°38'43\"N"),
            ("OV 764=\n0 3122", "OV 7640 3122"),
            ("at 576403m", "at 576403 m"),
            ("OV 7640.1 3122.8 by phone", "OV 76401 31228 by phone"),
            ("OV 764312, found 1998", "OV 764312, found 1998"),
        ] {
            assert_eq!(plainly(odd), usual);
        }
    }

    #[test]
    fn columns_that_are_far_apart_stand_side_by_side() {
        let table = "no,easting,class,northing\n1,576403,flake,531226\n";
        assert_eq!(columns(table).as_deref(), Some("576403 531226\n\n"));
        assert_eq!(columns("lat;note;what;longitude\n54.6;a;b;0.7\n").as_deref(), Some("0.7 54.6\n\n"));
        assert_eq!(columns("easting,northing,class\n576403,531226,flake\n"), None);
        assert_eq!(columns("a note, of words\nand more, of them"), None);
    }
}
