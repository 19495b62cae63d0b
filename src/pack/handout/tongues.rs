//! A saying in each of a page's languages, each marked with its own, so that a screen reader reads it so.

use serde::Serialize;

use crate::study::vocabulary::Term;
use crate::words::{Language, Words};

/// A saying, language by language, in the order of the page.
pub(super) type Said = Vec<(&'static str, String)>;

/// The languages of a page.
pub(super) struct Tongues(Vec<Language>);

impl Tongues {
    /// Each language once, in order; English where there is none.
    pub fn of(languages: &[Language]) -> Self {
        let mut all: Vec<Language> = Vec::new();
        for language in languages {
            if !all.contains(language) {
                all.push(*language);
            }
        }
        if all.is_empty() {
            all.push(Language::English);
        }
        Self(all)
    }

    /// The codes of the languages.
    pub fn codes(&self) -> Vec<&'static str> {
        self.0.iter().map(|language| language.code()).collect()
    }

    /// Something said in each language.
    pub fn each(&self, say: impl Fn(Language) -> String) -> Said {
        self.0.iter().map(|language| (language.code(), spaced(*language, say(*language)))).collect()
    }

    /// A message in each language; what reads the same in all stands once.
    pub fn say(&self, id: &str) -> Said {
        once(self.each(|language| Words::of(language).say(id)))
    }

    /// A word of the vocabulary in each language.
    pub fn label(&self, term: &dyn Term) -> Said {
        once(self.each(|language| term.label(language)))
    }

    /// Words of the vocabulary.
    pub fn labels<T: Term>(&self, terms: impl IntoIterator<Item = T>) -> Vec<Said> {
        terms.into_iter().map(|term| self.label(&term)).collect()
    }

    /// Messages under names that the template knows: `NAME` says `PREFIX-NAME`.
    pub fn named(&self, prefix: &str, names: &[&'static str]) -> Named {
        Named(names.iter().map(|name| (*name, self.say(&format!("{prefix}-{name}")))).collect())
    }
}

/// Sayings by name.
#[derive(Debug, Serialize)]
#[serde(transparent)]
pub(super) struct Named(pub std::collections::BTreeMap<&'static str, Said>);

fn once(mut said: Said) -> Said {
    if said.iter().all(|(_, words)| Some(words) == said.first().map(|(_, first)| first)) {
        said.truncate(1);
    }
    said
}

/// French sets a space before `: ; ! ?` and inside `« »`, at which no line may break.
pub(super) fn spaced(language: Language, mut text: String) -> String {
    if language == Language::French {
        for mark in [':', ';', '!', '?', '»', '%'] {
            text = text.replace(&format!(" {mark}"), &format!("\u{a0}{mark}"));
        }
        text = text.replace("« ", "«\u{a0}");
    }
    text
}
