//! Periods: words ("Late Neo", "Mésolithique récent ?"), and date ranges ("c. 3800–3500 cal BC").

use crate::study::vocabulary::{Country, Period, fold};

/// What a period cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Dating {
    pub period: Period,
    /// With a query, or "probably".
    pub queried: bool,
    /// Years in an odd order, or without an era.
    pub unclear: bool,
}

impl Dating {
    fn plain(period: Period) -> Self {
        Self { period, queried: false, unclear: false }
    }
}

/// Reads a period column. `None` when nothing in it is understood.
pub(super) fn read(text: &str, country: Country) -> Option<Dating> {
    let (body, queried) = without_query(text);
    if let Some(period) = Period::read(&body) {
        return Some(Dating { period, queried: queried && period != Period::Undated, unclear: false });
    }
    if let Some(period) = spelt_out(&body) {
        return Some(Dating { queried, ..Dating::plain(period) });
    }
    if let Some(dating) = years(&body, country) {
        return Some(Dating { queried, ..dating });
    }
    // "Late Mesolithic (narrow blade)"; "Neolithic, early".
    let outside = body.split(['(', '[']).next().unwrap_or("");
    let outside = Some(outside).filter(|outside| outside.len() < body.len());
    let outside = outside.and_then(|text| Period::read(text).or_else(|| span(text, country)));
    let turned = || body.split_once(',').and_then(|(a, b)| Period::read(&format!("{b} {a}")));
    outside
        .or_else(turned)
        .or_else(|| span(&body, country))
        .map(|period| Dating { queried, ..Dating::plain(period) })
}

/// "Néo. final", "Mid. Neol.": the word behind the short form, in one language or the other.
fn spelt_out(text: &str) -> Option<Period> {
    let folded = fold(text);
    let forms: [&[(&str, &str)]; 2] = [
        &[
            ("neo", "neolithic"),
            ("neol", "neolithic"),
            ("meso", "mesolithic"),
            ("mesol", "mesolithic"),
            ("ba", "bronze age"),
            ("mid", "middle"),
            ("e", "early"),
            ("l", "late"),
            ("m", "middle"),
        ],
        &[
            ("neo", "neolithique"),
            ("neol", "neolithique"),
            ("meso", "mesolithique"),
            ("mesol", "mesolithique"),
            ("anc", "ancien"),
            ("moy", "moyen"),
            ("rec", "recent"),
            ("fin", "final"),
        ],
    ];
    forms.iter().find_map(|form| {
        let long = |word| form.iter().find(|(short, _)| *short == word).map_or(word, |(_, long)| *long);
        Period::read(&folded.split(' ').map(long).collect::<Vec<_>>().join(" "))
    })
}

/// "Late Mesolithic to Early Neolithic", "Neo / EBA": the shortest period that holds both.
fn span(text: &str, country: Country) -> Option<Period> {
    let lower = text.to_lowercase().replace(" or ", "/").replace(" to ", "/").replace(" ou ", "/");
    let lower =
        lower.replace(" à ", "/").replace(" and ", "/").replace(" et ", "/").replace(['–', '—', '-'], "/");
    let parts: Vec<&str> = lower.split('/').map(str::trim).filter(|part| !part.is_empty()).collect();
    let [first, last] = parts.as_slice() else { return None };
    let (first, last) = (Period::read(first)?, Period::read(last)?);
    if first == last {
        return Some(first);
    }
    let ((a_from, a_to), (b_from, b_to)) = (first.years(country)?, last.years(country)?);
    Some(Period::holding(a_from.max(b_from), a_to.min(b_to), country))
}

/// Takes "?", "probably", "poss." off.
fn without_query(text: &str) -> (String, bool) {
    const WORDS: &[&str] = &[
        "probably",
        "possibly",
        "prob.",
        "poss.",
        "prob",
        "poss",
        "perhaps",
        "maybe",
        "likely",
        "probable",
        "possible",
        "probablement",
        "peut-être",
        "sans doute",
        "?",
    ];
    let mut body = text.trim().to_owned();
    let mut queried = false;
    loop {
        let lower = body.to_lowercase();
        let Some(word) = WORDS.iter().find(|word| lower.starts_with(*word) || lower.ends_with(*word)) else {
            break;
        };
        // Lower case can differ in length from what was written only outside these languages.
        let cut = if lower.starts_with(word) {
            body.get(word.len()..)
        } else {
            body.get(..body.len().saturating_sub(word.len()))
        };
        let Some(cut) = cut.map(|cut| cut.trim().trim_end_matches('(').trim().to_owned()) else { break };
        queried = true;
        if cut.is_empty() {
            return (String::new(), true);
        }
        body = cut;
    }
    if body.contains('?') {
        queried = true;
        body = body.replace(['?', '('], " ").replace(')', " ");
    }
    (body, queried)
}

