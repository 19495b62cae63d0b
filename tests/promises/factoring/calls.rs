//! What the library is asked for without a command line: everything it makes of a release, drawn at random.

use std::collections::BTreeMap;

use rand::Rng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha8Rng;
use strew::analyse::Dimension;
use strew::exact::Release;
use strew::fault::Result;
use strew::ground::Ground;
use strew::pack;
use strew::run::{self, Analysis, Wanted};
use strew::sheet::{self, Each, MapKind};
use strew::study::PublicStudy;
use strew::study::vocabulary::{Class, Period};

use super::super::common::Silent;

pub type Files = BTreeMap<String, Vec<u8>>;

/// What can be asked for.
pub const KINDS: [&str; 8] =
    ["pack", "submission", "density", "concentrations", "shore", "table", "maps", "parish sheets"];

/// What is refused is asked for otherwise, so often: much that can be asked for has no answer in a small study.
const TRIES: usize = 4;

/// What comes of asking, and whether anything does in the end: files, and what each refusal says.
pub fn answer(
    kind: usize,
    random: &mut ChaCha8Rng,
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
) -> (bool, Files) {
    let mut refused = Files::new();
    for nth in 0..TRIES {
        match made(KINDS[kind % KINDS.len()], random, study, ground, release) {
            Ok(files) => return (true, files.into_iter().chain(refused).collect()),
            Err(fault) => {
                let hint = fault.hint(study.language).unwrap_or_default();
                let said = format!("{}\n{hint}", fault.message(study.language)).into_bytes();
                // Where nothing is drawn, or nothing of what is drawn matters, it is refused again.
                if refused.values().next_back() == Some(&said) {
                    break;
                }
                refused.insert(format!("refused {nth}"), said);
            }
        }
    }
    (false, refused)
}

fn made(
    kind: &str,
    random: &mut ChaCha8Rng,
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
) -> Result<Files> {
    let analysis =
        |analysis| Ok(run::one_analysis(analysis, study, ground, release, &Silent)?.files().clone());
    match kind {
        "pack" => Ok(run::pack(study, ground, release, &Silent)?.files().clone()),
        "submission" => Ok(run::submission(study, ground, release, &Silent)?.files().clone()),
        "density" => analysis(Analysis::Density { compare: random.random_bool(0.3) }),
        "concentrations" => analysis(Analysis::Concentrations),
        "shore" => analysis(Analysis::Shore),
        "table" => table(random, study, ground, release),
        "maps" => maps(random, study, ground, release),
        _ => {
            let sheets = run::parish_sheets(study, ground, release, None, &Silent)?;
            Ok(sheets.into_iter().map(|sheet| (format!("{}.pdf", sheet.file_name), sheet.pdf)).collect())
        }
    }
}

fn table(random: &mut ChaCha8Rng, study: &PublicStudy, ground: &Ground, release: &Release) -> Result<Files> {
    let all = [
        Dimension::Class,
        Dimension::Period,
        Dimension::Parish,
        Dimension::Strength,
        Dimension::Setting,
        Dimension::Concentration,
    ];
    let two: Vec<Dimension> = all.choose_multiple(random, 2).copied().collect();
    let table = run::one_table(study, ground, release, two[0], two[1], &Silent)?;
    Ok(Files::from([
        ("table.csv".to_owned(), pack::csv(&table, study)),
        ("table.md".to_owned(), pack::markdown(&table, study).into_bytes()),
        ("table.html".to_owned(), pack::html_page(&table, study)),
        ("table.xlsx".to_owned(), pack::workbook(std::slice::from_ref(&table), study)?),
    ]))
}

fn maps(random: &mut ChaCha8Rng, study: &PublicStudy, ground: &Ground, release: &Release) -> Result<Files> {
    let kinds = [
        MapKind::Cells,
        MapKind::Symbols,
        MapKind::Parishes,
        MapKind::Density,
        MapKind::Concentrations,
        MapKind::Ladder,
    ];
    let mut sometimes = |chance: f64| random.random_bool(chance);
    let (by_class, by_period, small, by_year) =
        (sometimes(0.15), sometimes(0.15), sometimes(0.2), sometimes(0.1));
    let wanted = Wanted {
        kind: kinds.choose(random).copied(),
        class: by_class.then_some(Class::Flake),
        period: by_period.then_some(Period::Mesolithic),
        each: [Each::Class, Each::Period, Each::ClassAndPeriod].choose(random).copied().filter(|_| small),
        split_year: by_year.then_some(1990),
        style: None,
        paper: None,
    };
    let sheets = run::maps(study, ground, release, &wanted, &Silent)?;
    let mut files = Files::new();
    for (index, drawn) in sheets.iter().enumerate() {
        files.insert(format!("{index}.svg"), drawn.svg.clone().into_bytes());
        files.insert(format!("{index}.png"), sheet::png(drawn, 72)?);
        files.insert(format!("{index}.pdf"), sheet::pdf(drawn, study)?);
    }
    let empty = run::empty_maps(study, ground, release, &wanted);
    let empty: String = empty.iter().map(|fault| fault.text(study.language)).collect();
    files.insert("empty".to_owned(), empty.into_bytes());
    Ok(files)
}
