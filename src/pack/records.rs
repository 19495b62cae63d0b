//! Rows with a shape: said once here, and written as GeoJSON, KML, GeoPackage, CSV and workbook sheets.

use geo::MultiPolygon;

use super::Contents;
use crate::analyse::{Table, Value};
use crate::words::Words;

/// One value of a record.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Datum {
    Nothing,
    Text(String),
    Whole(i64),
    /// A number with the decimals it is known to.
    Real(f64, usize),
}

/// What a column holds, for formats that fix it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Text,
    Whole,
    Real,
}

/// A column: a name that is the same in every language, and the heading people read.
#[derive(Debug, Clone)]
pub(super) struct Column {
    pub name: &'static str,
    pub kind: Kind,
}

/// One row.
#[derive(Debug, Clone)]
pub(super) struct Record {
    /// Its ground, in the working grid.
    pub shape: Option<MultiPolygon<f64>>,
    /// As many as there are columns.
    pub values: Vec<Datum>,
}

/// Rows of one kind.
#[derive(Debug, Clone)]
pub(super) struct Records {
    /// The name of its layer or file, the same in every language.
    pub name: &'static str,
    /// What it holds, in words.
    pub title: String,
    /// What to bear in mind when using it.
    pub caution: String,
    pub columns: Vec<Column>,
    pub rows: Vec<Record>,
}

impl Datum {
    /// An optional text.
    pub fn text(text: Option<impl Into<String>>) -> Self {
        text.map_or(Self::Nothing, |text| Self::Text(text.into()))
    }

    /// An optional number.
    pub fn real(number: Option<f64>, decimals: usize) -> Self {
        number.filter(|n| n.is_finite()).map_or(Self::Nothing, |n| Self::Real(n, decimals))
    }

    /// As plain text, with a decimal point.
    pub fn plain(&self) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Text(text) => text.clone(),
            Self::Whole(n) => n.to_string(),
            Self::Real(n, decimals) => format!("{n:.decimals$}"),
        }
    }

    /// For people, in the habit of a language.
    pub fn said(&self, words: &Words) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Text(text) => text.clone(),
            Self::Whole(n) => words.number(*n as f64, 0),
            Self::Real(n, decimals) => words.number(*n, *decimals),
        }
    }
}

impl Column {
    pub fn new(name: &'static str, kind: Kind) -> Self {
        Self { name, kind }
    }

    /// Its heading in the language of the study.
    pub fn heading(&self, words: &Words) -> String {
        words.say(&format!("pack-column-{}", self.name.replace('_', "-")))
    }
}

impl Records {
    /// Marks every row when the pack is not for publication: a column of its own, which machines read
    /// as well as people.
    pub fn marked(mut self, contents: &Contents<'_>) -> Self {
        if let Some(mark) = contents.handling() {
            self.columns.push(Column::new("handling", Kind::Text));
            for row in &mut self.rows {
                row.values.push(Datum::Text(mark.clone()));
            }
        }
        self
    }

    /// As a table, for CSV and the workbook.
    pub fn table(&self, words: &Words) -> Table {
        let value = |datum: &Datum| match datum {
            Datum::Nothing => Value::Empty,
            Datum::Text(text) => Value::Text(text.clone()),
            Datum::Whole(n) => u64::try_from(*n).map_or(Value::Number(*n as f64, 0), Value::Whole),
            Datum::Real(n, decimals) => Value::Number(*n, *decimals),
        };
        Table {
            name: self.name.to_owned(),
            title: self.title.clone(),
            headings: self.columns.iter().map(|column| column.heading(words)).collect(),
            rows: self.rows.iter().map(|row| row.values.iter().map(value).collect()).collect(),
            totals: None,
            notes: Some(&self.caution).filter(|caution| !caution.is_empty()).cloned().into_iter().collect(),
        }
    }
}
