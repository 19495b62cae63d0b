//! What a sentence points to: a figure, a table, a section, a source. A message takes the reference as one of
//! its values, so that each language puts it where its grammar wants it; the number is filled in when the whole
//! document is known.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::document::Labels;

/// Characters that no register holds (Unicode's private use area) stand round a reference in a text.
const OPEN: char = '\u{E000}';
const CLOSE: char = '\u{E001}';

/// A reference as it stands in a text until the document is finished.
fn token(kind: &str, name: &str) -> String {
    format!("{OPEN}{kind}:{name}{CLOSE}")
}

/// "Figure 2", by the name of the sheet.
pub(super) fn figure(name: &str) -> String {
    token("figure", name)
}

/// "Table 3", by the name of the table.
pub(super) fn table(name: &str) -> String {
    token("table", name)
}

/// "section 4", by the identifier of the section.
pub(super) fn section(id: &str) -> String {
    token("section", id)
}

/// The number in brackets, by the message of the source.
pub(super) fn source(id: &str) -> String {
    token("source", id)
}

/// The numbers of all that can be pointed to: `figure:density` to 2.
pub(super) type Targets = BTreeMap<String, usize>;

/// Turns the texts of one language's version of a document into runs: words, and links with their words.
pub(super) struct Linker<'a> {
    pub targets: &'a Targets,
    pub labels: &'a Labels,
    /// What the anchors of this version end in: nothing, or `-fr` where another version comes first.
    pub ending: &'a str,
    /// For each source, the anchors of the places that cite it.
    pub cited: &'a mut BTreeMap<usize, Vec<String>>,
}

impl Linker<'_> {
    /// Every text in `data` that points somewhere becomes a list of runs.
    pub fn link(&mut self, data: &mut Value) {
        match data {
            Value::String(text) if text.contains(OPEN) => *data = self.runs(text),
            Value::Array(items) => items.iter_mut().for_each(|item| self.link(item)),
            Value::Object(fields) => fields.values_mut().for_each(|field| self.link(field)),
            _ => {}
        }
    }

    fn runs(&mut self, text: &str) -> Value {
        let mut runs: Vec<Value> = Vec::new();
        for (index, part) in text.split(OPEN).enumerate() {
            // What stands before the first mark points nowhere.
            let (target, rest) = match part.split_once(CLOSE) {
                Some((target, rest)) if index > 0 => (self.run(target), rest),
                _ => (None, part),
            };
            runs.extend(target);
            if !rest.is_empty() {
                runs.push(json!({ "text": rest }));
            }
        }
        Value::Array(runs)
    }

    /// `None` where there is no such thing: a reference to a figure that is not given says nothing.
    fn run(&mut self, target: &str) -> Option<Value> {
        let number = *self.targets.get(target)?;
        let (kind, name) = target.split_once(':')?;
        Some(match kind {
            "figure" => json!({
                "text": format!("{}\u{a0}{number}", self.labels.figure_in_text),
                "to": format!("figure-{number}{}", self.ending),
            }),
            "table" => json!({
                "text": format!("{}\u{a0}{number}", self.labels.table_in_text),
                "to": format!("table-{number}"),
            }),
            "section" => json!({
                "text": format!("{}\u{a0}{number}", self.labels.section),
                "to": name,
            }),
            _ => {
                let anchors = self.cited.entry(number).or_default();
                let anchor = format!("cite-{number}-{}", anchors.len() + 1);
                anchors.push(anchor.clone());
                json!({ "text": format!("[{number}]"), "to": format!("source-{number}"), "anchor": anchor })
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_parted_into_words_and_links() {
        let labels = Labels { figure_in_text: "Figure".to_owned(), ..Labels::default() };
        let targets = BTreeMap::from([("figure:density".to_owned(), 2), ("source:silverman".to_owned(), 1)]);
        let mut cited = BTreeMap::new();
        let mut linker = Linker { targets: &targets, labels: &labels, ending: "-fr", cited: &mut cited };
        let text = format!(
            "{} smooths {}{}; {}.",
            figure("density"),
            source("silverman"),
            figure("nowhere"),
            source("silverman")
        );
        let mut data = json!([text, "plain"]);
        linker.link(&mut data);
        assert_eq!(
            data,
            json!([
                [
                    { "text": "Figure\u{a0}2", "to": "figure-2-fr" },
                    { "text": " smooths " },
                    { "text": "[1]", "to": "source-1", "anchor": "cite-1-1" },
                    { "text": "; " },
                    { "text": "[1]", "to": "source-1", "anchor": "cite-1-2" },
                    { "text": "." }
                ],
                "plain"
            ])
        );
        assert_eq!(cited[&1], ["cite-1-1", "cite-1-2"]);
    }

    #[test]
    fn marks_in_a_register_open_nothing() {
        let (targets, labels, mut cited) = (Targets::new(), Labels::default(), BTreeMap::new());
        let mut linker = Linker { targets: &targets, labels: &labels, ending: "", cited: &mut cited };
        for odd in ["a\u{E001}b\u{E000}c", "\u{E000}", "\u{E000}figure:x\u{E001}"] {
            let mut data = json!(odd);
            linker.link(&mut data);
            assert!(!data.to_string().contains("href"));
        }
    }
}
