//! How many pieces, as people write it: "12", "c. 20", "12+", "several", "une dizaine", "3-5".
//!
//! Words and ranges give the least number that they vouch for, marked as rough: "3-5" is 3, "several" is
//! 3. A table then never shows more stone than was recorded.

use super::date;

/// A count as understood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Count {
    /// So many, and whether that is rough.
    Pieces { number: u32, rough: bool },
    /// Nothing, or less.
    Zero,
    /// A spreadsheet has turned a range into a date.
    BecameDate,
    /// Not a count.
    Unreadable,
}

/// More than this in one row is a mistake (a reference or a date in the wrong column).
const MOST: u32 = 1_000_000;

/// Words for numbers. Rough ones give the least they vouch for (our reading; the owner can write a figure).
const WORDS: &[(&str, u32, bool)] = &[
    ("one", 1, false),
    ("two", 2, false),
    ("three", 3, false),
    ("four", 4, false),
    ("five", 5, false),
    ("six", 6, false),
    ("seven", 7, false),
    ("eight", 8, false),
    ("nine", 9, false),
    ("ten", 10, false),
    ("eleven", 11, false),
    ("twelve", 12, false),
    ("single", 1, false),
    ("a", 1, false),
    ("an", 1, false),
    ("un", 1, false),
    ("une", 1, false),
    ("deux", 2, false),
    ("trois", 3, false),
    ("quatre", 4, false),
    ("cinq", 5, false),
    ("sept", 7, false),
    ("huit", 8, false),
    ("neuf", 9, false),
    ("dix", 10, false),
    ("onze", 11, false),
    ("douze", 12, false),
    ("pair", 2, false),
    ("a pair", 2, false),
    ("paire", 2, false),
    ("une paire", 2, false),
    ("couple", 2, true),
    ("a couple", 2, true),
    ("several", 3, true),
    ("some", 3, true),
    ("few", 3, true),
    ("a few", 3, true),
    ("quelques", 3, true),
    ("plusieurs", 3, true),
    ("quelques uns", 3, true),
    ("handful", 5, true),
    ("a handful", 5, true),
    ("une poignée", 5, true),
    ("poignée", 5, true),
    ("half a dozen", 6, true),
    ("half dozen", 6, true),
    ("une demi douzaine", 6, true),
    ("dizaine", 10, true),
    ("une dizaine", 10, true),
    ("dozen", 12, true),
    ("a dozen", 12, true),
    ("douzaine", 12, true),
    ("une douzaine", 12, true),
    ("quinzaine", 15, true),
    ("une quinzaine", 15, true),
    ("score", 20, true),
    ("a score", 20, true),
    ("vingtaine", 20, true),
    ("une vingtaine", 20, true),
    ("trentaine", 30, true),
    ("une trentaine", 30, true),
    ("quarantaine", 40, true),
    ("une quarantaine", 40, true),
    ("cinquantaine", 50, true),
    ("une cinquantaine", 50, true),
    ("centaine", 100, true),
    ("une centaine", 100, true),
    ("hundred", 100, true),
    ("a hundred", 100, true),
    ("many", 10, true),
    ("numerous", 10, true),
    ("lots", 10, true),
    ("beaucoup", 10, true),
    ("nombreux", 10, true),
    ("nombreuses", 10, true),
    ("dozens", 24, true),
    ("hundreds", 200, true),
];

/// Reads a count. A blank cell is one piece.
pub(super) fn read(text: &str) -> Count {
    const MOST_FIGURES: usize = 6;
    let trimmed = text.trim();
    let plain = trimmed.len() <= MOST_FIGURES && trimmed.bytes().all(|b| b.is_ascii_digit());
    if let Some(number) = trimmed.parse().ok().filter(|number| plain && *number > 0) {
        return Count::Pieces { number, rough: false };
    }
    let lower = trimmed.to_lowercase().replace(['\u{a0}', '\u{202f}'], " ");
    if lower.is_empty() || matches!(lower.as_str(), "-" | "–" | "—") {
        return Count::Pieces { number: 1, rough: false };
    }
    if matches!(lower.as_str(), "nil" | "none" | "zero" | "zéro" | "aucun" | "aucune" | "nothing" | "rien") {
        return Count::Zero;
    }
    if date::is_spreadsheet_date(&lower) {
        return Count::BecameDate;
    }
    let (body, mut rough) = without_hedges(&lower);
    let spaced = body.replace(['-', '\''], " ");
    if let Some((_, number, word_rough)) = WORDS.iter().find(|(word, ..)| *word == spaced) {
        return Count::Pieces { number: *number, rough: rough || *word_rough };
    }
    let Some((number, rest)) = leading_number(&body) else { return Count::Unreadable };
    let rest = rest.trim();
    rough |= match rest {
        "" | "x" | "×" => false,
        _ if is_pieces(rest) => false,
        // "1 (broken)"
        _ if rest.starts_with('(') && !rest.contains(|c: char| c.is_ascii_digit()) => false,
        _ if upper_bound(rest) => true,
        _ => return Count::Unreadable,
    };
    if number <= 0.0 {
        return Count::Zero;
    }
    if number.fract() != 0.0 || number > f64::from(MOST) {
        return Count::Unreadable;
    }
    Count::Pieces { number: number as u32, rough }
}

