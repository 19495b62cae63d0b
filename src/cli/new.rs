//! `strew new`: a study file to edit, guessed from a register.

use std::path::PathBuf;
use std::process::ExitCode;

use super::console::shown;
use super::{Console, Outcome};
use crate::pack::{Readers, make_folder, write_new_file};
use crate::run;
use crate::words::Words;

/// Look at a register, guess its columns, and write a study file to edit
///
/// A study file that is there already is never overwritten.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The folder for study.toml; made if it is not there
    folder: PathBuf,
    /// The register's files
    #[arg(long, value_name = "FILE", required = true, num_args = 1..)]
    register: Vec<PathBuf>,
    /// Print what was guessed as JSON on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        let study = console.or_say(run::new_study(&self.folder, &self.register))?;
        console.speak(study.language);
        console.or_say(make_folder(&self.folder))?;
        console.or_say(write_new_file(&study.path, study.toml.as_bytes(), Readers::Owner))?;
        console.done();
        for line in study.told.lines() {
            console.tell(line);
        }
        let words = Words::of(study.language);
        let file = shown(&study.path);
        console.tell(&words.say_with("run-wrote-file", &[("file", file.clone().into())]));
        console.tell(&words.say_with("new-next", &[("file", file.clone().into())]));
        let mut summary = study.json;
        summary["study"] = file.into();
        console.json(&summary);
        Ok(ExitCode::SUCCESS)
    }
}
