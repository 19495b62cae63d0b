//! Release: each find alone becomes a cell and the attributes that the agreement shows.
//!
//! The cell is the only released value worked out from an exact place. Its side comes from sizes alone
//! (what was agreed, what the find was given with, how sure it is) and from public ground by whole
//! squares; where in a cell a find lies changes nothing that follows.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::find::{ExactFind, ExactPlace, More};
use super::ledger::doubtful;
use super::tied;
use super::{Details, Ledger, Reason, Register, Release, ReleasedFind, ReleasedPlace, Tally, office};
use crate::coordinates::notation::cut_places;
use crate::coordinates::{Cell, Converter, Operation, System};
use crate::fault::{Fault, Result};
use crate::ground::{Partition, Told};
use crate::study::vocabulary::{Setting, Standing};
use crate::study::{Agreement, Attribute, Precision, PublicStudy, StricterRule, ladder};

impl Register {
    /// Releases the register to the audience of `study`, as if nothing had been told to anybody before.
    pub fn release(&self, study: &PublicStudy, partition: &Partition<'_>) -> Result<Release> {
        let finds: Vec<&ExactFind> =
            self.finds.iter().filter(|find| is_for(find, &study.agreement)).collect();
        let places = places(&finds, study, partition, &|_| None)?;
        let (tally, released) = told(&finds, places, self.tally_for(&study.agreement), study, partition);
        let finds = released.into_iter().map(|(_, find)| find).collect();
        Ok(Release { audience: study.agreement.audience.clone(), tally, finds, withdrawn: Vec::new() })
    }

    /// Releases the register to the audience of `study`, so that what is told now and what was told before say no
    /// more together than was promised. What is told is in the ledger, on the disk, when this returns: before it is
    /// given to anybody.
    pub fn release_remembering(
        &self,
        study: &PublicStudy,
        partition: &Partition<'_>,
        ledger: &mut Ledger,
    ) -> Result<Release> {
        self.remember(study, partition, ledger, true)
    }

    /// Writes down that another copy of the study told what `study`'s agreement tells of this register.
    pub fn take_in(
        &self,
        study: &PublicStudy,
        partition: &Partition<'_>,
        ledger: &mut Ledger,
    ) -> Result<Release> {
        self.remember(study, partition, ledger, false)
    }

    fn remember(
        &self,
        study: &PublicStudy,
        partition: &Partition<'_>,
        ledger: &mut Ledger,
        weigh: bool,
    ) -> Result<Release> {
        let agreement = &study.agreement;
        let all: Vec<&ExactFind> = self.finds.iter().collect();
        let ids = ledger.identify(&all, &self.files)?;
        let (finds, of_finds): (Vec<&ExactFind>, Vec<u64>) = all
            .iter()
            .zip(&ids)
            .filter(|(find, _)| is_for(find, agreement))
            .map(|(find, (id, _))| (*find, *id))
            .unzip();
        let before = |index: usize| {
            of_finds.get(index).filter(|_| weigh).and_then(|id| ledger.finest_told(*id, &agreement.audience))
        };
        let mut places = places(&finds, study, partition, &before)?;
        let mut weighed = places.clone();
        let told_now = ledger.weigh(&finds, &of_finds, &mut weighed, study, partition)?;
        if weigh
            && let Some(doubt) = ledger.entered_anew(&ids, &finds, &of_finds, &weighed, study, partition)?
        {
            return Err(doubtful(&self.files, finds[doubt], "ledger-entered-anew"));
        }
        let told_now = if weigh {
            places = weighed;
            told_now
        } else {
            let each = of_finds.iter().zip(&places).zip(&finds).filter(|(_, find)| find.has_place());
            let told = each.filter_map(|((id, place), _)| match place {
                Ok(placed) => Some((*id, placed.place.clone(), false)),
                Err(_) => None,
            });
            told.collect()
        };
        let (tally, released) = told(&finds, places, self.tally_for(agreement), study, partition);
        let released: Vec<(u64, ReleasedFind)> = released
            .into_iter()
            .filter_map(|(index, find)| of_finds.get(index).map(|id| (*id, find)))
            .collect();
        // Rows are known again by their numbers alone: who is not shown them is told nothing of rows.
        let numbered = agreement.show.contains(&Attribute::Number);
        let rows = if numbered { ledger.rows(&released) } else { BTreeMap::new() };
        let withdrawn = if numbered { ledger.withdrawn(&ids, &agreement.audience) } else { Vec::new() };
        let finds = released.into_iter().map(|(id, mut find)| {
            if let (Some(row), Some(details)) = (rows.get(&id), &mut find.details) {
                details.state = Some(ledger.state(id, *row, &agreement.audience));
            }
            find
        });
        let finds = finds.collect();
        let pending = ledger.pending(ids, told_now, rows, study, partition);
        let release = Release { audience: agreement.audience.clone(), tally, finds, withdrawn };
        if agreement.protect_scatters && weigh {
            let betrayed = release.betrayed(agreement);
            if let Some(first) = betrayed.first() {
                return Err(Fault::new("exact-scatters-betrayed")
                    .with("n", betrayed.len())
                    .with("hectares", format!("{:.0}", first.hectares.max(1.0))));
            }
        }
        ledger.write(pending, study, &release)?;
        Ok(release)
    }

