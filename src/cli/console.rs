//! What the commands share: common arguments, the progress line, and how faults are printed.

use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use clap::Args;
use indicatif::{ProgressBar, ProgressStyle};

use crate::coordinates::notation::reference;
use crate::exact::{Release, Tally};
use crate::fault::Fault;
use crate::run::Progress;
use crate::study::vocabulary::Term;
use crate::study::{Agreement, PublicStudy};
use crate::words::{Language, Words};

/// Arguments of every command that writes for an audience.
#[derive(Args)]
pub(crate) struct StudyArguments {
    /// The study file
    pub study: PathBuf,
    /// The audience, as named by an [agreement.NAME] of the study file
    #[arg(long = "for", value_name = "AUDIENCE", default_value = "public")]
    pub audience: String,
    /// Print a machine-readable summary on standard output
    #[arg(long)]
    pub json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    pub quiet: bool,
}

impl StudyArguments {
    /// The folder to write to: as asked, or one named for the audience beside the study file.
    pub fn folder(&self, out: Option<&Path>, suffix: &str) -> PathBuf {
        match out {
            Some(out) => out.to_path_buf(),
            None => self.study.with_file_name(format!("{}{suffix}", self.audience)),
        }
    }
}

/// Where a command talks to a person.
pub(crate) struct Console {
    language: std::cell::Cell<Language>,
    quiet: bool,
    json: bool,
    bar: Option<ProgressBar>,
}

impl Console {
    /// Opens the console; the progress line shows at a terminal alone.
    pub fn new(quiet: bool, json: bool) -> Self {
        let bar = (!quiet && std::io::stderr().is_terminal()).then(|| {
            let bar = ProgressBar::new_spinner();
            if let Ok(style) = ProgressStyle::with_template("{spinner} {msg} ({elapsed})") {
                bar.set_style(style);
            }
            bar.enable_steady_tick(Duration::from_millis(120));
            bar
        });
        Self { language: std::cell::Cell::new(Language::English), quiet, json, bar }
    }

    /// From now on in this language.
    pub fn speak(&self, language: Language) {
        self.language.set(language);
    }

    /// The language spoken.
    pub fn language(&self) -> Language {
        self.language.get()
    }

    /// Attaches the language to a fault, for [`super::Outcome`].
    pub fn or_say<T>(&self, result: crate::fault::Result<T>) -> Result<T, (Fault, Language)> {
        result.map_err(|fault| {
            self.done();
            (fault, self.language())
        })
    }

    /// Ends the progress line.
    pub fn done(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }

    /// How many rows have been through, on the progress line.
    pub fn count(&self, rows: u64) {
        if let Some(bar) = &self.bar {
            let words = Words::of(self.language());
            bar.set_message(words.say_with("run-rows-so-far", &[("n", rows.into())]));
        }
    }

    /// Asks for something that nobody else should see, at the terminal, and does not show it; `None` without a
    /// terminal.
    pub fn secret(&self, prompt: &str) -> Option<String> {
        let ask = || {
            let terminal = console::Term::stderr();
            if !terminal.is_term() || !std::io::stdin().is_terminal() {
                return None;
            }
            terminal.write_str(prompt).ok()?;
            terminal.read_secure_line().ok()
        };
        match &self.bar {
            Some(bar) => bar.suspend(ask),
            None => ask(),
        }
    }

    /// Prints a line on standard error, unless quiet.
    pub fn tell(&self, line: &str) {
        if !self.quiet {
            self.warn(line);
        }
    }

    /// Prints a line on standard error in any case.
    pub fn warn(&self, line: &str) {
        let mut err = std::io::stderr().lock();
        // A closed standard error leaves nobody to tell.
        let _ = writeln!(err, "{line}");
    }

    /// Prints a line on standard output: what was asked for.
    pub fn say(&self, line: &str) {
        let mut out = std::io::stdout().lock();
        // A reader that stops early is no fault.
        let _ = writeln!(out, "{line}");
    }

