//! `strew ledger`: what was told to whom, and what only the owner knows of it.

use std::path::PathBuf;
use std::process::ExitCode;

use super::{Console, Outcome};
use crate::run;
use crate::study::Study;
use crate::words::Words;

/// List what was told to whom, for the register's owner alone; say that a pack was never given, or that another was
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The study file
    study: PathBuf,
    /// Say that the pack of this line never left your hands: what it told counts no more
    #[arg(long, value_name = "NUMBER", conflicts_with = "take_in")]
    never_given: Option<u64>,
    /// Take in a pack that another copy of this study gave away: what it told counts from now on
    #[arg(long, value_name = "PACK")]
    take_in: Option<PathBuf>,
    /// Print a machine-readable list on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        let study = console.or_say(Study::load(&self.study))?;
        console.speak(study.language());
        let words = Words::of(study.language());
        if let Some(number) = self.never_given {
            console.or_say(run::ledger::never_given(&self.study, number))?;
        }
        if let Some(pack) = &self.take_in {
            let (audience, finds) = console.or_say(run::ledger::take_in(&self.study, pack, &console))?;
            console.done();
            console.tell(
                &words.say_with("run-ledger-taken-in", &[("audience", audience.into()), ("n", finds.into())]),
            );
        }
        let told = console.or_say(run::ledger::publications(&self.study))?;
        console.done();
        if told.is_empty() {
            console.tell(&words.say("run-ledger-empty"));
        }
        for publication in &told {
            let id = if publication.never_given { "run-ledger-never-given" } else { "run-ledger-line" };
            console.tell(&words.say_with(
                id,
                &[
                    ("number", publication.number.to_string().into()),
                    ("audience", publication.audience.clone().into()),
                    ("release", publication.release.chars().take(12).collect::<String>().into()),
                ],
            ));
        }
        console.json(&serde_json::json!({ "publications": told }));
        Ok(ExitCode::SUCCESS)
    }
}
