//! From a release to everything an audience observes: a pure function of the public study, public ground
//! and the release. The register is out of scope here, so nothing of it can be told.

use crate::analyse::{
    self, Concentrations, Dimension, ShoreProfile, Surface, Table, concentration_table, finds_by_parish,
    shore_by,
};
use crate::exact::{Published, Release, ReleasedFind, ReleasedPlace};
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::pack::{self, Contents, Pack, Plate};
use crate::sheet::{self, Each, Ladder, MapKind, Scene, Sheet};
use crate::study::{Attribute, Giving, LayerKind, PublicStudy};

use super::Progress;

/// What analysis makes of a release.
pub struct Worked {
    /// The published finds.
    pub published: Published,
    /// Pieces by parish; empty where parish is not shown or no layer is given.
    pub parishes: Vec<(String, u64)>,
    /// The density surface.
    pub surface: Option<Surface>,
    /// Concentrations.
    pub concentrations: Concentrations,
    /// Along the shore.
    pub shore: Option<ShoreProfile>,
    /// The ladder of disclosed ground.
    pub ladder: Option<Ladder>,
}

/// Publishes a release and analyses what is published.
pub fn work(
    study: &PublicStudy,
    ground: &Ground,
    partition: &Partition<'_>,
    release: &Release,
    progress: &dyn Progress,
) -> Result<Worked> {
    let shows = |attribute| study.agreement.show.contains(&attribute);
    let gives = |giving| study.agreement.give.contains(&giving);
    let published = release.publish(&study.agreement);
    progress.step("step-analysis");
    let parishes = if shows(Attribute::Parish) || study.agreement.precision.side_m().is_none() {
        finds_by_parish(&published, partition)
    } else {
        Vec::new()
    };
    // Outlines and surfaces are worked out only for an audience that is given them.
    let surface = if gives(Giving::Density) || gives(Giving::Concentrations) {
        analyse::density(&published, study, ground)?
    } else {
        None
    };
    let concentrations = match &surface {
        Some(surface) if gives(Giving::Concentrations) => {
            analyse::concentrations(&published, study, ground, surface)?
        }
        _ => Concentrations::default(),
    };
    let shore =
        if study.layers.iter().any(|layer| layer.kind == LayerKind::Shore) && !published.cells().is_empty() {
            Some(analyse::shore(&published, study, ground)?)
        } else {
            None
        };
    Ok(Worked { published, parishes, surface, concentrations, shore, ladder: Ladder::of(partition, study) })
}

/// The whole pack.
pub fn pack(
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    progress: &dyn Progress,
) -> Result<Pack> {
    let partition = Partition::fix(study, ground)?;
    let worked = work(study, ground, &partition, release, progress)?;
    progress.step("step-sheets");
    let spoken = spoken(study);
    let editions = spoken.iter().map(|study| edition(study, ground, &partition, &worked));
    let editions: Vec<Edition> = editions.collect::<Result<_>>()?;
    progress.step("step-pack");
    let contents_of = |(study, edition)| contents_in(study, ground, &partition, &worked, edition);
    let mut each = spoken.iter().zip(&editions).map(contents_of);
    let Some(first) = each.next() else { return Ok(Pack::default()) };
    let others: Vec<Contents<'_>> = each.collect();
    pack::compose(&Contents { others: &others, ..first })
}

/// What is written in one language.
struct Edition {
    tables: Vec<Table>,
    sheets: Vec<Sheet>,
    plates: Vec<Plate>,
}

/// The study in each language of the pack: at least one.
fn spoken(study: &PublicStudy) -> Vec<PublicStudy> {
    let others = study.agreement.languages.iter().filter(|language| **language != study.language);
    std::iter::once(study.language)
        .chain(others.copied())
        .map(|language| PublicStudy { language, ..study.clone() })
        .collect()
}

