//! `strew check`: everything read, every row set aside and every doubt listed.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use super::console::shown;
use super::{Console, Outcome, StudyArguments};
use crate::pack::{Readers, write_file};
use crate::run;
use crate::words::Words;

/// Read everything, and list every row set aside and every doubt with what to do about it
///
/// The list names precise places: it is for the register's owner. Nothing else is written. The exit code
/// is 3 when rows were set aside.
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// The file to write the list to, readable by you alone [default: standard output]
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.common.quiet, self.common.json);
        let checked = console.or_say(run::check(&self.common.study, &self.common.audience, &console))?;
        console.speak(checked.language);
        console.done();
        let text = if self.common.json { format!("{}\n", checked.json) } else { checked.text };
        match &self.out {
            Some(out) => {
                console.or_say(write_file(out, text.as_bytes(), Readers::Owner))?;
                let words = Words::of(console.language());
                console.tell(&words.say_with("run-wrote-file", &[("file", shown(out).into())]));
            }
            None => {
                // A reader that stops early (a pager) is no fault.
                let _ = std::io::stdout().lock().write_all(text.as_bytes());
            }
        }
        console.tell(&Words::of(console.language()).say("check-owner-only"));
        Ok(if checked.set_aside > 0 { ExitCode::from(3) } else { ExitCode::SUCCESS })
    }
}
