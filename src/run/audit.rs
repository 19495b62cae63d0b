//! The audit: a pack, or any folder or file, is rebuilt and compared, read with a thief's eyes, and set beside the
//! register. The last is the owner's alone: this is the one caller of [`crate::exact::Hunt`].

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use rayon::prelude::*;
use serde::Serialize;

use super::open::{Opened, Progress, open};
use crate::audit::{self, Agreed, Form, Frames, Part, Sight};
use crate::exact::{Hunt, Ledger, OwnWord, Publication, Register, Release};
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::pack::{Made, Pack};
use crate::study::PublicStudy;
use crate::words::Language;

/// What an audit found. It names files and kinds, never a value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Audited {
    /// The audience that it was judged for.
    pub audience: String,
    /// How many files were looked into.
    pub files: usize,
    /// The pack against what is made anew; nothing where it is no pack of ours.
    pub rebuilt: Option<Rebuilt>,
    /// Places finer than agreed, found without the register.
    pub finer: Vec<Found>,
    /// The register's own places and words.
    pub exact: Vec<Found>,
    /// What could not be looked into.
    pub not_looked_into: Vec<Shut>,
    /// The language of the study.
    #[serde(skip)]
    pub language: Language,
}

/// A pack against what is made anew from a release.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Rebuilt {
    /// Which release it was made anew from: `register` (as it stands today) or `ledger`.
    pub from: &'static str,
    /// Files whose bytes differ.
    pub differs: Vec<String>,
    /// Files that should be there and are not.
    pub missing: Vec<String>,
    /// Files that should not be there.
    pub extra: Vec<String>,
}

/// One finding: a file, what lies in it, and of what kind it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Found {
    /// The file, with what it lies in; letters of a name that tells something itself are masked.
    pub file: String,
    /// The kind, without its `audit-kind-`.
    pub kind: String,
    /// How it was hidden, without their `audit-through-`.
    pub through: Vec<String>,
    /// How often.
    pub times: u64,
}

/// Something that could not be looked into.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Shut {
    /// The file, with what it lies in.
    pub file: String,
    /// Why, without its `audit-not-`.
    pub why: String,
}

impl Audited {
    /// Whether nothing at all was found, and everything was looked into.
    pub fn is_clean(&self) -> bool {
        let as_made = self.rebuilt.as_ref().is_none_or(|rebuilt| {
            rebuilt.differs.is_empty() && rebuilt.missing.is_empty() && rebuilt.extra.is_empty()
        });
        as_made && self.finer.is_empty() && self.exact.is_empty() && self.not_looked_into.is_empty()
    }
}

/// Looks at a pack, a folder or a file for the audience named, or the one its manifest names.
pub fn audit(path: &Path, study: &Path, audience: Option<&str>, progress: &dyn Progress) -> Result<Audited> {
    progress.step("step-audit-files");
    let mut shut = Vec::new();
    let files = files(path, &mut shut)?;
    if files.is_empty() && shut.is_empty() {
        return Err(Fault::new("audit-nothing-there").with("path", path.display()));
    }
    let made = files.get(Made::NAME).and_then(|bytes| Made::read(bytes));
    let audience = audience.map(str::to_owned).or_else(|| made.as_ref().map(|made| made.audience.clone()));
    let opened = open(study, audience.as_deref().unwrap_or("public"), progress)?;
    let (public, ground) = (&opened.public, &opened.ground);
    progress.step("step-register");
    let register = Register::read(&opened.study)?;
    let rebuilt = match made.filter(|made| made.audience == public.agreement.audience) {
        Some(made) => Some(rebuild(&register, &opened, &made, progress)?),
        None => None,
    };
    progress.step("step-audit-looking");
    let eyes = Eyes {
        frames: Frames::of(public, ground)?,
        agreed: Agreed::of(public, ground),
        hunt: register.hunt(public, &known_words(public, ground))?,
        rebuilt: rebuilt.as_ref(),
    };
    let list: Vec<(&String, &Vec<u8>)> = files.iter().collect();
    let seen: Vec<Seen> =
        list.par_iter().map(|(name, bytes)| eyes.look_or_say(name, bytes)).collect::<Result<_>>()?;
    let mut audited = Audited {
        audience: public.agreement.audience.clone(),
        files: files.len(),
        rebuilt: None,
        finer: Vec::new(),
        exact: Vec::new(),
        not_looked_into: shut,
        language: public.language,
    };
    let mut telling = BTreeSet::new();
    for ((name, _), seen) in list.iter().zip(seen) {
        if seen.name_tells {
            telling.insert((*name).clone());
        }
        audited.finer.extend(seen.finer);
        audited.exact.extend(seen.exact);
        audited.not_looked_into.extend(seen.shut);
    }
    audited.rebuilt = rebuilt.map(|(from, pack)| {
        let shown = |name: &String| if telling.contains(name) { masked(name) } else { name.clone() };
        let both =
            |name: &&String| pack.files().get(*name).is_some_and(|bytes| files.get(*name) != Some(bytes));
        Rebuilt {
            from,
            differs: files.keys().filter(both).map(shown).collect(),
            missing: pack.files().keys().filter(|name| !files.contains_key(*name)).map(shown).collect(),
            extra: files.keys().filter(|name| !pack.files().contains_key(*name)).map(shown).collect(),
        }
    });
    Ok(audited)
}