fn edition(
    study: &PublicStudy,
    ground: &Ground,
    partition: &Partition<'_>,
    worked: &Worked,
) -> Result<Edition> {
    let sheets = sheets(study, ground, partition, worked, None)?;
    let mut plates = Vec::new();
    if study.agreement.give.contains(&Giving::Report) {
        let sizes = pack::plate_sizes(study.agreement.languages.len());
        let pages = self::sheets(study, ground, partition, worked, Some(sizes))?;
        let phones = self::sheets(study, ground, partition, worked, Some(pack::PHONE_SIZES))?;
        // Maps side by side may need more sheets on smaller paper: then they are shown as they are.
        let like = |drawn: &[Sheet], one: &[Sheet]| drawn.len() == one.len();
        for ((one, page), phone) in
            sheets.iter().zip(pages).zip(phones).filter(|((one, page), _)| like(page, one))
        {
            let phone = if like(&phone, one) { phone } else { Vec::new() };
            plates.extend(page.into_iter().enumerate().map(|(index, page)| {
                let phone = phone.get(index).filter(|phone| phone.width_mm < page.width_mm).cloned();
                Plate { page, phone }
            }));
        }
    }
    let tables = tables(study, partition, worked);
    Ok(Edition { tables, sheets: sheets.into_iter().flatten().collect(), plates })
}

fn contents_in<'a>(
    study: &'a PublicStudy,
    ground: &'a Ground,
    partition: &'a Partition<'a>,
    worked: &'a Worked,
    edition: &'a Edition,
) -> Contents<'a> {
    let contents = contents(study, ground, partition, worked, &edition.tables, &edition.sheets);
    Contents { plates: &edition.plates, ..contents }
}

/// The submission for a record office.
pub fn submission(
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    progress: &dyn Progress,
) -> Result<Pack> {
    let partition = Partition::fix(study, ground)?;
    // Finds one by one and where they are: densities and tables are the report's.
    let worked = Worked {
        published: release.publish(&study.agreement),
        parishes: Vec::new(),
        surface: None,
        concentrations: Concentrations::default(),
        shore: None,
        ladder: None,
    };
    progress.step("step-sheets");
    let spoken = spoken(study);
    let mut sheets = Vec::new();
    for study in &spoken {
        sheets.push(match worked.published.cells() {
            [] => Vec::new(),
            _ => vec![sheet::map(MapKind::Cells, &scene(study, ground, &worked), None, None)?],
        });
    }
    progress.step("step-pack");
    let mut each = spoken
        .iter()
        .zip(&sheets)
        .map(|(study, sheets)| contents(study, ground, &partition, &worked, &[], sheets));
    let Some(first) = each.next() else { return Ok(Pack::default()) };
    let others: Vec<Contents<'_>> = each.collect();
    pack::submission(&Contents { others: &others, ..first })
}

pub(super) fn contents<'a>(
    study: &'a PublicStudy,
    ground: &'a Ground,
    partition: &'a Partition<'a>,
    worked: &'a Worked,
    tables: &'a [Table],
    sheets: &'a [Sheet],
) -> Contents<'a> {
    let gives = |giving| study.agreement.give.contains(&giving);
    Contents {
        study,
        ground,
        partition,
        published: &worked.published,
        surface: worked.surface.as_ref().filter(|_| gives(Giving::Density)),
        concentrations: &worked.concentrations.list,
        even: worked.concentrations.test,
        shore: worked.shore.as_ref(),
        tables,
        sheets,
        plates: &[],
        others: &[],
    }
}

