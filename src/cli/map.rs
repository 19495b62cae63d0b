//! `strew map`: one sheet.

use std::path::PathBuf;
use std::process::ExitCode;

use clap::ValueEnum;

use super::console::{one_term, shown};
use super::{Console, Outcome, StudyArguments};
use crate::fault::Fault;
use crate::pack::{Readers, write_file};
use crate::run::{self, Wanted};
use crate::sheet::{self, MapKind};
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
    /// The style's name: colour, ink or contrast [default: the study's]
    #[arg(long)]
    style: Option<String>,
    /// Paper: a4, a3 or WIDTHxHEIGHT in millimetres [default: the study's]
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
        let release = console.or_say(run::release(&opened, &console))?;
        let wanted = Wanted { kind: Some(kind), class, period, style: self.style, paper: self.paper };
        let study = &opened.public;
        let sheet = console.or_say(run::one_map(study, &opened.ground, &release, &wanted, &console))?;
        let bytes = match ending.as_str() {
            "png" => console.or_say(sheet::png(&sheet, self.dpi.unwrap_or(study.sheets.dpi)))?,
            "tif" | "tiff" => console.or_say(sheet::tiff(&sheet, self.dpi.unwrap_or(LINE_ART)))?,
            "pdf" => console.or_say(sheet::pdf(&sheet, study))?,
            _ => sheet.svg.clone().into_bytes(),
        };
        let out = self.out.unwrap_or_else(|| PathBuf::from(format!("{}.svg", sheet.name)));
        let readers = if study.agreement.for_publication { Readers::Everyone } else { Readers::Owner };
        console.or_say(write_file(&out, &bytes, readers))?;
        console.done();
        console.tally(&release.tally);
        let words = Words::of(console.language());
        console.tell(&words.say_with("run-wrote-file", &[("file", shown(&out).into())]));
        console.cautions(&study.agreement);
        console.json(&serde_json::json!({
            "audience": release.audience, "file": shown(&out), "title": sheet.title, "tally": release.tally,
        }));
        Ok(ExitCode::SUCCESS)
    }
}
