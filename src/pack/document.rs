//! A written page, said once in each language: headings, words, tables and figures. `pair` lays versions in
//! several languages side by side, `html` sets them for the screen and `print` for paper, each by a template
//! that knows looks alone.

use serde::Serialize;

use super::fitting::fitted;
use super::inline::{self, Targets};
use super::manifest::precision;
use super::records::Records;
use super::tables::{is_figures, said};
use super::{Contents, Plate};
use crate::analyse::{Table, Value};
use crate::sheet::Sheet;
use crate::words::Words;

/// A whole document in one language.
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
    /// What the texts may point to, with their numbers.
    #[serde(skip)]
    pub targets: Targets,
    /// The picture of each figure, in order.
    #[serde(skip)]
    pub pictures: Vec<Plate>,
}

/// Words that the templates set themselves.
#[derive(Debug, Default, Serialize)]
pub(super) struct Labels {
    pub contents: String,
    pub skip: String,
    pub figure: String,
    pub table: String,
    /// The same in the run of a sentence, where the language writes them otherwise.
    pub figure_in_text: String,
    pub table_in_text: String,
    pub section: String,
    pub page: String,
    pub of: String,
    /// Back from a source to where it is cited.
    pub back: String,
    pub cited: String,
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
    /// Items to tick on paper, each with a box.
    Ticks {
        items: Vec<String>,
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
    /// Names in bold, each with a paragraph of its own.
    Entries {
        items: Vec<(String, String)>,
    },
    /// The numbered sources, in the order in which the text first cites them.
    Sources {
        items: Vec<String>,
    },
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
    pub name: String,
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

/// Builds a document section by section, counting its tables, figures and sources.
pub(super) struct Builder<'a> {
    pub words: &'static Words,
    pub contents: &'a Contents<'a>,
    sections: Vec<Section>,
    pictures: Vec<Plate>,
    tables: usize,
    /// Messages of the sources cited so far.
    sources: Vec<&'static str>,
}

impl<'a> Builder<'a> {
    pub fn new(contents: &'a Contents<'a>) -> Self {
        let words = Words::of(contents.study.language);
        Self { words, contents, sections: Vec::new(), pictures: Vec::new(), tables: 0, sources: Vec::new() }
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
        let table = &fitted(table, self.words);
        let row = |values: &[Value]| values.iter().map(|value| said(value, self.words)).collect::<Vec<_>>();
        let block = TableBlock {
            number: self.tables,
            name: table.name.clone(),
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
        name: &str,
        caption: String,
        headings: Vec<String>,
        widths: Vec<f64>,
        rows: Vec<Vec<Vec<String>>>,
    ) {
        self.tables += 1;
        let (number, figures) = (self.tables, vec![false; headings.len()]);
        self.add(Block::Table(TableBlock {
            number,
            name: name.to_owned(),
            caption,
            headings,
            figures,
            widths,
            rows,
            totals: None,
            notes: Vec::new(),
        }));
    }

    /// Adds a sheet as a figure with the next number: as it was drawn for the page, where it was.
    pub fn figure(&mut self, sheet: &Sheet) {
        let drawn = self.contents.plates.iter().find(|plate| plate.page.name == sheet.name);
        let plate = drawn.cloned().unwrap_or_else(|| Plate { page: sheet.clone(), phone: None });
        self.add(Block::Figure {
            number: self.pictures.len() + 1,
            name: sheet.name.clone(),
            caption: self.words.say_with(
                "pack-figure-caption",
                &[
                    ("title", sheet.title.clone().into()),
                    ("precision", precision(self.contents, self.contents.study.agreement.precision).into()),
                ],
            ),
            alt: sheet.description.clone(),
            width_mm: plate.page.width_mm,
            height_mm: plate.page.height_mm,
        });
        self.pictures.push(plate);
    }

    /// Cites sources: "[2, 5]" in the text, each a link. Their numbers go by the order of first citing.
    pub fn cite<const N: usize>(&mut self, ids: [&'static str; N]) -> String {
        let mut text = String::new();
        for id in ids {
            if !self.sources.contains(&id) {
                self.sources.push(id);
            }
            text.push_str(&inline::source(id));
        }
        text
    }

    /// The sources that were cited, in order of their numbers.
    pub fn sources(&self) -> Vec<String> {
        self.sources.iter().map(|id| self.words.say(id)).collect()
    }

    fn targets(&self) -> Targets {
        let mut targets = Targets::new();
        for (index, section) in self.sections.iter().enumerate() {
            targets.insert(format!("section:{}", section.id), index + 1);
            for block in &section.blocks {
                match block {
                    Block::Figure { number, name, .. } => targets.insert(format!("figure:{name}"), *number),
                    Block::Table(table) => targets.insert(format!("table:{}", table.name), table.number),
                    _ => None,
                };
            }
        }
        for (index, id) in self.sources.iter().enumerate() {
            targets.insert(format!("source:{id}"), index + 1);
        }
        targets
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
                figure_in_text: words.say("pack-report-figure-in-text"),
                table_in_text: words.say("pack-report-table-in-text"),
                section: words.say("pack-report-section"),
                page: words.say("pack-report-page"),
                of: words.say("pack-report-of"),
                back: words.say("pack-report-back"),
                cited: words.say("pack-report-cited"),
            },
            targets: self.targets(),
            sections: self.sections,
            pictures: self.pictures,
        }
    }
}
