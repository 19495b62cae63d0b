//! `strew report`: the whole pack for one audience. The other commands that write a folder share its
//! steps.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde_json::{Value, json};

use super::console::shown;
use super::{Console, Outcome, StudyArguments};
use crate::exact::Release;
use crate::fault::{Fault, Result};
use crate::pack::{self, Pack, Readers, Seal};
use crate::run::{self, Opened};
use crate::words::Words;

/// Write the whole pack for one audience: maps, tables, layers and a report
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// The pack's folder [default: one named for the audience, beside the study file]
    #[arg(long, short, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let folder = self.common.folder(self.out.as_deref(), "");
        into_folder(&self.common, &folder, |opened, release, console| {
            run::pack(&opened.public, &opened.ground, release, console)
        })
    }
}

/// Where a pack goes.
pub(super) enum Target {
    /// A folder of files.
    Folder(PathBuf),
    /// One file that its recipient alone can open.
    Sealed(PathBuf, Seal),
}

/// [`into`] a folder.
pub(super) fn into_folder(
    common: &StudyArguments,
    folder: &Path,
    compose: impl Fn(&Opened, &Release, &Console) -> Result<Pack>,
) -> Outcome {
    into(common, |_, _| Ok(Target::Folder(folder.to_path_buf())), compose)
}

/// Opens the study, releases the register, lets `compose` make the files, writes them and says so. The summary is
/// made from the release and the pack alone.
pub(super) fn into(
    common: &StudyArguments,
    target: impl FnOnce(&Opened, &Console) -> Result<Target>,
    compose: impl Fn(&Opened, &Release, &Console) -> Result<Pack>,
) -> Outcome {
    let console = Console::new(common.quiet, common.json);
    let opened = console.or_say(run::open(&common.study, &common.audience, &console))?;
    console.speak(opened.public.language);
    // What is to be written to is looked at before the long work.
    let target = console.or_say(target(&opened, &console))?;
    console.or_say(match &target {
        Target::Folder(folder) => Pack::check_folder(folder),
        Target::Sealed(path, _) => check_file(path),
    })?;
    let release = console.or_say(run::release(&opened, &console))?;
    console.scatters(&opened.public, &release);
    let pack = console.or_say(compose(&opened, &release, &console))?;
    let language = console.language();
    let words = Words::of(language);
    let (wrote, written) = match &target {
        Target::Folder(folder) => {
            console.or_say(pack.write(folder))?;
            let values = [("n", pack.files().len().into()), ("folder", shown(folder).into())];
            (words.say_with("run-wrote", &values), json!({ "folder": shown(folder) }))
        }
        Target::Sealed(path, seal) => {
            let sealed = console.or_say(pack.sealed(seal, language))?;
            console.or_say(pack::write_file(path, &sealed, Readers::Owner))?;
            let written = json!({ "file": shown(path), "sealed_to_keys": seal.keys(), "size": sealed.len() });
            (words.say_with("run-wrote-file", &[("file", shown(path).into())]), written)
        }
    };
    console.done();
    console.tally(&release.tally);
    console.tell(&wrote);
    if let Target::Sealed(_, seal) = &target {
        console.tell(&words.say("run-seal-tell"));
        console.tell(&format!("  {}", seal.how_to_open(language)));
    }
    let land = &opened.public.agreement.landowner;
    if !land.is_empty() && release.finds.is_empty() && release.tally.read == 0 {
        console.warn(&words.say_with("run-no-land-of", &[("land", land.join(", ").into())]));
    }
    console.cautions(&opened.public.agreement);
    let mut summary = json!({
        "audience": release.audience,
        "files": pack.files().keys().collect::<Vec<_>>(),
        "tally": release.tally,
    });
    if let (Some(summary), Value::Object(written)) = (summary.as_object_mut(), written) {
        summary.extend(written);
    }
    console.json(&summary);
    Ok(ExitCode::SUCCESS)
}

/// Refuses a place for a sealed file that is a folder, before the long work.
fn check_file(path: &Path) -> Result<()> {
    if path.is_dir() {
        return Err(Fault::new("run-seal-folder").with("path", shown(path)));
    }
    Ok(())
}
