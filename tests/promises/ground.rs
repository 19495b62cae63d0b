//! Layers are read in every format built in and in whatever system they state, and what is wrong with
//! one is said with its file and what to do.

use std::path::Path;

use gdal::DriverManager;
use gdal::raster::{Buffer, RasterCreationOptions};
use gdal::spatial_ref::SpatialRef;
use gdal::vector::{Geometry, LayerAccess, LayerOptions, OGRFieldType, OGRwkbGeometryType};
use geo::{Area, BoundingRect, CoordsIter};
use strew::coordinates::{Converter, System};
use strew::fault::Fault;
use strew::ground::{Credit, Ground};
use strew::study::{PublicStudy, Study};
use strew::words::Language;
use tempfile::{TempDir, tempdir};

/// A kilometre square of the sea of square OV, as invented as what lies in it.
const WEST: f64 = 530_000.0;
const SOUTH: f64 = 560_000.0;

fn study(root: &Path, ground: &str) -> Study {
    let text = format!(
        "[study]\ntitle = \"Test\"\n[register]\nfiles = [\"finds.csv\"]\n\
         [agreement.public]\nprecision = \"100 m\"\n{ground}"
    );
    Study::parse(&text, root.to_path_buf()).unwrap()
}

fn public(root: &Path, ground: &str) -> PublicStudy {
    study(root, ground).audience("public").unwrap().clone()
}

fn read(folder: &TempDir, ground: &str) -> Result<Ground, Fault> {
    Ground::read(&public(folder.path(), ground), folder.path())
}

fn fails(folder: &TempDir, ground: &str) -> Fault {
    let fault = read(folder, ground).map(|_| ()).unwrap_err();
    for language in [Language::English, Language::French] {
        let (message, hint) = (fault.message(language), fault.hint(language).expect("a hint"));
        assert!(!message.contains(fault.id) && !message.contains("{$"), "{message}");
        assert!(!hint.contains("{$") && !hint.is_empty());
        assert!(
            !message.contains(&folder.path().display().to_string()),
            "a path that was not typed: {message}"
        );
    }
    fault
}

fn square(west: f64, south: f64, side: f64) -> String {
    let (e, n) = (west + side, south + side);
    format!("(({west} {south},{e} {south},{e} {n},{west} {n},{west} {south}))")
}

/// Writes parishes "Upper" and "Lower" with their names in the attribute `parish`.
fn write_parishes(path: &Path, driver: &str, epsg: u32, shapes: &[(&str, &str)]) {
    strew::coordinates::start();
    let driver = DriverManager::get_driver_by_name(driver).unwrap();
    let mut dataset = driver.create_vector_only(path).unwrap();
    let reference = SpatialRef::from_epsg(epsg).unwrap();
    let layer = dataset
        .create_layer(LayerOptions {
            name: "parishes",
            srs: Some(&reference),
            ty: OGRwkbGeometryType::wkbMultiPolygon,
            ..Default::default()
        })
        .unwrap();
    layer.create_defn_fields(&[("parish", OGRFieldType::OFTString)]).unwrap();
    for (name, wkt) in shapes {
        let mut feature = gdal::vector::Feature::new(layer.defn()).unwrap();
        let index = layer.defn().field_index("parish").unwrap();
        feature.set_field_string(index, name).unwrap();
        feature.set_geometry(Geometry::from_wkt(wkt).unwrap()).unwrap();
        feature.create(&layer).unwrap();
    }
    dataset.close().unwrap();
}

