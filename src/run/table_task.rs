//! What is done with each place of a table, and the columns that tell of it.

use std::borrow::Cow;

use super::coarsen::{Coarsened, Coarsening, Squares};
use super::convert::{Asked, Converted, Places};
use super::convert_table::Spot;
use crate::coordinates::Position;
use crate::coordinates::notation::Pair;
use crate::fault::Result;

/// What to do with a table's places.
#[derive(Debug, Clone)]
pub enum Task {
    /// Convert each.
    Convert(Asked),
    /// Coarsen each.
    Coarsen(Coarsening),
}

/// One worker's part of a task.
pub(super) enum Doing {
    Convert(Places),
    Coarsen(Squares),
}

/// A place as a row gives it.
pub(super) enum Place<'a> {
    One(Cow<'a, str>),
    Two(Cow<'a, str>, Cow<'a, str>, Pair),
}

impl Task {
    /// The headings of the added columns, `error` the last; one that the table has already is told apart.
    pub(super) fn added(&self, headings: &[String]) -> Vec<String> {
        let (names, apart): (&[&str], String) = match self {
            Self::Convert(asked) if asked.to.in_degrees() => (&CONVERTED_TO_DEGREES, asked.to.to_string()),
            Self::Convert(asked) => (&CONVERTED, asked.to.to_string()),
            Self::Coarsen(_) => (&COARSENED, "coarsened".to_owned()),
        };
        names
            .iter()
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

    /// Begins one worker's part.
    pub(super) fn begin(&self) -> Result<Doing> {
        Ok(match self {
            Self::Convert(asked) => Doing::Convert(Places::new(asked.clone())?),
            Self::Coarsen(how) => Doing::Coarsen(Squares::new(how.clone())),
        })
    }
}

impl Doing {
    /// The added cells of one row, without the last.
    pub(super) fn row(&mut self, place: &Place<'_>) -> Result<Vec<Cow<'static, str>>> {
        match (self, place) {
            (Self::Convert(places), Place::One(text)) => places.convert(text).map(filled),
            (Self::Convert(places), Place::Two(first, second, pair)) => {
                places.convert_pair(first, second, *pair).map(filled)
            }
            (Self::Coarsen(squares), Place::One(text)) => squares.coarsen(text).map(cut),
            (Self::Coarsen(squares), Place::Two(first, second, pair)) => {
                squares.coarsen_pair(first, second, *pair).map(cut)
            }
        }
    }
}

/// The columns added by a conversion.
const CONVERTED: [&str; 9] = [
    "easting",
    "northing",
    "reference",
    "understood_as",
    "square_m",
    "uncertainty_m",
    "operation",
    "accuracy_m",
    "error",
];
const CONVERTED_TO_DEGREES: [&str; 9] = [
    "latitude",
    "longitude",
    "reference",
    "understood_as",
    "square_m",
    "uncertainty_m",
    "operation",
    "accuracy_m",
    "error",
];
/// The columns added by coarsening; easting and northing are those of the square's south-west corner.
const COARSENED: [&str; 6] = ["reference", "square_m", "easting", "northing", "system", "error"];

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
fn filled(converted: Converted) -> Vec<Cow<'static, str>> {
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
fn plain(value: f64, decimals: usize) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".to_owned() } else { text }
}