/// The tables of a pack, in the order of the report.
fn tables(study: &PublicStudy, partition: &Partition<'_>, worked: &Worked) -> Vec<Table> {
    let shows = |attribute| study.agreement.show.contains(&attribute);
    let (class, period) = (shows(Attribute::Class), shows(Attribute::Period));
    let cross = |rows, columns| {
        analyse::cross(&worked.published, study, partition, &worked.concentrations.list, rows, columns)
    };
    let mut tables = Vec::new();
    if class && period {
        tables.push(cross(Dimension::Class, Dimension::Period));
    }
    if !worked.parishes.is_empty() {
        if period {
            tables.push(cross(Dimension::Parish, Dimension::Period));
        }
        if class {
            tables.push(cross(Dimension::Parish, Dimension::Class));
        }
    }
    if class && shows(Attribute::Strength) {
        tables.push(cross(Dimension::Class, Dimension::Strength));
    }
    if class && shows(Attribute::Setting) {
        tables.push(cross(Dimension::Class, Dimension::Setting));
    }
    if !worked.concentrations.list.is_empty() {
        tables.push(concentration_table(&worked.concentrations, &worked.published, study));
        if class {
            tables.push(cross(Dimension::Concentration, Dimension::Class));
        }
        if period {
            tables.push(cross(Dimension::Concentration, Dimension::Period));
        }
    }
    if let Some(shore) = &worked.shore {
        tables.extend(shore_tables(study, shore));
    }
    tables.extend(analyse::ladder_table(partition, study));
    tables
}

/// Finds along the shore by what is shown of them.
pub(super) fn shore_tables(study: &PublicStudy, shore: &ShoreProfile) -> Vec<Table> {
    [(Attribute::Period, Dimension::Period), (Attribute::Class, Dimension::Class)]
        .into_iter()
        .filter(|(attribute, _)| study.agreement.show.contains(attribute))
        .map(|(_, dimension)| shore_by(shore, study, dimension))
        .collect()
}

pub(super) fn scene<'a>(study: &'a PublicStudy, ground: &'a Ground, worked: &'a Worked) -> Scene<'a> {
    let gives = |giving| study.agreement.give.contains(&giving);
    Scene {
        study,
        ground,
        published: &worked.published,
        parishes: &worked.parishes,
        // A sheet of concentrations names the bandwidth of the surface that they come from.
        surface: worked.surface.as_ref().filter(|_| gives(Giving::Density) || gives(Giving::Concentrations)),
        concentrations: &worked.concentrations.list,
        even: worked.concentrations.test,
        ladder: worked.ladder.as_ref(),
        class: None,
        period: None,
    }
}

/// The sheets of a pack, in the order of the report: for each map the sheets that it takes, on the study's paper;
/// or as plates of the first size that has room, width and height in millimetres, and none where none has.
fn sheets(
    study: &PublicStudy,
    ground: &Ground,
    partition: &Partition<'_>,
    worked: &Worked,
    sizes: Option<&[(f64, f64)]>,
) -> Result<Vec<Vec<Sheet>>> {
    if !study.agreement.give.contains(&Giving::Maps) {
        return Ok(Vec::new());
    }
    let scene = scene(study, ground, worked);
    let in_squares = study.agreement.precision.side_m().is_some() || !worked.published.cells().is_empty();
    let mut kinds = Vec::new();
    if in_squares {
        kinds.push(MapKind::Cells);
        if study.agreement.show.contains(&Attribute::Class) {
            kinds.push(MapKind::Symbols);
        }
    }
    if !worked.parishes.is_empty() && !ground.parishes.is_empty() {
        kinds.push(MapKind::Parishes);
    }
    if scene.surface.is_some() && study.agreement.give.contains(&Giving::Density) {
        kinds.push(MapKind::Density);
    }
    if !scene.concentrations.is_empty() {
        kinds.push(MapKind::Concentrations);
    }
    let draw = |make: &dyn Fn(Option<&str>) -> Result<Vec<Sheet>>| match sizes {
        None => make(None),
        Some(sizes) => {
            // The first size that holds the map on one sheet, or else the first that holds it at all.
            let mut first = None;
            for drawn in sizes.iter().filter_map(|size| sheet::plates(study, *size, make).ok()) {
                if drawn.len() == 1 {
                    return Ok(drawn);
                }
                first.get_or_insert(drawn);
            }
            Ok(first.unwrap_or_default())
        }
    };
    let mut sheets = Vec::new();
    for kind in kinds.iter().copied() {
        sheets.push(draw(&|paper| Ok(vec![sheet::map(kind, &scene, None, paper)?]))?);
    }
    let each_kind = if in_squares { MapKind::Cells } else { MapKind::Parishes };
    if kinds.contains(&each_kind) {
        for each in small_maps(&scene) {
            let small =
                |paper: Option<&str>| sheet::small_maps(each_kind, each, &scene, partition, None, paper);
            sheets.push(match draw(&small) {
                // Paper too small for them does not stand in the way of the rest.
                Err(fault) if fault.id == "sheet-paper-too-small" => Vec::new(),
                drawn => drawn?,
            });
        }
    }
    if let Some(shore) = &worked.shore {
        sheets.push(match sizes.and_then(|sizes| sizes.first()) {
            Some((width_mm, _)) => sheet::shore_plate(*width_mm, shore, study).into_iter().collect(),
            None => vec![sheet::shore_figure(shore, study, None)?],
        });
    }
    if worked.ladder.is_some() {
        sheets.push(draw(&|paper| Ok(vec![sheet::map(MapKind::Ladder, &scene, None, paper)?]))?);
    }
    Ok(sheets)
}

