//! What went wrong, where, and what to do next: one shape for every error the program can make.
//!
//! A fault is an identifier of a message in `words/` with its values, never ready-made text, so that
//! it can be said in the language of the study. Faults to do with finds carry row and column, and to
//! anyone but the register's owner no place (the owner's lists are `Private`, see `exact`).

use std::fmt;
use std::io::ErrorKind;

use crate::words::{Language, Words};

/// The result of anything that can fail.
pub type Result<T> = std::result::Result<T, Fault>;

/// One thing that went wrong. `Display` gives the English message without the hint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The message in `words/LANGUAGE/*.ftl`; its `.hint` attribute says what to do.
    pub id: &'static str,
    /// Values for the message.
    pub values: Vec<(&'static str, String)>,
    /// Where it happened, as far as known.
    pub spot: Spot,
    /// The language to say it in, where a study file told it before the fault.
    pub language: Option<Language>,
}

/// A place in a file that a person can go to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spot {
    /// The file as the person named it (never an absolute path that was not typed).
    pub file: Option<String>,
    /// Line or row of the file, counted from 1 as an editor or spreadsheet does.
    pub row: Option<u64>,
    /// The column's heading, or a key of the study file.
    pub column: Option<String>,
}

impl Fault {
    /// A fault with the message `id`.
    pub fn new(id: &'static str) -> Self {
        Self { id, values: Vec::new(), spot: Spot::default(), language: None }
    }

    /// Adds a value for the message.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl fmt::Display) -> Self {
        self.values.push((name, value.to_string()));
        self
    }

    /// Says why the system would not, as the value `why`: in our words, which are in the reader's language and name no
    /// hidden path, where there are any.
    #[must_use]
    pub fn because(self, why: &std::io::Error) -> Self {
        match system_word(why.kind()) {
            Some(id) => self.with(SYSTEM, id),
            None => self.with("why", why.to_string().split(" at path ").next().unwrap_or_default()),
        }
    }

    /// Says in which file.
    #[must_use]
    pub fn in_file(mut self, file: impl fmt::Display) -> Self {
        self.spot.file.get_or_insert_with(|| file.to_string());
        self
    }

    /// Says on which row (counted from 1).
    #[must_use]
    pub fn at_row(mut self, row: u64) -> Self {
        self.spot.row.get_or_insert(row);
        self
    }

    /// Says in which column, or under which key.
    #[must_use]
    pub fn in_column(mut self, column: impl fmt::Display) -> Self {
        self.spot.column.get_or_insert_with(|| column.to_string());
        self
    }

    /// Says in which language it is to be told.
    #[must_use]
    pub fn said_in(mut self, language: Language) -> Self {
        self.language.get_or_insert(language);
        self
    }

    /// The message in `language`, with its place in front.
    pub fn message(&self, language: Language) -> String {
        let words = Words::of(language);
        let mut front = String::new();
        if let Some(file) = &self.spot.file {
            front.push_str(file);
        }
        if let Some(row) = self.spot.row {
            let comma = if front.is_empty() { "" } else { ", " };
            front.push_str(comma);
            front.push_str(&words.say_with("spot-row", &[("row", row.to_string().into())]));
        }
        if let Some(column) = &self.spot.column {
            let comma = if front.is_empty() { "" } else { ", " };
            front.push_str(comma);
            front.push_str(&words.say_with("spot-column", &[("column", column.clone().into())]));
        }
        let text = self.text(language);
        if front.is_empty() { text } else { format!("{front}: {text}") }
    }

    /// The message in `language` alone.
    pub fn text(&self, language: Language) -> String {
        Words::of(language).say_with(self.id, &self.arguments(language))
    }

    /// What to do about it, in `language`.
    pub fn hint(&self, language: Language) -> Option<String> {
        Words::of(language).hint(self.id, &self.arguments(language))
    }

    fn arguments(&self, language: Language) -> Vec<(&'static str, crate::words::Value)> {
        let said = |(name, value): &(&'static str, String)| match *name {
            SYSTEM => ("why", Words::of(language).say(value).into()),
            name => (name, value.clone().into()),
        };
        self.values.iter().map(said).collect()
    }
}

/// A value that is a message, said as `why` in the reader's language.
const SYSTEM: &str = "why-of-the-system";

/// What a system says no with, as far as people meet it.
fn system_word(kind: ErrorKind) -> Option<&'static str> {
    Some(match kind {
        ErrorKind::NotFound => "system-not-found",
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => "system-not-allowed",
        ErrorKind::AlreadyExists | ErrorKind::DirectoryNotEmpty => "system-there-already",
        ErrorKind::NotADirectory => "system-no-folder",
        ErrorKind::IsADirectory => "system-a-folder",
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "system-full",
        ErrorKind::FileTooLarge => "system-too-large",
        ErrorKind::ResourceBusy => "system-busy",
        ErrorKind::InvalidFilename => "system-bad-name",
        ErrorKind::InvalidData => "system-no-text",
        ErrorKind::UnexpectedEof => "system-cut-short",
        ErrorKind::BrokenPipe => "system-nobody-reads",
        _ => return None,
    })
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(Language::English))
    }
}

impl std::error::Error for Fault {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_system_says_no_in_the_readers_language() {
        let missing = Fault::new("study-unreadable").because(&ErrorKind::NotFound.into());
        assert!(missing.text(Language::English).ends_with("there is nothing of that name"));
        assert!(missing.text(Language::French).ends_with("rien ne porte ce nom"));
        // What there are no words for is said as the system says it, without a path of ours.
        let odd = std::io::Error::other("a bad day at path \"/tmp/.hidden\"");
        assert!(Fault::new("study-unreadable").because(&odd).text(Language::French).ends_with("a bad day"));
    }
}