/// The pack made anew, and from which release: the last that the ledger keeps for its audience, under the study as
/// it was then; or, where nothing was written down, the register as it stands today.
fn rebuild(
    register: &Register,
    opened: &Opened,
    made: &Made,
    progress: &dyn Progress,
) -> Result<(&'static str, Pack)> {
    let again = |public: &PublicStudy, ground: &Ground, release: &Release| {
        if made.submission {
            super::submission(public, ground, release, progress)
        } else {
            super::pack(public, ground, release, progress)
        }
    };
    let ledger = Ledger::look(&opened.study.private)?;
    let kept = ledger.as_ref().and_then(|ledger| {
        let of_it = |one: &&Publication| one.audience == made.audience && !one.never_given;
        ledger.publications().iter().rev().find(of_it).map(|publication| ledger.release(publication))
    });
    match kept {
        Some(kept) => {
            let (public, release) = kept?;
            let ground = Ground::read(&public, &opened.study.private.root)?;
            Ok(("ledger", again(&public, &ground, &release)?))
        }
        None => {
            let (public, ground) = (&opened.public, &opened.ground);
            let partition = Partition::fix(public, ground)?;
            let release = register.release(public, &partition)?;
            Ok(("register", again(public, ground, &release)?))
        }
    }
}

/// Every file under a path, by its path inside it. Links are told, never followed.
fn files(path: &Path, shut: &mut Vec<Shut>) -> Result<BTreeMap<String, Vec<u8>>> {
    let unread = |path: &Path, why: &std::io::Error| {
        Fault::new("audit-unreadable").with("path", path.display()).because(why)
    };
    let mut found = BTreeMap::new();
    let kind = fs::metadata(path).map_err(|why| unread(path, &why))?;
    if kind.is_file() {
        let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        found.insert(name, fs::read(path).map_err(|why| unread(path, &why))?);
        return Ok(found);
    }
    let mut waiting = vec![(String::new(), path.to_path_buf())];
    while let Some((front, folder)) = waiting.pop() {
        for entry in fs::read_dir(&folder).map_err(|why| unread(&folder, &why))? {
            let entry = entry.map_err(|why| unread(&folder, &why))?;
            let name = format!("{front}{}", entry.file_name().to_string_lossy());
            let kind = entry.file_type().map_err(|why| unread(&entry.path(), &why))?;
            if kind.is_dir() {
                // A folder's name is looked at as an empty file's.
                found.insert(format!("{name}/"), Vec::new());
                waiting.push((format!("{name}/"), entry.path()));
            } else if kind.is_symlink() {
                shut.push(Shut { file: name, why: "link".to_owned() });
            } else {
                match fs::read(entry.path()) {
                    Ok(bytes) => {
                        found.insert(name, bytes);
                    }
                    Err(_) => shut.push(Shut { file: name, why: "unreadable".to_owned() }),
                }
            }
        }
    }
    // Folders that hold something are told by what they hold.
    let folders: Vec<String> = found.keys().filter(|name| name.ends_with('/')).cloned().collect();
    for folder in folders {
        if found.keys().any(|name| name.starts_with(&folder) && *name != folder) {
            found.remove(&folder);
        }
    }
    Ok(found)
}

/// Words that this audience may know, and that are therefore no find of the audit.
fn known_words(study: &PublicStudy, ground: &Ground) -> Vec<String> {
    let agreement = &study.agreement;
    let stated = [&study.compiler, &study.edition, &study.collected, &agreement.recipient, &agreement.reason];
    let mut known: Vec<String> = stated.into_iter().flatten().cloned().collect();
    known.push(study.title.clone());
    known.extend(agreement.landowner.iter().cloned());
    known.extend(ground.places.iter().map(|place| place.name.clone()));
    known.extend(ground.parishes.iter().map(|parish| parish.name.clone()));
    known.extend(ground.credits.iter().map(|credit| credit.whom.clone()));
    for field in &study.fieldwork {
        known.push(format!("{field:?}"));
    }
    known
}

/// Everything that looks.
struct Eyes<'a> {
    frames: Frames,
    agreed: Agreed,
    hunt: Hunt,
    rebuilt: Option<&'a (&'static str, Pack)>,
}

/// What was seen in one file.
#[derive(Default)]
struct Seen {
    finer: Vec<Found>,
    exact: Vec<Found>,
    shut: Vec<Shut>,
    name_tells: bool,
}

type Key = (Vec<String>, &'static str, Vec<&'static str>);

