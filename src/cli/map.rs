//! `strew map`: one sheet.

use std::path::PathBuf;
use std::process::ExitCode;

use clap::ValueEnum;

use super::console::{one_term, shown};
use super::{Console, Outcome, StudyArguments};
use crate::fault::Fault;
use crate::pack::{Readers, write_file};
use crate::run::{self, Wanted};
use crate::sheet::{self, Each, MapKind};
use crate::study::vocabulary::{Class, Period};
use crate::words::Words;

/// Dots an inch of a TIFF, unless said: what journals ask of line art.
const LINE_ART: u32 = 600;

/// Draw one map sheet, as SVG, PNG, PDF or TIFF by the name of --out
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// What the sheet shows
    #[arg(long, value_enum, default_value_t = By::Cells)]
    by: By,
    /// Shorthand for --by density
    #[arg(long)]
    density: bool,
    /// Draw this class alone, and the classes under it
    #[arg(long)]
    class: Option<String>,
    /// Draw this period alone, and the periods within it
    #[arg(long)]
    period: Option<String>,
    /// One small map for each class or period, or for both (class,period): one scale and one key
    #[arg(long, value_enum, value_delimiter = ',', conflicts_with_all = ["split_year", "beside"])]
    each: Vec<EachOf>,
    /// Two maps: finds from before this year, and from this year on (where the agreement shows dates)
    #[arg(long, value_name = "YEAR", conflicts_with = "beside")]
    split_year: Option<i32>,
    /// Another study file, drawn beside this one: its agreement with the same audience must be alike
    #[arg(long, value_name = "STUDY")]
    beside: Option<PathBuf>,
    /// The style's name: colour, ink or contrast [default: the study's]
    #[arg(long)]
    style: Option<String>,
    /// Paper: a2 to a5, figure-wide, figure-tall, figure-column, or WIDTHxHEIGHT in millimetres [default: the study's]
    #[arg(long)]
    paper: Option<String>,
    /// Dots an inch of a PNG or TIFF [default: the study's; 600 for TIFF]
    #[arg(long, value_parser = clap::value_parser!(u32).range(72..=1200))]
    dpi: Option<u32>,
    /// The file to write; its ending says the form [default: the sheet's name, as SVG]
    #[arg(long, short, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// Squares shaded by how many pieces they hold
    Cells,
    /// Symbols by class, coloured by period
    Symbols,
    /// Parishes shaded by how many pieces they hold
    Parishes,
    /// The density surface with contours
    Density,
    /// Outlines of concentrations
    Concentrations,
    /// In which squares a find would be shown, wherever it lay: by public ground and the agreement alone
    Ladder,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum EachOf {
    /// A map for each class; those that share a symbol share a map
    Class,
    /// A map for each period; those that share a colour share a map
    Period,
}

impl EachOf {
    fn together(each: &[Self]) -> Option<Each> {
        match (each.contains(&Self::Class), each.contains(&Self::Period)) {
            (true, true) => Some(Each::ClassAndPeriod),
            (true, false) => Some(Each::Class),
            (false, true) => Some(Each::Period),
            (false, false) => None,
        }
    }
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let console = Console::new(self.common.quiet, self.common.json);
        let ending = match &self.out {
            None => "svg".to_owned(),
            Some(out) => out.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default(),
        };
        if !matches!(ending.as_str(), "svg" | "png" | "pdf" | "tif" | "tiff") {
            return console.or_say(Err(Fault::new("run-map-ending").with("ending", &ending)));
        }
        let kind = match if self.density { By::Density } else { self.by } {
            By::Cells => MapKind::Cells,
            By::Symbols => MapKind::Symbols,
            By::Parishes => MapKind::Parishes,
            By::Density => MapKind::Density,
            By::Concentrations => MapKind::Concentrations,
            By::Ladder => MapKind::Ladder,
        };
        let class =
            console.or_say(one_term("class", self.class.as_deref(), Class::ALL, Class::name, Class::read))?;
        let period = console.or_say(one_term(
            "period",
            self.period.as_deref(),
            Period::ALL,
            Period::name,
            Period::read,
        ))?;
        let opened = console.or_say(run::open(&self.common.study, &self.common.audience, &console))?;
        console.speak(opened.public.language);
        let other = match &self.beside {
            Some(other) => Some(console.or_say(run::open(other, &self.common.audience, &console))?),
            None => None,
        };
        let release = console.or_say(run::release(&opened, &console))?;
        let wanted = Wanted {
            kind: Some(kind),
            class,
            period,
            each: EachOf::together(&self.each),
            split_year: self.split_year,
            style: self.style,
            paper: self.paper,
        };
        let study = &opened.public;
        let mut tallies = vec![release.tally.clone()];
        let sheets = match &other {
            Some(other) => {
                let second = console.or_say(run::release(other, &console))?;
                tallies.push(second.tally.clone());
                run::pair_of_maps([&opened, other], [&release, &second], &wanted, &console)
            }
            None => run::maps(study, &opened.ground, &release, &wanted, &console),
        };
        let sheets = console.or_say(sheets)?;
        let readers = if study.agreement.for_publication { Readers::Everyone } else { Readers::Owner };
        let mut files = Vec::new();
        for sheet in &sheets {
            let bytes = match ending.as_str() {
                "png" => console.or_say(sheet::png(sheet, self.dpi.unwrap_or(study.sheets.dpi)))?,
                "tif" | "tiff" => console.or_say(sheet::tiff(sheet, self.dpi.unwrap_or(LINE_ART)))?,
                "pdf" => console.or_say(sheet::pdf(sheet, study))?,
                _ => sheet.svg.clone().into_bytes(),
            };
            let file = match &self.out {
                None => PathBuf::from(format!("{}.svg", sheet.name)),
                Some(out) if sheets.len() == 1 => out.clone(),
                // Several sheets are numbered.
                Some(out) => {
                    let stem = out.file_stem().map(|stem| stem.to_string_lossy()).unwrap_or_default();
                    out.with_file_name(format!("{stem}-{}.{ending}", files.len() + 1))
                }
            };
            console.or_say(write_file(&file, &bytes, readers))?;
            files.push(shown(&file));
        }
        console.done();
        tallies.iter().for_each(|tally| console.tally(tally));
        let words = Words::of(console.language());
        for file in &files {
            console.tell(&words.say_with("run-wrote-file", &[("file", file.clone().into())]));
        }
        for empty in run::empty_maps(study, &opened.ground, &release, &wanted) {
            console.warn(&empty.text(console.language()));
            console.tell(&format!("  {}", empty.hint(console.language()).unwrap_or_default()));
        }
        console.cautions(&study.agreement);
        console.json(&serde_json::json!({
            "audience": release.audience, "file": files.first(), "files": files,
            "title": sheets.first().map(|sheet| &sheet.title), "tally": release.tally,
        }));
        Ok(ExitCode::SUCCESS)
    }
}
