//! Doubts that one row alone cannot raise: the same find twice, a bag and its tool, one reference for a
//! whole field.
//!
//! A doubt never changes what is released. A row that repeats another is used, and listed: setting it
//! aside because its exact place is that of another row would let the release depend on exact places
//! (see `docs/decisions/0021-a-repeated-row-is-a-doubt.md`).

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{DefaultHasher, Hash, Hasher};

use super::register::{Doubt, Field, Matter, Problem, Register};
use super::{ExactFind, find::ExactPlace};

/// A place given within this, metres, is one that somebody stood at.
const PRECISE_M: f64 = 10.0;
/// So many rows at one precise place, over several days, were not all picked up there.
const ROWS_AT_ONE_PLACE: usize = 8;
/// So many, even on one day.
const ROWS_AT_ONE_PLACE_IN_A_DAY: usize = 25;

/// Raises the doubts between rows.
pub(super) fn within(register: &mut Register) {
    let finds = &register.finds;
    let look = |doubts: fn(&[ExactFind], &mut Vec<Problem>)| {
        let mut found = Vec::new();
        doubts(finds, &mut found);
        found
    };
    let ((repeated, bags), one) =
        rayon::join(|| rayon::join(|| look(repeated), || look(bags_and_tools)), || look(one_reference));
    for mut problem in repeated.into_iter().chain(bags).chain(one) {
        let fields: &[Field] = match problem.matter {
            Matter::Doubt(Doubt::OneReference) => &[Field::Place, Field::Easting, Field::Latitude],
            Matter::Doubt(Doubt::CountedTwice) => &[Field::Note],
            _ => &[Field::Number],
        };
        problem.column = register.heading(problem.file, fields);
        register.problems.add(problem);
    }
}

fn doubt(find: &ExactFind, doubt: Doubt, text: String) -> Problem {
    Problem {
        file: find.file,
        row: find.row,
        column: None,
        matter: Matter::Doubt(doubt),
        text: Some(text),
        detail: None,
    }
}

/// One number on two rows, or the same row twice.
fn repeated(finds: &[ExactFind], found: &mut Vec<Problem>) {
    // The first row of each number in each file, by a hash of both.
    let mut first: BTreeMap<u64, u32> = BTreeMap::new();
    for (index, find) in finds.iter().enumerate() {
        let Some(number) = &find.number else { continue };
        let mut hasher = DefaultHasher::new();
        (find.file, number.to_lowercase()).hash(&mut hasher);
        let earlier = *first.entry(hasher.finish()).or_insert(index as u32) as usize;
        let other = &finds[earlier];
        if earlier == index || other.number.as_ref().is_none_or(|n| !n.eq_ignore_ascii_case(number)) {
            continue;
        }
        let text = format!("{number} ({})", other.row);
        if same(find, other) {
            found.push(doubt(find, Doubt::RowTwice, text));
        } else if !goes_on(find, other) {
            found.push(doubt(find, Doubt::NumberTwice, text));
        }
    }
}

/// Whether two rows say the same in every field.
fn same(a: &ExactFind, b: &ExactFind) -> bool {
    let written = |find: &ExactFind| match &find.place {
        ExactPlace::Point { written, .. } => Some(written.clone()),
        ExactPlace::ParishOnly => None,
    };
    a.class == b.class
        && a.period == b.period
        && a.count == b.count
        && a.marks == b.marks
        && a.parish == b.parish
        && written(a) == written(b)
        && a.more == b.more
}

/// Whether a row goes on with the entry of another: same number and place, another class.
fn goes_on(a: &ExactFind, b: &ExactFind) -> bool {
    let place = |find: &ExactFind| match &find.place {
        ExactPlace::Point { x, y, .. } => Some((x.to_bits(), y.to_bits())),
        ExactPlace::ParishOnly => None,
    };
    a.class != b.class && place(a) == place(b) && a.parish == b.parish
}

/// A bag whose note says that it includes a piece that has a row of its own.
fn bags_and_tools(finds: &[ExactFind], found: &mut Vec<Problem>) {
    let speaking: Vec<(&ExactFind, Vec<String>)> = finds
        .iter()
        .filter_map(|find| {
            let note = find.more.as_ref()?.note.as_deref()?;
            let numbers = numbers_included(note);
            (!numbers.is_empty()).then_some((find, numbers))
        })
        .collect();
    if speaking.is_empty() {
        return;
    }
    let wanted: BTreeSet<(u32, &str)> = speaking
        .iter()
        .flat_map(|(find, numbers)| numbers.iter().map(|number| (find.file, number.as_str())))
        .collect();
    let mut rows: BTreeMap<(u32, String), u64> = BTreeMap::new();
    for find in finds {
        let Some(number) = find.number.as_deref().map(tidy_number) else { continue };
        if wanted.contains(&(find.file, number.as_str())) {
            rows.entry((find.file, number)).or_insert(find.row);
        }
    }
    for (find, numbers) in &speaking {
        for number in numbers {
            match rows.get(&(find.file, number.clone())) {
                Some(row) if *row != find.row => {
                    found.push(doubt(find, Doubt::CountedTwice, format!("{number} ({row})")));
                }
                _ => {}
            }
        }
    }
}