fn two_parishes() -> [(&'static str, String); 2] {
    [
        ("Upper", format!("MULTIPOLYGON ({})", square(WEST, SOUTH + 1000.0, 1000.0))),
        ("Lower", format!("MULTIPOLYGON ({})", square(WEST, SOUTH, 1000.0))),
    ]
}

#[test]
fn every_vector_format_gives_the_same_parishes() {
    let folder = tempdir().unwrap();
    let shapes = two_parishes();
    let shapes: Vec<(&str, &str)> = shapes.iter().map(|(name, wkt)| (*name, wkt.as_str())).collect();
    for (file, driver) in
        [("p.gpkg", "GPKG"), ("p.shp", "ESRI Shapefile"), ("p.fgb", "FlatGeobuf"), ("p.geojson", "GeoJSON")]
    {
        write_parishes(&folder.path().join(file), driver, 27700, &shapes);
        let ground =
            read(&folder, &format!("[ground]\nparishes = {{ file = \"{file}\", name = \"parish\" }}\n"))
                .unwrap();
        let names: Vec<&str> = ground.parishes.iter().map(|p| p.name.as_str()).collect();
        assert_eq!(names, ["Lower", "Upper"], "{file}: in order of name");
        for (parish, south) in ground.parishes.iter().zip([SOUTH, SOUTH + 1000.0]) {
            assert_eq!(parish.shape.unsigned_area(), 1e6, "{file}");
            let rect = parish.shape.bounding_rect().unwrap();
            assert_eq!((rect.min().x, rect.min().y), (WEST, south), "{file}");
        }
    }
}

#[test]
fn a_layer_in_degrees_is_carried_by_the_same_conversion_as_the_finds() {
    let folder = tempdir().unwrap();
    let out = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    let corner = |e: f64, n: f64| out.convert_xy(WEST + e, SOUTH + n).unwrap();
    let ring: Vec<String> = [(0.0, 0.0), (5000.0, 0.0), (5000.0, 5000.0), (0.0, 5000.0), (0.0, 0.0)]
        .iter()
        .map(|(e, n)| {
            let (x, y) = corner(*e, *n);
            format!("[{x:.12},{y:.12}, 7]")
        })
        .collect();
    let text = format!(
        r#"{{"type":"FeatureCollection","features":[{{"type":"Feature","properties":{{}},
        "geometry":{{"type":"GeometryCollection","geometries":[{{"type":"Polygon","coordinates":[[{}]]}}]}}}}]}}"#,
        ring.join(",")
    );
    std::fs::write(folder.path().join("land.geojson"), text).unwrap();
    let ground =
        read(&folder, "[ground]\nland = { file = \"land.geojson\", credit = \"Invented\" }\n").unwrap();
    let rect = ground.land.bounding_rect().unwrap();
    // Edges are straight in degrees, so they bulge by up to 0.6 m in the grid; the corners are exact.
    assert!((ground.land.unsigned_area() - 25e6).abs() < 5000.0 * 2.0, "{}", ground.land.unsigned_area());
    let nearest = |e: f64, n: f64| {
        ground.land.coords_iter().map(|c| (c.x - WEST - e).hypot(c.y - SOUTH - n)).fold(f64::MAX, f64::min)
    };
    for (e, n) in [(0.0, 0.0), (5000.0, 0.0), (5000.0, 5000.0), (0.0, 5000.0)] {
        assert!(nearest(e, n) < 1e-4, "corner {e} {n}: {}", nearest(e, n));
    }
    assert!(ground.land.coords_count() > 20, "long edges are given vertices before they are carried");
    assert!((rect.width() - 5000.0).abs() < 3.0);
    assert_eq!(ground.credits, [Credit::from("Invented")]);
}

