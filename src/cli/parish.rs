//! `strew parish-sheet`: pages for notice boards.

use std::path::PathBuf;
use std::process::ExitCode;

use super::console::shown;
use super::{Console, Outcome, StudyArguments};
use crate::fault::Fault;
use crate::pack::{Readers, make_folder, write_file};
use crate::run;
use crate::words::Words;

/// Make a page for the notice board of a parish: its map, its counts and a few plain words, on one side of A4
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// The parish, as the layer names it [default: a page for every parish]
    #[arg(long, value_name = "NAME")]
    parish: Option<String>,
    /// The PDF of one parish, or the folder of all [default: PARISH.pdf, or AUDIENCE-parishes beside the study]
    #[arg(long, short, value_name = "PATH")]
    out: Option<PathBuf>,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.common.quiet, self.common.json);
        let is_pdf = |path: &PathBuf| path.extension().is_some_and(|end| end.eq_ignore_ascii_case("pdf"));
        if let (Some(out), Some(_)) = (&self.out, &self.parish)
            && !is_pdf(out)
        {
            return console.or_say(Err(Fault::new("run-blank-ending").with("file", shown(out))));
        }
        // Pages of every parish go into a folder, and a file's name is none.
        if let (Some(out), None) = (&self.out, &self.parish)
            && out.extension().is_some()
            && !out.is_dir()
        {
            return console.or_say(Err(Fault::new("run-parish-folder").with("file", shown(out))));
        }
        let opened = console.or_say(run::open(&self.common.study, &self.common.audience, &console))?;
        console.speak(opened.public.language);
        let release = console.or_say(run::release(&opened, &console))?;
        let study = &opened.public;
        let wanted = self.parish.as_deref();
        let sheets = console.or_say(run::parish_sheets(study, &opened.ground, &release, wanted, &console))?;
        let readers = if study.agreement.for_publication { Readers::Everyone } else { Readers::Owner };
        let words = Words::of(console.language());
        let mut files = Vec::new();
        for sheet in &sheets {
            let file = match (&self.parish, &self.out) {
                (Some(_), Some(out)) => out.clone(),
                (Some(_), None) => PathBuf::from(format!("{}.pdf", sheet.file_name)),
                (None, out) => {
                    let folder = self.common.folder(out.as_deref(), "-parishes");
                    console.or_say(make_folder(&folder))?;
                    folder.join(format!("{}.pdf", sheet.file_name))
                }
            };
            console.or_say(write_file(&file, &sheet.pdf, readers))?;
            files.push(shown(&file));
        }
        console.done();
        console.tally(&release.tally);
        for file in &files {
            console.tell(&words.say_with("run-wrote-file", &[("file", file.clone().into())]));
        }
        console.cautions(&study.agreement);
        console.json(&serde_json::json!({
            "audience": release.audience,
            "parishes": sheets.iter().map(|sheet| &sheet.parish).collect::<Vec<_>>(),
            "files": files,
            "tally": release.tally,
        }));
        Ok(ExitCode::SUCCESS)
    }
}
