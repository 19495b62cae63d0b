//! Sheets: everything in its box, nothing outside the page, the scale bar right, the same bytes twice.
//!
//! The ground is an invented island made by formula. With `STREW_PICTURES` set to a folder, the sheets
//! are written there to be looked at.

use std::collections::BTreeMap;
use std::path::PathBuf;

use geo::{Area, BooleanOps, Coord, LineString, MultiLineString, MultiPolygon, Point, Polygon};
use resvg::usvg;
use strew::analyse::{Concentration, Surface};
use strew::coordinates::{Cell, System};
use strew::exact::{Published, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, NamedPlace, Parish, Relief};
use strew::sheet::{MapKind, Scene, Sheet, map, outlined, pdf, png};
use strew::study::vocabulary::{Class, Period};
use strew::study::{PublicStudy, Study};

const WEST: f64 = 552_300.0;
const SOUTH: f64 = 541_200.0;
const RADIUS: f64 = 4_300.0;

/// A small generator of its own (a linear congruence), so that the island never changes.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / (1u64 << 31) as f64
    }
}

fn coast() -> Polygon<f64> {
    let mut dice = Dice(11);
    let waves: Vec<(f64, f64, f64)> = (2..60)
        .map(|k| {
            let k = f64::from(k);
            (k, 0.42 / k.powf(1.25) * dice.roll(), dice.roll() * 6.3)
        })
        .collect();
    let ring: Vec<Coord<f64>> = (0..1440)
        .map(|i| {
            let a = f64::from(i) / 1440.0 * std::f64::consts::TAU;
            let r =
                RADIUS * (1.0 + waves.iter().map(|(k, size, turn)| size * (k * a + turn).cos()).sum::<f64>());
            Coord { x: WEST + 5_000.0 + 1.2 * r * a.cos(), y: SOUTH + 4_600.0 + 0.85 * r * a.sin() }
        })
        .collect();
    Polygon::new(LineString::new(ring), Vec::new())
}

fn slice(land: &MultiPolygon<f64>, x0: f64, x1: f64, y0: f64, y1: f64) -> MultiPolygon<f64> {
    let part = Polygon::new(
        LineString::from(vec![(x0, y0), (x1 + 300.0, y0 + 200.0), (x1, y1), (x0 - 200.0, y1 - 100.0)]),
        Vec::new(),
    );
    land.intersection(&MultiPolygon::new(vec![part]))
}

fn parishes(land: &MultiPolygon<f64>, across: usize, down: usize, long: bool) -> Vec<Parish> {
    let names = ["Hernsey St Mary", "Oldwick", "Scarhaven", "Northmere"];
    let (w, h) = (14_000.0 / across as f64, 12_000.0 / down as f64);
    let mut out = Vec::new();
    for i in 0..across {
        for j in 0..down {
            let (x0, y0) = (WEST - 2_000.0 + i as f64 * w, SOUTH - 1_500.0 + j as f64 * h);
            // Neighbours share their corners, so they are cut without the slant of `slice` when many.
            let shape = if across * down > 4 {
                let part = geo::Rect::new((x0, y0), (x0 + w, y0 + h)).to_polygon();
                land.intersection(&MultiPolygon::new(vec![part]))
            } else {
                slice(land, x0, x0 + w, y0, y0 + h)
            };
            if shape.unsigned_area() > 1.0 {
                let n = out.len();
                let name = if long {
                    format!("Saint Bartholomew-under-the-Long-Barrow with Easter and Wester Inchbrae {n}")
                } else if n < names.len() {
                    names[n].to_owned()
                } else {
                    format!("Parish {n}")
                };
                out.push(Parish { name, shape });
            }
        }
    }
    out.sort_by(|a, b| a.name.cmp(&b.name));
    out
}

fn hill(x: f64, y: f64) -> f64 {
    let (u, v) = ((x - WEST) / 1000.0, (y - SOUTH) / 1000.0);
    let bump =
        |cx: f64, cy: f64, s: f64, h: f64| h * (-((u - cx).powi(2) + (v - cy).powi(2)) / (2.0 * s * s)).exp();
    let folds = 9.0 * ((u * 1.9 + v * 0.8).sin() * (v * 2.3 - u * 0.6).cos());
    bump(4.0, 5.2, 1.1, 150.0) + bump(7.4, 3.6, 1.4, 95.0) + bump(2.0, 3.4, 0.8, 60.0) + 18.0 + folds
}