/// Two cells of years.
pub(super) fn from_to(from: &str, to: &str, country: Country) -> Option<Dating> {
    let (a, b) = (single(from), single(to));
    let (first, last) = match (a, b) {
        (Some(a), Some(b)) => (a, b),
        (Some(one), None) if to.trim().is_empty() => (one, one),
        (None, Some(one)) if from.trim().is_empty() => (one, one),
        _ => return None,
    };
    // In columns of their own, plain figures are years BC; "-4000" says so itself.
    bc(first, last, true, country)
}

/// Years of one kind of era.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Era {
    Bc,
    Bp,
    Ad,
    None,
}

/// One year with its era, from a cell of its own.
fn single(text: &str) -> Option<(u32, Era)> {
    let (numbers, era) = figures(text)?;
    match numbers.as_slice() {
        [one] => Some((*one, era)),
        _ => None,
    }
}

/// A range or a year in one text.
fn years(text: &str, country: Country) -> Option<Dating> {
    if let Some(dating) = millennium(text, country) {
        return Some(dating);
    }
    let (numbers, era) = figures(text)?;
    match numbers.as_slice() {
        [one] => bc((*one, era), (*one, era), false, country),
        [first, last] => bc((*first, era), (*last, era), false, country),
        _ => None,
    }
}

fn bc(first: (u32, Era), last: (u32, Era), own_columns: bool, country: Country) -> Option<Dating> {
    let eras = [first.1, last.1];
    if eras.contains(&Era::Ad) {
        return None;
    }
    let before = |(year, era): (u32, Era)| match era {
        // Years before 1950; there is no year zero.
        Era::Bp => year.checked_sub(1949).filter(|year| *year > 0),
        _ => Some(year).filter(|year| *year > 0),
    };
    let (a, b) = (before(first)?, before(last)?);
    let stated = eras.iter().any(|era| *era != Era::None);
    // "4000-3500" runs backwards, as years BC do; "350" or "1998" says nothing.
    if !stated && !own_columns && a <= b {
        return None;
    }
    let period = Period::holding(a.max(b), a.min(b), country);
    Some(Dating { period, queried: false, unclear: a < b || !stated && !own_columns })
}

/// The figures of a text of years, with their era. `None` when other words stand there.
fn figures(text: &str) -> Option<(Vec<u32>, Era)> {
    let mut lower = text.to_lowercase().replace(['\u{a0}', '\u{202f}'], " ").replace('−', "-");
    let mut era = Era::None;
    const ERAS: &[(&str, Era)] = &[
        ("av. j.-c.", Era::Bc),
        ("av. j.c.", Era::Bc),
        ("av j.-c.", Era::Bc),
        ("av. j-c", Era::Bc),
        ("av j-c", Era::Bc),
        ("av. j.-c", Era::Bc),
        ("av jc", Era::Bc),
        ("av. jc", Era::Bc),
        ("avant j.-c.", Era::Bc),
        ("avant j.c.", Era::Bc),
        ("avant jc", Era::Bc),
        ("avant notre ère", Era::Bc),
        ("av. n. è.", Era::Bc),
        ("cal bce", Era::Bc),
        ("cal. bc", Era::Bc),
        ("cal bc", Era::Bc),
        ("calbc", Era::Bc),
        ("bce", Era::Bc),
        ("b.c.", Era::Bc),
        ("bc", Era::Bc),
        ("cal bp", Era::Bp),
        ("cal. bp", Era::Bp),
        ("b.p.", Era::Bp),
        ("bp", Era::Bp),
        ("apr. j.-c.", Era::Ad),
        ("ap. j.-c.", Era::Ad),
        ("a.d.", Era::Ad),
        ("ad", Era::Ad),
        ("ce", Era::Ad),
    ];
    for (word, meaning) in ERAS {
        if lower.contains(word) {
            era = *meaning;
            lower = lower.replace(word, " ");
        }
    }
    for word in [
        "between", "from", "circa", "about", "environ", "entre", "vers", "env.", "ca.", "c.", "years", "ans",
        "to", "and", "et", "de", "à", "au", "until", "date", "~", "c ",
    ] {
        lower = lower.replace(word, " ");
    }
    let mut numbers = Vec::new();
    let mut negative = 0;
    let bytes: Vec<char> = lower.chars().collect();
    let mut at = 0;
    while at < bytes.len() {
        let c = bytes[at];
        if c.is_ascii_digit() {
            let mut digits = String::new();
            while at < bytes.len() {
                let grouped = matches!(bytes[at], ' ' | ',')
                    && (1..=3).contains(&digits.len())
                    && bytes.get(at + 1..at + 4).is_some_and(|g| g.iter().all(char::is_ascii_digit))
                    && !bytes.get(at + 4).is_some_and(char::is_ascii_digit);
                if bytes[at].is_ascii_digit() {
                    digits.push(bytes[at]);
                } else if !grouped {
                    break;
                }
                at += 1;
            }
            numbers.push(digits.parse::<u32>().ok()?);
            continue;
        }
        match c {
            // A minus before a figure at the start, or after another mark, is a sign.
            '-' => {
                let before = lower_before(&bytes, at);
                let next = bytes.get(at + 1).is_some_and(char::is_ascii_digit);
                if next && !before.is_some_and(|b| b.is_ascii_digit()) {
                    negative += 1;
                }
            }
            '–' | '—' | '/' | ' ' | '.' | ',' | '(' | ')' | '\'' | ';' => {}
            _ => return None,
        }
        at += 1;
    }
    if negative > 0 && era == Era::None {
        era = Era::Bc;
    }
    (!numbers.is_empty()).then_some((numbers, era))
}

