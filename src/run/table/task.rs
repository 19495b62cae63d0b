//! What is done with each place of a table, and the columns that tell of it.

use std::borrow::Cow;

use super::columns::Spot;
use super::plain::Together;
use crate::coordinates::Position;
use crate::coordinates::notation::{Pair, cut_places};
use crate::fault::{Fault, Result};
use crate::run::coarsen::{Coarsened, Coarsening, Squares};
use crate::run::convert::{Asked, Converted, Places};
use crate::words::Language;

/// What to do with a table's places.
#[derive(Debug, Clone)]
pub enum Task {
    /// Convert each.
    Convert(Asked),
    /// Coarsen each.
    Coarsen(Coarsening),
}

/// One worker's part of a task.
pub(super) struct Doing {
    pub how: How,
    /// The last fault that was said: rows that fail mostly fail alike, and words take their time.
    last_said: Option<(Fault, String)>,
}

/// What a worker does with each place.
pub(super) enum How {
    Convert(Box<Places>, Together),
    Coarsen(Squares),
}

/// A place as a row gives it.
pub(super) enum Place<'a> {
    One(Cow<'a, str>),
    Two(Cow<'a, str>, Cow<'a, str>, Pair),
}

impl Task {
    /// The headings of the added columns, `error` the last; one that the table has already is told apart.
    pub(super) fn added(&self, headings: &[String], spot: Spot) -> Vec<String> {
        let (columns, apart): (Vec<&str>, String) = match self {
            Self::Convert(asked) => {
                let place =
                    if asked.to.in_degrees() { ["latitude", "longitude"] } else { ["easting", "northing"] };
                let squares: &[&str] = if matches!(spot, Spot::One(_)) { &HOLDING } else { &[] };
                ([&place, &CONVERTED[..], squares].concat(), asked.to.to_string())
            }
            Self::Coarsen(_) => (COARSENED.to_vec(), "coarsened".to_owned()),
        };
        columns
            .into_iter()
            .chain(["error"])
            .map(|name| {
                let mut name = (*name).to_owned();
                while headings.iter().any(|heading| heading.trim().eq_ignore_ascii_case(&name)) {
                    name = format!("{name} {apart}");
                }
                name
            })
            .collect()
    }

    /// Whether a column of the table is left out: one that gives the place finer than it may be told.
    pub(super) fn cuts(&self, spot: Spot, column: usize) -> bool {
        let holds_place = match spot {
            Spot::One(one) => column == one,
            Spot::Two(first, second, _) => column == first || column == second,
        };
        holds_place && matches!(self, Self::Coarsen(_))
    }

    /// A cell of another column as it goes out: beside a coarsened place none stands that is finer. `None`
    /// where it goes as it is.
    pub(super) fn without_places(&self, cell: &str, heading: &str) -> Option<String> {
        let looked_at = matches!(self, Self::Coarsen(_))
            && cell.contains(|c: char| c.is_alphanumeric())
            && !NUMBERS.contains(&super::columns::folded(heading).as_str());
        looked_at.then(|| cut_places(cell)).filter(|cut| cut != cell)
    }

    /// Begins one worker's part.
    pub(super) fn begin(&self) -> Result<Doing> {
        let how = match self {
            Self::Convert(asked) => How::Convert(Box::new(Places::new(asked.clone())?), Together::default()),
            Self::Coarsen(how) => How::Coarsen(Squares::new(how.clone())),
        };
        Ok(Doing { how, last_said: None })
    }
}

impl Doing {
    /// A fault and what to do about it, in one cell.
    pub(super) fn said(&mut self, fault: &Fault, language: Language) -> &str {
        if self.last_said.as_ref().is_none_or(|(last, _)| last != fault) {
            let text = fault.text(language);
            let text = match fault.hint(language) {
                Some(hint) => format!("{text}. {hint}"),
                None => text,
            };
            self.last_said = Some((fault.clone(), text));
        }
        self.last_said.as_ref().map_or("", |(_, text)| text)
    }

    /// The added cells of one row, without the last.
    pub(super) fn row(&mut self, place: &Place<'_>) -> Result<Vec<Cow<'static, str>>> {
        match (&mut self.how, place) {
            (How::Convert(places, _), Place::One(text)) => {
                let converted = places.convert(text)?;
                let held = places.square_there(&converted)?.and_then(|square| square.held_by);
                let mut cells = filled(converted);
                let (reference, side) =
                    held.map_or_else(Default::default, |(name, side_m)| (name, side_m.to_string()));
                cells.extend([reference.into(), side.into()]);
                Ok(cells)
            }
            (How::Convert(places, _), Place::Two(first, second, pair)) => {
                places.convert_pair(first, second, *pair).map(filled)
            }
            (How::Coarsen(squares), Place::One(text)) => squares.coarsen(text).map(cut),
            (How::Coarsen(squares), Place::Two(first, second, pair)) => {
                squares.coarsen_pair(first, second, *pair).map(cut)
            }
        }
    }
}

/// Headings of a find's own number, which may look like a reference and stays.
const NUMBERS: [&str; 12] = [
    "id",
    "no",
    "n",
    "number",
    "find",
    "findno",
    "findid",
    "findnumber",
    "sf",
    "numero",
    "numéro",
    "inventaire",
];
/// The columns added by a conversion, after the two of the place.
const CONVERTED: [&str; 6] =
    ["reference", "understood_as", "square_m", "uncertainty_m", "operation", "accuracy_m"];
/// And those of a table with references: the square there that holds the whole of theirs.
const HOLDING: [&str; 2] = ["held_by", "held_by_side_m"];
/// The columns added by coarsening; easting and northing are those of the square's south-west corner.
const COARSENED: [&str; 5] = ["reference", "square_m", "easting", "northing", "system"];

/// The added cells of a row that was coarsened.
fn cut(coarsened: Coarsened) -> Vec<Cow<'static, str>> {
    let cell = coarsened.cell;
    vec![
        coarsened.reference.into(),
        cell.side_m.to_string().into(),
        plain(cell.west_m(), 0).into(),
        plain(cell.south_m(), 0).into(),
        coarsened.system.to_string().into(),
    ]
}

/// The added cells of a row that was converted.
pub(super) fn filled(converted: Converted) -> Vec<Cow<'static, str>> {
    let (first, second, decimals) = match converted.position {
        Position::Geographic { latitude_deg, longitude_deg } => (latitude_deg, longitude_deg, 9),
        Position::Projected { easting_m, northing_m } => (easting_m, northing_m, 3),
    };
    let maybe = |value: Option<f64>, decimals| {
        value.map_or(Cow::Borrowed(""), |value| Cow::Owned(plain(value, decimals)))
    };
    vec![
        plain(first, decimals).into(),
        plain(second, decimals).into(),
        converted.reference.unwrap_or_default().into(),
        converted.written.understood_as.trim_start_matches("notation-").into(),
        plain(converted.written.square_m, 4).into(),
        maybe(converted.uncertainty_m, 2),
        converted.operation.description.into(),
        maybe(converted.operation.accuracy_m, 3),
    ]
}

/// A number for a machine: a point, no grouping, no idle zeros.
pub(super) fn plain(value: f64, decimals: usize) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".to_owned() } else { text }
}