    /// Rows read, used and set aside, as far as they are the audience's: of a landowner's own land alone.
    fn tally_for(&self, agreement: &Agreement) -> Tally {
        if agreement.landowner.is_empty() {
            return self.tally.clone();
        }
        let used = self.finds.iter().filter(|find| is_for(find, agreement)).count() as u64;
        let mut set_aside = BTreeMap::new();
        for ((land, reason), rows) in &self.aside_by_land {
            if agreement.is_of_land(Some(land)) {
                *set_aside.entry(*reason).or_default() += rows;
            }
        }
        Tally { read: used + set_aside.values().sum::<u64>(), used, set_aside }
    }
}

/// Whether a find is this audience's to see at all: a landowner sees what is stated as off that land. Keyed on
/// what the finder stated, never on where the find lies.
fn is_for(find: &ExactFind, agreement: &Agreement) -> bool {
    agreement.is_of_land(find.more.as_deref().and_then(|more| more.landowner.as_deref()))
}

/// Finds that one [`Placer`] places: it begins with an operation to look up, and knows no square yet.
const PLACED_TOGETHER: usize = 50_000;

/// Where each find may be said to lie, those that are tied together as coarsely as any of them.
fn places(
    finds: &[&ExactFind],
    study: &PublicStudy,
    partition: &Partition<'_>,
    told_before: &dyn Fn(usize) -> Option<Precision>,
) -> Result<Vec<Placing>> {
    let placed: Vec<Result<Vec<Placing>>> = finds
        .par_chunks(PLACED_TOGETHER)
        .map(|finds| {
            let mut placer = Placer::new(study, partition);
            finds.iter().map(|find| placer.place(find)).collect()
        })
        .collect();
    // The first fault in order, whichever was met first.
    let mut places = placed.into_iter().collect::<Result<Vec<_>>>()?.concat();
    let mut placer = Placer::new(study, partition);
    tied::take_the_strictest(finds, &mut places, &mut placer, told_before)?;
    Ok(places)
}

/// What is told of finds, each with its number among them, in order of what is told. `tally` is that of the rows
/// they were read from; what could be read but not placed is added to it.
fn told(
    finds: &[&ExactFind],
    places: Vec<Placing>,
    mut tally: Tally,
    study: &PublicStudy,
    partition: &Partition<'_>,
) -> (Tally, Vec<(usize, ReleasedFind)>) {
    for reason in places.iter().filter_map(|place| place.as_ref().err()) {
        tally.used -= 1;
        *tally.set_aside.entry(*reason).or_default() += 1;
    }
    let each = finds.par_iter().zip(places).enumerate();
    let mut released: Vec<(usize, ReleasedFind)> = each
        .filter_map(|(index, (find, place))| Some((index, tell(find, place.ok()?, study, partition))))
        .collect();
    released.par_sort_by(|a, b| a.1.by_what_is_told(&b.1));
    (tally, released)
}

