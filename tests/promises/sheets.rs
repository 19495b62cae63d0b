//! Sheets: everything in its box, nothing outside the page, the scale bar right, the same bytes twice.
//!
//! The ground is an invented island made by formula. With `STREW_PICTURES` set to a folder, the sheets
//! are written there to be looked at.

use std::collections::BTreeMap;
use std::path::PathBuf;

use geo::{Area, BooleanOps, Coord, LineString, MultiLineString, MultiPolygon, Point, Polygon};
use resvg::usvg;
use strew::analyse::{Concentration, ShoreProfile, Stretch, Surface};
use strew::coordinates::{Cell, System};
use strew::exact::{Published, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, NamedPlace, Parish, Relief, Walked};
use strew::sheet::{MapKind, Scene, Sheet, map, outlined, pdf, png, shore_figure};
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

pub(super) fn coast() -> Polygon<f64> {
    let mut dice = Dice(11);
    let waves: Vec<(f64, f64, f64)> = (2..110)
        .map(|k| {
            let k = f64::from(k);
            (k, 0.40 / k.powf(1.05) * dice.roll(), dice.roll() * 6.3)
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

/// A corner of the net that parishes are cut by: a little off true, the same for all that share it.
fn corner(i: usize, j: usize, w: f64, h: f64) -> (f64, f64) {
    let (a, b) = ((i * 7 + j * 3) as f64, (i * 5 + j * 11) as f64);
    (WEST - 2_000.0 + i as f64 * w + w * 0.12 * a.sin(), SOUTH - 1_500.0 + j as f64 * h + h * 0.12 * b.cos())
}

fn parishes(land: &MultiPolygon<f64>, across: usize, down: usize, long: bool) -> Vec<Parish> {
    let names = ["Hernsey St Mary", "Oldwick", "Scarhaven", "Northmere"];
    let (w, h) = (14_000.0 / across as f64, 12_000.0 / down as f64);
    let mut out = Vec::new();
    for i in 0..across {
        for j in 0..down {
            let ring: Vec<(f64, f64)> = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
                .into_iter()
                .map(|(i, j)| {
                    // The net reaches well past the land.
                    let (x, y) = corner(i, j, w, h);
                    let out = |n: usize, all: usize| {
                        if n == 0 {
                            -4_000.0
                        } else if n == all {
                            4_000.0
                        } else {
                            0.0
                        }
                    };
                    (x + out(i, across), y + out(j, down))
                })
                .collect();
            let shape =
                land.intersection(&MultiPolygon::new(vec![Polygon::new(LineString::from(ring), vec![])]));
            if shape.unsigned_area() > 1.0 {
                let n = out.len();
                let name = if long {
                    format!("Saint Bartholomew-under-the-Long-Barrow with Easter and Wester Inchbrae {n}")
                } else if n < names.len() {
                    names[n].to_owned()
                } else {
                    format!("Parish {n}")
                };
                out.push(Parish { name, also: Vec::new(), shape });
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

pub(super) fn ground(across: usize, down: usize, long: bool) -> Ground {
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
        beach_strip: None,
        parcels: Vec::new(),
        near: Vec::new(),
        around: MultiPolygon::new(vec![]),
        credits: vec!["Hernsey Survey 2024, invented".into()],
        land,
    }
}

pub(super) fn study(language: &str, precision: &str, publication: bool, title: &str) -> PublicStudy {
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

fn published(study: &PublicStudy, finds: Vec<ReleasedFind>) -> Published {
    let mut set_aside = BTreeMap::new();
    set_aside.insert(strew::exact::Reason::NoPlace, 14);
    let tally = Tally { read: finds.len() as u64 + 14, used: finds.len() as u64, set_aside };
    Release { audience: "public".to_owned(), tally, finds, withdrawn: Vec::new() }.publish(&study.agreement)
}

/// A smooth surface for drawing: a sum of bells over the cells, kept on land.
fn surface(published: &Published) -> Surface {
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
        left_out_of_place: 12,
        left_out_by_parish: published.pieces_by_parish_only(),
        made: Default::default(),
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

pub(super) struct Case {
    pub study: PublicStudy,
    pub ground: Ground,
    pub published: Published,
    parishes: Vec<(String, f64)>,
    surface: Option<Surface>,
    concentrations: Vec<Concentration>,
}

impl Case {
    pub fn new(study: PublicStudy, ground: Ground, finds: Vec<ReleasedFind>) -> Self {
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

    pub fn scene(&self) -> Scene<'_> {
        Scene {
            study: &self.study,
            ground: &self.ground,
            published: &self.published,
            parishes: &self.parishes,
            surface: self.surface.as_ref(),
            concentrations: &self.concentrations,
            even: None,
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

fn profile() -> ShoreProfile {
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
        beyond: 311,
        by_parish_only: 98,
    }
}

fn tree(sheet: &Sheet) -> usvg::Tree {
    let mut fonts = usvg::fontdb::Database::new();
    for face in
        [dejavu::sans_condensed::regular(), dejavu::sans_condensed::bold(), dejavu::sans_condensed::oblique()]
    {
        fonts.load_font_data(face.to_vec());
    }
    let options =
        usvg::Options { fontdb: fonts.into(), font_family: "DejaVu Sans".into(), ..Default::default() };
    usvg::Tree::from_str(&sheet.svg, &options).unwrap()
}

type Box4 = (f64, f64, f64, f64);

/// Millimetres, as the renderer sees them (not as the layout counted them).
fn millimetres(rect: usvg::Rect) -> Box4 {
    let mm = |px: f32| f64::from(px) / 96.0 * 25.4;
    (mm(rect.left()), mm(rect.top()), mm(rect.right()), mm(rect.bottom()))
}

/// Every text of the page, with its box.
fn texts(group: &usvg::Group, out: &mut Vec<(String, Box4)>) {
    for node in group.children() {
        match node {
            usvg::Node::Group(group) => texts(group, out),
            usvg::Node::Text(text) => {
                let words: String = text.chunks().iter().map(|chunk| chunk.text()).collect();
                // The box of the glyphs' ink, which is what a reader sees collide.
                let ink = text.flattened().bounding_box();
                if let Some(rect) = ink.transform(text.abs_transform()) {
                    out.push((words, millimetres(rect)));
                }
            }
            _ => {}
        }
    }
}

fn group<'t>(group: &'t usvg::Group, id: &str) -> Option<&'t usvg::Group> {
    group.children().iter().find_map(|node| match node {
        usvg::Node::Group(inner) if inner.id() == id => Some(&**inner),
        usvg::Node::Group(inner) => self::group(inner, id),
        _ => None,
    })
}

/// Shapes that are not text, with their boxes.
fn shapes(group: &usvg::Group, out: &mut Vec<Box4>) {
    for node in group.children() {
        match node {
            usvg::Node::Group(inner) => shapes(inner, out),
            usvg::Node::Text(_) => {}
            other => out.push(millimetres(other.abs_bounding_box())),
        }
    }
}

/// Checks what must hold on every sheet: words inside the page, no two over each other, the map inside
/// its frame. The map's own names keep off each other too.
fn check(sheet: &Sheet, what: &str) {
    let tree = tree(sheet);
    let mut words = Vec::new();
    texts(tree.root(), &mut words);
    assert!(words.len() > 8, "{what}: too few words");
    for (text, (x0, y0, x1, y1)) in &words {
        let inside = *x0 >= 1.0 && *y0 >= 1.0 && *x1 <= sheet.width_mm - 1.0 && *y1 <= sheet.height_mm - 1.0;
        assert!(inside, "{what}: \"{text}\" leaves the page: {x0:.1} {y0:.1} {x1:.1} {y1:.1}");
    }
    for (i, (a_text, a)) in words.iter().enumerate() {
        for (b_text, b) in &words[i + 1..] {
            let meet = a.0 < b.2 && b.0 < a.2 && a.1 < b.3 && b.1 < a.3;
            assert!(!meet, "{what}: \"{a_text}\" meets \"{b_text}\"\n{a:.1?}\n{b:.1?}");
        }
    }
    let (Some(map), Some(frame)) = (group(tree.root(), "map"), group(tree.root(), "frame")) else { return };
    let mut edge = Vec::new();
    shapes(frame, &mut edge);
    let f = edge[0];
    let mut inside = Vec::new();
    shapes(map, &mut inside);
    for s in inside {
        let held = s.0 >= f.0 - 0.02 && s.1 >= f.1 - 0.02 && s.2 <= f.2 + 0.02 && s.3 <= f.3 + 0.02;
        assert!(held, "{what}: {s:.2?} leaves the frame {f:.2?}");
    }
    for (text, b) in &words {
        let apart = b.2 < f.0 || b.0 > f.2 || b.3 < f.1 || b.1 > f.3;
        let held = b.0 >= f.0 && b.1 >= f.1 && b.2 <= f.2 && b.3 <= f.3;
        assert!(apart || held, "{what}: \"{text}\" lies across the frame");
    }
}

#[test]
fn nothing_overlaps_or_leaves_the_page() {
    let case = Case::usual();
    for kind in KINDS {
        for (style, paper) in [
            ("colour", "a4"),
            ("ink", "a3"),
            ("contrast", "a4"),
            ("colour", "a2"),
            ("ink", "170x105"),
            ("ink", "110x162"),
            ("colour", "a5"),
            ("ink", "80x150"),
        ] {
            let what = format!("{kind:?} {style} {paper}");
            let sheet = map(kind, &case.scene(), Some(style), Some(paper)).unwrap();
            picture(&sheet, &format!("{}-{style}-{paper}", sheet.name));
            check(&sheet, &what);
            assert!(sheet.svg.len() < 300_000, "{what}: {} bytes", sheet.svg.len());
        }
    }
}

#[test]
fn a_sheet_can_be_made_of_anything() {
    let cases = [
        ("none", Case::new(study("en", "100 m", true, "Nothing yet"), ground(2, 2, false), Vec::new())),
        (
            "one",
            Case::new(study("en", "1 km", true, "One find"), ground(2, 2, false), finds(1, 1_000, 1_000)),
        ),
        (
            "one-parish",
            Case::new(
                study("fr", "1 km", false, "Une commune"),
                ground(1, 1, false),
                finds(400, 1_000, 2_000),
            ),
        ),
        (
            "forty",
            Case::new(
                study("en", "parish", true, "Forty parishes"),
                ground(7, 6, false),
                finds(900, 1_000, 2_000),
            ),
        ),
        (
            "long",
            Case::new(
                study(
                    "fr",
                    "100 m",
                    false,
                    "Silex taillés ramassés de longue date sur les grèves, dans les jardins et sur les labours de Hernsey et des îlots voisins",
                ),
                ground(2, 2, true),
                finds(1_500, 100, 1_000),
            ),
        ),
        ("bare", {
            let mut ground = ground(0, 0, false);
            ground.land = MultiPolygon::new(vec![]);
            ground.shore = MultiLineString::new(vec![]);
            ground.relief = None;
            ground.places.clear();
            Case::new(study("en", "1 km", true, "No ground at all"), ground, finds(60, 1_000, 1_000))
        }),
    ];
    for (name, case) in &cases {
        for kind in KINDS {
            let sheet = map(kind, &case.scene(), None, None).unwrap();
            picture(&sheet, &format!("case-{name}-{}", sheet.name));
            check(&sheet, &format!("{name} {kind:?}"));
        }
    }
    let (_, long) = &cases[4];
    let sheet = map(MapKind::Cells, &long.scene(), None, None).unwrap();
    assert!(sheet.svg.contains("Ne pas publier"));
    assert!(sheet.svg.contains("Hernsey Heritage Record"));
}

#[test]
fn ground_that_was_not_walked_is_hatched_and_said() {
    let mut case = Case::usual();
    let field = |u: f64, v: f64, w: f64, h: f64| Walked {
        name: None,
        shape: MultiPolygon::new(vec![
            geo::Rect::new(
                (WEST + u * 1000.0, SOUTH + v * 1000.0),
                (WEST + (u + w) * 1000.0, SOUTH + (v + h) * 1000.0),
            )
            .to_polygon(),
        ]),
        cover: Some(0.2),
    };
    case.ground.walked = vec![
        field(1.8, 2.8, 1.4, 1.3),
        field(6.2, 2.2, 2.0, 1.8),
        field(3.6, 1.4, 1.3, 1.5),
        field(7.0, 4.7, 1.2, 1.1),
    ];
    let sheet = map(MapKind::Cells, &case.scene(), None, None).unwrap();
    picture(&sheet, "unwalked");
    check(&sheet, "unwalked");
    assert!(sheet.svg.contains("<g id=\"unwalked\"") && sheet.svg.contains("Not walked"));
    let plain = map(MapKind::Cells, &Case::usual().scene(), None, None).unwrap();
    assert!(!plain.svg.contains("Not walked"));
}

#[test]
fn many_small_squares_stay_a_small_file() {
    let one = finds(1, 100, 100).remove(0);
    let many = (0..200i32).flat_map(|column| (0..200i32).map(move |row| (column, row)));
    let finds = many
        .map(|(column, row)| ReleasedFind {
            place: ReleasedPlace::Cell(Cell { side_m: 100, column: 5_400 + column, row: 5_320 + row }),
            count: 1 + u32::from((column * row) % 7 == 0) * 9,
            ..one.clone()
        })
        .collect();
    let mut case = Case::usual();
    case.published = published(&case.study, finds);
    let sheet = map(MapKind::Cells, &case.scene(), None, None).unwrap();
    picture(&sheet, "many");
    check(&sheet, "many");
    assert!(sheet.svg.len() < 700_000, "{}", sheet.svg.len());
}

#[test]
fn paper_too_small_is_a_fault_and_unknown_names_are_told() {
    let case = Case::usual();
    let fault = |style: &str, paper: &str| {
        map(MapKind::Symbols, &case.scene(), Some(style), Some(paper)).unwrap_err().id
    };
    assert_eq!(fault("colour", "60x60"), "sheet-paper-too-small");
    assert_eq!(fault("colour", "postcard"), "sheet-paper-unknown");
    assert_eq!(fault("sepia", "a4"), "sheet-style-unknown");
    let mut one = case.scene();
    one.class = Some(Class::Core);
    assert_eq!(map(MapKind::Density, &one, None, None).unwrap_err().id, "sheet-all-together");
    let mut without = case.scene();
    without.surface = None;
    assert_eq!(map(MapKind::Density, &without, None, None).unwrap_err().id, "sheet-no-density");
    let sheet = map(MapKind::Cells, &case.scene(), None, None).unwrap();
    assert_eq!(png(&sheet, 10).unwrap_err().id, "sheet-dpi");
}

fn number(text: &str, name: &str) -> f64 {
    let at = text.find(&format!("{name}=\"")).unwrap() + name.len() + 2;
    text[at..].split('"').next().unwrap().parse().unwrap()
}

#[test]
fn the_scale_bar_is_right() {
    // One square of 1 km, as drawn, is the measure.
    let one = ReleasedFind {
        place: ReleasedPlace::Cell(Cell::holding(WEST + 5_000.0, SOUTH + 4_500.0, 1_000).unwrap()),
        ..finds(1, 1_000, 1_000).remove(0)
    };
    let case = Case::new(study("en", "1 km", true, "One"), ground(2, 2, false), vec![one]);
    for paper in ["a4", "a3", "a2", "120x160"] {
        let svg = map(MapKind::Cells, &case.scene(), None, Some(paper)).unwrap().svg;
        let squares = &svg[svg.find("<g id=\"squares\"").unwrap()..];
        let square_mm = number(&squares[squares.find("<rect").unwrap()..], " width") / 100.0;
        let bar = &svg[svg.find("<g id=\"scale-bar\"").unwrap()..];
        let metres = number(bar, "data-metres");
        let bar_mm = number(&bar[bar.find("<rect").unwrap()..], " width") / 100.0;
        // Two lengths, each rounded to 0.01 mm.
        let wrong = (bar_mm / metres * 1_000.0 - square_mm).abs();
        assert!(wrong <= 0.011 * (1.0 + 1_000.0 / metres), "{paper}: {square_mm} {bar_mm} {metres}");
        let lead = metres / 10f64.powf(metres.log10().floor());
        assert!([1.0, 2.0, 5.0].iter().any(|l| (l - lead).abs() < 1e-9), "{metres} is not round");
        if let Some(at) = svg.find("Scale 1:") {
            let scale: f64 = svg[at + 8..].split('<').next().unwrap().replace(',', "").parse().unwrap();
            assert!((square_mm * scale / 1_000.0 - 1_000.0).abs() < 0.011 * scale / 1_000.0);
        }
    }
}

#[test]
fn the_same_bytes_each_time() {
    let case = Case::usual();
    for kind in KINDS {
        let (a, b) =
            (map(kind, &case.scene(), None, None).unwrap(), map(kind, &case.scene(), None, None).unwrap());
        assert_eq!(a, b);
        assert_eq!(png(&a, 100).unwrap(), png(&b, 100).unwrap());
        assert_eq!(pdf(&a, &case.study).unwrap(), pdf(&b, &case.study).unwrap());
        assert_eq!(outlined(&a).unwrap(), outlined(&b).unwrap());
    }
}

#[test]
fn pictures_carry_what_they_should() {
    let case = Case::usual();
    let sheet = map(MapKind::Cells, &case.scene(), None, None).unwrap();
    let bytes = png(&sheet, 300).unwrap();
    let reader = ::png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
    let info = reader.info();
    let sides = (info.width.min(info.height), info.width.max(info.height));
    assert_eq!(sides, (2480, 3508));
    assert_eq!(info.pixel_dims.unwrap().xppu, 11_811);
    let outlines = outlined(&sheet).unwrap();
    let as_drawn = usvg::Tree::from_str(&outlines, &usvg::Options::default()).unwrap();
    assert!((f64::from(as_drawn.size().width()) / 96.0 * 25.4 - sheet.width_mm).abs() < 0.1);
    if let Ok(folder) = std::env::var("STREW_PICTURES") {
        let alike = Sheet { svg: outlines.clone(), ..sheet.clone() };
        picture(&alike, "outlined");
        std::fs::write(PathBuf::from(folder).join("cells.pdf"), pdf(&sheet, &case.study).unwrap()).unwrap();
    }
    assert!(outlines.len() < 2 * sheet.svg.len().max(100_000), "{}", outlines.len());
    assert!(!outlines.contains("<text") && outlines.contains("<title>") && outlines.contains("<desc>"));
    let pdf = pdf(&sheet, &case.study).unwrap();
    let text = String::from_utf8_lossy(&pdf);
    assert!(text.contains("/MarkInfo") && text.contains("/StructTreeRoot") && text.contains("/Lang"));
    assert!(text.contains("FontFile"), "fonts are embedded");
    assert!(text.contains("D:20261001"), "the study's date, not the clock's");
}

#[test]
fn no_exact_count_of_a_square_is_written() {
    // Two registers that differ within bands alone give the same squares.
    let of = |count: u32| ReleasedFind { count, ..finds(1, 1_000, 1_000).remove(0) };
    let sheet = |count: u32| {
        let case = Case::new(study("en", "1 km", true, "Bands"), ground(2, 2, false), vec![of(count)]);
        let svg = map(MapKind::Cells, &case.scene(), None, None).unwrap().svg;
        svg[svg.find("<g id=\"map\"").unwrap()..svg.find("<g id=\"counts\"").unwrap()].to_owned()
    };
    assert_eq!(sheet(11), sheet(44));
    assert_ne!(sheet(11), sheet(55));
}

#[test]
fn one_class_and_one_period_can_be_drawn_alone() {
    let case = Case::usual();
    let mut scene = case.scene();
    scene.class = Some(Class::Scraper);
    scene.period = Some(Period::Mesolithic);
    let sheet = map(MapKind::Symbols, &scene, None, None).unwrap();
    picture(&sheet, "only");
    check(&sheet, "only");
    assert!(sheet.svg.contains("Scraper") && !sheet.svg.contains("Blade or bladelet"));
    assert!(sheet.svg.contains("Mesolithic") && !sheet.svg.contains("Bronze Age"));
}

#[test]
fn the_shore_is_drawn_in_every_style() {
    let mut profile = profile();
    for (language, style) in [("en", "colour"), ("fr", "ink"), ("en", "contrast")] {
        let study = study(language, "100 m", language == "en", "Worked flint from Hernsey");
        let sheet = shore_figure(&profile, &study, Some(style)).unwrap();
        picture(&sheet, &format!("shore-{style}"));
        check(&sheet, style);
        assert_eq!(sheet, shore_figure(&profile, &study, Some(style)).unwrap());
    }
    profile.stretches.clear();
    let empty = shore_figure(&profile, &study("en", "100 m", true, "Empty"), None).unwrap();
    check(&empty, "empty");
}