/// Parts a number from a class: "3 flakes", "flakes x3", "flake (2)".
pub(super) fn beside_class(text: &str) -> Option<(u32, &str)> {
    let text = text.trim();
    let number = |digits: &str| digits.parse::<u32>().ok().filter(|n| (1..1_000).contains(n));
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    if end > 0 {
        let rest = text[end..].trim_start_matches([' ', 'x', '×', '.']);
        let separate = text[end..].starts_with([' ', 'x', '×']);
        return number(&text[..end]).filter(|_| separate && !rest.is_empty()).map(|n| (n, rest));
    }
    let body = text.trim_end_matches(')');
    let start = body
        .rfind(|c: char| !c.is_ascii_digit())
        .map_or(0, |at| at + body[at..].chars().next().map_or(1, char::len_utf8));
    let class = body[..start].trim_end().strip_suffix(['x', '×', '('])?.trim_end();
    number(&body[start..]).filter(|_| !class.is_empty()).map(|n| (n, class))
}

/// Takes "c.", "about", "+", "at least", "?" and the like off, and says whether there were any.
fn without_hedges(text: &str) -> (String, bool) {
    const BEFORE: &[&str] = &[
        "circa",
        "about",
        "approximately",
        "approx.",
        "approx",
        "around",
        "roughly",
        "at least",
        "more than",
        "over",
        "environ",
        "env.",
        "env",
        "vers",
        "au moins",
        "plus de",
        "près de",
        "nearly",
        "almost",
        "ca.",
        "ca",
        "c.",
        "c",
        "~",
        "≈",
        "±",
        ">",
        "≥",
        "≃",
        "some",
        "max.",
        "min.",
        "minimum",
        "say",
        "une bonne",
        "presque",
        "mini",
    ];
    const AFTER: &[&str] = &[
        "+", "?", "or more", "or so", "ou plus", "and more", "at least", "au moins", "env.", "environ",
        "approx.", "approx", "min", "minimum", "plus",
    ];
    let mut body = text.trim().trim_start_matches(['(', '[']).trim_end_matches([')', ']']).trim();
    let mut rough = false;
    loop {
        let before = BEFORE.iter().find_map(|word| {
            let rest = body.strip_prefix(word)?;
            // "c" is a hedge before a figure or a space, not the start of "core".
            let ends = word.ends_with(|c: char| !c.is_alphabetic())
                || rest.starts_with(|c: char| c.is_ascii_digit() || c == ' ');
            (ends && !rest.trim().is_empty()).then_some(rest.trim())
        });
        let next = before.or_else(|| {
            AFTER
                .iter()
                .find_map(|word| body.strip_suffix(word).map(str::trim).filter(|rest| !rest.is_empty()))
        });
        let Some(next) = next else { break };
        body = next;
        rough = true;
    }
    let times = body.strip_prefix(['x', '×']).map(str::trim_start);
    let body = times.filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())).unwrap_or(body);
    (body.to_owned(), rough)
}

/// The number at the start, with thousands grouped by spaces, commas or points; and what follows it.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let signless = text.strip_prefix(['-', '−']).map(str::trim_start);
    let body = signless.unwrap_or(text);
    let mut end = body.find(|c: char| !c.is_ascii_digit()).unwrap_or(body.len());
    if end == 0 {
        return None;
    }
    let mut digits = body[..end].to_owned();
    if end <= 3 {
        // Groups of three, each after the same mark.
        let mark = body[end..].chars().next().filter(|c| matches!(c, ' ' | ',' | '.' | '\''));
        while let Some(rest) = mark.and_then(|mark| body[end..].strip_prefix(mark)) {
            let group: String = rest.chars().take_while(char::is_ascii_digit).collect();
            if group.len() != 3 {
                break;
            }
            digits.push_str(&group);
            end += 4;
        }
    }
    // "12.0" and "12,0" are what a spreadsheet makes of 12.
    let tail = &body[end..];
    if let Some(rest) = tail.strip_prefix(['.', ',']) {
        let decimals: String = rest.chars().take_while(char::is_ascii_digit).collect();
        if !decimals.is_empty() {
            digits.push('.');
            digits.push_str(&decimals);
            end += 1 + decimals.len();
        }
    }
    let number: f64 = digits.parse().ok()?;
    Some((if signless.is_some() { -number } else { number }, &body[end..]))
}

