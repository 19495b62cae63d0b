//! A written page, said once: headings, words, tables and figures. `html` sets it for the screen and
//! `print` for paper, each by a template that knows looks alone.

use serde::Serialize;

use super::Contents;
use super::manifest::precision;
use super::records::Records;
use super::tables::{is_figures, said};
use crate::analyse::{Table, Value};
use crate::sheet::Sheet;
use crate::words::{Language, Words};

/// A whole document.
#[derive(Debug, Serialize)]
pub(super) struct Document {
    /// ISO 639-1 code.
    pub language: &'static str,
    pub title: String,
    /// What kind of document it is.
    pub subtitle: String,
    /// Who made it, for whom, when.
    pub byline: Vec<String>,
    /// "Not for publication", where it is not.
    pub mark: Option<String>,
    /// Wide paper.
    pub landscape: bool,
    /// Year, month and day that the file's properties carry.
    pub date: (i32, u8, u8),
    pub labels: Labels,
    pub sections: Vec<Section>,
    /// The sheet of each figure, in order.
    #[serde(skip)]
    pub pictures: Vec<Sheet>,
}

/// Words that the templates set themselves.
#[derive(Debug, Serialize)]
pub(super) struct Labels {
    pub contents: String,
    pub skip: String,
    pub figure: String,
    pub table: String,
    pub page: String,
    pub of: String,
}

/// A part with a heading.
#[derive(Debug, Serialize)]
pub(super) struct Section {
    pub id: &'static str,
    pub heading: String,
    pub blocks: Vec<Block>,
}

/// What a part is made of.
#[derive(Debug, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub(super) enum Block {
    /// The opening words of the document.
    Lead {
        text: String,
    },
    Paragraph {
        text: String,
    },
    /// A heading under that of the section.
    Heading {
        text: String,
    },
    /// `short`: every item is a few words, so that two stand side by side.
    List {
        items: Vec<String>,
        short: bool,
    },
    /// Figures to take in at a glance, each with its label.
    Numbers {
        items: Vec<(String, String)>,
    },
    /// Names with what they stand for.
    Facts {
        items: Vec<(String, String)>,
    },
    /// Where the page is cut or torn, with words on the line.
    Cut {
        text: String,
    },
    /// What follows begins a page of its own.
    NewPage,
    Table(TableBlock),
    Figure {
        number: usize,
        name: String,
        caption: String,
        alt: String,
        width_mm: f64,
        height_mm: f64,
    },
}

/// A table as it is set.
#[derive(Debug, Serialize)]
pub(super) struct TableBlock {
    pub number: usize,
    pub caption: String,
    pub headings: Vec<String>,
    /// For each column, whether it holds figures, set flush right.
    pub figures: Vec<bool>,
    /// For each column, its share of the width; empty where the content decides.
    pub widths: Vec<f64>,
    /// Rows of cells, each cell of lines.
    pub rows: Vec<Vec<Vec<String>>>,
    pub totals: Option<Vec<String>>,
    pub notes: Vec<String>,
}

/// Builds a document section by section, counting its tables and figures.
pub(super) struct Builder<'a> {
    pub words: &'static Words,
    pub contents: &'a Contents<'a>,
    sections: Vec<Section>,
    pictures: Vec<Sheet>,
    tables: usize,
}

impl<'a> Builder<'a> {
    pub fn new(contents: &'a Contents<'a>) -> Self {
        let words = Words::of(contents.study.language);
        Self { words, contents, sections: Vec::new(), pictures: Vec::new(), tables: 0 }
    }

    /// Begins a section.
    pub fn section(&mut self, id: &'static str, heading: &str) {
        self.sections.push(Section { id, heading: self.words.say(heading), blocks: Vec::new() });
    }

    /// Adds to the section begun last.
    pub fn add(&mut self, block: Block) {
        if let Some(section) = self.sections.last_mut() {
            section.blocks.push(block);
        }
    }

