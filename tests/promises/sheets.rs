//! Sheets: everything in its box, nothing outside the page, the scale bar right, the same bytes twice.

use geo::{MultiLineString, MultiPolygon};
use resvg::usvg;
use std::path::PathBuf;
use strew::coordinates::Cell;
use strew::exact::{ReleasedFind, ReleasedPlace};
use strew::ground::Walked;
use strew::sheet::{MapKind, Sheet, map, outlined, pdf, png, shore_figure};
use strew::study::vocabulary::{Class, Period};

use super::island::{SOUTH, WEST, ground, study};
use super::island_finds::{Case, KINDS, finds, picture, profile, published};

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
