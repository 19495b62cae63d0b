//! Every word the program says, in two languages, from the Fluent files in `words/`.
//!
//! One file a room and language (`words/en/study.ftl`, `words/fr/study.ftl`); a test holds that
//! neither language lacks a message or a variable that the other has.

use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use serde::{Deserialize, Serialize};

/// A language that sheets, tables, reports and messages can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub enum Language {
    /// English.
    #[default]
    #[serde(rename = "en")]
    English,
    /// French.
    #[serde(rename = "fr")]
    French,
}

impl Language {
    /// The ISO 639-1 code.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::French => "fr",
        }
    }
}

/// A value put into a message: text as it is, or a number that chooses the plural form.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Text, shown as it is.
    Text(String),
    /// A number: chooses plural forms, and is written in the habit of the language.
    Number(f64),
    /// A number of which only the least and the most are told ("200–499"), or the least alone ("50+"): in the
    /// plural, whatever it is.
    Range(u64, Option<u64>),
}

impl From<String> for Value {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}
impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}
impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}
impl From<u32> for Value {
    fn from(number: u32) -> Self {
        Self::Number(f64::from(number))
    }
}
impl From<u64> for Value {
    fn from(number: u64) -> Self {
        Self::Number(number as f64)
    }
}
impl From<usize> for Value {
    fn from(number: usize) -> Self {
        Self::Number(number as f64)
    }
}

/// A number that every language has in the plural.
const PLURAL: f64 = 2.0;

/// The words of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
}

macro_rules! rooms {
    ($language:literal) => {
        [
            include_str!(concat!("../words/", $language, "/general.ftl")),
            include_str!(concat!("../words/", $language, "/study.ftl")),
            include_str!(concat!("../words/", $language, "/vocabulary.ftl")),
            include_str!(concat!("../words/", $language, "/coordinates.ftl")),
            include_str!(concat!("../words/", $language, "/ground.ftl")),
            include_str!(concat!("../words/", $language, "/exact.ftl")),
            include_str!(concat!("../words/", $language, "/analyse.ftl")),
            include_str!(concat!("../words/", $language, "/sheet.ftl")),
            include_str!(concat!("../words/", $language, "/pack.ftl")),
            include_str!(concat!("../words/", $language, "/audit.ftl")),
            include_str!(concat!("../words/", $language, "/run.ftl")),
        ]
    };
}

static ENGLISH: LazyLock<Words> = LazyLock::new(|| Words::read(Language::English, &rooms!("en")));
static FRENCH: LazyLock<Words> = LazyLock::new(|| Words::read(Language::French, &rooms!("fr")));

impl Words {
    /// The words of `language`.
    pub fn of(language: Language) -> &'static Self {
        match language {
            Language::English => &ENGLISH,
            Language::French => &FRENCH,
        }
    }

    fn read(language: Language, rooms: &[&str]) -> Self {
        let id = match language {
            Language::English => unic_langid::langid!("en-GB"),
            Language::French => unic_langid::langid!("fr-FR"),
        };
        let mut bundle = FluentBundle::new_concurrent(vec![id]);
        // The isolation marks are invisible characters that would end in file names and tables.
        bundle.set_use_isolating(false);
        for text in rooms {
            let resource = match FluentResource::try_new((*text).to_owned()) {
                Ok(resource) => resource,
                // Words are part of the program; a test reads every file without faults.
                Err((resource, _)) => resource,
            };
            bundle.add_resource_overriding(resource);
        }
        Self { language, bundle }
    }

    /// The message `id`. A message that does not exist gives its identifier, which a test forbids.
    pub fn say(&self, id: &str) -> String {
        self.say_with(id, &[])
    }

    /// The message `id` with values. Numbers are written by [`Words::number`].
    pub fn say_with(&self, id: &str, values: &[(&str, Value)]) -> String {
        let pattern = self.bundle.get_message(id).and_then(|m| m.value());
        self.fill(pattern, values).unwrap_or_else(|| id.to_owned())
    }

    /// What to do about the fault `id`: its `.hint` attribute.
    pub fn hint(&self, id: &str, values: &[(&str, Value)]) -> Option<String> {
        let message = self.bundle.get_message(id)?;
        self.fill(message.get_attribute("hint").map(|a| a.value()), values)
    }

    fn fill(
        &self,
        pattern: Option<&fluent_syntax::ast::Pattern<&str>>,
        values: &[(&str, Value)],
    ) -> Option<String> {
        let mut arguments = FluentArgs::new();
        for (name, value) in values {
            match value {
                Value::Text(text) => arguments.set((*name).to_owned(), text.clone()),
                Value::Number(number) => {
                    arguments.set((*name).to_owned(), FluentValue::from(*number));
                    // A message shows the number as `{ $n_text }` and chooses by `{ $n -> … }`.
                    arguments.set(format!("{name}_text"), self.number(*number, 0));
                }
                Value::Range(least, most) => {
                    arguments.set((*name).to_owned(), FluentValue::from(PLURAL));
                    arguments.set(format!("{name}_text"), self.range(*least, *most));
                }
            }
        }
        let mut errors = Vec::new();
        Some(self.bundle.format_pattern(pattern?, Some(&arguments), &mut errors).into_owned())
    }

    /// Things one after the other: "a, b and c".
    pub fn list(&self, all: &[String]) -> String {
        match all {
            [] => String::new(),
            [one] => one.clone(),
            [most @ .., last] => self.say_with(
                "general-list",
                &[("first", most.join(", ").into()), ("last", last.clone().into())],
            ),
        }
    }

    /// What stands between things that may hold commas, for people: "a, b; c". French sets a narrow space before it, at
    /// which no line may break; files of data have "; " in every language.
    pub fn semicolon(&self) -> &'static str {
        match self.language {
            Language::English => "; ",
            Language::French => "\u{202f}; ",
        }
    }

    /// From where to where a number lies: "200–499", "50+".
    pub fn range(&self, least: u64, most: Option<u64>) -> String {
        let number = |n: u64| self.number(n as f64, 0);
        match most {
            Some(most) => format!("{}–{}", number(least), number(most)),
            None => format!("{}+", number(least)),
        }
    }

    /// A number with `decimals` places in the habit of the language: 12,345.6 or 12 345,6.
    pub fn number(&self, value: f64, decimals: usize) -> String {
        let plain = format!("{value:.decimals$}");
        let (sign, plain) = match plain.strip_prefix('-') {
            Some(rest) => ("−", rest.to_owned()),
            None => ("", plain),
        };
        let (whole, fraction) = plain.split_once('.').unwrap_or((plain.as_str(), ""));
        // A narrow no-break space in French; English groups by commas.
        let (group, point) = match self.language {
            Language::English => (",", "."),
            Language::French => ("\u{202f}", ","),
        };
        let mut grouped = String::new();
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (whole.len() - index) % 3 == 0 {
                grouped.push_str(group);
            }
            grouped.push(digit);
        }
        let point = if fraction.is_empty() { "" } else { point };
        format!("{sign}{grouped}{point}{fraction}")
    }
}