fn ground(across: usize, down: usize, long: bool) -> Ground {
    let land = MultiPolygon::new(vec![coast()]);
    let (columns, rows, pixel) = (260usize, 220usize, 50.0);
    let (west, north) = (WEST - 1_500.0, SOUTH + 10_000.0);
    let mut heights = Vec::new();
    use geo::Contains;
    for row in 0..rows {
        for column in 0..columns {
            let (x, y) = (west + (column as f64 + 0.5) * pixel, north - (row as f64 + 0.5) * pixel);
            let dry = land.contains(&Point::new(x, y));
            heights.push(if dry { hill(x, y) as f32 } else { f32::NAN });
        }
    }
    let wander = |x: f64, y: f64, turn: f64| -> LineString<f64> {
        let mut at = (x, y);
        let mut line = vec![at];
        for i in 0..60 {
            let a = turn + 0.5 * (f64::from(i) * 0.31).sin();
            at = (at.0 + 75.0 * a.cos(), at.1 + 75.0 * a.sin());
            line.push(at);
        }
        LineString::from(line)
    };
    let streams = MultiLineString::new(vec![
        wander(WEST + 4_000.0, SOUTH + 5_200.0, 3.9),
        wander(WEST + 7_300.0, SOUTH + 3_800.0, 0.6),
    ]);
    let roads = MultiLineString::new(vec![
        wander(WEST + 2_200.0, SOUTH + 3_200.0, 0.35),
        wander(WEST + 5_000.0, SOUTH + 4_300.0, 1.4),
    ]);
    let shared = MultiPolygon::new(vec![coast()]);
    let dry = |lines: &MultiLineString<f64>| shared.clip(lines, false);
    let places = [
        ("Skerry Point", 0.9, 3.6),
        ("Hern Haven", 8.9, 4.2),
        ("Great Howe", 4.0, 5.2),
        ("Mill Leat", 3.1, 2.7),
        ("Ottersgill", 6.6, 6.0),
        ("The Whins", 7.3, 3.5),
    ];
    Ground {
        system: System::BritishGrid,
        parishes: if across == 0 { Vec::new() } else { parishes(&land, across, down, long) },
        shore: MultiLineString::new(vec![coast().exterior().clone()]),
        walked: Vec::new(),
        relief: Relief::new(west, north, pixel, columns, heights),
        roads: dry(&roads),
        streams: dry(&streams),
        water: MultiPolygon::new(vec![]),
        places: places
            .iter()
            .map(|(name, u, v)| NamedPlace {
                name: if long { format!("{name} of the Seven Sleeping Kings") } else { (*name).to_owned() },
                at: Point::new(WEST + u * 1000.0, SOUTH + v * 1000.0),
            })
            .collect(),
        protected: MultiPolygon::new(vec![]),
        beach: MultiPolygon::new(vec![]),
        near: Vec::new(),
        credits: vec!["Hernsey Survey 2024, invented".to_owned()],
        land,
    }
}

fn study(language: &str, precision: &str, publication: bool, title: &str) -> PublicStudy {
    let text = format!(
        r#"
[study]
title = "{title}"
grid = "british-grid"
language = "{language}"
date = 2026-10-01
compiler = "Hernsey Field Society"
edition = "2"
[register]
files = ["finds.csv"]
[agreement.public]
precision = "{precision}"
publication = {publication}
recipient = "Hernsey Heritage Record"
give = ["maps", "density", "concentrations"]
"#
    );
    Study::parse(&text, PathBuf::from(".")).unwrap().audience("public").unwrap().clone()
}