/// "flakes", "pieces", "frags": words after the number that leave it as it is.
fn is_pieces(rest: &str) -> bool {
    const WORDS: &[&str] = &[
        "piece",
        "pieces",
        "pc",
        "pcs",
        "pce",
        "frag",
        "frags",
        "fragment",
        "fragments",
        "flake",
        "flakes",
        "pièce",
        "pièces",
        "éclat",
        "éclats",
        "ex",
        "ex.",
        "exemplaire",
        "exemplaires",
        "find",
        "finds",
        "item",
        "items",
        "no",
        "off",
        "chip",
        "chips",
        "objet",
        "objets",
        "blade",
        "blades",
        "bits",
        "silex",
        "flints",
        "lame",
        "lames",
        "fragts",
        "frgts",
        "lithics",
        "broken",
        "burnt",
        "cassé",
        "brûlé",
        "incomplete",
        "small",
        "large",
        "tiny",
    ];
    WORDS.contains(&rest.trim_end_matches('.')) || WORDS.contains(&rest)
}

/// "-5", "to 5", "or 4", "à 5": the far end of a range.
fn upper_bound(rest: &str) -> bool {
    const LINKS: &[&str] = &["-", "–", "—", "to", "or", "/", "à", "a", "ou"];
    LINKS.iter().any(|link| {
        rest.strip_prefix(link).is_some_and(|after| {
            leading_number(after.trim()).is_some_and(|(number, tail)| {
                number > 0.0 && (tail.trim().is_empty() || is_pieces(tail.trim()))
            })
        })
    })
}

#[cfg(test)]
mod tests {
    use super::{Count, beside_class, read};

    #[test]
    fn counts_as_people_write_them() {
        for (text, number, rough) in [
            ("", 1, false),
            ("12", 12, false),
            ("12.0", 12, false),
            ("12,0", 12, false),
            ("1 200", 1200, false),
            ("1,200", 1200, false),
            ("c. 20", 20, true),
            ("c20", 20, true),
            ("ca 20", 20, true),
            ("~20", 20, true),
            ("environ 15", 15, true),
            ("12+", 12, true),
            ("> 30", 30, true),
            ("at least 4", 4, true),
            ("several", 3, true),
            ("a few", 3, true),
            ("une dizaine", 10, true),
            ("pair", 2, false),
            ("3-5", 3, true),
            ("3 to 5", 3, true),
            ("3 à 5", 3, true),
            ("3 or 4", 3, true),
            ("x3", 3, false),
            ("3x", 3, false),
            ("5 flakes", 5, false),
            ("2 frags.", 2, false),
            ("(7)", 7, false),
            ("4?", 4, true),
            ("Douze", 12, false),
            ("10 or so", 10, true),
            ("1 (broken)", 1, false),
            ("une douzaine", 12, true),
        ] {
            assert_eq!(read(text), Count::Pieces { number, rough }, "{text}");
        }
    }

    #[test]
    fn a_range_made_a_date_is_seen() {
        for text in [
            "03-May",
            "3-mai",
            "05/03/2024",
            "2024-05-03",
            "3 May",
            "May-03",
            "03/05/24",
            "5 mars",
            "2024-05-03 00:00:00",
            "03.05.2024",
            "mars-05",
            "3-May-24",
            "1er mai",
        ] {
            assert_eq!(read(text), Count::BecameDate, "{text}");
        }
    }

    #[test]
    fn a_number_beside_the_class() {
        assert_eq!(beside_class("3 flakes"), Some((3, "flakes")));
        assert_eq!(beside_class("3x blade"), Some((3, "blade")));
        assert_eq!(beside_class("flakes x3"), Some((3, "flakes")));
        assert_eq!(beside_class("flake (2)"), Some((2, "flake")));
        for text in ["flake", "3", "é", "type 2", "", "2nd flake", "x", "(3)"] {
            assert_eq!(beside_class(text), None, "{text}");
        }
    }

    #[test]
    fn the_rest_is_no_count() {
        for text in ["bag", "core", "2.5", "12 SX", "99999999", "1-2-3-4", "see note", "++", "c."] {
            assert_eq!(read(text), Count::Unreadable, "{text}");
        }
        for text in ["0", "-3", "none", "aucun", "0.0"] {
            assert_eq!(read(text), Count::Zero, "{text}");
        }
    }
}
