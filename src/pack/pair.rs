//! A document as data for the templates, in one language or in several side by side.
//!
//! Versions are built by the same steps from the same finds, so that their sections and blocks answer each
//! other one by one. A table is one table, with the words of each language in its headings and labels, and its
//! figures once.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::document::{Block, Document, Section, TableBlock};
use super::inline::Linker;
use crate::words::Language;

/// The versions of a document as data, every text set in the habit of its language.
pub(super) fn data(documents: &[Document]) -> Value {
    let mut cited: BTreeMap<usize, Vec<String>> = BTreeMap::new();
    let mut versions = Vec::new();
    for (index, document) in documents.iter().enumerate() {
        let ending = ending(documents, index);
        let mut linker = Linker {
            targets: &document.targets,
            labels: &document.labels,
            ending: &ending,
            cited: &mut cited,
        };
        let mut version = json!({
            "language": document.language,
            "ending": ending,
            "subtitle": document.subtitle,
            "byline": document.byline,
            "mark": document.mark,
            "labels": document.labels,
        });
        let several = documents.len() > 1;
        let mut sections: Vec<Value> =
            document.sections.iter().map(|section| section_of(section, document.language, several)).collect();
        for part in sections.iter_mut().chain([&mut version]) {
            linker.link(part);
            if document.language == Language::French.code() {
                french_spaces(part);
            }
        }
        versions.push((version, sections));
    }
    let sections = documents.first().map_or(0, |document| document.sections.len());
    let sections: Vec<Value> = (0..sections)
        .map(|index| {
            let each: Vec<&Value> = versions.iter().filter_map(|(_, sections)| sections.get(index)).collect();
            merged(&each, documents, index)
        })
        .collect();
    json!({
        "title": documents.first().map(|document| &document.title),
        "landscape": documents.iter().any(|document| document.landscape),
        "date": documents.first().map(|document| document.date),
        "versions": versions.into_iter().map(|(version, _)| version).collect::<Vec<_>>(),
        "cited": (1..=cited.keys().max().copied().unwrap_or(0))
            .map(|number| cited.get(&number).cloned().unwrap_or_default())
            .collect::<Vec<_>>(),
        "sections": sections,
    })
}

/// What the anchors of one version end in, so that no two are alike.
fn ending(documents: &[Document], index: usize) -> String {
    match (index, documents.get(index)) {
        (0, _) | (_, None) => String::new(),
        (_, Some(document)) => format!("-{}", document.language),
    }
}

/// Where a picture of a version lies.
pub(super) fn picture(language: &str, name: &str) -> String {
    format!("{name}-{language}")
}

fn section_of(section: &Section, language: &str, several: bool) -> Value {
    let blocks: Vec<Value> = section
        .blocks
        .iter()
        .map(|block| match block {
            Block::Table(table) => table_of(table, language, several),
            block => serde_json::to_value(block).unwrap_or_default(),
        })
        .collect();
    json!({ "heading": section.heading, "blocks": blocks })
}

/// A table's texts. `several`: figures are set so that no reader of either language misreads them, and alike.
fn table_of(table: &TableBlock, language: &str, several: bool) -> Value {
    let mut data = serde_json::to_value(table).unwrap_or_default();
    data["kind"] = json!("table");
    if several {
        for row in data["rows"].as_array_mut().into_iter().flatten() {
            set_neutral(row, &table.figures, language);
        }
        set_neutral(&mut data["totals"], &table.figures, language);
    }
    data
}

/// Thousands set off by a narrow space and a point before the decimals, as ISO 80000-1 allows: a comma between
/// thousands is a decimal mark in French.
fn set_neutral(row: &mut Value, figures: &[bool], language: &str) {
    let cells = row.as_array_mut().into_iter().flatten().zip(figures);
    for (cell, _) in cells.filter(|(_, figures)| **figures) {
        match cell {
            Value::Array(lines) => lines.iter_mut().for_each(|line| neutral(line, language)),
            line => neutral(line, language),
        }
    }
}

fn neutral(line: &mut Value, language: &str) {
    let (group, point) = if language == Language::French.code() { ("\u{202f}", ",") } else { (",", ".") };
    if let Value::String(text) = line {
        *text = text.replace(group, "\u{202f}").replace(point, ".");
    }
}

/// One section from its versions.
fn merged(each: &[&Value], documents: &[Document], index: usize) -> Value {
    let languages: Vec<&str> = documents.iter().map(|document| document.language).collect();
    let most = each.iter().map(|section| blocks(section).len()).max().unwrap_or(0);
    let mut out = Vec::new();
    for at in 0..most {
        let versions: Vec<(&str, &Value)> = languages
            .iter()
            .zip(each)
            .filter_map(|(language, section)| Some((*language, blocks(section).get(at)?)))
            .collect();
        let Some((_, first)) = versions.first() else { continue };
        // Should versions ever part, each block still stands, one after the other.
        if versions.iter().all(|(_, block)| block["kind"] == first["kind"]) {
            out.push(merged_block(&versions));
        } else {
            out.extend(versions.iter().map(|version| merged_block(std::slice::from_ref(version))));
        }
    }
    json!({
        "id": documents.first().and_then(|document| document.sections.get(index)).map(|section| section.id),
        "number": index + 1,
        "headings": told(each.iter().zip(&languages).map(|(section, l)| (*l, section["heading"].clone()))),
        "blocks": out,
    })
}

fn blocks(section: &Value) -> &[Value] {
    section["blocks"].as_array().map_or(&[], Vec::as_slice)
}

