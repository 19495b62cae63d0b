//! `strew audit`: a pack, or anything that is about to be handed on, with a thief's eyes.

use std::path::PathBuf;
use std::process::ExitCode;

use super::{Console, Outcome};
use crate::run::{self, Audited, Found};
use crate::words::{Value, Words};

/// Look for places finer than agreed, and for the register's own, in a pack or in any folder or file
///
/// A pack of ours is made anew and compared, byte for byte. Then everything is opened (archives, pictures,
/// documents, databases) and searched: for places finer than agreed, and for the register's own exact places
/// and words. Files and kinds are named, values never. What is printed is for the register's owner. The exit
/// code is 0 only when nothing at all was found and everything could be looked into.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The pack, the folder or the file
    pack: PathBuf,
    /// The study file
    #[arg(long)]
    study: PathBuf,
    /// The audience that it is meant for [default: as its manifest says, or public]
    #[arg(long = "for", value_name = "AUDIENCE")]
    audience: Option<String>,
    /// Print the findings as JSON on standard output
    #[arg(long)]
    json: bool,
    /// Print no progress and no advice
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        let audited =
            console.or_say(run::audit(&self.pack, &self.study, self.audience.as_deref(), &console))?;
        console.speak(audited.language);
        console.done();
        let words = Words::of(console.language());
        if self.json {
            console.json(&serde_json::json!({ "clean": audited.is_clean(), "audit": audited }));
        } else {
            for line in lines(&audited, words) {
                console.say(&line);
            }
        }
        console.tell(&words.say(if audited.is_clean() {
            "audit-what-clean-means"
        } else {
            "audit-what-to-do"
        }));
        Ok(if audited.is_clean() { ExitCode::SUCCESS } else { ExitCode::FAILURE })
    }
}

fn lines(audited: &Audited, words: &Words) -> Vec<String> {
    let mut lines = vec![words.say_with(
        "audit-looked-into",
        &[("n", audited.files.into()), ("audience", audited.audience.as_str().into())],
    )];
    let say = |id: &str| words.say(id);
    lines.push(say("audit-part-rebuilt"));
    match &audited.rebuilt {
        None => lines.push(say("audit-not-ours")),
        Some(rebuilt) => {
            lines.push(say(&format!("audit-rebuilt-from-{}", rebuilt.from)));
            let all = [
                ("audit-differs", &rebuilt.differs),
                ("audit-missing", &rebuilt.missing),
                ("audit-extra", &rebuilt.extra),
            ];
            if all.iter().all(|(_, files)| files.is_empty()) {
                lines.push(say("audit-same"));
            }
            for (id, files) in all {
                lines.extend(files.iter().map(|file| words.say_with(id, &[("file", file.as_str().into())])));
            }
        }
    }
    lines.push(say("audit-part-finer"));
    lines.extend(found(&audited.finer, words));
    lines.push(say("audit-part-exact"));
    lines.extend(found(&audited.exact, words));
    if !audited.not_looked_into.is_empty() {
        lines.push(say("audit-part-shut"));
        for shut in &audited.not_looked_into {
            let why = say(&format!("audit-not-{}", shut.why));
            lines.push(
                words.say_with("audit-shut", &[("file", shut.file.as_str().into()), ("why", why.into())]),
            );
        }
    }
    lines
}

fn found(all: &[Found], words: &Words) -> Vec<String> {
    if all.is_empty() {
        return vec![words.say("audit-nothing")];
    }
    all.iter()
        .map(|one| {
            let kind = words.say(&format!("audit-kind-{}", one.kind));
            let mut values: Vec<(&str, Value)> =
                vec![("file", one.file.as_str().into()), ("kind", kind.into()), ("n", one.times.into())];
            if one.through.is_empty() {
                return words.say_with("audit-found", &values);
            }
            let ways: Vec<String> =
                one.through.iter().map(|way| words.say(&format!("audit-through-{way}"))).collect();
            values.push(("through", words.list(&ways).into()));
            words.say_with("audit-found-through", &values)
        })
        .collect()
}
