//! Finds on the island of `island`, and all that sheets are drawn from. With `STREW_PICTURES` set to a folder, the
//! sheets are written there to be looked at.

use geo::{BooleanOps, MultiPolygon, Point};
use std::collections::BTreeMap;
use std::path::PathBuf;
use strew::analyse::{Concentration, ShoreProfile, Stretch, Surface};
use strew::coordinates::Cell;
use strew::exact::{Figure, Published, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, Step};
use strew::sheet::{Ladder, MapKind, Scene, Sheet, png};
use strew::study::PublicStudy;
use strew::study::vocabulary::{Class, Period};

use super::island::{Dice, SOUTH, WEST, coast, ground, study};

/// Patches and a thin scatter, on land, with squares of 100 m and, for rare classes, 1 km.
pub(super) fn finds(n: usize, side_m: u32, coarse_m: u32) -> Vec<ReleasedFind> {
    use geo::Contains;
    let land = coast();
    let mut dice = Dice(5);
    let patches = [(2.2, 3.4, 0.12), (6.9, 3.0, 0.35), (7.6, 5.2, 0.08), (4.2, 2.2, 0.2)];
    let mut out = Vec::new();
    while out.len() < n {
        let (u, v) = if dice.roll() < 0.6 {
            let (x, y, s) = patches[(dice.roll() * 4.0) as usize % 4];
            let g = |d: &mut Dice| (d.roll() + d.roll() + d.roll() - 1.5) * 2.0;
            (x + s * g(&mut dice), y + s * g(&mut dice))
        } else {
            (dice.roll() * 10.0, dice.roll() * 9.0)
        };
        let (x, y) = (WEST + u * 1000.0, SOUTH + v * 1000.0);
        if !land.contains(&Point::new(x, y)) {
            continue;
        }
        let class = match (dice.roll() * 100.0) as u32 {
            0..=54 => Class::Flake,
            55..=65 => Class::Blade,
            66..=73 => Class::IrregularWaste,
            74..=81 => Class::Scraper,
            82..=87 => Class::Core,
            88..=93 => Class::Retouched,
            94..=96 => Class::Microlith,
            97 => Class::LeafArrowhead,
            98 => Class::PolishedAxehead,
            _ => Class::Unclassified,
        };
        let period = match (dice.roll() * 100.0) as u32 {
            0..=55 => Period::Undated,
            56..=75 => Period::LateMesolithic,
            76..=84 => Period::EarlyNeolithic,
            85..=88 => Period::Neolithic,
            89..=97 => Period::LateNeolithicEarlyBronzeAge,
            _ => Period::MiddleBronzeAge,
        };
        let rare = matches!(class, Class::LeafArrowhead | Class::PolishedAxehead);
        let side = if rare { coarse_m } else { side_m };
        let place = if dice.roll() < 0.03 {
            ReleasedPlace::Parish("Oldwick".to_owned())
        } else {
            ReleasedPlace::Cell(Cell::holding(x, y, side).unwrap())
        };
        out.push(ReleasedFind {
            place,
            class: Some(class),
            period: Some(period),
            count: 1 + (dice.roll() * 2.2) as u32,
            strength: None,
            out_of_place: false,
            stated_parish: None,
            setting: None,
            details: None,
        });
    }
    out
}

pub(super) fn published(study: &PublicStudy, finds: Vec<ReleasedFind>) -> Published {
    let mut set_aside = BTreeMap::new();
    set_aside.insert(strew::exact::Reason::NoPlace, 14);
    let tally = Tally { read: finds.len() as u64 + 14, used: finds.len() as u64, set_aside };
    Release { audience: "public".to_owned(), tally, finds, withdrawn: Vec::new() }.publish(&study.agreement)
}