fn merged_block(versions: &[(&str, &Value)]) -> Value {
    let Some((_, first)) = versions.first() else { return Value::Null };
    let field = |name: &str| told(versions.iter().map(|(language, block)| (*language, block[name].clone())));
    match first["kind"].as_str() {
        Some("table") => {
            let cell = |row: &dyn Fn(&Value) -> Value| {
                figures_once(told(versions.iter().map(|(language, block)| (*language, row(block)))))
            };
            let columns = first["headings"].as_array().map_or(0, Vec::len);
            let rows = first["rows"].as_array().map_or(0, Vec::len);
            json!({
                "kind": "table",
                "number": first["number"],
                "captions": field("caption"),
                "headings": (0..columns).map(|c| cell(&|block| block["headings"][c].clone())).collect::<Vec<_>>(),
                "figures": first["figures"],
                "widths": first["widths"],
                "rows": (0..rows).map(|r| {
                    (0..columns).map(|c| cell(&|block| block["rows"][r][c].clone())).collect::<Vec<_>>()
                }).collect::<Vec<_>>(),
                "totals": first["totals"].as_array().map(|_| {
                    (0..columns).map(|c| cell(&|block| block["totals"][c].clone())).collect::<Vec<_>>()
                }),
                "notes": versions.iter().map(|(language, block)| {
                    json!({ "language": language, "text": block["notes"] })
                }).collect::<Vec<_>>(),
            })
        }
        // Titles of papers are in the language they were written in: once is enough.
        Some("sources") => json!({ "kind": "sources", "items": first["items"] }),
        _ => json!({
            "kind": first["kind"],
            "versions": versions.iter().map(|(language, block)| {
                let mut block = (*block).clone();
                block["language"] = json!(language);
                if let Some(name) = block["name"].as_str() {
                    block["picture"] = json!(picture(language, name));
                }
                block
            }).collect::<Vec<_>>(),
        }),
    }
}

/// The words of each language, or those of all of them where they are the same.
fn told<'a>(all: impl Iterator<Item = (&'a str, Value)>) -> Value {
    let all: Vec<(&str, Value)> = all.collect();
    if let Some((_, first)) = all.first().cloned()
        && all.iter().all(|(_, text)| *text == first)
    {
        return json!([{ "language": null, "text": first }]);
    }
    all.into_iter().map(|(language, text)| json!({ "language": language, "text": text })).collect()
}

/// A quantity among words, such as "0.50 ha" and "0,50 ha", is one in both languages: it is told once, and as
/// neither misreads it.
fn figures_once(told: Value) -> Value {
    let text = |one: &Value| match &one["text"] {
        Value::Array(lines) if lines.len() == 1 => lines[0].as_str().map(str::to_owned),
        line => line.as_str().map(str::to_owned),
    };
    let bare = |text: &str| -> String {
        text.chars().filter(|c| !matches!(c, ',' | '.' | ' ' | '\u{a0}' | '\u{202f}')).collect()
    };
    let all: Option<Vec<String>> =
        told.as_array().filter(|all| all.len() > 1).and_then(|all| all.iter().map(text).collect());
    let Some([first, rest @ ..]) = all.as_deref() else { return told };
    if !first.starts_with(|c: char| c.is_ascii_digit()) || rest.iter().any(|text| bare(text) != bare(first)) {
        return told;
    }
    let mut plain = json!(first);
    neutral(&mut plain, told[0]["language"].as_str().unwrap_or_default());
    let as_lines = told[0]["text"].is_array();
    json!([{ "language": null, "text": if as_lines { json!([plain]) } else { plain } }])
}

/// French sets a space before `: ; ! ?` and inside `« »`, at which no line may break.
fn french_spaces(data: &mut Value) {
    match data {
        Value::String(text) => {
            for mark in [':', ';', '!', '?', '»', '%'] {
                *text = text.replace(&format!(" {mark}"), &format!("\u{a0}{mark}"));
            }
            *text = text.replace("« ", "«\u{a0}");
        }
        Value::Array(items) => items.iter_mut().for_each(french_spaces),
        Value::Object(fields) => fields.values_mut().for_each(french_spaces),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn both(english: &str, french: &str) -> Value {
        told([("en", json!([english])), ("fr", json!([french]))].into_iter())
    }

    #[test]
    fn what_is_the_same_in_both_is_told_once() {
        let once = |text: &str| json!([{ "language": null, "text": [text] }]);
        assert_eq!(figures_once(both("Northby", "Northby")), once("Northby"));
        assert_eq!(figures_once(both("0.50\u{a0}ha", "0,50\u{a0}ha")), once("0.50\u{a0}ha"));
        assert_eq!(figures_once(both("2,159", "2\u{202f}159")), once("2\u{202f}159"));
        assert_eq!(figures_once(both("25%", "25\u{a0}%")), once("25%"));
    }

    #[test]
    fn words_that_differ_are_told_in_each() {
        let flake = both("flake", "éclat");
        assert_eq!(figures_once(flake.clone()), flake);
        assert_eq!(flake[1], json!({ "language": "fr", "text": ["éclat"] }));
        let squares = both("2 squares", "2 carrés");
        assert_eq!(figures_once(squares.clone()), squares);
    }

    #[test]
    fn no_comma_is_left_to_be_misread() {
        for (language, written) in [("en", "1,234.5"), ("fr", "1\u{202f}234,5")] {
            let mut figure = json!(written);
            neutral(&mut figure, language);
            assert_eq!(figure, "1\u{202f}234.5");
        }
    }

    #[test]
    fn no_line_breaks_before_a_french_mark() {
        let mut text = json!({ "a": ["« ici » : là ?", { "text": "5 %" }] });
        french_spaces(&mut text);
        assert_eq!(text, json!({ "a": ["«\u{a0}ici\u{a0}»\u{a0}: là\u{a0}?", { "text": "5\u{a0}%" }] }));
    }
}
