//! `strew report`: the whole pack for one audience. The other commands that write a folder share its
//! steps.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use super::console::shown;
use super::{Console, Outcome, StudyArguments};
use crate::exact::Release;
use crate::fault::Result;
use crate::pack::Pack;
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

/// Opens the study, releases the register, lets `compose` make the files, writes them as `folder` and says
/// so. The summary is made from the release and the pack alone.
pub(super) fn into_folder(
    common: &StudyArguments,
    folder: &Path,
    compose: impl Fn(&Opened, &Release, &Console) -> Result<Pack>,
) -> Outcome {
    let console = Console::new(common.quiet, common.json);
    let opened = console.or_say(run::open(&common.study, &common.audience, &console))?;
    console.speak(opened.public.language);
    // The output folder is looked at before the long work.
    console.or_say(Pack::check_folder(folder))?;
    let release = console.or_say(run::release(&opened, &console))?;
    console.scatters(&opened.public, &release);
    let pack = console.or_say(compose(&opened, &release, &console))?;
    console.or_say(pack.write(folder))?;
    console.done();
    console.tally(&release.tally);
    let words = Words::of(console.language());
    console.tell(
        &words.say_with("run-wrote", &[("n", pack.files().len().into()), ("folder", shown(folder).into())]),
    );
    let land = &opened.public.agreement.landowner;
    if !land.is_empty() && release.finds.is_empty() && release.tally.read == 0 {
        console.warn(&words.say_with("run-no-land-of", &[("land", land.join(", ").into())]));
    }
    console.cautions(&opened.public.agreement);
    console.json(&serde_json::json!({
        "audience": release.audience,
        "folder": shown(folder),
        "files": pack.files().keys().collect::<Vec<_>>(),
        "tally": release.tally,
    }));
    Ok(ExitCode::SUCCESS)
}
