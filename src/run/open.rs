//! The first steps of every command that writes for an audience: study, public ground, then the
//! register, then its release. In that order: public before private.

use std::path::Path;

use crate::exact::{Ledger, Register, Release};
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::study::{PublicStudy, Study};

/// Told of each step as it begins, by the name of a message (`step-ground`, `step-register`, …).
pub trait Progress {
    /// A step begins.
    fn step(&self, message: &'static str);
}

/// A study opened for one audience, its public ground read, its register not yet.
pub struct Opened {
    /// The whole study.
    pub study: Study,
    /// The part that this audience's pack is made from.
    pub public: PublicStudy,
    /// Public ground.
    pub ground: Ground,
}

/// Reads the study file and the public ground.
pub fn open(path: &Path, audience: &str, progress: &dyn Progress) -> Result<Opened> {
    progress.step("step-study");
    let study = Study::load(path)?;
    let language = study.language();
    let look = || {
        let public = study.audience(audience)?.clone();
        crate::sheet::known_looks(&public.sheets)?;
        progress.step("step-ground");
        let ground = Ground::read(&public, &study.private.root)?;
        Ok((public, ground))
    };
    let (public, ground) = look().map_err(|fault: Fault| fault.said_in(language))?;
    Ok(Opened { study, public, ground })
}

/// Reads the register and releases it to the audience. What is told is in the private ledger when this returns.
pub fn release(opened: &Opened, progress: &dyn Progress) -> Result<Release> {
    let partition = Partition::fix(&opened.public, &opened.ground)?;
    progress.step("step-register");
    // A ledger that is there is read beside the register; one is begun only when there is something to tell.
    let private = &opened.study.private;
    let (register, ledger) = rayon::join(|| Register::read(&opened.study), || Ledger::look(private));
    let register = register?;
    progress.step("step-release");
    let mut ledger = match ledger? {
        Some(ledger) => ledger,
        None => Ledger::open(private)?,
    };
    let release = register.release_remembering(&opened.public, &partition, &mut ledger);
    // A hundred thousand finds take a while to be put away: nobody waits for it.
    rayon::spawn(move || drop(register));
    release
}
