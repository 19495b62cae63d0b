//! Layers of a pack: the standards kept, and read back by other readers.

use geo::{Area as _, orient::Direction, orient::Orient as _};

use super::pack_made::{public, text};

#[test]
fn geojson_keeps_the_standard() {
    // RFC 7946: §4 no `crs`; §3.1.6 right-hand rule; §5 and §4 longitude first, WGS84.
    let pack = public("en");
    for path in ["layers/cells.geojson", "layers/concentrations.geojson"] {
        let read: geojson::FeatureCollection =
            text(&pack, path).parse::<geojson::GeoJson>().unwrap().try_into().unwrap();
        assert!(!text(&pack, path).contains("\"crs\""));
        assert!(!read.features.is_empty());
        for (index, feature) in read.features.iter().enumerate() {
            assert_eq!(feature.id, Some(geojson::feature::Id::Number((index + 1).into())));
            let shape: geo::Polygon<f64> = feature.geometry.clone().unwrap().try_into().unwrap();
            assert!(shape.signed_area() > 0.0, "counter-clockwise");
            assert_eq!(shape, shape.orient(Direction::Default));
            for corner in shape.exterior().coords() {
                assert!((-1.0..3.0).contains(&corner.x) && (54.0..57.0).contains(&corner.y), "{corner:?}");
                assert!((corner.x * 1e5 - (corner.x * 1e5).round()).abs() < 1e-6, "five decimals");
            }
        }
    }
    let cells = text(&pack, "layers/cells.geojson");
    assert!(cells.contains("10–49") && !cells.contains("27"), "bands, not counts");
    assert!(cells.contains("flake (10–49); blade (3–9)"), "{cells}");
}

#[test]
fn gdal_reads_the_layers_back() {
    use gdal::vector::LayerAccess as _;
    let pack = public("en");
    let path = "/vsimem/promise-pack.gpkg";
    gdal::vsi::create_mem_file(path, pack.files()["layers/strew.gpkg"].clone()).unwrap();
    let dataset = gdal::Dataset::open(path).unwrap();
    let mut cells = dataset.layer_by_name("cells").unwrap();
    assert_eq!(cells.spatial_ref().unwrap().auth_code().unwrap(), 27700);
    let read: Vec<_> = cells.features().collect();
    assert_eq!(read.len(), 2);
    let envelope = read[0].geometry().unwrap().envelope();
    assert_eq!((envelope.MinX, envelope.MinY, envelope.MaxX, envelope.MaxY), (552e3, 541e3, 553e3, 542e3));
    let pieces = read[0].field_index("pieces").unwrap();
    assert_eq!(read[0].field_as_string(pieces).unwrap().unwrap(), "10–49");
    assert_eq!(dataset.layer_by_name("concentrations").unwrap().feature_count(), 1);

    let path = "/vsimem/promise-pack.tif";
    gdal::vsi::create_mem_file(path, pack.files()["layers/density.tif"].clone()).unwrap();
    let dataset = gdal::Dataset::open(path).unwrap();
    assert_eq!(dataset.geo_transform().unwrap(), [552e3, 500.0, 0.0, 542e3, 0.0, -500.0]);
    let band = dataset.rasterband(1).unwrap();
    let values = band.read_band_as::<f32>().unwrap();
    // Row 0 is the northernmost here, the southernmost in the surface; four figures are kept.
    assert_eq!(values.data(), [0.1235, 0.02, 0.0, 0.0, 0.1, 0.2, 0.3, -1.0]);
    assert_eq!(band.no_data_value(), Some(-1.0));
    use gdal::Metadata as _;
    assert_eq!(dataset.metadata_item("BANDWIDTH_M", "").as_deref(), Some("2000"));
}

#[test]
fn kml_reads_back_in_the_order_of_its_schema() {
    let pack = public("en");
    let kml: kml::Kml = text(&pack, "layers/cells.kml").parse().unwrap();
    let kml::Kml::KmlDocument(document) = kml else { panic!("a kml document") };
    let kml::Kml::Document { elements, .. } = &document.elements[0] else { panic!("a document") };
    let marks: Vec<_> = elements
        .iter()
        .filter_map(|e| if let kml::Kml::Placemark(mark) = e { Some(mark) } else { None })
        .collect();
    assert_eq!(marks.len(), 2);
    for mark in marks {
        assert!(mark.description.as_deref().unwrap().contains("Nothing in it says where"));
        assert!(mark.geometry.is_some() && mark.style_url.is_some());
    }
    let written = text(&pack, "layers/cells.kml");
    assert!(written.find("<styleUrl>").unwrap() < written.find("<MultiGeometry>").unwrap());
}
