//! `strew parish-sheet`: a page for the notice board of one parish, or of each.

use std::collections::BTreeSet;

use super::Progress;
use super::observe::{allow, allow_shown, contents, scene, work};
use crate::analyse::{self, Dimension, Table};
use crate::exact::Release;
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Parish, Partition};
use crate::pack::{MAP_MM, parish_sheet};
use crate::sheet::parish_map;
use crate::study::vocabulary::fold;
use crate::study::{Attribute, Giving, PublicStudy};

/// One parish's page.
pub struct ParishSheet {
    /// The parish.
    pub parish: String,
    /// Its file's name without ending, different for each.
    pub file_name: String,
    /// The page, as PDF.
    pub pdf: Vec<u8>,
}

/// The page of the parish called `wanted`, or of every one: a pure function of the public study, public ground
/// and the release.
pub fn parish_sheets(
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    wanted: Option<&str>,
    progress: &dyn Progress,
) -> Result<Vec<ParishSheet>> {
    allow(study, Giving::Maps)?;
    allow(study, Giving::Tables)?;
    allow_shown(study, Attribute::Parish)?;
    let parishes = chosen(ground, wanted)?;
    let partition = Partition::fix(study, ground)?;
    let worked = work(study, ground, &partition, release, progress)?;
    let shown = [(Attribute::Class, Dimension::Class), (Attribute::Period, Dimension::Period)];
    let tables: Vec<Table> = shown
        .into_iter()
        .filter(|(attribute, _)| study.agreement.show.contains(attribute))
        .map(|(_, by)| {
            analyse::cross(
                &worked.published,
                study,
                &partition,
                &worked.concentrations.list,
                Dimension::Parish,
                by,
            )
        })
        .collect();
    progress.step("step-sheets");
    let contents = contents(study, ground, &partition, &worked, &tables, &[]);
    let scene = scene(study, ground, &worked);
    let mut taken = BTreeSet::new();
    let mut sheets = Vec::new();
    for parish in parishes {
        let map = parish_map(&scene, parish, MAP_MM.0, MAP_MM.1)?;
        let pdf = parish_sheet(&contents, &parish.name, &map, &tables)?;
        sheets.push(ParishSheet {
            parish: parish.name.clone(),
            file_name: named(&parish.name, &mut taken),
            pdf,
        });
    }
    Ok(sheets)
}

/// The parish of a name, whatever its case and accents, or all of them.
fn chosen<'g>(ground: &'g Ground, wanted: Option<&str>) -> Result<Vec<&'g Parish>> {
    if ground.parishes.is_empty() {
        return Err(Fault::new("run-no-parishes"));
    }
    let Some(wanted) = wanted else { return Ok(ground.parishes.iter().collect()) };
    let all = || ground.parishes.iter();
    let found = all().find(|parish| parish.name == wanted);
    match found.or_else(|| all().find(|parish| fold(&parish.name) == fold(wanted))) {
        Some(parish) => Ok(vec![parish]),
        None => {
            let known: Vec<&str> = all().map(|parish| parish.name.as_str()).collect();
            Err(Fault::new("run-parish-unknown").with("name", wanted).with("known", known.join(", ")))
        }
    }
}

/// A file name of plain letters, figures and hyphens; a second parish of the same letters gets a number.
fn named(parish: &str, taken: &mut BTreeSet<String>) -> String {
    let plain: String =
        fold(parish).chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let plain = if plain.trim_matches('-').is_empty() { "parish".to_owned() } else { plain };
    let numbered = (2..).map(|number| format!("{plain}-{number}"));
    let free = std::iter::once(plain.clone()).chain(numbered).find(|name| !taken.contains(name));
    let name = free.unwrap_or(plain);
    taken.insert(name.clone());
    name
}
