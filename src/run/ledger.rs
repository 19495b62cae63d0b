//! `ledger`: what was told to whom, for the register's owner; and the two things that only the owner knows: that a
//! pack never left his hands, and that another copy of the study gave one away.

use std::path::Path;

use super::Progress;
use crate::exact::{Ledger, Publication, Register};
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::pack;
use crate::study::{PublicStudy, Study};

/// Every publication of a study, in order.
pub fn publications(study: &Path) -> Result<Vec<Publication>> {
    let study = Study::load(study)?;
    Ok(Ledger::open(&study.private)?.publications().to_vec())
}

/// Says that a publication never left the owner's hands.
pub fn never_given(study: &Path, publication: u64) -> Result<()> {
    let study = Study::load(study)?;
    Ledger::open(&study.private)?.never_given(publication)
}

/// Takes in a pack that another copy of the study made: from now on what its agreement tells of this register counts
/// as told. Gives the audience and the number of finds.
pub fn take_in(study: &Path, folder: &Path, progress: &dyn Progress) -> Result<(String, usize)> {
    progress.step("step-study");
    let study = Study::load(study)?;
    let manifest = folder.join("MANIFEST.json");
    let foreign = || Fault::new("ledger-no-pack").in_file(manifest.display());
    let bytes = std::fs::read(&manifest).map_err(|_| foreign())?;
    let agreement = pack::read_agreement(&bytes).ok_or_else(foreign)?;
    let first = study.audiences().next().unwrap_or("public").to_owned();
    let like = study.audience(&agreement.audience).or_else(|_| study.audience(&first))?.clone();
    let public = PublicStudy { grid: agreement.grid.clone(), agreement, ..like };
    progress.step("step-ground");
    let ground = Ground::read(&public, &study.private.root)?;
    let partition = Partition::fix(&public, &ground)?;
    progress.step("step-register");
    let register = Register::read(&study)?;
    let mut ledger = Ledger::open(&study.private)?;
    let release = register.take_in(&public, &partition, &mut ledger)?;
    Ok((public.agreement.audience, release.finds.len()))
}