/// What small maps are drawn of, one a period or a class: what the agreement shows, where there are two at least.
fn small_maps(scene: &Scene<'_>) -> Vec<Each> {
    [(Attribute::Period, Each::Period), (Attribute::Class, Each::Class)]
        .into_iter()
        .filter(|(attribute, each)| {
            scene.study.agreement.show.contains(attribute) && sheet::groups(*each, scene) >= 2
        })
        .map(|(_, each)| each)
        .collect()
}

/// One table as asked for.
pub fn one_table(
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    rows: Dimension,
    columns: Dimension,
    progress: &dyn Progress,
) -> Result<Table> {
    allow(study, Giving::Tables)?;
    for dimension in [rows, columns] {
        match dimension {
            Dimension::Class => allow_shown(study, Attribute::Class)?,
            Dimension::Period => allow_shown(study, Attribute::Period)?,
            Dimension::Parish => allow_shown(study, Attribute::Parish)?,
            Dimension::Strength => allow_shown(study, Attribute::Strength)?,
            Dimension::Setting => allow_shown(study, Attribute::Setting)?,
            Dimension::Concentration => allow(study, Giving::Concentrations)?,
        }
    }
    let partition = Partition::fix(study, ground)?;
    let worked = work(study, ground, &partition, release, progress)?;
    if rows == Dimension::Parish || columns == Dimension::Parish {
        know_parishes(ground, &worked.published)?;
    }
    let found = &worked.concentrations.list;
    Ok(analyse::cross(&worked.published, study, &partition, found, rows, columns))
}

/// Refuses a table by parish where no parish can be told: no layer gives them, and no find is told by its own.
fn know_parishes(ground: &Ground, published: &Published) -> Result<()> {
    let told =
        |find: &ReleasedFind| find.stated_parish.is_some() || matches!(find.place, ReleasedPlace::Parish(_));
    if ground.parishes.is_empty() && !published.finds().iter().any(told) {
        return Err(Fault::new("run-no-parishes"));
    }
    Ok(())
}

/// Refuses what the agreement does not give.
pub(super) fn allow(study: &PublicStudy, giving: Giving) -> Result<()> {
    if study.agreement.give.contains(&giving) {
        return Ok(());
    }
    Err(Fault::new("run-not-given").with("giving", giving.name()).with("audience", &study.agreement.audience))
}

/// Refuses what the agreement does not show.
pub(super) fn allow_shown(study: &PublicStudy, attribute: Attribute) -> Result<()> {
    if study.agreement.show.contains(&attribute) {
        return Ok(());
    }
    Err(Fault::new("run-not-shown")
        .with("attribute", attribute.name())
        .with("audience", &study.agreement.audience))
}
