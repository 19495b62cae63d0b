//! The words a find is described by: class, period, setting, standing, marks, each a closed list.
//!
//! What each is called on a sheet stands in `words/LANGUAGE/vocabulary.ftl` under `class-ID`,
//! `period-ID`, `setting-ID`, `standing-ID`, `mark-ID`, `strength-ID`; what people write for it in a
//! register stands beside it here.

mod class;
mod find_words;
mod period;

pub use class::Class;
pub use find_words::{Mark, Marks, Setting, Standing, Strength};
pub use period::{Country, Period};

use crate::words::{Language, Words};

/// A word of the vocabulary, with the name it carries on sheets and in tables.
pub trait Term {
    /// The message that names it.
    fn message(&self) -> String;

    /// Its name in `language`.
    fn label(&self, language: Language) -> String {
        Words::of(language).say(&self.message())
    }
}

/// Every name of every term on our own sheets, folded: what we print, we read.
fn by_label<T: Term + Copy>(all: &[T]) -> std::collections::BTreeMap<String, T> {
    let languages = [Language::English, Language::French];
    let named = all.iter().flat_map(|term| languages.map(|language| (fold(&term.label(language)), *term)));
    named.collect()
}

/// Folds case, accents, punctuation and plural endings, so that "Éclats" and "eclat" meet.
/// Words are separated by single spaces.
pub fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        let c = match c {
            'à' | 'â' | 'ä' | 'á' => 'a',
            'é' | 'è' | 'ê' | 'ë' => 'e',
            'î' | 'ï' | 'í' => 'i',
            'ô' | 'ö' | 'ó' => 'o',
            'ù' | 'û' | 'ü' | 'ú' => 'u',
            'ç' => 'c',
            'œ' => {
                out.push('o');
                'e'
            }
            c if c.is_alphanumeric() => c,
            // A combining accent belongs to the letter before it.
            '\u{300}'..='\u{36f}' => continue,
            _ => ' ',
        };
        if c != ' ' || !(out.is_empty() || out.ends_with(' ')) {
            out.push(c);
        }
    }
    out.truncate(out.trim_end().len());
    out.split(' ')
        .map(|word| {
            if word.len() > 3 && !word.ends_with("ss") {
                word.strip_suffix('s').unwrap_or(word)
            } else {
                word
            }
        })
        .collect::<Vec<_>>()
        .join(" ")
}