/// A smooth surface for drawing: a sum of bells over the cells, kept on land.
pub(super) fn surface(published: &Published) -> Surface {
    use geo::Contains;
    let land = coast();
    let (west_m, south_m, pixel_m, columns, rows) =
        (WEST - 1_500.0, SOUTH - 500.0, 100.0, 125usize, 105usize);
    let bandwidth_m: f64 = 250.0;
    let (mut per_hectare, mut inside) = (Vec::new(), Vec::new());
    for row in 0..rows {
        for column in 0..columns {
            let (x, y) = (west_m + (column as f64 + 0.5) * pixel_m, south_m + (row as f64 + 0.5) * pixel_m);
            let dry = land.contains(&Point::new(x, y));
            inside.push(f64::from(u8::from(dry)));
            let mut sum = 0.0;
            if dry {
                for one in published.cells() {
                    let centre = one.cell.rect().center();
                    let d2 = (centre.x - x).powi(2) + (centre.y - y).powi(2);
                    if d2 < (4.0 * bandwidth_m).powi(2) {
                        let s2 = bandwidth_m.powi(2);
                        sum +=
                            one.pieces as f64 * (-d2 / (2.0 * s2)).exp() / (std::f64::consts::TAU * s2) * 1e4;
                    }
                }
            }
            per_hectare.push(sum);
        }
    }
    Surface {
        west_m,
        south_m,
        pixel_m,
        columns,
        rows,
        per_hectare,
        inside,
        bandwidth_m,
        bandwidth_method: "bandwidth-fixed",
        pieces: published.cells().iter().map(|c| c.pieces as f64).sum(),
        held: published.pieces(),
        left_out_of_place: Figure::certain(12),
        left_out_by_parish: published.pieces_by_parish_only(),
        made: Default::default(),
    }
}

pub(super) fn concentrations() -> Vec<Concentration> {
    let patch = |letter: &str, u: f64, v: f64, cells: &[(i32, i32)], pieces: u64| {
        let origin = Cell::holding(WEST + u * 1000.0, SOUTH + v * 1000.0, 100).unwrap();
        let cells: Vec<Cell> = cells
            .iter()
            .map(|(c, r)| Cell { side_m: 100, column: origin.column + c, row: origin.row + r })
            .collect();
        let outline = cells
            .iter()
            .map(|c| MultiPolygon::new(vec![c.rect().to_polygon()]))
            .reduce(|a, b| a.union(&b))
            .unwrap();
        Concentration {
            letter: letter.to_owned(),
            hectares: cells.len() as f64,
            cells,
            outline,
            pieces,
            may_hold: 2,
            peak_per_hectare: 9.0,
            by_class: BTreeMap::new(),
            by_period: BTreeMap::new(),
            stays: Some((180, 200)),
            chance: None,
        }
    };
    vec![
        patch("A", 2.1, 3.3, &[(0, 0), (1, 0), (1, 1), (0, 1), (2, 1)], 142),
        patch("B", 6.7, 2.8, &[(0, 0), (1, 0), (2, 0), (3, 0), (1, 1), (2, 1), (2, 2), (3, 1)], 96),
        patch("C", 7.5, 5.1, &[(0, 0), (1, 0)], 61),
        patch("D", 4.1, 2.1, &[(0, 0), (0, 1), (1, 1)], 44),
    ]
}

pub(super) fn by_parish(ground: &Ground, published: &Published) -> Vec<(String, u64)> {
    let all = published.pieces().near as f64;
    let n = ground.parishes.len().max(1) as f64;
    ground
        .parishes
        .iter()
        .enumerate()
        .map(|(i, p)| {
            (p.name.clone(), if i == 2 { 0 } else { (all * (i as f64 + 0.3) / (n * n)).round() as u64 })
        })
        .collect()
}

pub(super) struct Case {
    pub study: PublicStudy,
    pub ground: Ground,
    pub published: Published,
    pub parishes: Vec<(String, u64)>,
    pub surface: Option<Surface>,
    pub concentrations: Vec<Concentration>,
    pub ladder: Ladder,
}

