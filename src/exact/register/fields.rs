//! The fields of one row that need more than a look-up: marks, measures, the note; and where a row's
//! problems go.

use super::count;
use super::field::Field;
use super::lines::is_blank;
use super::marks::{self, Answer};
use super::measure;
use super::problem::{Doubt, Matter, Problem, Problems};
use super::row::Read;
use super::sniff::Sheet;
use crate::exact::Reason;
use crate::fault::Fault;
use crate::study::vocabulary::{Class, Mark, Marks, Standing};

/// A row being read: its cells and where its problems go.
pub(super) struct Row<'a> {
    pub number: u64,
    pub file: u32,
    pub cells: &'a [String],
    pub sheet: &'a Sheet,
    pub problems: &'a mut Problems,
}

impl Row<'_> {
    /// A field's cell; blank where the file has no such column.
    pub(super) fn get(&self, field: Field) -> &str {
        let cell = self.sheet.layout.column(field).and_then(|column| self.cells.get(column));
        cell.map_or("", |cell| if is_blank(cell) { "" } else { cell })
    }

    pub(super) fn heading(&self, field: Field) -> &str {
        self.sheet.layout.column(field).map_or("", |column| &self.sheet.headings[column])
    }

    pub(super) fn owned(&self, field: Field) -> Option<String> {
        Some(self.get(field)).filter(|text| !text.is_empty()).map(str::to_owned)
    }

    pub(super) fn add(&mut self, matter: Matter, field: Option<Field>, text: &str, detail: Option<Fault>) {
        let column = field.map(|field| self.heading(field)).filter(|heading| !heading.is_empty());
        self.problems.add(Problem {
            file: self.file,
            row: self.number,
            column: column.map(str::to_owned),
            matter,
            text: Some(text.trim()).filter(|text| !text.is_empty()).map(str::to_owned),
            detail,
        });
    }

    pub(super) fn doubt(&mut self, doubt: Doubt, field: Field) {
        let text = self.get(field).to_owned();
        self.add(Matter::Doubt(doubt), Some(field), &text, None);
    }

    pub(super) fn set_aside(
        &mut self,
        reason: Reason,
        field: Option<Field>,
        text: &str,
        detail: Option<Fault>,
    ) -> Read {
        self.add(Matter::SetAside(reason), field, text, detail);
        Read::SetAside(reason)
    }
}

/// A class by its words; a query and what stands in brackets after it apart.
pub(super) fn class(text: &str) -> Option<Class> {
    let beside = || count::beside_class(text).and_then(|(_, class)| Class::read(class));
    Class::read(text).or_else(beside).or_else(|| {
        let plain = text.split(['(', '[', ',', ';']).next().unwrap_or("");
        let plain = plain.trim().trim_start_matches("poss. ").trim_start_matches("prob. ");
        let plain = plain.trim_start_matches("possible ").trim_start_matches("probable ");
        let plain = plain.trim_start_matches("broken ").trim_start_matches("burnt ");
        Class::read(plain)
    })
}

/// Standing by its words, or by yes and no where the column asks "in place?".
pub(super) fn standing(text: &str) -> Option<Standing> {
    Standing::read(text).or_else(|| match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "oui" | "o" | "x" | "✓" => Some(Standing::InPlace),
        "no" | "n" | "non" => Some(Standing::Disturbed),
        _ => None,
    })
}

pub(super) fn marks(row: &mut Row<'_>) -> Marks {
    let mut seen = Marks::default();
    for (field, mark) in [
        (Field::Platform, Mark::Platform),
        (Field::Bulb, Mark::Bulb),
        (Field::Ripples, Mark::Ripples),
        (Field::DorsalScars, Mark::DorsalScars),
        (Field::Retouch, Mark::Retouch),
    ] {
        match marks::answer(row.get(field)) {
            Answer::Yes => seen = seen.with(mark),
            Answer::No => {}
            Answer::Queried => row.doubt(Doubt::MarkQueried, field),
        }
    }
    let text = row.get(Field::Marks);
    if !text.is_empty() {
        let (words, unknown) = marks::words(text);
        seen = words.into_iter().fold(seen, Marks::with);
        if !unknown.is_empty() {
            let matter = Matter::Doubt(Doubt::MarksUnknown);
            row.add(matter, Some(Field::Marks), &unknown.join(", "), None);
        }
    }
    seen
}

