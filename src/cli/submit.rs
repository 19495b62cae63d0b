//! `strew submit`: the submission for a record office, in a folder or sealed as one file.

use std::path::{Path, PathBuf};

use super::console::shown;
use super::report::{Target, into};
use super::{Console, Outcome, StudyArguments};
use crate::fault::{Fault, Result};
use crate::pack::Seal;
use crate::run::{self, Opened};
use crate::words::Words;

/// Write the submission for a record office: CSV, GeoPackage and a sheet to print, at the agreed precision
///
/// With --seal-to, --passphrase-file or --passphrase it is written as one sealed file (age v1, an open format) and
/// nothing of it reaches the disk unsealed. Ask the office first: some cannot open one.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The study file
    study: PathBuf,
    /// The audience, as named by an [agreement.NAME] of the study file
    #[arg(long = "for", value_name = "AUDIENCE", default_value = "office")]
    audience: String,
    /// The folder to write [default: AUDIENCE-submission beside the study file]; sealed, the file
    /// [default: AUDIENCE-submission.zip.age]
    #[arg(long, short, value_name = "FOLDER|FILE")]
    out: Option<PathBuf>,
    /// Seal it to these keys: age1..., or files of them
    #[arg(long, value_name = "KEY|FILE", num_args = 1.., conflicts_with_all = ["passphrase", "passphrase_file", "unsealed"])]
    seal_to: Vec<String>,
    /// Seal it by the passphrase on the first line of a file
    #[arg(long, value_name = "FILE", conflicts_with_all = ["passphrase", "unsealed"])]
    passphrase_file: Option<PathBuf>,
    /// Seal it by a passphrase, asked for at the terminal
    #[arg(long, conflicts_with = "unsealed")]
    passphrase: bool,
    /// Do not seal it, whatever seal_to in the study file says
    #[arg(long)]
    unsealed: bool,
    /// Print a machine-readable summary on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let common = StudyArguments {
            study: self.study.clone(),
            audience: self.audience.clone(),
            json: self.json,
            quiet: self.quiet,
        };
        let target = |opened: &Opened, console: &Console| match self.seal(opened, console)? {
            Some(seal) => {
                let plain = common.folder(None, "-submission");
                if plain.is_dir() {
                    let values = [("folder", shown(&plain).into())];
                    console.warn(&Words::of(console.language()).say_with("run-seal-plain-beside", &values));
                }
                Ok(Target::Sealed(common.folder(self.out.as_deref(), "-submission.zip.age"), seal))
            }
            None => Ok(Target::Folder(common.folder(self.out.as_deref(), "-submission"))),
        };
        into(&common, target, |opened, release, console| {
            run::submission(&opened.public, &opened.ground, release, console)
        })
    }

    /// How the submission is to be sealed, if it is: as typed, or as the study file says.
    fn seal(&self, opened: &Opened, console: &Console) -> Result<Option<Seal>> {
        if self.unsealed {
            return Ok(None);
        }
        if !self.seal_to.is_empty() {
            return run::seal_to(&self.seal_to, Path::new("")).map(Some);
        }
        if let Some(path) = &self.passphrase_file {
            return run::seal_by_file(path).map(Some);
        }
        if self.passphrase {
            return ask(console).map(Some);
        }
        let private = &opened.study.private;
        private.seal_to.get(&self.audience).map(|keys| run::seal_to(keys, &private.root)).transpose()
    }
}

/// Asks for a passphrase twice, without showing it. Never taken from arguments or the environment, where other
/// programs could see it.
fn ask(console: &Console) -> Result<Seal> {
    let words = Words::of(console.language());
    let mut asked = ["run-seal-ask", "run-seal-ask-again"]
        .into_iter()
        .map(|id| console.secret(&words.say(id)).ok_or_else(|| Fault::new("run-seal-no-terminal")));
    let first = asked.next().transpose()?.unwrap_or_default();
    let seal = Seal::with_passphrase(first.clone())?;
    if asked.next().transpose()? != Some(first) {
        return Err(Fault::new("run-seal-differs"));
    }
    Ok(seal)
}