fn feature(name: &str, geometry: &str) -> String {
    format!(r#"{{"type":"Feature","properties":{{"parish":{name}}},"geometry":{geometry}}}"#)
}

fn collection(features: &[String]) -> String {
    format!(
        r#"{{"type":"FeatureCollection","crs":{{"type":"name","properties":{{"name":"urn:ogc:def:crs:EPSG::27700"}}}},"features":[{}]}}"#,
        features.join(",")
    )
}

fn polygon(west: f64, south: f64, side: f64) -> String {
    let (e, n) = (west + side, south + side);
    format!(
        r#"{{"type":"Polygon","coordinates":[[[{west},{south}],[{e},{south}],[{e},{n}],[{west},{n}],[{west},{south}]]]}}"#
    )
}

#[test]
fn parishes_of_one_name_are_one_and_a_bow_tie_is_mended() {
    let folder = tempdir().unwrap();
    let tie = format!(
        r#"{{"type":"Polygon","coordinates":[[[{w},{s}],[{e},{n}],[{e},{s}],[{w},{n}],[{w},{s}]]]}}"#,
        w = WEST,
        s = SOUTH,
        e = WEST + 100.0,
        n = SOUTH + 100.0
    );
    let text = collection(&[
        feature("\"Skerry\"", &polygon(WEST + 500.0, SOUTH, 100.0)),
        feature("\"Bow\"", &tie),
        feature("\"Skerry\"", &polygon(WEST + 900.0, SOUTH, 100.0)),
        feature("null", "null"),
    ]);
    std::fs::write(folder.path().join("p.geojson"), text).unwrap();
    let ground = read(&folder, "[ground]\nparishes = { file = \"p.geojson\" }\n").unwrap();
    assert_eq!(ground.parishes.len(), 2);
    assert!((ground.parishes[0].shape.unsigned_area() - 5000.0).abs() < 1.0);
    assert_eq!(ground.parishes[1].shape.unsigned_area(), 20_000.0);
}

#[test]
fn what_is_wrong_with_a_layer_is_said_with_its_file_and_a_hint() {
    let folder = tempdir().unwrap();
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    write("p.geojson", &collection(&[feature("\"A\"", &polygon(WEST, SOUTH, 100.0))]));
    write("empty.geojson", &collection(&[]));
    write("nameless.geojson", &collection(&[feature("null", &polygon(WEST, SOUTH, 100.0))]));
    write(
        "points.geojson",
        &collection(&[feature("\"A\"", r#"{"type":"Point","coordinates":[530000,560000]}"#)]),
    );
    write(
        "plain.geojson",
        &collection(&[feature("\"A\"", &polygon(WEST, SOUTH, 100.0))]).replace("\"crs\"", "\"x\""),
    );
    write("rubbish.geojson", "not a layer");
    let cases = [
        ("land = { file = \"nowhere.geojson\" }", "ground-no-file"),
        ("land = { file = \".\" }", "ground-not-a-file"),
        ("land = { file = \"rubbish.geojson\" }", "ground-format"),
        ("land = { file = \"empty.geojson\" }", "ground-empty"),
        ("land = { file = \"points.geojson\" }", "ground-wrong-shapes"),
        ("land = { file = \"plain.geojson\" }", "ground-not-degrees"),
        ("land = { file = \"p.geojson\", layer = \"other\" }", "ground-no-layer"),
        ("parishes = { file = \"p.geojson\", name = \"Parrish\" }", "ground-no-attribute-near"),
        ("parishes = { file = \"p.geojson\", name = \"zzz\" }", "ground-no-attribute"),
        ("parishes = { file = \"nameless.geojson\", name = \"parish\" }", "ground-unnamed"),
    ];
    for (layer, id) in cases {
        let fault = fails(&folder, &format!("[ground]\n{layer}\n"));
        assert_eq!(fault.id, id, "{layer}: {fault}");
        assert!(fault.spot.file.is_some(), "{layer}");
    }
    let near = fails(&folder, "[ground]\nparishes = { file = \"p.geojson\", name = \"Parrish\" }\n");
    assert!(near.to_string().contains("parish") && near.hint(Language::English).unwrap().contains("parish"));
    // The study's word on the system serves where the file has none.
    let plain = "[ground]\nland = { file = \"plain.geojson\", system = \"british-grid\" }\n";
    assert_eq!(read(&folder, plain).unwrap().land.unsigned_area(), 10_000.0);
}

#[test]
fn a_file_of_several_layers_asks_which() {
    let folder = tempdir().unwrap();
    strew::coordinates::start();
    let driver = DriverManager::get_driver_by_name("GPKG").unwrap();
    let mut dataset = driver.create_vector_only(folder.path().join("all.gpkg")).unwrap();
    let reference = SpatialRef::from_epsg(27700).unwrap();
    for (name, south) in [("coast", SOUTH), ("fields", SOUTH + 5000.0)] {
        let mut layer = dataset
            .create_layer(LayerOptions {
                name,
                srs: Some(&reference),
                ty: OGRwkbGeometryType::wkbPolygon,
                ..Default::default()
            })
            .unwrap();
        let shape = format!("POLYGON {}", square(WEST, south, 100.0));
        layer.create_feature(Geometry::from_wkt(&shape).unwrap()).unwrap();
    }
    dataset.close().unwrap();
    let fault = fails(&folder, "[ground]\nland = { file = \"all.gpkg\" }\n");
    assert_eq!(fault.id, "ground-which-layer");
    assert!(fault.hint(Language::English).unwrap().contains("coast, fields"));
    let told = read(&folder, "[ground]\nland = { file = \"all.gpkg\", layer = \"coast\" }\n").unwrap();
    assert_eq!(told.land.bounding_rect().unwrap().min().y, SOUTH);
}

#[test]
fn a_shapefile_without_its_system_asks_for_one() {
    let folder = tempdir().unwrap();
    let shapes = two_parishes();
    let shapes: Vec<(&str, &str)> = shapes.iter().map(|(name, wkt)| (*name, wkt.as_str())).collect();
    write_parishes(&folder.path().join("p.shp"), "ESRI Shapefile", 27700, &shapes);
    std::fs::remove_file(folder.path().join("p.prj")).unwrap();
    let fault = fails(&folder, "[ground]\nparishes = { file = \"p.shp\" }\n");
    assert_eq!(fault.id, "ground-no-system");
    let told = "[ground]\nparishes = { file = \"p.shp\", system = \"british-grid\" }\n";
    assert_eq!(read(&folder, told).unwrap().parishes.len(), 2);
}

#[test]
fn private_layers_are_read_for_check_alone_and_near_rules_with_the_public_ones() {
    let folder = tempdir().unwrap();
    let text = collection(&[feature("\"A\"", &polygon(WEST, SOUTH, 100.0))]);
    std::fs::write(
        folder.path().join("w.geojson"),
        text.replace("parish", "share").replace("\"A\"", "\"20%\""),
    )
    .unwrap();
    let point = r#"{"type":"Point","coordinates":[530000,560000]}"#;
    std::fs::write(folder.path().join("sites.geojson"), collection(&[feature("\"A\"", point)])).unwrap();
    let text = "[[agreement.public.stricter]]\nnear = { file = \"sites.geojson\", distance = \"50 m\" }\n\
                precision = \"1 km\"\n[ground]\nwalked = { file = \"w.geojson\", cover = \"share\" }\n";
    let study = study(folder.path(), text);
    let public = study.audience("public").unwrap();
    let ground = Ground::read(public, folder.path()).unwrap();
    assert!(ground.walked.is_empty());
    assert_eq!(ground.near.len(), 1);
    let partition = strew::ground::Partition::fix(public, &ground).unwrap();
    let cell = |e: f64, n: f64| strew::coordinates::Cell::holding(e, n, 100).unwrap();
    let side = |e, n| match partition.told(cell(e, n)) {
        strew::ground::Told::Square(square) => Some(square.side_m),
        _ => None,
    };
    assert_eq!(side(WEST + 900.0, SOUTH + 900.0), Some(1000));
    assert_eq!(side(WEST + 1900.0, SOUTH + 900.0), Some(100));
    let all = Ground::read_with_private(public, &study.private).unwrap();
    assert_eq!(all.walked[0].cover, Some(0.2));
}

/// A plane of heights: 10 m at the south-west corner of the square, rising 1 m in 100 m to the east and
/// 2 m in 100 m to the north.
fn plane(e: f64, n: f64) -> f64 {
    10.0 + (e - WEST) / 100.0 + (n - SOUTH) / 50.0
}

fn write_relief(
    path: &Path,
    epsg: u32,
    frame: (f64, f64, f64),
    size: (usize, usize),
    height: impl Fn(f64, f64) -> f64,
) {
    strew::coordinates::start();
    let driver = DriverManager::get_driver_by_name("GTiff").unwrap();
    let options = RasterCreationOptions::from_iter(["COMPRESS=DEFLATE"]);
    let mut dataset =
        driver.create_with_band_type_with_options::<f32, _>(path, size.0, size.1, 1, &options).unwrap();
    let (west, north, pixel) = frame;
    dataset.set_geo_transform(&[west, pixel, 0.0, north, 0.0, -pixel]).unwrap();
    dataset.set_spatial_ref(&SpatialRef::from_epsg(epsg).unwrap()).unwrap();
    let mut data = Vec::new();
    for row in 0..size.1 {
        for column in 0..size.0 {
            data.push(height(west + (column as f64 + 0.5) * pixel, north - (row as f64 + 0.5) * pixel) as f32);
        }
    }
    let mut band = dataset.rasterband(1).unwrap();
    band.set_no_data_value(Some(-9999.0)).unwrap();
    band.write((0, 0), size, &mut Buffer::new(size, data)).unwrap();
    dataset.close().unwrap();
}

#[test]
fn relief_of_the_same_grid_is_cut_to_the_study_and_held_small() {
    let folder = tempdir().unwrap();
    // 30 km at 10 m round a square of 1 km: the box and 2 km round it are kept.
    let far = (WEST - 15_000.0, SOUTH + 15_000.0, 10.0);
    write_relief(&folder.path().join("r.tif"), 27700, far, (3000, 3000), |e, n| {
        if e < WEST { -9999.0 } else { plane(e, n) }
    });
    let land = collection(&[feature("\"A\"", &polygon(WEST, SOUTH, 1000.0))]);
    std::fs::write(folder.path().join("land.geojson"), land).unwrap();
    let both = "[ground]\nland = { file = \"land.geojson\" }\nrelief = { file = \"r.tif\", public = true }\n";
    let relief = read(&folder, both).unwrap().relief.unwrap();
    assert_eq!((relief.columns, relief.rows, relief.pixel_m), (500, 500, 10.0));
    assert_eq!((relief.west_m, relief.north_m), (WEST - 2000.0, SOUTH + 3000.0));
    assert_eq!(relief.height(0, 0), None, "no height is no number");
    let height = relief.height(250, 250).unwrap();
    assert!((f64::from(height) - plane(WEST + 505.0, SOUTH + 495.0)).abs() < 1e-3);
    assert_eq!(relief.height(500, 0), None);
    // Alone it is kept whole, averaged down to 1,500 pixels a side.
    let alone =
        read(&folder, "[ground]\nrelief = { file = \"r.tif\", public = true }\n").unwrap().relief.unwrap();
    assert_eq!((alone.columns, alone.rows, alone.pixel_m), (1500, 1500, 20.0));
    let height = alone.height(1000, 700).unwrap();
    let (e, n) = (alone.west_m + 1000.5 * 20.0, alone.north_m - 700.5 * 20.0);
    assert!((f64::from(height) - plane(e, n)).abs() < 1e-2);
}

#[test]
fn relief_of_another_system_is_sampled_onto_the_grid() {
    let folder = tempdir().unwrap();
    let out = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    let back = Converter::new(&System::Wgs84, &System::BritishGrid).unwrap();
    let (west, south) = out.convert_xy(WEST, SOUTH).unwrap();
    let frame = (west - 0.02, south + 0.06, 0.0002);
    write_relief(&folder.path().join("r.tif"), 4326, frame, (400, 400), |x, y| {
        let (e, n) = back.convert_xy(x, y).unwrap();
        plane(e, n)
    });
    let land = collection(&[feature("\"A\"", &polygon(WEST, SOUTH, 1000.0))]);
    std::fs::write(folder.path().join("land.geojson"), land).unwrap();
    let both = "[ground]\nland = { file = \"land.geojson\" }\nrelief = { file = \"r.tif\", public = true }\n";
    let relief = read(&folder, both).unwrap().relief.unwrap();
    let mut seen = 0;
    for row in 0..relief.rows {
        for column in 0..relief.columns {
            let e = relief.west_m + (column as f64 + 0.5) * relief.pixel_m;
            let n = relief.north_m - (row as f64 + 0.5) * relief.pixel_m;
            if (WEST..WEST + 1000.0).contains(&e) && (SOUTH..SOUTH + 1000.0).contains(&n) {
                let height = f64::from(relief.height(column, row).unwrap());
                assert!((height - plane(e, n)).abs() < 0.02, "{e} {n}: {height} {}", plane(e, n));
                seen += 1;
            }
        }
    }
    assert!(seen > 1000, "{seen}");
}
