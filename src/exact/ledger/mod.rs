//! The private ledger: what each audience was told of each find, under ids that stay the same for ever. A pack
//! cannot be called back, so that what was told once is weighed with what is to be told next.
//!
//! ```text
//! lines     the file: appended, chained by checksums, its head count kept apart
//! known     which find of today's register is which find of the ledger
//! history   what may be told, after all that was told before
//! ```
//!
//! The ledger never holds a place as it was written or measured: released places, register numbers, and salted
//! digests of rows.

mod history;
mod known;
mod lines;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use self::history::Telling;
pub(super) use self::known::doubtful;
use self::known::{Known, Marks};
use self::lines::Lines;
use super::releasing::Placing;
use super::tied;
use super::{ExactFind, Release, ReleasedFind, ReleasedPlace, RowState};
use crate::coordinates::{Cell, System};
use crate::fault::{Fault, Result};
use crate::ground::Partition;
use crate::study::{KnownBy, Precision, PrivateStudy, PublicStudy};

/// A study's ledger, opened and locked.
pub struct Ledger {
    lines: Lines,
    folder: PathBuf,
    salt: String,
    known_by: Option<KnownBy>,
    known: BTreeMap<u64, Known>,
    publications: Vec<Publication>,
}

/// One time that something was told to an audience.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Publication {
    /// Its number: its line in the ledger.
    pub number: u64,
    /// The audience.
    pub audience: String,
    /// Which release: the file of that name in the ledger's folder of releases.
    pub release: String,
    /// Whether it was said that it never left the owner's hands.
    pub never_given: bool,
}

/// What a line says.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Body {
    /// The first line.
    Begun { salt: String },
    /// Something was told.
    Told(Box<Said>),
    /// A publication never left the owner's hands.
    NeverGiven { publication: u64 },
}

/// What one publication adds to what was told before.
#[derive(Debug, Serialize, Deserialize)]
struct Said {
    audience: String,
    release: String,
    /// The grid of the places; what was promised to be left, square metres and places. Nothing was promised to an
    /// audience without a smallest area.
    grid: System,
    area_m2: f64,
    places: u32,
    /// Finds met for the first time, or changed.
    met: Vec<(u64, Marks)>,
    /// Places told to this audience of finds of which they were not told to it before: the place, the finds, and
    /// whether what was told before is void, since they were moved far.
    told: Vec<(ReleasedPlace, Vec<u64>, bool)>,
    /// The slivers that parishes told besides themselves.
    slivers: Vec<(Cell, String)>,
    /// Rows told, new or changed: id and digest.
    rows: Vec<(u64, u64)>,
    /// Finds told before and no longer.
    gone: Vec<u64>,
}

/// A release with what is to be written in the ledger before it is given to anybody.
pub(super) struct Pending {
    said: Said,
}

impl Ledger {
    /// Opens the ledger of a study, which is begun where there is none. Faults: it cannot be read or written; it
    /// was cut, changed or put back to an earlier state.
    pub fn open(private: &PrivateStudy) -> Result<Self> {
        let folder = private.root.join(&private.ledger);
        let (lines, bodies) = Lines::open(&folder)?;
        let mut ledger = Self {
            lines,
            folder,
            salt: String::new(),
            known_by: private.known_by,
            known: BTreeMap::new(),
            publications: Vec::new(),
        };
        let never: Vec<u64> = bodies
            .iter()
            .filter_map(|(_, body)| match body {
                Body::NeverGiven { publication } => Some(*publication),
                _ => None,
            })
            .collect();
        for (number, body) in bodies {
            match body {
                Body::Begun { salt } => ledger.salt = salt,
                Body::Told(said) => {
                    let never_given = never.contains(&number);
                    ledger.publications.push(Publication {
                        number,
                        audience: said.audience.clone(),
                        release: said.release.clone(),
                        never_given,
                    });
                    ledger.learn(*said, never_given);
                }
                Body::NeverGiven { .. } => {}
            }
        }
        Ok(ledger)
    }

    /// The ledger where one was begun: nothing is written to look at it.
    pub fn look(private: &PrivateStudy) -> Result<Option<Self>> {
        let folder = private.root.join(&private.ledger);
        if lines::begun(&folder) { Self::open(private).map(Some) } else { Ok(None) }
    }

    /// Every publication, in order.
    pub fn publications(&self) -> &[Publication] {
        &self.publications
    }

    /// The release of a publication, and the public study it was made under.
    pub fn release(&self, publication: &Publication) -> Result<(PublicStudy, Release)> {
        let path = self.release_path(&publication.release);
        let unreadable = || Fault::new("ledger-no-release").in_file(path.display());
        let text = std::fs::read(&path).map_err(|_| unreadable())?;
        let kept: Kept = serde_json::from_slice(&text).map_err(|_| unreadable())?;
        if digest_of(&kept.release).map_err(|_| unreadable())? != publication.release {
            return Err(unreadable());
        }
        Ok((kept.study, kept.release))
    }

