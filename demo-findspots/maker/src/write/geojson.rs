//! GeoJSON in WGS84 by RFC 7946: longitude first, outer rings anticlockwise, six decimals.

use std::path::Path;

use geo::{LineString, Polygon};
use serde_json::{Map, Value, json};
use strew::coordinates::{Converter, System};
use strew::fault::Result;

use crate::island::Island;
use crate::raster::Place;

/// Carries places from the British grid to degrees.
pub struct Degrees(Converter);

impl Degrees {
    pub fn new() -> Result<Self> {
        Ok(Self(Converter::new(&System::BritishGrid, &System::Wgs84)?))
    }

    /// Longitude and latitude.
    pub fn of(&self, place: Place) -> Result<(f64, f64)> {
        self.0.convert_xy(place.x, place.y)
    }
}

struct Layer<'a> {
    degrees: &'a Degrees,
    features: Vec<Value>,
}

impl Layer<'_> {
    fn position(&self, place: Place) -> Result<Value> {
        let (longitude, latitude) = self.degrees.of(place)?;
        let short = |x: f64| (x * 1e6).round() / 1e6;
        Ok(json!([short(longitude), short(latitude)]))
    }

    fn line(&self, line: &LineString<f64>) -> Result<Value> {
        line.0.iter().map(|place| self.position(*place)).collect()
    }

    /// A polygon's rings, the outer one anticlockwise.
    fn rings(&self, shape: &Polygon<f64>) -> Result<Value> {
        use geo::orient::{Direction, Orient};
        let shape = shape.orient(Direction::Default);
        std::iter::once(shape.exterior()).chain(shape.interiors()).map(|ring| self.line(ring)).collect()
    }

    fn add(&mut self, kind: &str, coordinates: Value, properties: &[(&str, Value)]) {
        let properties: Map<String, Value> =
            properties.iter().map(|(key, value)| ((*key).to_owned(), value.clone())).collect();
        self.features.push(json!({
            "type": "Feature",
            "properties": properties,
            "geometry": { "type": kind, "coordinates": coordinates },
        }));
    }

    /// One feature a line, so that a change shows as one line.
    fn text(&self) -> String {
        let lines: Vec<String> = self.features.iter().map(|feature| format!("    {feature}")).collect();
        format!("{{\n  \"type\": \"FeatureCollection\",\n  \"features\": [\n{}\n  ]\n}}\n", lines.join(",\n"))
    }
}

/// Writes every vector layer into `folder`.
pub fn write(
    island: &Island,
    degrees: &Degrees,
    folder: &Path,
) -> std::result::Result<(), Box<dyn std::error::Error>> {
    let layer = || Layer { degrees, features: Vec::new() };
    let save = |name: &str, layer: Layer| std::fs::write(folder.join(name), layer.text());

    let mut parishes = layer();
    for parish in &island.parishes {
        let parts: Value = parish.shape.iter().map(|shape| parishes.rings(shape)).collect::<Result<_>>()?;
        parishes.add("MultiPolygon", parts, &[("parish", json!(parish.name))]);
    }
    save("parishes.geojson", parishes)?;

    let mut land = layer();
    let parts: Value = island.land.iter().map(|shape| land.rings(shape)).collect::<Result<_>>()?;
    land.add("MultiPolygon", parts, &[("name", json!("Hernsey"))]);
    save("land.geojson", land)?;

    let mut shore = layer();
    for shape in &island.land {
        let line = shore.line(shape.exterior())?;
        shore.add("LineString", line, &[]);
    }
    save("shore.geojson", shore)?;

    let mut streams = layer();
    for stream in &island.streams {
        let line = streams.line(&stream.line)?;
        streams.add("LineString", line, &[("name", json!(stream.name))]);
    }
    save("streams.geojson", streams)?;

    let mut roads = layer();
    for road in &island.roads {
        let line = roads.line(&road.line)?;
        roads.add("LineString", line, &[("kind", json!(road.kind))]);
    }
    save("roads.geojson", roads)?;

    let mut places = layer();
    for place in &island.places {
        let at = places.position(place.at)?;
        places.add("Point", at, &[("name", json!(place.name)), ("kind", json!(place.kind))]);
    }
    save("places.geojson", places)?;

    let mut beach = layer();
    for one in &island.beaches {
        let rings = beach.rings(&one.shape)?;
        beach.add("Polygon", rings, &[("name", json!(one.name))]);
    }
    save("beach.geojson", beach)?;

    let mut protected = layer();
    for (name, shape) in &island.protected {
        let rings = protected.rings(shape)?;
        protected.add("Polygon", rings, &[("name", json!(name))]);
    }
    save("protected-sites.geojson", protected)?;

    let mut walked = layer();
    for field in &island.walked {
        let rings = walked.rings(&field.shape)?;
        walked.add(
            "Polygon",
            rings,
            &[
                ("field", json!(field.name)),
                ("parish", json!(field.parish)),
                ("share", json!(field.walk.share)),
            ],
        );
    }
    save("walked.geojson", walked)?;
    Ok(())
}

/// Writes the wider land, a feature an island.
pub fn write_around(
    islands: &[Polygon<f64>],
    degrees: &Degrees,
    folder: &Path,
) -> std::result::Result<(), Box<dyn std::error::Error>> {
    let mut around = Layer { degrees, features: Vec::new() };
    for island in islands {
        let rings = around.rings(island)?;
        around.add("Polygon", rings, &[]);
    }
    std::fs::write(folder.join("around.geojson"), around.text())?;
    Ok(())
}