    /// Adds a paragraph of words.
    pub fn say(&mut self, id: &str) {
        self.say_with(id, &[]);
    }

    /// Adds a paragraph of words with values.
    pub fn say_with(&mut self, id: &str, values: &[(&str, crate::words::Value)]) {
        let text = self.words.say_with(id, values);
        self.add(Block::Paragraph { text });
    }

    /// Adds a list.
    pub fn list(&mut self, items: Vec<String>) {
        let short = items.len() > 5 && items.iter().all(|item| item.chars().count() < 66);
        self.add(Block::List { items, short });
    }

    /// Adds a table with the next number. One that is wider than long is turned round, and columns that
    /// hold nothing are left out: a page is not a spreadsheet.
    pub fn table(&mut self, table: &Table) {
        self.tables += 1;
        let table = &fitted(table);
        let row = |values: &[Value]| values.iter().map(|value| said(value, self.words)).collect::<Vec<_>>();
        let block = TableBlock {
            number: self.tables,
            caption: table.title.clone(),
            headings: table.headings.clone(),
            figures: (0..table.headings.len()).map(|column| is_figures(table, column)).collect(),
            widths: Vec::new(),
            rows: table.rows.iter().map(|r| row(r).into_iter().map(|cell| vec![cell]).collect()).collect(),
            totals: table.totals.as_deref().map(row),
            notes: table.notes.clone(),
        };
        self.add(Block::Table(block));
    }

    /// Adds records as a table with the next number.
    pub fn records(&mut self, records: &Records) {
        let table = records.table(self.words);
        self.table(&table);
    }

    /// Adds a table whose cells hold several lines.
    pub fn lines(
        &mut self,
        caption: String,
        headings: Vec<String>,
        widths: Vec<f64>,
        rows: Vec<Vec<Vec<String>>>,
    ) {
        self.tables += 1;
        let (number, figures) = (self.tables, vec![false; headings.len()]);
        self.add(Block::Table(TableBlock {
            number,
            caption,
            headings,
            figures,
            widths,
            rows,
            totals: None,
            notes: Vec::new(),
        }));
    }

    /// Adds a sheet as a figure with the next number.
    pub fn figure(&mut self, sheet: &Sheet) {
        self.pictures.push(sheet.clone());
        self.add(Block::Figure {
            number: self.pictures.len(),
            name: sheet.name.clone(),
            caption: self.words.say_with(
                "pack-figure-caption",
                &[
                    ("title", sheet.title.clone().into()),
                    ("precision", precision(self.contents, self.contents.study.agreement.precision).into()),
                ],
            ),
            alt: sheet.description.clone(),
            width_mm: sheet.width_mm,
            height_mm: sheet.height_mm,
        });
    }

    /// The finished document.
    pub fn finish(self, subtitle: &str, byline: Vec<String>, landscape: bool) -> Document {
        let words = self.words;
        let date = super::geopackage::stated_date(self.contents);
        Document {
            language: self.contents.study.language.code(),
            title: self.contents.study.title.clone(),
            subtitle: words.say(subtitle),
            byline,
            mark: self.contents.handling(),
            landscape,
            date: (date.year, date.month, date.day),
            labels: Labels {
                contents: words.say("pack-report-contents"),
                skip: words.say("pack-report-skip"),
                figure: words.say("pack-report-figure"),
                table: words.say("pack-report-table"),
                page: words.say("pack-report-page"),
                of: words.say("pack-report-of"),
            },
            sections: self.sections,
            pictures: self.pictures,
        }
    }
}

/// Columns beyond which a table is turned round where that helps.
const MANY_COLUMNS: usize = 12;