    /// Says that a publication never left the owner's hands: what it told is told no more.
    pub fn never_given(&mut self, publication: u64) -> Result<()> {
        if !self.publications.iter().any(|known| known.number == publication) {
            return Err(Fault::new("ledger-no-publication").with("number", publication));
        }
        self.lines.append(&Body::NeverGiven { publication })
    }

    fn learn(&mut self, said: Said, never_given: bool) {
        for (id, marks) in said.met {
            self.known.entry(id).or_default().marks = marks;
        }
        if never_given {
            return;
        }
        for (place, finds, moved) in &said.told {
            let slivers = match place {
                ReleasedPlace::Parish(name) => {
                    said.slivers.iter().filter(|(_, by)| by == name).map(|(cell, _)| *cell).collect()
                }
                ReleasedPlace::Cell(_) => Vec::new(),
            };
            let telling = Arc::new(Telling {
                audience: said.audience.clone(),
                grid: said.grid.clone(),
                area_m2: said.area_m2,
                places: said.places,
                place: place.clone(),
                slivers,
            });
            for id in finds {
                let known = self.known.entry(*id).or_default();
                if *moved {
                    known.tellings.clear();
                }
                known.tellings.push(Arc::clone(&telling));
            }
        }
        for (id, row) in &said.rows {
            self.known.entry(*id).or_default().rows.insert(said.audience.clone(), *row);
        }
        for id in &said.gone {
            self.known.entry(*id).or_default().rows.remove(&said.audience);
        }
    }

    /// Which find of the ledger each find is, with what it is known by; new ones get new ids. Faults where that is
    /// doubtful.
    pub(super) fn identify(&self, finds: &[&ExactFind], files: &[String]) -> Result<Vec<(u64, Marks)>> {
        known::identify(&self.known, finds, files, &self.salt, self.known_by)
    }

    /// Weighs places with what was told before, and says what to write down. `places` are changed where telling
    /// them would say more than was promised.
    pub(super) fn weigh(
        &self,
        finds: &[&ExactFind],
        ids: &[u64],
        places: &mut [Placing],
        study: &PublicStudy,
        partition: &Partition<'_>,
    ) -> Result<Vec<(u64, ReleasedPlace, bool)>> {
        let agreement = &study.agreement;
        if !agreement.protects_ground() {
            return Ok(Vec::new());
        }
        let mut weigher = history::Weigher::new(agreement, partition);
        let tellings = |id: &u64| self.known.get(id).map_or(&[][..], |known| known.tellings.as_slice());
        let before: Vec<&[Arc<Telling>]> = ids.par_iter().map(tellings).collect();
        let before = |index: usize| before.get(index).copied().unwrap_or(&[]);
        let mut moved = vec![false; finds.len()];
        for (index, find) in finds.iter().enumerate() {
            let Some(Ok(placed)) = places.get(index) else { continue };
            // What the finder could only tell by the parish tells nothing of a place.
            if !find.has_place() {
                continue;
            }
            let weighed = weigher.weigh(before(index), placed.place.clone())?;
            moved[index] = weighed.moved;
            match (weighed.place, places.get_mut(index)) {
                (Ok(place), Some(Ok(placed))) => placed.place = place,
                (Err(reason), Some(place)) => *place = Err(reason),
                _ => {}
            }
        }
        // New finds of a site go where its finds were told before.
        for site in tied::sites(finds) {
            let told = |index: &&usize| !before(**index).is_empty();
            let place = site
                .iter()
                .filter(told)
                .find_map(|index| Some(places.get(*index)?.as_ref().ok()?.place.clone()));
            let Some(place) = place else { continue };
            for index in site.iter().filter(|index| before(**index).is_empty() && finds[**index].has_place())
            {
                if let Some(Ok(placed)) = places.get_mut(*index) {
                    placed.place.clone_from(&place);
                }
            }
        }
        let mut told = Vec::new();
        for (index, id) in ids.iter().enumerate() {
            let Some(Ok(placed)) = places.get(index) else { continue };
            if !finds[index].has_place() {
                continue;
            }
            let place = &placed.place;
            let told_so = before(index).iter().any(|telling| {
                telling.audience == agreement.audience
                    && telling.grid == agreement.grid
                    && telling.place == *place
                    && telling.area_m2 >= agreement.smallest_area_m2
                    && telling.slivers == weigher.slivers(place)
            });
            if !told_so || moved[index] {
                told.push((*id, place.clone(), moved[index]));
            }
        }
        Ok(told)
    }