/// A find's place as it may be told, and how it was carried there.
#[derive(Clone)]
pub(in crate::exact) struct Placed {
    pub(in crate::exact) place: ReleasedPlace,
    operation: Option<Operation>,
    /// Whether its date may be told, where dates are.
    pub(in crate::exact) dated: bool,
}

/// Turns exact places into released ones.
pub(in crate::exact) struct Placer<'a> {
    study: &'a PublicStudy,
    partition: &'a Partition<'a>,
    converters: BTreeMap<System, Converter>,
    /// What public ground makes of the cells met so far: many finds share one.
    told: BTreeMap<Cell, Told<'a>>,
}

/// A find's place as it may be told, or why it has none.
pub(in crate::exact) type Placing = std::result::Result<Placed, Reason>;

impl<'a> Placer<'a> {
    pub(in crate::exact) fn new(study: &'a PublicStudy, partition: &'a Partition<'a>) -> Self {
        Self { study, partition, converters: BTreeMap::new(), told: BTreeMap::new() }
    }

    /// The agreement that places are told under.
    pub(in crate::exact) fn study(&self) -> &'a PublicStudy {
        self.study
    }

    /// How finely the rules of the agreement let a find be told, the ground aside.
    pub(in crate::exact) fn asked(&self, find: &ExactFind) -> Precision {
        precision_asked(find, &self.study.agreement, self.study)
    }

    /// The place of a find, or why it has none.
    pub(in crate::exact) fn place(&mut self, find: &ExactFind) -> Result<Placing> {
        self.place_no_finer(find, self.study.agreement.precision)
    }

    /// The same, no finer than `least`, which others that the find is tied to ask for.
    pub(in crate::exact) fn place_no_finer(&mut self, find: &ExactFind, least: Precision) -> Result<Placing> {
        let (agreement, partition) = (&self.study.agreement, self.partition);
        let ExactPlace::Point { system, x, y, square_m, uncertainty_m, .. } = &find.place else {
            return Ok(stated_parish(find, partition).map(parish).ok_or(Reason::ParishUnknown));
        };
        if !self.converters.contains_key(system) {
            self.converters.insert(system.clone(), Converter::new(system, &agreement.grid)?);
        }
        let converter = &self.converters[system];
        let Ok((easting_m, northing_m)) = converter.convert_xy(*x, *y) else {
            return Ok(Err(Reason::PlaceOutside));
        };
        let operation = (*system != agreement.grid).then(|| converter.operation());
        let needed_m = square_m.max(2.0 * uncertainty_m.unwrap_or(0.0));
        let asked = self.asked(find).coarser(least);
        let in_parish = || -> Placing {
            // A reference to a large square does not say which parish; the finder may have.
            let stated_first =
                needed_m > LARGEST_SQUARE_FOR_A_PARISH_M || agreement.show.contains(&Attribute::StatedParish);
            if stated_first && let Some(name) = stated_parish(find, partition) {
                return Ok(parish(name));
            }
            let name = partition.parish_at(easting_m, northing_m).map(str::to_owned);
            name.or_else(|| stated_parish(find, partition)).map(parish).ok_or(Reason::FarAway)
        };
        let agreed_m = match asked {
            Precision::Parish => {
                if needed_m <= LARGEST_SQUARE_FOR_A_PARISH_M || stated_parish(find, partition).is_some() {
                    return Ok(in_parish());
                }
                1_000
            }
            Precision::Square { side_m } => side_m,
        };
        let Some(cell) =
            side_for(agreed_m, needed_m).and_then(|side| Cell::holding(easting_m, northing_m, side))
        else {
            return Ok(Err(Reason::PlaceOutside));
        };
        if !self.partition.in_reach(cell) {
            return Ok(Err(Reason::FarAway));
        }
        Ok(match *self.told.entry(cell).or_insert_with(|| partition.told(cell)) {
            Told::Square(cell) => Ok(Placed { place: ReleasedPlace::Cell(cell), operation, dated: true }),
            Told::Parish(Some(name)) => Ok(parish(name.to_owned())),
            Told::Parish(None) => stated_parish(find, partition).map(parish).ok_or(Reason::FarAway),
            Told::TooSmall => Err(Reason::GroundTooSmall),
            Told::Far => Err(Reason::FarAway),
        })
    }
}

