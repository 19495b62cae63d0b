//! Headings that can mean two things are settled by what stands below them: a "Date" can be a period, a
//! "Context" can be a number from an excavation, a "Ref" can be a grid reference.

use std::collections::BTreeSet;

use super::count::{self, Count};
use super::date;
use super::field::Field;
use super::headings::Layout;
use super::lines::{is_blank, is_ditto};
use super::measure;
use super::years;
use crate::study::vocabulary::{Country, Period, Setting, Standing, fold};

/// Settles what can be settled from a sample of rows. A column that the study file names stays as named.
pub(super) fn settle(layout: &mut Layout, headings: &[String], rows: &[Vec<String>]) {
    date_or_period(layout, headings, rows);
    reference_or_number(layout, headings, rows);
    number_or_count(layout, headings, rows);
    landowner_or_permission(layout, rows);
    drop_what_says_nothing(layout, headings, rows);
}

/// "Number" beside "Find no", with figures that come again, is how many.
fn number_or_count(layout: &mut Layout, headings: &[String], rows: &[Vec<String>]) {
    let Some(number) = layout.column(Field::Number).filter(|_| !layout.by_hand.contains(&Field::Number))
    else {
        return;
    };
    let short = matches!(fold(&headings[number]).as_str(), "number" | "no" | "num" | "nr" | "numero");
    if layout.column(Field::Count).is_some() || !short {
        return;
    }
    let other = (0..headings.len())
        .find(|index| layout.field(*index).is_none() && Layout::can_be_number(&headings[*index]));
    let Some(other) = other else { return };
    let figures: Vec<&str> = cells(rows, number).collect();
    let distinct: BTreeSet<&str> = figures.iter().copied().collect();
    let counts = figures.iter().all(|cell| matches!(count::read(cell), Count::Pieces { .. }));
    if counts && distinct.len() < figures.len() {
        layout.assign(other, Some(Field::Number));
        layout.assign(number, Some(Field::Count));
    }
}

/// "Landowner" over yes and no, or "asked 2019", is the permission. Half of the cells settle it: a name that
/// is now and then followed by an answer stays a name.
fn landowner_or_permission(layout: &mut Layout, rows: &[Vec<String>]) {
    let by_hand = |field| layout.by_hand.contains(&field);
    let Some(column) = layout.column(Field::Landowner).filter(|_| !by_hand(Field::Landowner)) else { return };
    if layout.column(Field::Permission).is_some() {
        return;
    }
    let (all, answers) = tell(rows, column, is_permission);
    if answers > 0 && 2 * answers >= all {
        layout.assign(column, Some(Field::Permission));
    }
}

/// Whether a cell says how permission stands, in the usual words of English and French.
fn is_permission(cell: &str) -> bool {
    const ANSWERS: [&str; 21] = [
        "y",
        "n",
        "x",
        "o",
        "ok",
        "yes",
        "no",
        "oui",
        "non",
        "asked",
        "given",
        "granted",
        "agreed",
        "refused",
        "verbal",
        "written",
        "accord",
        "permission",
        "autorise",
        "demande",
        "verbale",
    ];
    cell.trim() == "✓" || fold(cell).split(' ').next().is_some_and(|first| ANSWERS.contains(&first))
}

/// The cells of a column that say something.
fn cells(rows: &[Vec<String>], column: usize) -> impl Iterator<Item = &str> {
    rows.iter()
        .filter_map(move |row| row.get(column))
        .map(String::as_str)
        .filter(|cell| !is_blank(cell) && !is_ditto(cell))
}

/// How many cells of a column say something, and how many of those are as asked.
fn tell(rows: &[Vec<String>], column: usize, as_asked: impl Fn(&str) -> bool) -> (usize, usize) {
    cells(rows, column).fold((0, 0), |(all, good), cell| (all + 1, good + usize::from(as_asked(cell))))
}

/// "Date" over "Mesolithic" or "4000-3500 BC" is the period.
fn date_or_period(layout: &mut Layout, headings: &[String], rows: &[Vec<String>]) {
    if layout.column(Field::Period).is_some() || layout.by_hand.contains(&Field::Date) {
        return;
    }
    let says_period = |cell: &str| {
        date::read(cell).is_none()
            && years::read(cell, Country::Other).is_some_and(|dating| dating.period != Period::Undated)
    };
    let called_date = |index: usize| matches!(fold(&headings[index]).as_str(), "date" | "dated");
    let taken = layout.column(Field::Date);
    let free = (0..headings.len()).filter(|index| layout.field(*index).is_none() && called_date(*index));
    for column in taken.into_iter().chain(free) {
        let (all, periods) = tell(rows, column, says_period);
        if periods > 0 && 2 * periods >= all {
            layout.assign(column, Some(Field::Period));
            return;
        }
    }
}

/// Without another column of places, one that mostly holds references with letters is that.
fn reference_or_number(layout: &mut Layout, headings: &[String], rows: &[Vec<String>]) {
    let placing = [Field::Place, Field::Easting, Field::Latitude];
    if placing.iter().any(|field| layout.column(*field).is_some()) {
        return;
    }
    for column in 0..headings.len() {
        if layout.field(column).is_some_and(|field| layout.by_hand.contains(&field)) {
            continue;
        }
        let (all, references) = tell(rows, column, is_letter_reference);
        if references > 0 && 2 * references >= all {
            layout.assign(column, Some(Field::Place));
            return;
        }
    }
}

/// A heading that is right and cells of which not one is: the heading meant something else.
fn drop_what_says_nothing(layout: &mut Layout, headings: &[String], rows: &[Vec<String>]) {
    const FEW: usize = 5;
    for field in [Field::Setting, Field::Standing, Field::Uncertainty, Field::Length, Field::Weight] {
        let Some(column) = layout.column(field).filter(|_| !layout.by_hand.contains(&field)) else {
            continue;
        };
        let heading = &headings[column];
        let (all, good) = tell(rows, column, |cell| match field {
            Field::Setting => Setting::read(cell).is_some(),
            Field::Standing => Standing::read(cell).is_some() || cell.trim().len() <= 3,
            Field::Uncertainty => measure::uncertainty_m(cell, heading).is_some(),
            Field::Length => measure::length_mm(cell, heading).is_some(),
            _ => measure::weight_g(cell, heading).is_some(),
        });
        if all >= FEW && good == 0 {
            layout.assign(column, None);
        }
    }
}

/// Two letters and an even number of figures.
pub(super) fn is_letter_reference(cell: &str) -> bool {
    let packed: String = cell.chars().filter(|c| !c.is_whitespace()).collect();
    let Some((letters, figures)) = packed.split_at_checked(2) else { return false };
    letters.chars().all(|c| c.is_ascii_uppercase())
        && (4..=10).contains(&figures.len())
        && figures.len() % 2 == 0
        && figures.chars().all(|c| c.is_ascii_digit())
}