    /// The finest that an audience was told of a find, if it was told of.
    pub(super) fn finest_told(&self, id: u64, audience: &str) -> Option<Precision> {
        let own = self.known.get(&id)?.tellings.iter().filter(|telling| telling.audience == audience);
        let told = own.map(|telling| match &telling.place {
            ReleasedPlace::Cell(cell) => Precision::Square { side_m: cell.side_m },
            ReleasedPlace::Parish(_) => Precision::Parish,
        });
        told.reduce(|finest, other| if finest.coarser(other) == finest { other } else { finest })
    }

    /// A find that the ledger does not know, and that could be one which it knows and which is no longer there, moved
    /// over an edge: alike in all that an audience could know it again by, and told otherwise if it were that one.
    /// `all` are the finds of the register, `finds` with `ids` those that `places` are of. `None` where it was said how finds
    /// are known again.
    pub(super) fn entered_anew(
        &self,
        all: &[(u64, Marks)],
        finds: &[&ExactFind],
        ids: &[u64],
        places: &[Placing],
        study: &PublicStudy,
        partition: &Partition<'_>,
    ) -> Result<Option<usize>> {
        if self.known_by.is_some() || !study.agreement.protects_ground() {
            return Ok(None);
        }
        let here: std::collections::BTreeSet<u64> = all.iter().map(|(id, _)| *id).collect();
        let mut gone: BTreeMap<u64, Vec<&Known>> = BTreeMap::new();
        for (id, known) in &self.known {
            if !here.contains(id) && !known.tellings.is_empty() {
                gone.entry(known.marks.traits).or_default().push(known);
            }
        }
        if gone.is_empty() {
            return Ok(None);
        }
        let traits: BTreeMap<u64, u64> = all.iter().map(|(id, marks)| (*id, marks.traits)).collect();
        let mut weigher = history::Weigher::new(&study.agreement, partition);
        let mut weighed = std::collections::BTreeSet::new();
        let each =
            finds.iter().zip(ids).zip(places).enumerate().filter(|(_, ((find, _), _))| find.has_place());
        for (index, ((_, id), place)) in each {
            let (Some(traits), Ok(placed)) = (traits.get(id), place) else { continue };
            let Some(gone) = gone.get(traits).filter(|_| !self.known.contains_key(id)) else { continue };
            if !weighed.insert((*traits, &placed.place)) {
                continue;
            }
            for known in gone {
                let as_that = weigher.weigh(&known.tellings, placed.place.clone())?;
                if !as_that.place.is_ok_and(|place| place == placed.place) {
                    return Ok(Some(index));
                }
            }
        }
        Ok(None)
    }

    /// What is to be written before a release is given: `ids` are all finds, `told` what is told of places, `rows`
    /// digests of the rows told.
    pub(super) fn pending(
        &self,
        ids: Vec<(u64, Marks)>,
        told: Vec<(u64, ReleasedPlace, bool)>,
        rows: BTreeMap<u64, u64>,
        study: &PublicStudy,
        partition: &Partition<'_>,
    ) -> Pending {
        let agreement = &study.agreement;
        let changed =
            |(id, marks): &(u64, Marks)| self.known.get(id).is_none_or(|known| known.marks != *marks);
        let before = |id: &u64| self.known.get(id).and_then(|known| known.rows.get(&agreement.audience));
        let mut places: BTreeMap<(ReleasedPlace, bool), Vec<u64>> = BTreeMap::new();
        for (id, place, moved) in told {
            places.entry((place, moved)).or_default().push(id);
        }
        let gone = self
            .known
            .iter()
            .filter(|(id, known)| known.rows.contains_key(&agreement.audience) && !rows.contains_key(id));
        Pending {
            said: Said {
                audience: agreement.audience.clone(),
                release: String::new(),
                grid: agreement.grid.clone(),
                area_m2: agreement.smallest_area_m2,
                places: agreement.smallest_places,
                met: ids.into_iter().filter(changed).collect(),
                slivers: places
                    .keys()
                    .filter_map(|(place, _)| match place {
                        ReleasedPlace::Parish(name) => Some(name),
                        ReleasedPlace::Cell(_) => None,
                    })
                    .collect::<std::collections::BTreeSet<_>>()
                    .into_iter()
                    .flat_map(|name| partition.slivers_of(name).into_iter().map(|cell| (cell, name.clone())))
                    .collect(),
                told: places.into_iter().map(|((place, moved), finds)| (place, finds, moved)).collect(),
                gone: gone.map(|(id, _)| *id).collect(),
                rows: rows.into_iter().filter(|(id, row)| before(id) != Some(row)).collect(),
            },
        }
    }