/// The parish as stated, as the layer spells it; as written where the study has no parish layer.
fn stated_parish(find: &ExactFind, partition: &Partition<'_>) -> Option<String> {
    let stated = find.parish.as_deref()?;
    match partition.parish_named(stated) {
        Some(name) => Some(name.to_owned()),
        None => partition.parish_names().is_empty().then(|| stated.to_owned()),
    }
}

/// A larger square than this does not place a find in one parish. Common practice: a parish is some
/// kilometres across.
const LARGEST_SQUARE_FOR_A_PARISH_M: f64 = 2_000.0;

fn parish(name: String) -> Placed {
    Placed { place: ReleasedPlace::Parish(name), operation: None, dated: true }
}

/// The first side of the ladder that is at least the agreed one and at least what the find was given
/// with. `None` when even 100 km is too small.
fn side_for(agreed_m: u32, needed_m: f64) -> Option<u32> {
    ladder(agreed_m).into_iter().find(|side| f64::from(*side) >= needed_m)
}

/// The precision that the agreement asks for a find, by attributes that are shown.
fn precision_asked(find: &ExactFind, agreement: &Agreement, study: &PublicStudy) -> Precision {
    agreement
        .stricter
        .iter()
        .filter(|stricter| match &stricter.rule {
            StricterRule::Class(classes) => classes.iter().any(|class| find.class.is(*class)),
            StricterRule::Period(periods) => {
                periods.iter().any(|period| find.period.is(*period, study.country))
            }
            StricterRule::Setting(settings) => settings.contains(&find.setting),
            // Public ground is the partition's work, by whole squares.
            StricterRule::Near { .. } => false,
        })
        .fold(agreement.precision, |precision, stricter| precision.coarser(stricter.precision))
}

/// What the agreement lets be said of a find, besides its place: as much as leaves enough ground there.
fn tell(find: &ExactFind, placed: Placed, study: &PublicStudy, partition: &Partition<'_>) -> ReleasedFind {
    let show = &study.agreement.show;
    let shown = |attribute: Attribute| show.contains(&attribute);
    let sayable = match &placed.place {
        ReleasedPlace::Cell(cell) => partition.sayable_in(*cell),
        ReleasedPlace::Parish(_) => partition.sayable_in_parish(),
    };
    let stated = || {
        let stated = find.parish.as_deref()?;
        Some(partition.parish_named(stated).unwrap_or(stated).to_owned())
    };
    let setting = match find.setting {
        // Not on the beach and not recorded are told alike where the beach alone can be told.
        other if sayable.setting => other,
        Setting::Beach if sayable.beach => Setting::Beach,
        _ => Setting::Unknown,
    };
    ReleasedFind {
        class: shown(Attribute::Class).then_some(find.class),
        period: shown(Attribute::Period).then_some(find.period),
        count: find.count,
        strength: shown(Attribute::Strength).then(|| find.marks.strength()),
        out_of_place: find.standing.out_of_place() || find.setting == Setting::BroughtIn,
        stated_parish: if shown(Attribute::StatedParish) && sayable.stated_parish { stated() } else { None },
        setting: shown(Attribute::Setting).then_some(setting),
        details: details(find, &placed, show, by_name(find, &placed, study)).map(Box::new),
        place: placed.place,
    }
}