pub(super) fn length(row: &mut Row<'_>, class: Class) -> Option<f64> {
    let text = row.get(Field::Length);
    if text.is_empty() {
        return None;
    }
    let small = matches!(class, Class::Chip | Class::Microlith | Class::Microburin | Class::Bladelet);
    match measure::length_mm(text, row.heading(Field::Length)) {
        Some(length) => {
            if measure::length_is_unlikely(length, small) {
                row.doubt(Doubt::LengthUnlikely, Field::Length);
            }
            Some(length.value)
        }
        None => {
            row.doubt(Doubt::LengthUnreadable, Field::Length);
            None
        }
    }
}

pub(super) fn weight(row: &mut Row<'_>) -> Option<f64> {
    let text = row.get(Field::Weight);
    if text.is_empty() {
        return None;
    }
    match measure::weight_g(text, row.heading(Field::Weight)) {
        Some(weight) => {
            if measure::weight_is_unlikely(weight) {
                row.doubt(Doubt::WeightUnlikely, Field::Weight);
            }
            Some(weight.value)
        }
        None => {
            row.doubt(Doubt::WeightUnreadable, Field::Weight);
            None
        }
    }
}

/// Breadth, millimetres: of its own column, or the second figure of "34 x 22 x 8".
pub(super) fn breadth(row: &mut Row<'_>) -> Option<f64> {
    side(row, Field::Breadth, 1)
}

/// Thickness, millimetres: of its own column, or the third figure of "34 x 22 x 8".
pub(super) fn thickness(row: &mut Row<'_>) -> Option<f64> {
    side(row, Field::Thickness, 2)
}

fn side(row: &mut Row<'_>, field: Field, rank: usize) -> Option<f64> {
    let text = row.get(field);
    if text.is_empty() {
        let all = measure::sides_mm(row.get(Field::Length), row.heading(Field::Length));
        return all.get(rank).copied();
    }
    let read = measure::length_mm(text, row.heading(field)).map(|length| length.value);
    if read.is_none() {
        row.doubt(Doubt::LengthUnreadable, field);
    }
    read
}

/// How deep it lay, as written; bare figures with the unit that the heading states.
pub(super) fn depth(row: &Row<'_>) -> Option<String> {
    let text = row.owned(Field::Depth)?;
    let bare = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '-' | '–'));
    let heading = row.heading(Field::Depth).to_lowercase();
    let mut words = heading.split(|c: char| !c.is_alphabetic());
    let unit = words.find(|word| matches!(*word, "mm" | "cm" | "m"));
    Some(unit.filter(|_| bare).map_or_else(|| text.clone(), |unit| format!("{text} {unit}")))
}

/// A note without "no 14": find numbers, which read as a ten-kilometre square of letters NO.
pub(super) fn without_numbers(note: &str) -> String {
    let words: Vec<&str> = note.split(' ').collect();
    let is_number = |word: Option<&&str>| {
        word.is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit()) && word.len() <= 4)
    };
    let mut kept = Vec::with_capacity(words.len());
    let mut at = 0;
    while at < words.len() {
        let plain = words[at].trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        // Three figures and three more would be a place: those stay.
        if matches!(plain.as_str(), "no" | "nos" | "sf" | "nr")
            && is_number(words.get(at + 1))
            && !is_number(words.get(at + 2))
        {
            at += 2;
            continue;
        }
        kept.push(words[at]);
        at += 1;
    }
    kept.join(" ")
}

/// The note, with those of further columns after it.
pub(super) fn note(row: &Row<'_>) -> Option<String> {
    let further = row.sheet.layout.more_notes.iter().filter_map(|column| row.cells.get(*column));
    let parts: Vec<&str> = std::iter::once(row.get(Field::Note))
        .chain(further.map(|cell| if is_blank(cell) { "" } else { cell.as_str() }))
        .filter(|part| !part.is_empty())
        .collect();
    (!parts.is_empty()).then(|| parts.join("; "))
}
