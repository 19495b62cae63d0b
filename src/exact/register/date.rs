//! Dates of finding, read only as far as a check needs them; they are kept as written.

use crate::units::Date;

/// Months by their first letters, folded; English and French.
const MONTHS: &[(&str, u8)] = &[
    ("jan", 1),
    ("feb", 2),
    ("fev", 2),
    ("fév", 2),
    ("mar", 3),
    ("apr", 4),
    ("avr", 4),
    ("may", 5),
    ("mai", 5),
    ("jun", 6),
    ("juin", 6),
    ("jul", 7),
    ("juil", 7),
    ("aug", 8),
    ("aou", 8),
    ("aoû", 8),
    ("sep", 9),
    ("oct", 10),
    ("nov", 11),
    ("dec", 12),
    ("déc", 12),
];

/// Whole names, so that "mars" and "march" are months, and "margin" is not.
const NAMES: &[&str] = &[
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
    "janvier",
    "février",
    "fevrier",
    "mars",
    "avril",
    "mai",
    "juin",
    "juillet",
    "août",
    "aout",
    "septembre",
    "octobre",
    "novembre",
    "décembre",
    "decembre",
    "janv",
    "févr",
    "fevr",
    "avr",
    "juil",
    "sept",
];

/// The month that a lower-case word names.
fn month(word: &str) -> Option<u8> {
    let word = word.trim_end_matches('.');
    let known = NAMES.contains(&word) || MONTHS.iter().any(|(short, _)| *short == word);
    if !known {
        return None;
    }
    // The longest start wins: "juin" before "jul" makes no difference, "mar" and "mai" are apart.
    MONTHS
        .iter()
        .filter(|(short, _)| word.starts_with(short))
        .max_by_key(|(short, _)| short.len())
        .map(|m| m.1)
}

/// Whether a count, in lower case, is what a spreadsheet makes of "3-5": a day and a month, in any order,
/// with or without a year.
pub(super) fn is_spreadsheet_date(text: &str) -> bool {
    let text = text.trim().trim_end_matches(" 00:00:00").trim_end_matches(" 00:00");
    let parts: Vec<&str> = text.split(['-', '/', '.', ' ']).filter(|part| !part.is_empty()).collect();
    let number = |part: &str| {
        let part = part.strip_suffix("er").unwrap_or(part);
        (part.len() <= 4 && !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit()))
            .then(|| part.parse::<u32>().ok())?
    };
    let day = |part: &str| number(part).is_some_and(|n| (1..=31).contains(&n));
    let year =
        |part: &str| number(part).is_some_and(|n| n < 100 && part.len() == 2 || (1900..=2100).contains(&n));
    match parts.as_slice() {
        [a, b] => month(a).is_some() && number(b).is_some() || number(a).is_some() && month(b).is_some(),
        [a, b, c] => {
            let long_year = |part: &str| part.len() == 4 && year(part);
            let (d_m_y, y_m_d) = (day(a) && day(b), day(b) && day(c));
            // Three numbers with points can be a grouped thousand only in groups of three figures.
            d_m_y && year(c) && (c.len() == 4 || text.contains(['/', '-', '.']))
                || y_m_d && long_year(a)
                || (day(a) && month(b).is_some() || month(a).is_some() && day(b)) && year(c)
        }
        _ => false,
    }
}

/// A date as far as it is stated: year, and month and day where given. `None` when no year is stated.
pub(in crate::exact) fn read(text: &str) -> Option<(i32, Option<u8>, Option<u8>)> {
    let lower = text.trim().to_lowercase();
    let parts: Vec<&str> =
        lower.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let at = parts.iter().position(|part| {
        part.len() == 4
            && part.bytes().all(|b| b.is_ascii_digit())
            && part.parse().is_ok_and(|y: i32| (1000..=2999).contains(&y))
    })?;
    let year: i32 = parts[at].parse().ok()?;
    let small = |part: &&str| part.parse::<u8>().ok().filter(|n| (1..=31).contains(n));
    if let Some(named) = parts.iter().find_map(|part| month(part)) {
        let day = parts
            .iter()
            .enumerate()
            .filter(|(i, _)| *i != at)
            .find_map(|(_, part)| small(&part.trim_end_matches(|c: char| c.is_alphabetic())));
        return Some((year, Some(named), day));
    }
    let (month, day) = if at == 0 {
        (parts.get(1).and_then(small), parts.get(2).and_then(small))
    } else if at == 2 {
        (parts.get(1).and_then(small), parts.first().and_then(small))
    } else if at == 1 {
        (parts.first().and_then(small), None)
    } else {
        (None, None)
    };
    // An American date has its month first; which it is cannot be told, and makes less than a year's odds.
    match month {
        Some(month) if month > 12 => Some((year, day.filter(|d| *d <= 12), Some(month))),
        _ => Some((year, month, day)),
    }
}

/// The year of a date as written.
pub(super) fn year(text: &str) -> Option<i32> {
    read(text).map(|(year, ..)| year)
}

/// Whether a date as written lies after `today`, as far as it is stated.
pub(super) fn is_after(text: &str, today: Date) -> bool {
    let Some((year, month, day)) = read(text) else { return false };
    let month = month.unwrap_or(1);
    (year, month, day.unwrap_or(1)) > (today.year, today.month, today.day)
}

#[cfg(test)]
mod tests {
    use super::{is_after, read};

    #[test]
    fn dates_are_read_as_far_as_stated() {
        assert_eq!(read("14/03/2019"), Some((2019, Some(3), Some(14))));
        assert_eq!(read("2019-03-14"), Some((2019, Some(3), Some(14))));
        assert_eq!(read("March 2004"), Some((2004, Some(3), None)));
        assert_eq!(read("le 3 août 1998"), Some((1998, Some(8), Some(3))));
        assert_eq!(read("1998"), Some((1998, None, None)));
        assert_eq!(read("spring"), None);
        assert!(
            "2026-10-01"
                .parse()
                .is_ok_and(|today| is_after("12/2027", today) && !is_after("1/10/2026", today))
        );
    }
}