impl Case {
    pub fn new(study: PublicStudy, ground: Ground, finds: Vec<ReleasedFind>) -> Self {
        let published = published(&study, finds);
        let parishes = by_parish(&ground, &published);
        let surface = Some(surface(&published));
        let ladder = ladder(&ground);
        Self { study, ground, published, parishes, surface, concentrations: concentrations(), ladder }
    }

    pub fn usual() -> Self {
        Self::new(
            study("en", "100 m", true, "Worked flint from Hernsey"),
            ground(2, 2, false),
            finds(1_500, 100, 1_000),
        )
    }

    pub fn scene(&self) -> Scene<'_> {
        Scene {
            study: &self.study,
            ground: &self.ground,
            published: &self.published,
            parishes: &self.parishes,
            surface: self.surface.as_ref(),
            concentrations: &self.concentrations,
            even: None,
            ladder: Some(&self.ladder),
            class: None,
            period: None,
        }
    }
}

pub(super) const KINDS: [MapKind; 6] = [
    MapKind::Cells,
    MapKind::Parishes,
    MapKind::Symbols,
    MapKind::Density,
    MapKind::Concentrations,
    MapKind::Ladder,
];

/// A ladder with a piece of every kind, along a diagonal of the island's middle.
fn ladder(ground: &Ground) -> Ladder {
    let at = |east: i32, side_m: u32| {
        let middle = ground.frame().map_or((400_000.0, 100_000.0), |frame| frame.center().x_y());
        let reach = f64::from(east);
        strew::coordinates::Cell::holding(middle.0 + reach, middle.1 + reach / 2.0, side_m).unwrap()
    };
    Ladder {
        least_m: 100,
        steps: vec![
            (at(-1_500, 1_000), Step::Square(1_000)),
            (at(0, 200), Step::Square(200)),
            (at(700, 2_000), Step::Square(2_000)),
            (at(2_500, 1_000), Step::Parish),
            (at(-2_500, 200), Step::Nowhere),
        ],
    }
}

/// Writes a sheet to be looked at, where that was asked for.
pub(super) fn picture(sheet: &Sheet, name: &str) {
    if let Ok(folder) = std::env::var("STREW_PICTURES") {
        let folder = PathBuf::from(folder);
        std::fs::write(folder.join(format!("{name}.svg")), &sheet.svg).unwrap();
        std::fs::write(folder.join(format!("{name}.png")), png(sheet, 150).unwrap()).unwrap();
    }
}

pub(super) fn profile() -> ShoreProfile {
    let mut dice = Dice(3);
    let stretches = (0..31)
        .map(|i| {
            let near = (-((f64::from(i) - 8.0) / 2.5).powi(2)).exp() * 40.0
                + (-((f64::from(i) - 22.0) / 1.5).powi(2)).exp() * 65.0;
            let of = |share: f64, dice: &mut Dice| (near * share + 3.0 * share) * (0.4 + 1.2 * dice.roll());
            let by_period = BTreeMap::from([
                (Some(Period::LateMesolithic), of(0.3, &mut dice)),
                (Some(Period::EarlyNeolithic), of(0.12, &mut dice)),
                (Some(Period::LateNeolithicEarlyBronzeAge), of(0.15, &mut dice)),
                (Some(Period::Undated), of(0.5, &mut dice)),
            ]);
            Stretch {
                from_m: f64::from(i) * 1000.0,
                to_m: (f64::from(i) + 1.0).min(30.62) * 1000.0,
                pieces: by_period.values().sum(),
                by_class: BTreeMap::new(),
                by_period,
            }
        })
        .collect();
    ShoreProfile {
        length_m: 30_620.0,
        simplify_m: 50.0,
        closed: true,
        others: 3,
        stretches,
        cells: Vec::new(),
        within: Figure::certain(2_481),
        beyond: Figure::certain(311),
        by_parish_only: Figure::certain(98),
    }
}