/// A table as it goes on a page.
fn fitted(table: &Table) -> Table {
    let mut table = table.clone();
    let empty = |table: &Table, column: usize| {
        let mut rows = table.rows.iter().chain(&table.totals);
        !table.rows.is_empty() && rows.all(|row| matches!(row.get(column), None | Some(Value::Empty)))
    };
    for column in (1..table.headings.len()).rev().filter(|column| empty(&table, *column)).collect::<Vec<_>>()
    {
        table.headings.remove(column);
        for row in table.rows.iter_mut().chain(&mut table.totals) {
            if column < row.len() {
                row.remove(column);
            }
        }
    }
    if table.headings.len() <= MANY_COLUMNS || table.rows.len() + 2 >= table.headings.len() {
        return table;
    }
    let all: Vec<&Vec<Value>> = table.rows.iter().chain(&table.totals).collect();
    let label = |value: Option<&Value>| match value {
        Some(Value::Text(text)) => text.clone(),
        _ => String::new(),
    };
    // What the rows now are has no heading of its own; the caption says it.
    let headings = std::iter::once(String::new()).chain(all.iter().map(|row| label(row.first()))).collect();
    let mut rows: Vec<Vec<Value>> = (1..table.headings.len())
        .map(|column| {
            let cells = all.iter().map(|row| row.get(column).cloned().unwrap_or(Value::Empty));
            std::iter::once(Value::Text(table.headings[column].clone())).chain(cells).collect()
        })
        .collect();
    // A last column of totals becomes the row of totals.
    let totals = if table.totals.is_some() { rows.pop() } else { None };
    Table { headings, rows, totals, ..table }
}

impl Document {
    /// As data for a template, every text set in the habit of its language.
    pub fn data(&self) -> serde_json::Value {
        let mut data = serde_json::to_value(self).unwrap_or_default();
        if self.language == Language::French.code() {
            french_spaces(&mut data);
        }
        data
    }
}

/// French sets a space before `: ; ! ?` and inside `« »`, at which no line may break.
fn french_spaces(data: &mut serde_json::Value) {
    match data {
        serde_json::Value::String(text) => {
            for mark in [':', ';', '!', '?', '»', '%'] {
                *text = text.replace(&format!(" {mark}"), &format!("\u{a0}{mark}"));
            }
            *text = text.replace("« ", "«\u{a0}");
        }
        serde_json::Value::Array(items) => items.iter_mut().for_each(french_spaces),
        serde_json::Value::Object(fields) => fields.values_mut().for_each(french_spaces),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::fitted;
    use crate::analyse::{Table, Value};

    fn table(rows: usize, columns: usize) -> Table {
        let row = |name: String| {
            std::iter::once(Value::Text(name)).chain((1..columns).map(|n| Value::Whole(n as u64))).collect()
        };
        Table {
            name: "t".to_owned(),
            title: "T".to_owned(),
            headings: (0..columns).map(|n| format!("h{n}")).collect(),
            rows: (0..rows).map(|n| row(format!("r{n}"))).collect(),
            totals: Some(row("all".to_owned())),
            notes: Vec::new(),
        }
    }

    #[test]
    fn a_wide_table_is_turned_round_and_keeps_every_value() {
        let turned = fitted(&table(3, 20));
        assert_eq!(turned.headings, ["", "r0", "r1", "r2", "all"]);
        assert_eq!(turned.rows.len(), 18);
        assert_eq!(turned.rows[4][0], Value::Text("h5".to_owned()));
        assert!(turned.rows.iter().zip(1..).all(|(row, n)| row[1..].iter().all(|v| *v == Value::Whole(n))));
        assert_eq!(turned.totals.unwrap()[0], Value::Text("h19".to_owned()));
        // A long one stays as it is.
        assert_eq!(fitted(&table(30, 20)), table(30, 20));
    }

    #[test]
    fn columns_that_hold_nothing_are_left_out() {
        let mut sparse = table(2, 4);
        for row in sparse.rows.iter_mut().chain(&mut sparse.totals) {
            row[2] = Value::Empty;
        }
        assert_eq!(fitted(&sparse).headings, ["h0", "h1", "h3"]);
    }
}
