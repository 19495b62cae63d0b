//! Finds a file's separator, its row of headings and its decimal mark by trying each.

use std::path::Path;

use super::field::Field;
use super::headings::{Layout, near, system_in};
use super::records::Records;
use super::{content, decode, files};
use crate::coordinates::System;
use crate::exact::Private;
use crate::fault::{Fault, Result};
use crate::study::Columns;

/// Titles above the headings are looked through this far, rows.
const ROWS_ABOVE: usize = 40;
/// Rows below the headings that are looked at for decimal marks.
const ROWS_BELOW: usize = 200;

/// A text table with its headings found.
pub(super) struct Sheet {
    pub delimiter: u8,
    /// The row of headings, as a spreadsheet counts it.
    pub heading_row: u64,
    pub headings: Vec<String>,
    /// Cells in the row of headings, those without a heading at its end included.
    pub width: usize,
    pub layout: Layout,
    /// Numbers have a decimal comma.
    pub decimal_comma: bool,
    /// The system that the headings of the coordinates state.
    pub system: Option<System>,
    /// Columns headed X and Y hold degrees.
    pub degrees: bool,
    /// Titles above the headings.
    pub titles: Vec<String>,
}

/// How one file was understood, for its owner.
#[derive(Debug, Clone)]
pub struct FileShape {
    /// The file's name, relative to the study file.
    pub name: String,
    /// Its encoding.
    pub encoding: &'static str,
    /// Its separator.
    pub delimiter: char,
    /// Whether its numbers have a decimal comma.
    pub decimal_comma: bool,
    /// The row of headings, as a spreadsheet counts it.
    pub heading_row: u64,
    /// The last row.
    pub last_row: u64,
    /// The system that its headings state.
    pub system: Option<System>,
    /// Each heading with the field it was taken for, in order.
    pub columns: Vec<(String, Option<Field>)>,
}

impl FileShape {
    /// A table that is no register.
    pub(super) fn passed_over(name: &str, encoding: &'static str, last_row: u64) -> Self {
        Self {
            name: name.to_owned(),
            encoding,
            delimiter: ',',
            decimal_comma: false,
            heading_row: 0,
            last_row,
            system: None,
            columns: Vec::new(),
        }
    }

    /// Headings that nothing was made of, each with the field that it comes near to.
    pub fn unused(&self) -> impl Iterator<Item = (&str, Option<Field>)> {
        let unused = self.columns.iter().filter(|(heading, field)| field.is_none() && !heading.is_empty());
        unused.map(|(heading, _)| (heading.as_str(), near(heading)))
    }
}

/// Finds separator and headings: those that give the most columns a meaning.
pub(super) fn sniff(text: &str, by_hand: &Columns) -> Result<Sheet> {
    let stated = stated_separator(text);
    let mut best: Option<(usize, usize, Sheet)> = None;
    for delimiter in [b',', b';', b'\t', b'|'] {
        if stated.is_some_and(|stated| stated != delimiter) {
            continue;
        }
        let mut records = Records::new(text, delimiter);
        let (mut cells, mut titles) = (Vec::new(), Vec::new());
        for _ in 0..ROWS_ABOVE {
            let Some(record) = records.next(&mut cells) else { break };
            let whole = cells.len();
            while cells.last().is_some_and(|cell| cell.trim().is_empty()) {
                cells.pop();
            }
            let layout = Layout::of(&cells, by_hand);
            let score = (layout.known, cells.len());
            if best.as_ref().is_none_or(|(known, width, _)| score > (*known, *width)) {
                let sheet = Sheet {
                    delimiter,
                    heading_row: record.row,
                    headings: cells.iter().map(|cell| tidy(cell)).collect(),
                    width: whole,
                    layout,
                    decimal_comma: false,
                    system: None,
                    degrees: false,
                    titles: titles.clone(),
                };
                best = Some((score.0, score.1, sheet));
            }
            titles.extend(cells.iter().map(|cell| tidy(cell)).find(|cell| !cell.is_empty()));
        }
    }
    let found = best.map(|(_, _, sheet)| sheet).filter(|sheet| {
        // One known word is a heading only if it tells where or what.
        let telling = [Field::Place, Field::Easting, Field::Latitude, Field::Parish, Field::Class];
        sheet.layout.known >= 2 || telling.iter().any(|field| sheet.layout.column(*field).is_some())
    });
    let mut sheet = found.ok_or_else(|| Fault::new("register-no-headings"))?;
    sheet.look_below(text);
    Ok(sheet)
}

/// A first line "sep=;", which some spreadsheets write.
fn stated_separator(text: &str) -> Option<u8> {
    let line = text.lines().next()?.trim().trim_matches('"');
    let mark = line.strip_prefix("sep=").or_else(|| line.strip_prefix("SEP="))?;
    Some(mark.bytes().next().unwrap_or(b'\t')).filter(u8::is_ascii)
}

