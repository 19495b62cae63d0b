//! `strew photographs`: copies of pictures without what a camera writes into them.

use std::path::PathBuf;
use std::process::ExitCode;

use super::console::shown;
use super::{Console, Outcome};
use crate::run;
use crate::words::{Language, Words};

/// Write copies of photographs without place, time, serial numbers, names, thumbnails and notes
///
/// JPEG, PNG and WebP. The pixels are copied as they are; so are the colour profile and which way up the picture
/// is shown. Copies are named by their order, since a camera's names tell the day. Whatever else is in the folder
/// is not copied. Look at the background of each picture before you post it: a skyline tells the place as well.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The folder of photographs, or one photograph
    folder: PathBuf,
    /// The folder to write the copies to
    #[arg(long, short, value_name = "FOLDER")]
    out: PathBuf,
    /// Keep the names of the files (a camera's names tell the day)
    #[arg(long)]
    keep_names: bool,
    /// Speak French
    #[arg(long)]
    french: bool,
    /// Print a machine-readable summary on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        console.speak(if self.french { Language::French } else { Language::English });
        let done = console.or_say(run::photographs(&self.folder, &self.out, self.keep_names, &console))?;
        console.done();
        let words = Words::of(console.language());
        for fault in &done.refused {
            console.warn(&fault.message(console.language()));
            if let Some(hint) = fault.hint(console.language()) {
                console.warn(&format!("  {hint}"));
            }
        }
        console.tell(
            &words.say_with(
                "run-wrote",
                &[("n", done.written.len().into()), ("folder", shown(&self.out).into())],
            ),
        );
        console.tell(&words.say("photographs-caution"));
        console.json(&serde_json::json!({
            "written": done.written.iter().map(|(path, _)| shown(path)).collect::<Vec<_>>(),
            "refused": done.refused.iter().map(|fault| serde_json::json!({
                "file": fault.spot.file,
                "why": fault.text(console.language()),
            })).collect::<Vec<_>>(),
        }));
        Ok(if done.refused.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE })
    }
}