/// The last character before `at` that is no space.
fn lower_before(text: &[char], at: usize) -> Option<char> {
    text[..at].iter().rev().find(|c| !c.is_whitespace()).copied()
}

/// "4th millennium BC", "4e millénaire av. J.-C.", "early 3rd millennium": a thousand years, or half.
fn millennium(text: &str, country: Country) -> Option<Dating> {
    let folded = fold(text);
    if !folded.contains("millen") {
        return None;
    }
    const ROMAN: &[(&str, u32)] = &[
        ("ii", 2),
        ("iii", 3),
        ("iv", 4),
        ("v", 5),
        ("vi", 6),
        ("vii", 7),
        ("viii", 8),
        ("ix", 9),
        ("x", 10),
    ];
    let number = folded.split(' ').find_map(|word| {
        let stem = ["ieme", "eme", "th", "rd", "nd", "e"]
            .iter()
            .find_map(|tail| word.strip_suffix(tail))
            .unwrap_or(word);
        stem.parse().ok().or_else(|| ROMAN.iter().find(|(roman, _)| *roman == stem).map(|(_, n)| *n))
    })?;
    if !(2..=12).contains(&number) {
        return None;
    }
    let (from, to) = (number * 1000, (number - 1) * 1000 + 1);
    let says = |words: &[&str]| words.iter().any(|word| folded.split(' ').any(|w| w == *word));
    let (from, to) = if says(&["early", "earlier", "debut"]) {
        (from, from - 499)
    } else if says(&["late", "later", "fin"]) {
        (from - 500, to)
    } else {
        (from, to)
    };
    Some(Dating::plain(Period::holding(from, to, country)))
}

#[cfg(test)]
mod tests {
    use super::{Dating, from_to, read};
    use crate::study::vocabulary::{Country, Period};

    fn period(text: &str) -> Option<Period> {
        read(text, Country::EnglandWales).map(|dating| dating.period)
    }

    #[test]
    fn words_and_queries() {
        assert_eq!(period("Late Neolithic"), Some(Period::LateNeolithic));
        assert_eq!(
            read("Neo?", Country::EnglandWales),
            Some(Dating { period: Period::Neolithic, queried: true, unclear: false })
        );
        assert_eq!(period("prob. Mesolithic"), Some(Period::Mesolithic));
        assert_eq!(period("Mésolithique (lamelles)"), Some(Period::Mesolithic));
        assert_eq!(period("Néo. final"), Some(Period::LateNeolithic));
        assert_eq!(period("Mid. Neol."), Some(Period::MiddleNeolithic));
        assert_eq!(period("Neolithic, early"), Some(Period::EarlyNeolithic));
        assert_eq!(period("?"), Some(Period::Undated));
        assert_eq!(period("Early Neolithic to Middle Neolithic"), Some(Period::Neolithic));
        assert_eq!(period("Roman"), None);
    }

    #[test]
    fn years_find_the_shortest_period_that_holds_them() {
        for text in [
            "4000-3501 BC",
            "c. 3800–3600 cal BC",
            "3 800 - 3 600 av. J.-C.",
            "-3800/-3600",
            "3900 BC",
            "between 3900 and 3600 BC",
            "3,900-3,600 BC",
            "5800-5500 BP",
        ] {
            assert_eq!(period(text), Some(Period::EarlyNeolithic), "{text}");
        }
        assert_eq!(period("4000-3500 BC"), Some(Period::Neolithic));
        assert_eq!(period("early 4th millennium BC"), Some(Period::EarlyNeolithic));
        assert_eq!(period("AD 300"), None);
        assert_eq!(period("1998"), None);
        let bare = read("3900-3600", Country::EnglandWales);
        assert!(bare.is_some_and(|dating| dating.unclear && dating.period == Period::EarlyNeolithic));
    }

    #[test]
    fn two_columns() {
        let read = |from, to| from_to(from, to, Country::EnglandWales).map(|dating| dating.period);
        assert_eq!(read("3900", "3600"), Some(Period::EarlyNeolithic));
        assert_eq!(read("-3900", "-3600"), Some(Period::EarlyNeolithic));
        assert_eq!(read("3900 BC", ""), Some(Period::EarlyNeolithic));
        assert_eq!(read("x", "y"), None);
    }
}