impl Eyes<'_> {
    /// Looks at a file. What makes a library stumble was not looked into; the other files are.
    fn look_or_say(&self, name: &str, bytes: &[u8]) -> Result<Seen> {
        let look = std::panic::AssertUnwindSafe(|| self.look(name, bytes));
        std::panic::catch_unwind(look).unwrap_or_else(|_| {
            Ok(Seen {
                shut: vec![Shut { file: name.to_owned(), why: "damaged".to_owned() }],
                ..Seen::default()
            })
        })
    }

    fn look(&self, name: &str, bytes: &[u8]) -> Result<Seen> {
        let opened = audit::open(name, bytes);
        let sights = audit::read(&opened, &self.frames)?;
        // Bytes that the release alone gives hold numbers and marks that are near a find by chance at most.
        let as_made =
            self.rebuilt.is_some_and(|(_, pack)| pack.files().get(name).is_some_and(|made| made == bytes));
        let mut finer: BTreeMap<Key, u64> = BTreeMap::new();
        let mut exact: BTreeMap<Key, u64> = BTreeMap::new();
        let mut telling: BTreeSet<Vec<String>> = BTreeSet::new();
        let mut count = |into: &mut BTreeMap<Key, u64>, sight: &Sight| {
            *into.entry((sight.within.clone(), sight.kind, sight.through.clone())).or_default() += 1;
            if sight.in_name {
                telling.insert(sight.within.clone());
            }
        };
        for sight in sights.iter().filter(|sight| self.agreed.is_finer(sight)) {
            count(&mut finer, sight);
        }
        let chance = |sight: &&Sight| {
            as_made && (!sight.plain || matches!(sight.part, Part::Edge { .. } | Part::Mark { .. }))
        };
        // Of one kind, read in one way, out of one thing.
        let mut alike: BTreeMap<(bool, Key), Vec<&Sight>> = BTreeMap::new();
        for sight in sights.iter().filter(|sight| self.agreed.is_worth_matching(sight) && !chance(sight)) {
            let by_chance = !sight.plain || matches!(sight.part, Part::Edge { .. });
            let key = (sight.within.clone(), sight.kind, sight.through.clone());
            alike.entry((by_chance, key)).or_default().push(sight);
        }
        for ((by_chance, _), group) in &alike {
            let boxes: Vec<[f64; 4]> = group.iter().map(|sight| sight.bounds()).collect();
            for index in self.hunt.places_in(&boxes, *by_chance).show_owner() {
                if let Some(sight) = group.get(*index) {
                    count(&mut exact, sight);
                }
            }
        }
        for layer in opened.layers.iter().filter(|layer| !matches!(layer.form, Form::Bytes | Form::Drawing)) {
            for (word, times) in self.hunt.words_in(&String::from_utf8_lossy(&layer.bytes)).show_owner() {
                let kind = match word {
                    OwnWord::Number => "audit-kind-number",
                    OwnWord::Finder => "audit-kind-finder",
                    OwnWord::Landowner => "audit-kind-landowner",
                    OwnWord::Note => "audit-kind-note",
                };
                let key = (layer.within.clone(), kind, layer.through.clone());
                let before = exact.entry(key).or_default();
                *before = (*before).max(*times);
                if layer.form == Form::Name {
                    telling.insert(layer.within.clone());
                }
            }
        }
        let shown = |within: &[String]| {
            let mut path = if telling.contains(&Vec::new()) { masked(name) } else { name.to_owned() };
            for depth in 1..=within.len() {
                let (Some(inner), Some(so_far)) = (within.get(depth - 1), within.get(..depth)) else {
                    continue;
                };
                path.push_str(" > ");
                path.push_str(&if telling.contains(so_far) { masked(inner) } else { inner.clone() });
            }
            path
        };
        let list = |found: BTreeMap<Key, u64>| -> Vec<Found> {
            let short = |id: &str| id.replace("audit-kind-", "").replace("audit-through-", "");
            found
                .into_iter()
                .map(|((within, kind, through), times)| Found {
                    file: shown(&within),
                    kind: short(kind),
                    through: through.into_iter().map(short).collect(),
                    times,
                })
                .collect()
        };
        let shut = opened
            .shut
            .iter()
            .map(|(within, why)| Shut { file: shown(within), why: why.replace("audit-not-", "") });
        Ok(Seen {
            shut: shut.collect(),
            name_tells: telling.contains(&Vec::new()),
            finer: list(finer),
            exact: list(exact),
        })
    }
}

/// A name that tells something itself: its letters and figures masked, its ending kept.
fn masked(name: &str) -> String {
    let (front, ending) = match name.rsplit_once('.') {
        Some((front, ending)) if ending.len() <= 4 && !ending.contains(|c: char| c.is_ascii_digit()) => {
            (front, format!(".{ending}"))
        }
        _ => (name, String::new()),
    };
    let hidden: String = front.chars().map(|c| if c.is_alphanumeric() { '•' } else { c }).collect();
    hidden + &ending
}
