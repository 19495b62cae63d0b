//! `strew table`: one table.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::ValueEnum;

use super::console::shown;
use super::{Console, Outcome, StudyArguments};
use crate::analyse::Dimension;
use crate::fault::Fault;
use crate::pack::{self, Readers, write_file};
use crate::run;
use crate::words::Words;

/// Write one table, as CSV, Markdown, HTML or XLSX by the name of --out
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// What each row stands for
    #[arg(long, value_enum, default_value_t = By::Class)]
    rows: By,
    /// What each column stands for
    #[arg(long, value_enum, default_value_t = By::Period)]
    columns: By,
    /// The file to write; its ending (csv, md, html, xlsx) says the form [default: Markdown on standard output]
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    Class,
    Period,
    Parish,
    Strength,
    Setting,
    Concentration,
}

impl By {
    fn dimension(self) -> Dimension {
        match self {
            Self::Class => Dimension::Class,
            Self::Period => Dimension::Period,
            Self::Parish => Dimension::Parish,
            Self::Strength => Dimension::Strength,
            Self::Setting => Dimension::Setting,
            Self::Concentration => Dimension::Concentration,
        }
    }
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.common.quiet, self.common.json);
        let ending = match &self.out {
            None => "md".to_owned(),
            Some(out) => out.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default(),
        };
        if !matches!(ending.as_str(), "csv" | "md" | "html" | "xlsx") {
            return console.or_say(Err(Fault::new("run-table-ending").with("ending", &ending)));
        }
        if self.rows == self.columns {
            return console.or_say(Err(Fault::new("run-table-same")));
        }
        let opened = console.or_say(run::open(&self.common.study, &self.common.audience, &console))?;
        console.speak(opened.public.language);
        let release = console.or_say(run::release(&opened, &console))?;
        let (rows, columns) = (self.rows.dimension(), self.columns.dimension());
        let study = &opened.public;
        let table =
            console.or_say(run::one_table(study, &opened.ground, &release, rows, columns, &console))?;
        console.done();
        let bytes = match ending.as_str() {
            "csv" => pack::csv(&table, study),
            "html" => pack::html_page(&table, study),
            "xlsx" => console.or_say(pack::workbook(std::slice::from_ref(&table), study))?,
            _ => pack::markdown(&table, study).into_bytes(),
        };
        console.tally(&release.tally);
        match &self.out {
            Some(out) => {
                let readers =
                    if study.agreement.for_publication { Readers::Everyone } else { Readers::Owner };
                console.or_say(write_file(out, &bytes, readers))?;
                let words = Words::of(console.language());
                console.tell(&words.say_with("run-wrote-file", &[("file", shown(out).into())]));
            }
            // With --json standard output carries the summary alone.
            None if !self.common.json => {
                let _ = std::io::stdout().lock().write_all(&bytes);
            }
            None => {}
        }
        console.cautions(&study.agreement);
        console.json(&serde_json::json!({
            "audience": release.audience,
            "file": self.out.as_deref().map(shown),
            "title": table.title,
            "tally": release.tally,
        }));
        Ok(ExitCode::SUCCESS)
    }
}
