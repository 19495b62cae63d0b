//! `strew licences`: the notices of what is inside the binary.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use super::places::{Spoken, line, put};
use super::{Console, Outcome};
use crate::fault::Result;
use crate::run::licences::{Group, Part, licences};
use crate::words::Words;

/// Print the licences and notices of everything inside this program
///
/// The data, fonts, libraries and packages that travel in the binary ask that their notices travel with
/// it. The program's own licence is MIT or Apache-2.0, as you choose.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// Print names and licences alone, without the texts
    #[arg(long)]
    list: bool,
    /// Print one JSON object a line: each part, with its texts
    #[arg(long)]
    json: bool,
    /// Write to this file instead of standard output
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Print nothing on standard error but faults
    #[arg(long, short)]
    quiet: bool,
    /// The language of headings; notices are as their holders wrote them
    #[arg(long, value_enum, default_value = "en")]
    language: Spoken,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.quiet, self.json);
        console.speak(self.language.into());
        let words = Words::of(console.language());
        let printed = licences().and_then(|groups| {
            put(self.out.as_deref(), |out| {
                groups.iter().try_for_each(|group| match self.json {
                    true => objects(group, self.list, out),
                    false => pages(group, words, self.list, out),
                })
            })
        });
        console.or_say(printed).inspect(|()| console.done())?;
        Ok(ExitCode::SUCCESS)
    }
}

fn objects(group: &Group, list: bool, out: &mut dyn Write) -> Result<()> {
    for part in &group.parts {
        let mut object = serde_json::json!({
            "kind": group.heading.trim_start_matches("licences-"),
            "name": part.name,
            "licence": part.licence,
            "holders": part.holders,
        });
        if !list {
            object["texts"] =
                part.texts.iter().filter_map(|number| group.texts.get(number - 1)).cloned().collect();
        }
        line(out, &object.to_string())?;
    }
    Ok(())
}

fn pages(group: &Group, words: &Words, list: bool, out: &mut dyn Write) -> Result<()> {
    let heading = words.say(group.heading);
    line(out, &heading)?;
    line(out, &"=".repeat(heading.chars().count()))?;
    for Part { name, licence, texts, holders } in &group.parts {
        line(out, &format!("{name}: {licence}"))?;
        for holder in holders {
            line(out, &format!("    {holder}"))?;
        }
        if !list && !texts.is_empty() {
            let numbers: Vec<String> = texts.iter().map(usize::to_string).collect();
            line(
                out,
                &format!("    {}", words.say_with("licences-see", &[("texts", numbers.join(", ").into())])),
            )?;
        }
    }
    line(out, "")?;
    if list {
        return Ok(());
    }
    for (index, text) in group.texts.iter().enumerate() {
        let number = (index + 1).to_string();
        line(
            out,
            &words
                .say_with("licences-text", &[("number", number.into()), ("heading", heading.clone().into())]),
        )?;
        line(out, "")?;
        line(out, text)?;
        line(out, "")?;
    }
    Ok(())
}