/// A heading on one line, without doubled spaces.
fn tidy(heading: &str) -> String {
    heading.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Sheet {
    /// The rows below the headings.
    pub fn records<'a>(&self, text: &'a str) -> Records<'a> {
        let mut records = Records::new(text, self.delimiter);
        let mut cells = Vec::new();
        for _ in 0..self.heading_row {
            records.next(&mut cells);
        }
        records.of_width(self.width)
    }

    /// Looks at some rows: are commas decimal marks, and are X and Y degrees?
    fn look_below(&mut self, text: &str) {
        let mut rows = Vec::new();
        let mut records = self.records(text);
        let mut cells = Vec::new();
        while rows.len() < ROWS_BELOW && records.next(&mut cells).is_some() {
            rows.push(cells.clone());
        }
        content::settle(&mut self.layout, &self.headings, &rows);
        self.system = [Field::Easting, Field::Northing, Field::Place, Field::Latitude]
            .iter()
            .filter_map(|field| self.layout.column(*field))
            .find_map(|index| system_in(&self.headings[index]));
        let numeric = [
            Field::Easting,
            Field::Northing,
            Field::Latitude,
            Field::Longitude,
            Field::Length,
            Field::Weight,
            Field::Uncertainty,
        ];
        let columns: Vec<usize> = numeric.iter().filter_map(|field| self.layout.column(*field)).collect();
        let pair = self.layout.column(Field::Easting).zip(self.layout.column(Field::Northing));
        let (mut commas, mut points, mut pairs, mut degrees) = (0, 0, 0, 0);
        for cells in &rows {
            for cell in columns.iter().filter_map(|index| cells.get(*index)) {
                let plain =
                    cell.trim().chars().all(|c| c.is_ascii_digit() || "+-,. \u{a0}\u{202f}".contains(c));
                if plain && cell.matches(',').count() == 1 && !cell.contains('.') {
                    commas += 1;
                } else if plain && cell.matches('.').count() == 1 && !cell.contains(',') {
                    points += 1;
                }
            }
            let number = |index: usize| {
                cells.get(index).and_then(|cell| cell.trim().replace(',', ".").parse::<f64>().ok())
            };
            if let Some((x, y)) = pair.and_then(|(x, y)| number(x).zip(number(y))) {
                pairs += 1;
                degrees += usize::from(x.abs() <= 180.0 && y.abs() <= 90.0);
            }
        }
        self.decimal_comma = commas > points;
        // No grid has finds within 180 m of its corner in every row.
        self.degrees = pairs > 0 && pairs == degrees;
    }

    /// What the owner is told of the file.
    pub fn shape(&self, name: &str, encoding: &'static str, decimal_comma: bool, last_row: u64) -> FileShape {
        let columns = self
            .headings
            .iter()
            .enumerate()
            .map(|(index, heading)| (heading.clone(), self.layout.field(index)))
            .collect();
        FileShape {
            name: name.to_owned(),
            encoding,
            delimiter: char::from(self.delimiter),
            decimal_comma,
            heading_row: self.heading_row,
            last_row,
            system: self.system.clone(),
            columns,
        }
    }
}

/// A first look at a register file, for a new study.
#[derive(Debug, Clone)]
pub struct Guess {
    /// How the file was understood.
    pub shape: FileShape,
    /// The title above its headings, if one stands there.
    pub title: Option<String>,
    /// Its headings are French.
    pub french: bool,
    /// Columns headed X and Y hold degrees.
    pub degrees: bool,
    /// Some place in its first rows is a reference with the letters of the British grid.
    pub letters: bool,
}

/// Looks at a register file and guesses what its columns hold. Its places stay unread but for their
/// notation.
pub fn guess(path: &Path, shown: &str) -> Result<Private<Guess>> {
    let look = || {
        files::readable(path)?;
        // Of a workbook, the first sheet that has headings of a register.
        let mut tables = decode::read(path)?.into_iter();
        let (text, encoding, sheet) = loop {
            let Some(table) = tables.next() else { return Err(Fault::new("register-no-headings")) };
            match sniff(&table.text, &Columns::default()) {
                Ok(sheet) => break (table.text, table.encoding, sheet),
                Err(fault) if tables.len() == 0 => return Err(fault),
                Err(_) => {}
            }
        };
        let mut letters = false;
        if let Some(place) = sheet.layout.column(Field::Place) {
            let mut records = sheet.records(&text);
            let mut cells = Vec::new();
            for _ in 0..ROWS_BELOW {
                if records.next(&mut cells).is_none() {
                    break;
                }
                letters |= cells.get(place).is_some_and(|cell| content::is_letter_reference(cell));
            }
        }
        let french = [
            "désignation",
            "commune",
            "nb",
            "nombre",
            "datation",
            "période",
            "inventeur",
            "talon",
            "longueur",
            "poids",
            "remarques",
            "numéro",
            "lieu",
            "objet",
            "nervures",
            "bulbe",
        ];
        let hits = sheet
            .headings
            .iter()
            .filter(|heading| french.iter().any(|word| heading.to_lowercase().starts_with(word)))
            .count();
        let shape = sheet.shape(shown, encoding, sheet.decimal_comma, sheet.heading_row);
        let title = sheet.titles.iter().find(|title| title.chars().filter(|c| c.is_alphabetic()).count() > 3);
        Ok(Private::new(Guess {
            shape,
            title: title.cloned(),
            french: hits >= 2,
            degrees: sheet.degrees || sheet.layout.column(Field::Latitude).is_some(),
            letters,
        }))
    };
    look().map_err(|fault: Fault| fault.in_file(shown))
}