/// A number as it is compared: without "no", spaces and marks before it.
fn tidy_number(number: &str) -> String {
    number
        .to_lowercase()
        .trim_start_matches("no.")
        .trim_start_matches("no ")
        .trim_start_matches(['#', '°', 'º', ' '])
        .trim_end_matches(['.', ',', ';', ')'])
        .trim()
        .to_owned()
}

/// The numbers that a note says are included: "incl. scraper no 14a", "dont grattoir n° 212", "see 15".
fn numbers_included(note: &str) -> Vec<String> {
    const WORDS: [&str; 9] =
        ["incl", "including", "includes", "included", "inclus", "dont", "comprend", "compris", "with"];
    let lower = note.to_lowercase();
    let mut words = lower.split_whitespace().map(|word| word.trim_matches(['(', ')', ',', ';', ':', '.']));
    if !words.any(|word| WORDS.contains(&word)) {
        return Vec::new();
    }
    // After the word, "no 14", "n° 14", "#14", "sf 14", or a figure with a letter: "14a".
    let rest: Vec<&str> = words.collect();
    let mut numbers = Vec::new();
    for (index, word) in rest.iter().enumerate() {
        let before = index.checked_sub(1).map(|i| rest[i].trim_end_matches(['.', '°', 'º']));
        let marked = matches!(
            before,
            Some("no" | "n" | "nos" | "num" | "number" | "numéro" | "sf" | "find" | "bag" | "row" | "item")
        ) || word.starts_with(['#', '°'])
            || word.starts_with("n°")
            || word.starts_with("no.");
        let bare = word.trim_start_matches("n°").trim_start_matches("no.").trim_start_matches(['#', '°']);
        let figure = bare.starts_with(|c: char| c.is_ascii_digit());
        let lettered = figure
            && bare.ends_with(|c: char| c.is_alphabetic())
            && bare.len() <= 6
            && !bare.ends_with("mm")
            && !bare.ends_with("cm")
            && !bare.ends_with('g')
            && !bare.ends_with('m')
            && !bare.ends_with("th")
            && !bare.ends_with("st")
            && !bare.ends_with("nd")
            && !bare.ends_with("rd");
        if (marked && bare.chars().any(|c| c.is_ascii_digit())) || lettered {
            numbers.push(tidy_number(bare));
        }
    }
    numbers
}

/// Many rows at one precise place, over days: a reference taken once for a whole field.
fn one_reference(finds: &[ExactFind], found: &mut Vec<Problem>) {
    // Rows and first row by a hash of the place.
    let mut places: BTreeMap<(u64, u64), (u32, u32)> = BTreeMap::new();
    let precise = |find: &ExactFind| match &find.place {
        ExactPlace::Point { x, y, square_m, .. } if *square_m <= PRECISE_M => {
            Some((x.to_bits(), y.to_bits()))
        }
        _ => None,
    };
    for (index, find) in finds.iter().enumerate() {
        if let Some(key) = precise(find) {
            places.entry(key).or_insert((index as u32, 0)).1 += 1;
        }
    }
    let mut many: BTreeMap<u32, (usize, BTreeSet<String>)> = places
        .values()
        .filter(|(_, rows)| *rows as usize >= ROWS_AT_ONE_PLACE)
        .map(|(first, rows)| (*first, (*rows as usize, BTreeSet::new())))
        .collect();
    if many.is_empty() {
        return;
    }
    for find in finds {
        let Some((first, _)) = precise(find).and_then(|key| places.get(&key)) else { continue };
        let Some((_, days)) = many.get_mut(first) else { continue };
        let date = find.more.as_ref().and_then(|more| more.date.as_ref());
        if let Some(date) = date.filter(|_| days.len() < 2) {
            days.insert(date.clone());
        }
    }
    for (first, (rows, days)) in many {
        if days.len() < 2 && rows < ROWS_AT_ONE_PLACE_IN_A_DAY {
            continue;
        }
        let find = &finds[first as usize];
        let ExactPlace::Point { written, .. } = &find.place else { continue };
        found.push(doubt(find, Doubt::OneReference, format!("{written} × {rows}")));
    }
}

#[cfg(test)]
mod tests {
    use super::numbers_included;

    #[test]
    fn notes_name_the_pieces_they_include() {
        assert_eq!(numbers_included("incl. scraper no 14a"), ["14a"]);
        assert_eq!(numbers_included("12 pieces, dont grattoir n° 212"), ["212"]);
        assert_eq!(numbers_included("bag incl. the blade (no. 15)"), ["15"]);
        assert_eq!(numbers_included("includes 7b and 7c"), ["7b", "7c"]);
        assert!(numbers_included("incl. one 34mm long").is_empty());
        assert!(numbers_included("with cortex").is_empty());
        assert!(numbers_included("found near no 14").is_empty());
    }
}
