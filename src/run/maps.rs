//! Maps as asked for on the command line: one, small ones side by side, or two registers beside each other.

use super::observe::{Worked, allow, allow_shown, scene};
use super::{Opened, Progress};
use crate::analyse::{self, Concentrations, finds_by_parish};
use crate::exact::Release;
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::sheet::{self, Each, Ladder, MapKind, Scene, Sheet};
use crate::study::vocabulary::{Class, Period};
use crate::study::{Attribute, Giving, PublicStudy};

/// Maps as asked for.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// What they show; cells unless said.
    pub kind: Option<MapKind>,
    /// These classes alone.
    pub class: Option<Class>,
    /// This period alone.
    pub period: Option<Period>,
    /// One small map for each of these.
    pub each: Option<Each>,
    /// Two maps: finds from before this year, and from it on.
    pub split_year: Option<i32>,
    /// The style's name.
    pub style: Option<String>,
    /// The paper's name.
    pub paper: Option<String>,
}

impl Wanted {
    fn kind(&self) -> MapKind {
        self.kind.unwrap_or(MapKind::Cells)
    }

    /// Refuses what the agreement does not give or show.
    fn allowed(&self, study: &PublicStudy, ground: &Ground) -> Result<()> {
        allow(study, Giving::Maps)?;
        match self.kind() {
            MapKind::Parishes if ground.parishes.is_empty() => return Err(Fault::new("run-no-parishes")),
            MapKind::Density => allow(study, Giving::Density)?,
            MapKind::Concentrations => allow(study, Giving::Concentrations)?,
            _ => (),
        }
        let each = |by: fn(Each) -> bool| self.each.is_some_and(by);
        if self.class.is_some() || self.kind() == MapKind::Symbols || each(Each::by_class) {
            allow_shown(study, Attribute::Class)?;
        }
        if self.period.is_some() || each(Each::by_period) {
            allow_shown(study, Attribute::Period)?;
        }
        if self.split_year.is_some() {
            allow_shown(study, Attribute::Date)?;
        }
        Ok(())
    }
}

/// What maps as asked for leave empty, to be said beside them: nothing of a class or period, or of a span of years.
pub fn empty_maps(study: &PublicStudy, ground: &Ground, release: &Release, wanted: &Wanted) -> Vec<Fault> {
    if wanted.class.is_none() && wanted.period.is_none() && wanted.split_year.is_none() {
        return Vec::new();
    }
    let published = release.publish(&study.agreement);
    let worked = Worked {
        published,
        parishes: Vec::new(),
        surface: None,
        concentrations: Concentrations::default(),
        shore: None,
        ladder: None,
    };
    let scene = Scene { class: wanted.class, period: wanted.period, ..scene(study, ground, &worked) };
    if scene.pieces().is_nothing() {
        return vec![Fault::new("run-map-nothing")];
    }
    let Some(year) = wanted.split_year else { return Vec::new() };
    let (before, from) = sheet::pieces_by_year(year, &scene);
    let spans = [("run-map-none-before", before), ("run-map-none-from", from)];
    let empty = spans.into_iter().filter(|(_, pieces)| pieces.is_nothing());
    empty.map(|(id, _)| Fault::new(id).with("year", year)).collect()
}

/// Sheets as asked for: one, or several where small maps need them. What the agreement does not give is refused,
/// with a hint.
pub fn maps(
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    wanted: &Wanted,
    progress: &dyn Progress,
) -> Result<Vec<Sheet>> {
    wanted.allowed(study, ground)?;
    let partition = Partition::fix(study, ground)?;
    progress.step("step-analysis");
    let worked = work(wanted.kind(), study, ground, &partition, release)?;
    progress.step("step-sheets");
    let scene = Scene { class: wanted.class, period: wanted.period, ..scene(study, ground, &worked) };
    let (kind, style, paper) = (wanted.kind(), wanted.style.as_deref(), wanted.paper.as_deref());
    match (wanted.each, wanted.split_year) {
        (Some(each), _) => sheet::small_maps(kind, each, &scene, &partition, style, paper),
        (None, Some(year)) => sheet::by_year(kind, year, &scene, &partition, style, paper),
        (None, None) => Ok(vec![sheet::map(kind, &scene, style, paper)?]),
    }
}

/// Two registers side by side: two releases, each made and published by itself under its own agreement, for like
/// audiences. Refused, with a hint, where the agreements are not alike.
pub fn pair_of_maps(
    opened: [&Opened; 2],
    releases: [&Release; 2],
    wanted: &Wanted,
    progress: &dyn Progress,
) -> Result<Vec<Sheet>> {
    let studies = opened.map(|one| &one.public);
    for one in opened {
        wanted.allowed(&one.public, &one.ground)?;
    }
    alike(studies[0], studies[1])?;
    let kind = wanted.kind();
    progress.step("step-analysis");
    let mut worked = Vec::new();
    for (one, release) in opened.into_iter().zip(releases) {
        let partition = Partition::fix(&one.public, &one.ground)?;
        worked.push(work(kind, &one.public, &one.ground, &partition, release)?);
    }
    progress.step("step-sheets");
    let scenes: Vec<Scene<'_>> = opened
        .into_iter()
        .zip(&worked)
        .map(|(one, worked)| Scene {
            class: wanted.class,
            period: wanted.period,
            ..scene(&one.public, &one.ground, worked)
        })
        .collect();
    sheet::pair(kind, [&scenes[0], &scenes[1]], wanted.style.as_deref(), wanted.paper.as_deref())
}

/// Publishes a release, and works out what one kind of map is drawn from and nothing else.
fn work(
    kind: MapKind,
    study: &PublicStudy,
    ground: &Ground,
    partition: &Partition<'_>,
    release: &Release,
) -> Result<Worked> {
    let published = release.publish(&study.agreement);
    let parishes = match kind {
        MapKind::Parishes
            if study.agreement.show.contains(&Attribute::Parish)
                || study.agreement.precision.side_m().is_none() =>
        {
            finds_by_parish(&published, partition)
        }
        _ => Vec::new(),
    };
    let surface = match kind {
        MapKind::Density | MapKind::Concentrations => analyse::density(&published, study, ground)?,
        _ => None,
    };
    let concentrations = match &surface {
        Some(surface) if kind == MapKind::Concentrations => {
            analyse::concentrations(&published, study, ground, surface)?
        }
        _ => Concentrations::default(),
    };
    let ladder = if kind == MapKind::Ladder { Ladder::of(partition, study) } else { None };
    Ok(Worked { published, parishes, surface, concentrations, shore: None, ladder })
}

/// Two releases may stand beside each other only where the same may be told of both, as finely.
fn alike(first: &PublicStudy, second: &PublicStudy) -> Result<()> {
    let (a, b) = (&first.agreement, &second.agreement);
    let differs = [
        ("grid", a.grid != b.grid),
        ("country", first.country != second.country),
        ("precision", a.precision != b.precision),
        ("stricter", a.stricter != b.stricter),
        ("smallest_area", a.smallest_area_m2 != b.smallest_area_m2),
        ("smallest_count", a.smallest_count != b.smallest_count),
        ("show", a.show != b.show),
        ("counts", a.exact_counts != b.exact_counts),
        ("publication", a.for_publication != b.for_publication),
        ("landowner", a.landowner != b.landowner),
    ];
    match differs.into_iter().find(|(_, differs)| *differs) {
        Some((key, _)) => Err(Fault::new("run-pair-unlike").with("key", key).with("audience", &a.audience)),
        None => Ok(()),
    }
}