    /// How a row stands to what the audience was given last.
    pub(super) fn state(&self, id: u64, row: u64, audience: &str) -> RowState {
        match self.known.get(&id).and_then(|known| known.rows.get(audience)) {
            None => RowState::New,
            Some(before) if *before == row => RowState::Unchanged,
            Some(_) => RowState::Amended,
        }
    }

    /// Register numbers of the rows that the audience was given and that are no longer there.
    pub(super) fn withdrawn(&self, present: &[(u64, Marks)], audience: &str) -> Vec<String> {
        let present: std::collections::BTreeSet<u64> = present.iter().map(|(id, _)| *id).collect();
        let gone = self
            .known
            .iter()
            .filter(|(id, known)| known.rows.contains_key(audience) && !present.contains(id));
        gone.filter_map(|(_, known)| known.marks.number_as_written().cloned()).collect()
    }

    /// Digests of rows as they are told, by the ids of their finds.
    pub(super) fn rows(&self, released: &[(u64, ReleasedFind)]) -> BTreeMap<u64, u64> {
        let digest = |find: &ReleasedFind| {
            let told = serde_json::to_string(find).unwrap_or_default();
            short(&format!("{}\n{told}", self.salt))
        };
        released.par_iter().map(|(id, find)| (*id, digest(find))).collect()
    }

    /// Writes down what is about to be given; nothing where it tells nothing new.
    pub(super) fn write(&mut self, pending: Pending, study: &PublicStudy, release: &Release) -> Result<()> {
        let unsaid = |why: serde_json::Error| Fault::new("ledger-not-written").with("why", why);
        let mut said = pending.said;
        said.release = digest_of(release).map_err(unsaid)?;
        let last = self.publications.iter().rev().find(|last| last.audience == said.audience);
        let nothing_new =
            said.met.is_empty() && said.told.is_empty() && said.rows.is_empty() && said.gone.is_empty();
        let path = self.release_path(&said.release);
        if nothing_new
            && path.exists()
            && last.is_some_and(|last| last.release == said.release && !last.never_given)
        {
            return Ok(());
        }
        let kept = Kept { study: study.clone(), release: release.clone() };
        lines::write_private(&path, &self.folder, &serde_json::to_vec(&kept).map_err(unsaid)?)?;
        self.lines.append(&Body::Told(Box::new(said)))
    }

    fn release_path(&self, name: &str) -> PathBuf {
        self.folder.join("releases").join(format!("{name}.json"))
    }
}

/// What is kept of a publication, to rebuild it from.
#[derive(Serialize, Deserialize)]
struct Kept {
    study: PublicStudy,
    release: Release,
}

/// The first 64 bits of a digest: enough to know a row again among the owner's own.
fn short(text: &str) -> u64 {
    let digest: [u8; 32] = Sha256::digest(text.as_bytes()).into();
    digest.iter().take(8).fold(0, |sum, byte| sum << 8 | u64::from(*byte))
}

fn digest(bytes: &[u8]) -> String {
    hex(Sha256::digest(bytes).into())
}

/// The digest of a release's text, which is long: its finds are written beside one another, and read in order.
fn digest_of(release: &Release) -> serde_json::Result<String> {
    const FINDS: &str = "\"finds\":[";
    let Release { audience, tally, finds, withdrawn } = release;
    let (audience, tally, withdrawn) = (audience.clone(), tally.clone(), withdrawn.clone());
    let around = serde_json::to_string(&Release { audience, tally, finds: Vec::new(), withdrawn })?;
    // A quotation mark inside a text has a stroke before it: this is the key.
    let (before, after) = around.split_once(FINDS).unwrap_or((&around, ""));
    let parts: Vec<serde_json::Result<Vec<u8>>> = finds.par_chunks(4_096).map(serde_json::to_vec).collect();
    let mut digest = Sha256::new().chain_update(before).chain_update(FINDS);
    for (number, part) in parts.into_iter().enumerate() {
        let part = part?;
        let inner = part.strip_prefix(b"[").and_then(|part| part.strip_suffix(b"]")).unwrap_or(&part);
        digest.update(if number > 0 { &b","[..] } else { &b""[..] });
        digest.update(inner);
    }
    Ok(hex(digest.chain_update(after).finalize().into()))
}

fn hex(digest: [u8; 32]) -> String {
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Where the head count of a ledger is kept: beside its folder, so that putting the folder back to an earlier
/// state is seen.
fn head_path(folder: &Path) -> PathBuf {
    let name =
        folder.file_name().map_or_else(|| "ledger".to_owned(), |name| name.to_string_lossy().into_owned());
    folder.with_file_name(format!("{name}-head.json"))
}