/// The fields that a record office sees besides; `None` when the agreement shows none of them.
fn details(
    find: &ExactFind,
    placed: &Placed,
    show: &std::collections::BTreeSet<Attribute>,
    by_name: bool,
) -> Option<Details> {
    let nothing = More::default();
    let more = find.more.as_deref().unwrap_or(&nothing);
    let mut details = Details::default();
    let mut any = false;
    for attribute in show {
        any |= match attribute {
            Attribute::Number => {
                details.number.clone_from(&find.number);
                true
            }
            Attribute::Standing => {
                details.standing = Some(find.standing).filter(|s| *s != Standing::Unknown);
                true
            }
            Attribute::Marks => {
                details.marks = Some(find.marks);
                true
            }
            Attribute::Material => {
                details.material.clone_from(&more.material);
                true
            }
            Attribute::Measurements => {
                details.length_mm = more.length_mm;
                details.breadth_mm = more.breadth_mm;
                details.thickness_mm = more.thickness_mm;
                details.weight_g = more.weight_g;
                true
            }
            Attribute::Date => {
                details.date = more.date.clone().filter(|_| placed.dated);
                true
            }
            Attribute::Finder => {
                details.finder.clone_from(&more.finder);
                true
            }
            Attribute::LookedAtBy => {
                details.looked_at_by.clone_from(&more.looked_at_by);
                details.examined = more.examined.as_deref().map(cut_places);
                true
            }
            Attribute::KeptAt => {
                details.kept_at.clone_from(&more.kept_at);
                true
            }
            Attribute::Landowner => {
                details.landowner.clone_from(&more.landowner);
                true
            }
            Attribute::Permission => {
                details.permission.clone_from(&more.permission);
                true
            }
            Attribute::Note => {
                details.note = more.note.as_deref().map(cut_places);
                true
            }
            Attribute::Written => {
                how_placed(find, placed, more, &mut details);
                true
            }
            other => office::tell(*other, more, by_name, &mut details),
        };
    }
    if !any {
        return None;
    }
    office::withhold_names(more, &mut details);
    Some(details)
}

/// Whether the agreement places this find so finely that the name of a field or a parcel tells no more. Where
/// public ground may have asked for a larger square, only the square itself can tell.
fn by_name(find: &ExactFind, placed: &Placed, study: &PublicStudy) -> bool {
    let agreement = &study.agreement;
    let near = agreement.stricter.iter().any(|rule| matches!(rule.rule, StricterRule::Near { .. }));
    let by_ground = near || agreement.smallest_area_m2 > 0.0;
    let small = matches!(placed.place, ReleasedPlace::Cell(cell) if cell.side_m <= office::NAMED_M);
    let asked = precision_asked(find, agreement, study).side_m();
    asked.is_some_and(|side_m| side_m <= office::NAMED_M) && (small || !by_ground)
}

/// Whether a period as written holds years and words of dating alone: "4000-3500 cal BC" reads as a pair of
/// figures and is no place.
fn years_alone(written: &str) -> bool {
    const DATING: [&str; 17] = [
        "bc", "bce", "bp", "cal", "av", "avant", "j", "c", "ca", "circa", "to", "à", "au", "or", "ou", "and",
        "et",
    ];
    let longest = written.split(|c: char| !c.is_ascii_digit()).map(str::len).max().unwrap_or(0);
    let mut words = written.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty());
    longest <= 5 && !written.contains('°') && words.all(|word| DATING.contains(&word.to_lowercase().as_str()))
}

/// How the place was given, carried over and cut: sizes and methods, never the place as written.
fn how_placed(find: &ExactFind, placed: &Placed, more: &More, details: &mut Details) {
    details.class_as_written = more.class_as_written.as_deref().map(cut_places);
    details.period_as_written = more.period_as_written.as_deref().map(|written| match years_alone(written) {
        true => written.to_owned(),
        false => cut_places(written),
    });
    details.how_placed = more.how_placed.as_deref().map(cut_places);
    details.count_is_rough = find.count_is_rough;
    let ExactPlace::Point { system, square_m, uncertainty_m, .. } = &find.place else { return };
    details.written_system = Some(system.to_string());
    details.held_m = Some(*square_m);
    details.operation = placed.operation.as_ref().map(|operation| operation.description.clone());
    if let ReleasedPlace::Cell(cell) = placed.place {
        // Chapman and Wieczorek 2020: the half diagonal of the square about its centre, and what the
        // source and the operation add to it.
        let half_diagonal = f64::from(cell.side_m) * std::f64::consts::FRAC_1_SQRT_2;
        let operation = placed.operation.as_ref().and_then(|operation| operation.accuracy_m).unwrap_or(0.0);
        let uncertainty = half_diagonal + uncertainty_m.unwrap_or(0.0) + operation;
        details.uncertainty_m = Some((uncertainty * 10.0).ceil() / 10.0);
    }
}