    /// Prints the summary: JSON on standard output where asked, else nothing.
    pub fn json(&self, value: &serde_json::Value) {
        if self.json {
            let mut out = std::io::stdout().lock();
            let _ = writeln!(out, "{value}");
        }
    }

    /// The line that says how many rows were read, used and set aside, and one a reason.
    pub fn tally(&self, tally: &Tally) {
        let words = Words::of(self.language());
        self.tell(&words.say_with(
            "run-tally",
            &[
                ("read", words.number(tally.read as f64, 0).into()),
                ("used", words.number(tally.used as f64, 0).into()),
                ("aside", words.number(tally.set_aside_total() as f64, 0).into()),
            ],
        ));
        for (reason, rows) in &tally.set_aside {
            let label = reason.label(self.language());
            let rows = words.number(*rows as f64, 0);
            self.tell(
                &words.say_with("run-tally-reason", &[("rows", rows.into()), ("reason", label.into())]),
            );
        }
        if !tally.set_aside.is_empty() {
            self.tell(&words.say("run-tally-check"));
        }
    }

    /// Warns of tight scatters that a release tells to less ground than was agreed. Made from the release alone.
    pub fn scatters(&self, study: &PublicStudy, release: &Release) {
        let words = Words::of(self.language());
        let betrayed = release.betrayed(&study.agreement);
        if betrayed.is_empty() {
            return;
        }
        let hectares = |hectares: f64| words.number(hectares, if hectares < 10.0 { 1 } else { 0 });
        let agreed = hectares(study.agreement.smallest_area_m2 / 1e4);
        let n = [("n", betrayed.len().into()), ("agreed", agreed.into())];
        self.warn(&words.say_with("run-scatters-betrayed", &n));
        for one in betrayed {
            let squares: Vec<String> = one.cells.iter().map(|cell| reference(&study.grid, *cell)).collect();
            let told = [
                ("tiny", (if one.hectares < 0.1 { "yes" } else { "no" }).into()),
                ("hectares", hectares(one.hectares.max(0.1)).into()),
                ("squares", squares.join(", ").into()),
            ];
            self.warn(&words.say_with("run-scatter-betrayed", &told));
        }
        self.warn(&words.say("run-scatters-advice"));
    }

    /// The cautions that end every command that writes something to show.
    pub fn cautions(&self, agreement: &Agreement) {
        let words = Words::of(self.language());
        self.tell("");
        if agreement.publishes_closely() {
            let precision = [("precision", agreement.precision.to_string().into())];
            self.warn(&words.say_with("run-published-closely", &precision));
        }
        if !agreement.for_publication {
            self.warn(&words.say("run-not-for-publication"));
        }
        self.tell(&words.say("run-cautions"));
    }
}

impl Progress for Console {
    fn step(&self, message: &'static str) {
        if let Some(bar) = &self.bar {
            bar.set_message(Words::of(self.language()).say(message));
        }
    }
}

/// Prints a fault and its hint on standard error.
pub(super) fn complain(fault: &Fault, language: Language) {
    let mut err = std::io::stderr().lock();
    let _ = writeln!(err, "strew: {}", fault.message(language));
    if let Some(hint) = fault.hint(language) {
        let _ = writeln!(err, "  {hint}");
    }
}

/// A path as typed, with `/` on every system.
pub(super) fn shown(path: &Path) -> String {
    path.display().to_string().replace('\\', "/")
}

/// Reads one word of a closed list from the command line, by its name or as people write it.
pub(super) fn one_term<T: Copy>(
    key: &'static str,
    text: Option<&str>,
    all: &[T],
    name: fn(T) -> &'static str,
    read: fn(&str) -> Option<T>,
) -> crate::fault::Result<Option<T>> {
    let Some(text) = text else { return Ok(None) };
    all.iter().copied().find(|term| name(*term) == text).or_else(|| read(text)).map(Some).ok_or_else(|| {
        let known: Vec<&str> = all.iter().map(|term| name(*term)).collect();
        Fault::new("run-unknown-term").with("key", key).with("text", text).with("known", known.join(", "))
    })
}
