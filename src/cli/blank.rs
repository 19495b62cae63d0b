//! `strew blank`: pages to fill in by hand.

use std::path::PathBuf;
use std::process::ExitCode;

use clap::ValueEnum;

use super::console::{one_term, shown};
use super::{Console, Outcome};
use crate::fault::Fault;
use crate::pack::{BlankPage, Readers, write_file};
use crate::run;
use crate::study::vocabulary::Country;
use crate::words::{Language, Words};

/// Make a page to fill in by hand: a recording sheet for finders, or reply slips for people who show stones
///
/// The recording sheet is one side of A4 for one piece, with the marks of human work drawn to tick. Its headings
/// are headings that a register is read by, so that filled sheets become a register by typing. Nothing of a
/// register is printed.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The page
    #[arg(value_enum)]
    page: Page,
    /// Its languages: one, or two for both at once [default: the study's, or en]
    #[arg(long, value_enum, value_delimiter = ',', value_name = "LANGUAGE")]
    language: Vec<Tongue>,
    /// A study file: prints its title, its grid and the record office's name
    #[arg(long, value_name = "STUDY")]
    study: Option<PathBuf>,
    /// The audience whose recipient is the record office
    #[arg(long, value_name = "AUDIENCE", default_value = "office")]
    office: String,
    /// Whose law the cautions speak of [default: the study's, or none in particular]
    #[arg(long)]
    country: Option<String>,
    /// The PDF to write [default: recording-sheet.pdf or reply-slip.pdf]
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Print a machine-readable summary on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

#[derive(Clone, Copy, ValueEnum)]
enum Page {
    /// One sheet for one piece, or for like pieces from one spot
    RecordingSheet,
    /// Slips for people who show stones, several to the page
    ReplySlip,
}

#[derive(Clone, Copy, ValueEnum)]
enum Tongue {
    En,
    Fr,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        let page = match self.page {
            Page::RecordingSheet => BlankPage::RecordingSheet,
            Page::ReplySlip => BlankPage::ReplySlip,
        };
        let out = self.out.unwrap_or_else(|| PathBuf::from(format!("{}.pdf", page.file_name())));
        if !out.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf")) {
            return console.or_say(Err(Fault::new("run-blank-ending").with("file", shown(&out))));
        }
        let languages: Vec<Language> = self
            .language
            .iter()
            .map(|tongue| match tongue {
                Tongue::En => Language::English,
                Tongue::Fr => Language::French,
            })
            .collect();
        let country = self.country.as_deref();
        let country = console.or_say(one_term("country", country, Country::ALL, Country::name, |_| None))?;
        let made =
            console.or_say(run::blank(page, &languages, country, self.study.as_deref(), &self.office))?;
        console.speak(made.language);
        console.or_say(write_file(&out, &made.pdf, Readers::Everyone))?;
        console.done();
        let words = Words::of(made.language);
        console.tell(&words.say_with("run-wrote-file", &[("file", shown(&out).into())]));
        console.json(&serde_json::json!({ "page": page.file_name(), "file": shown(&out) }));
        Ok(ExitCode::SUCCESS)
    }
}