/// Patches and a thin scatter, on land, with squares of 100 m and, for rare classes, 1 km.
fn finds(n: usize, side_m: u32, coarse_m: u32) -> Vec<ReleasedFind> {
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

fn published(study: &PublicStudy, finds: Vec<ReleasedFind>) -> Published {
    let mut set_aside = BTreeMap::new();
    set_aside.insert(strew::exact::Reason::NoPlace, 14);
    let tally = Tally { read: finds.len() as u64 + 14, used: finds.len() as u64, set_aside };
    Release { audience: "public".to_owned(), tally, finds }.publish(&study.agreement)
}

/// A smooth surface for drawing: a sum of bells over the cells, kept on land.
fn surface(published: &Published) -> Surface {
    use geo::Contains;
    let land = coast();
    let (west_m, south_m, pixel_m, columns, rows) = (WEST - 1_500.0, SOUTH - 500.0, 50.0, 250usize, 210usize);
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
        left_out_of_place: 12,
        left_out_by_parish: published.pieces_by_parish_only(),
    }
}

fn concentrations() -> Vec<Concentration> {
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
        }
    };
    vec![
        patch("A", 2.1, 3.3, &[(0, 0), (1, 0), (1, 1), (0, 1), (2, 1)], 142),
        patch("B", 6.7, 2.8, &[(0, 0), (1, 0), (2, 0), (3, 0), (1, 1), (2, 1), (2, 2), (3, 1)], 96),
        patch("C", 7.5, 5.1, &[(0, 0), (1, 0)], 61),
        patch("D", 4.1, 2.1, &[(0, 0), (0, 1), (1, 1)], 44),
    ]
}

fn by_parish(ground: &Ground, published: &Published) -> Vec<(String, f64)> {
    let all = published.pieces() as f64;
    let n = ground.parishes.len().max(1) as f64;
    ground
        .parishes
        .iter()
        .enumerate()
        .map(|(i, p)| (p.name.clone(), if i == 2 { 0.0 } else { (all * (i as f64 + 0.3) / (n * n)).round() }))
        .collect()
}

struct Case {
    study: PublicStudy,
    ground: Ground,
    published: Published,
    parishes: Vec<(String, f64)>,
    surface: Option<Surface>,
    concentrations: Vec<Concentration>,
}

impl Case {
    fn new(study: PublicStudy, ground: Ground, finds: Vec<ReleasedFind>) -> Self {
        let published = published(&study, finds);
        let parishes = by_parish(&ground, &published);
        let surface = Some(surface(&published));
        Self { study, ground, published, parishes, surface, concentrations: concentrations() }
    }

    fn usual() -> Self {
        Self::new(
            study("en", "100 m", true, "Worked flint from Hernsey"),
            ground(2, 2, false),
            finds(1_500, 100, 1_000),
        )
    }

    fn scene(&self) -> Scene<'_> {
        Scene {
            study: &self.study,
            ground: &self.ground,
            published: &self.published,
            parishes: &self.parishes,
            surface: self.surface.as_ref(),
            concentrations: &self.concentrations,
            class: None,
            period: None,
        }
    }
}

const KINDS: [MapKind; 5] =
    [MapKind::Cells, MapKind::Parishes, MapKind::Symbols, MapKind::Density, MapKind::Concentrations];

/// Writes a sheet to be looked at, where that was asked for.
fn picture(sheet: &Sheet, name: &str) {
    if let Ok(folder) = std::env::var("STREW_PICTURES") {
        let folder = PathBuf::from(folder);
        std::fs::write(folder.join(format!("{name}.svg")), &sheet.svg).unwrap();
        std::fs::write(folder.join(format!("{name}.png")), png(sheet, 150).unwrap()).unwrap();
    }
}

#[test]
fn look() {
    let case = Case::usual();
    for kind in KINDS {
        let sheet = map(kind, &case.scene(), None, None).unwrap();
        picture(&sheet, &sheet.name.clone());
        println!("{} {} KB {}x{}", sheet.name, sheet.svg.len() / 1000, sheet.width_mm, sheet.height_mm);
    }
    if let Ok(folder) = std::env::var("STREW_PICTURES") {
        let sheet = map(MapKind::Cells, &case.scene(), None, None).unwrap();
        std::fs::write(PathBuf::from(&folder).join("cells.pdf"), pdf(&sheet, &case.study).unwrap()).unwrap();
        std::fs::write(PathBuf::from(&folder).join("outlined.svg"), outlined(&sheet).unwrap()).unwrap();
    }
    let _ = usvg::Options::default();
}
