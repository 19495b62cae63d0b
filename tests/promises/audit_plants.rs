//! What is planted in packs: one exact place (or a private word) of a register, in many kinds of file and notation.

use std::io::Write as _;

use base64::Engine as _;
use strew::coordinates::{Converter, System, notation};

/// A find that the register holds, in every system that the plants need.
pub struct Spot {
    pub easting: f64,
    pub northing: f64,
    pub latitude: f64,
    pub longitude: f64,
    pub mercator: (f64, f64),
    pub utm: (f64, f64),
}

impl Spot {
    pub fn at(easting: f64, northing: f64) -> Self {
        let to = |code: u32| {
            Converter::new(&System::BritishGrid, &System::from_epsg(code))
                .unwrap()
                .convert_xy(easting, northing)
                .unwrap()
        };
        let (longitude, latitude) = to(4326);
        Self { easting, northing, latitude, longitude, mercator: to(3857), utm: to(32631) }
    }

    /// Figures of a reference, so many each.
    fn figures(&self, each: usize) -> (String, String) {
        let cut = |value: f64| {
            let whole = value as i64 % 100_000 / 10_i64.pow(5 - each as u32);
            format!("{whole:0each$}")
        };
        (cut(self.easting), cut(self.northing))
    }
}

/// A planted file: its path in the pack, its bytes, and the kinds of finding that are right.
pub struct Plant {
    pub path: String,
    pub bytes: Vec<u8>,
    pub kinds: &'static [&'static str],
}

const PLACE: &[&str] = &["metres", "degrees", "minutes", "reference", "numbers", "layer", "other-notation"];

pub fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::default());
    packed.write_all(bytes).unwrap();
    packed.finish().unwrap()
}

pub fn zlib(bytes: &[u8]) -> Vec<u8> {
    let mut packed = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::default());
    packed.write_all(bytes).unwrap();
    packed.finish().unwrap()
}

pub fn zip(name: &str, bytes: &[u8], comment: &str) -> Vec<u8> {
    let mut archive = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    archive.set_comment(comment);
    archive.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
    archive.write_all(bytes).unwrap();
    archive.finish().unwrap().into_inner()
}

pub fn tar(name: &str, bytes: &[u8]) -> Vec<u8> {
    let mut archive = tar::Builder::new(Vec::new());
    let mut head = tar::Header::new_gnu();
    head.set_size(bytes.len() as u64);
    head.set_mode(0o644);
    head.set_cksum();
    archive.append_data(&mut head, name, bytes).unwrap();
    archive.into_inner().unwrap()
}

fn base64(bytes: &[u8]) -> String {
    base64::engine::general_purpose::STANDARD.encode(bytes)
}

/// Degrees, minutes and hundredths of a second.
fn parts(value: f64) -> (f64, f64, f64) {
    let hundredths = (value.abs() * 360_000.0).round();
    (
        (hundredths / 360_000.0).floor(),
        (hundredths % 360_000.0 / 6_000.0).floor(),
        hundredths % 6_000.0 / 100.0,
    )
}

/// A camera's note with a position: degrees, minutes, hundredths of seconds as ratios.
pub fn camera_note(latitude: f64, longitude: f64) -> Vec<u8> {
    let mut note = b"MM\0*\0\0\0\x08".to_vec();
    let entry = |note: &mut Vec<u8>, tag: u16, kind: u16, count: u32, value: [u8; 4]| {
        note.extend_from_slice(&tag.to_be_bytes());
        note.extend_from_slice(&kind.to_be_bytes());
        note.extend_from_slice(&count.to_be_bytes());
        note.extend_from_slice(&value);
    };
    note.extend_from_slice(&1_u16.to_be_bytes());
    entry(&mut note, 0x8825, 4, 1, 26_u32.to_be_bytes());
    note.extend_from_slice(&[0; 4]);
    note.extend_from_slice(&4_u16.to_be_bytes());
    entry(&mut note, 1, 2, 2, *b"N\0\0\0");
    entry(&mut note, 2, 5, 3, 80_u32.to_be_bytes());
    entry(&mut note, 3, 2, 2, *b"E\0\0\0");
    entry(&mut note, 4, 5, 3, 104_u32.to_be_bytes());
    note.extend_from_slice(&[0; 4]);
    assert_eq!(note.len(), 80);
    for value in [latitude, longitude] {
        let (degrees, minutes, seconds) = parts(value);
        for (above, below) in [(degrees, 1.0), (minutes, 1.0), (seconds * 100.0, 100.0)] {
            note.extend_from_slice(&(above.round() as u32).to_be_bytes());
            note.extend_from_slice(&(below as u32).to_be_bytes());
        }
    }
    note
}

/// A JPEG that is nothing but a segment, with something behind its end.
pub fn jpeg(marker: u8, segment: &[u8], behind: &[u8]) -> Vec<u8> {
    let mut picture = vec![0xff, 0xd8, 0xff, marker];
    picture.extend_from_slice(&(segment.len() as u16 + 2).to_be_bytes());
    picture.extend_from_slice(segment);
    picture.extend_from_slice(&[0xff, 0xd9]);
    picture.extend_from_slice(behind);
    picture
}

/// A PNG that is nothing but one chunk.
fn png(kind: &[u8; 4], data: &[u8], behind: &[u8]) -> Vec<u8> {
    let mut picture = b"\x89PNG\r\n\x1a\n".to_vec();
    for (kind, data) in [(kind, data), (b"IEND", &[][..])] {
        picture.extend_from_slice(&(data.len() as u32).to_be_bytes());
        picture.extend_from_slice(kind);
        picture.extend_from_slice(data);
        picture.extend_from_slice(&[0; 4]);
    }
    picture.extend_from_slice(behind);
    picture
}

/// A GeoTIFF's directory: where its corner lies, on the British grid, with pixels of a metre.
fn geotiff(easting: f64, northing: f64) -> Vec<u8> {
    let mut picture = b"II*\0\x08\0\0\0".to_vec();
    let start = 8 + 2 + 3 * 12 + 4;
    let entry = |picture: &mut Vec<u8>, tag: u16, kind: u16, count: u32, at: u32| {
        picture.extend_from_slice(&tag.to_le_bytes());
        picture.extend_from_slice(&kind.to_le_bytes());
        picture.extend_from_slice(&count.to_le_bytes());
        picture.extend_from_slice(&at.to_le_bytes());
    };
    picture.extend_from_slice(&3_u16.to_le_bytes());
    entry(&mut picture, 33550, 12, 3, start);
    entry(&mut picture, 33922, 12, 6, start + 24);
    entry(&mut picture, 34735, 3, 8, start + 72);
    picture.extend_from_slice(&[0; 4]);
    for value in [1.0, 1.0, 0.0, 0.0, 0.0, 0.0, easting, northing, 0.0_f64] {
        picture.extend_from_slice(&value.to_le_bytes());
    }
    for value in [1_u16, 1, 0, 1, 3072, 0, 1, 27700] {
        picture.extend_from_slice(&value.to_le_bytes());
    }
    picture
}

/// A PDF of one page: the words it sets, packed or not, and something in its properties.
fn pdf(set: &str, packed: bool, property: &str) -> Vec<u8> {
    use lopdf::{Document, Object, Stream, dictionary};
    let mut document = Document::with_version("1.5");
    let content = format!("BT /F1 12 Tf 50 700 Td ({set}) Tj ET").into_bytes();
    let mut stream = Stream::new(dictionary! {}, content);
    if packed {
        stream = Stream::new(dictionary! { "Filter" => "FlateDecode" }, zlib(&stream.content));
    }
    let font = document
        .add_object(dictionary! { "Type" => "Font", "Subtype" => "Type1", "BaseFont" => "Helvetica" });
    let content = document.add_object(stream);
    let pages = document.new_object_id();
    let page = document.add_object(dictionary! {
        "Type" => "Page", "Parent" => pages, "Contents" => content,
        "Resources" => dictionary! { "Font" => dictionary! { "F1" => font } },
        "MediaBox" => vec![0.into(), 0.into(), 595.into(), 842.into()],
    });
    let kids: Vec<Object> = vec![page.into()];
    document
        .objects
        .insert(pages, Object::Dictionary(dictionary! { "Type" => "Pages", "Kids" => kids, "Count" => 1 }));
    let catalog = document.add_object(dictionary! { "Type" => "Catalog", "Pages" => pages });
    document.trailer.set("Root", catalog);
    let mut wide = vec![0xfe, 0xff];
    wide.extend(property.encode_utf16().flat_map(u16::to_be_bytes));
    let info = document
        .add_object(dictionary! { "Subject" => Object::String(wide, lopdf::StringFormat::Hexadecimal) });
    document.trailer.set("Info", info);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).unwrap();
    bytes
}

fn workbook(spot: &Spot, comment: bool) -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    if comment {
        let text = format!("{:.0} {:.0}", spot.easting, spot.northing);
        book.set_properties(&rust_xlsxwriter::DocProperties::new().set_comment(&text));
    }
    let sheet = book.add_worksheet();
    sheet.write_string(0, 0, "flake").unwrap();
    if !comment {
        sheet.write_number(0, 1, spot.easting).unwrap();
        sheet.write_number(0, 2, spot.northing).unwrap();
    }
    book.save_to_buffer().unwrap()
}

/// A shapefile of one point.
fn shapefile(x: f64, y: f64) -> Vec<u8> {
    let mut file = vec![0; 100];
    file[..4].copy_from_slice(&9994_i32.to_be_bytes());
    file[24..28].copy_from_slice(&64_i32.to_be_bytes());
    file[28..32].copy_from_slice(&1000_i32.to_le_bytes());
    file[32..36].copy_from_slice(&1_i32.to_le_bytes());
    file.extend_from_slice(&1_i32.to_be_bytes());
    file.extend_from_slice(&10_i32.to_be_bytes());
    file.extend_from_slice(&1_i32.to_le_bytes());
    file.extend_from_slice(&x.to_le_bytes());
    file.extend_from_slice(&y.to_le_bytes());
    file
}

/// Every plant of a place.
pub fn places(spot: &Spot) -> Vec<Plant> {
    let mut plants = Vec::new();
    let mut plant = |path: &str, bytes: Vec<u8>, kinds: &'static [&'static str]| {
        plants.push(Plant { path: path.to_owned(), bytes, kinds });
    };
    let (e, n) = (format!("{:.0}", spot.easting), format!("{:.0}", spot.northing));
    let (lat, lon) = (format!("{:.6}", spot.latitude), format!("{:.6}", spot.longitude));
    let (fe, fn_) = spot.figures(5);
    let (ge, gn) = spot.figures(4);
    let plain = format!("found at {e} {n} by the gate");
    let thousands = |text: &str, mark: &str| format!("{}{mark}{}", &text[..3], &text[3..]);
    let (ld, lm, ls) = parts(spot.latitude);
    let (od, om, os) = parts(spot.longitude);
    // References by letters.
    let reference: &[&str] = &["reference"];
    plant("text/reference.txt", format!("found at OV {fe} {fn_} by the hedge").into(), reference);
    plant("text/reference-small.txt", format!("(ov{fe}{fn_})").into(), reference);
    plant("text/reference-eight.md", format!("| OV {ge} {gn} | flake |").into(), reference);
    plant("text/reference-slashes.txt", format!("OV/{fe}/{fn_}").into(), reference);
    plant("text/reference-label.txt", format!("NGR: OV{ge}{gn}.").into(), reference);
    plant("text/reference-turned.txt", format!("OV {fn_} {fe}").into(), reference);
    let spread: Vec<String> = format!("{fe}{fn_}").chars().map(String::from).collect();
    plant("text/reference-spread.txt", format!("OV {}", spread.join(" ")).into(), reference);
    plant("text/figures.txt", format!("square OV, {fe} {fn_}").into(), &["metres", "reference"]);
    // Metres.
    let metres: &[&str] = &["metres"];
    plant("text/metres.txt", plain.clone().into(), metres);
    plant("text/thousands.txt", format!("{}, {}", thousands(&e, ","), thousands(&n, ",")).into(), metres);
    plant(
        "text/milliers.txt",
        format!("{} ; {}", thousands(&e, "\u{202f}"), thousands(&n, "\u{202f}")).into(),
        metres,
    );
    plant("text/virgules.csv", format!("x;y\n{e},0;{n},0\n").into(), metres);
    plant("text/northing-first.txt", format!("N{n} E{e}").into(), metres);
    plant("text/between.csv", format!("a;b;c;d\n{e};Westwell;4;{n}\n").into(), metres);
    plant(
        "text/kilometres.txt",
        format!("{:.3} km, {:.3} km", spot.easting / 1e3, spot.northing / 1e3).into(),
        metres,
    );
    plant(
        "text/scientific.txt",
        format!("{:.5}e5 {:.5}e5", spot.easting / 1e5, spot.northing / 1e5).into(),
        metres,
    );
    plant("text/utm.txt", format!("31N {:.0} {:.0}", spot.utm.0.floor(), spot.utm.1.floor()).into(), metres);
    plant(
        "text/mercator.json",
        format!("{{\"x\": {:.2}, \"y\": {:.2}}}", spot.mercator.0, spot.mercator.1).into(),
        metres,
    );
    let mgrs = notation::mgrs(31, spot.latitude, spot.utm.0, spot.utm.1, 5).unwrap();
    plant("text/military.txt", format!("at {mgrs}").into(), &["military", "other-notation", "reference"]);
    // Degrees.
    let degrees: &[&str] = &["degrees", "minutes", "other-notation"];
    plant("text/degrees.txt", format!("lat {lat} lon {lon}").into(), degrees);
    plant("text/degrees-four.txt", format!("{:.4}, {:.4}", spot.latitude, spot.longitude).into(), degrees);
    plant(
        "text/degres.txt",
        format!("{} ; {}", lat.replace('.', ","), lon.replace('.', ",")).into(),
        degrees,
    );
    plant("text/longitude-first.txt", format!("[{lon},{lat}]").into(), degrees);
    plant(
        "text/address.html",
        format!("<a href=\"https://maps.example/?q={lat}%2C{lon}\" title=\"see\">map</a>").into(),
        degrees,
    );
    plant("text/geo.txt", format!("geo:{lat},{lon};u=8").into(), degrees);
    plant("text/packed.txt", format!("+{lat}+00{lon}/").into(), degrees);
    plant("text/seconds.txt", format!("{ld}°{lm:02}'{ls:05.2}\"N {od}°{om:02}'{os:05.2}\"E").into(), degrees);
    plant("text/colons.txt", format!("{ld}:{lm:02}:{ls:05.2} {od}:{om:02}:{os:05.2}").into(), degrees);
    plant(
        "text/letters.txt",
        format!("{ld}d{lm:02}m{ls:05.2}s N, {od}d{om:02}m{os:05.2}s E").into(),
        degrees,
    );
    let minutes = |d: f64, m: f64, s: f64| format!("{d} {:.4}", m + s / 60.0);
    plant("text/minutes.txt", format!("N {} E {}", minutes(ld, lm, ls), minutes(od, om, os)).into(), degrees);
    let run = |d: f64, m: f64, s: f64| format!("{:.4}", d * 100.0 + m + s / 60.0);
    plant(
        "text/receiver.txt",
        format!("$GPGGA,120000,{},N,{:0>10},E,1", run(ld, lm, ls), format!("0{}", run(od, om, os))).into(),
        &["minutes", "degrees"],
    );
    plant(
        "text/whole.txt",
        format!("{:.0} {:.0}", spot.latitude * 1e7, spot.longitude * 1e7).into(),
        degrees,
    );
    // Hidden.
    plant("hidden/turned.txt", plain.chars().rev().collect::<String>().into(), PLACE);
    plant("hidden/base64.txt", base64(plain.as_bytes()).into(), PLACE);
    plant("hidden/base64-twice.txt", base64(base64(plain.as_bytes()).as_bytes()).into(), PLACE);
    plant("hidden/sixteens.txt", plain.bytes().map(|b| format!("{b:02x}")).collect::<String>().into(), PLACE);
    plant(
        "hidden/per-cent.txt",
        plain.bytes().map(|b| format!("%{b:02X}")).collect::<String>().into(),
        PLACE,
    );
    plant(
        "hidden/entities.html",
        format!("<p>{}</p>", plain.bytes().map(|b| format!("&#{b};")).collect::<String>()).into(),
        PLACE,
    );
    plant(
        "hidden/json.json",
        format!("{{\"n\":\"{}\"}}", plain.bytes().map(|b| format!("\\u{:04x}", b)).collect::<String>())
            .into(),
        PLACE,
    );
    let wide = |big: bool, mark: bool| -> Vec<u8> {
        let text = if mark { format!("\u{feff}{plain}") } else { plain.clone() };
        text.encode_utf16()
            .flat_map(|unit| if big { unit.to_be_bytes() } else { unit.to_le_bytes() })
            .collect()
    };
    plant("hidden/utf-16le.txt", wide(false, true), PLACE);
    plant("hidden/utf-16be.txt", wide(true, false), PLACE);
    plant(
        "hidden/utf-32.txt",
        [
            &[0xff, 0xfe, 0, 0][..],
            &plain.chars().flat_map(|c| u32::from(c).to_le_bytes()).collect::<Vec<_>>(),
        ]
        .concat(),
        PLACE,
    );
    plant("hidden/latin-1.txt", [&b"trouv\xe9 \xe0 "[..], plain.as_bytes()].concat(), PLACE);
    plant(
        "hidden/comment.html",
        format!("<html><body><!-- {e} {n} --><p>Nothing.</p></body></html>").into(),
        PLACE,
    );
    plant(
        "hidden/split.html",
        format!("<p><b>{}</b>{} {}<i>{}</i></p>", &e[..3], &e[3..], &n[..2], &n[2..]).into(),
        PLACE,
    );
    plant(".strew-x7/new/notes.txt", plain.clone().into(), PLACE);
    // Packed.
    plant("packed/one.gz", gzip(plain.as_bytes()), PLACE);
    plant("packed/bare.bin", zlib(plain.as_bytes()), PLACE);
    plant("packed/one.zip", zip("notes.txt", plain.as_bytes(), ""), PLACE);
    plant("packed/comment.zip", zip("notes.txt", b"nothing", &plain), PLACE);
    let deep = gzip(&tar("c.zip", &zip("b.tar", &tar("a.zip", &zip("notes.txt", plain.as_bytes(), "")), "")));
    plant("packed/deep.tar.gz", deep, PLACE);
    plant("packed/base64-in-zip.zip", zip("n.txt", base64(&gzip(plain.as_bytes())).as_bytes(), ""), PLACE);
    // Tables and documents.
    plant("documents/cells.xlsx", workbook(spot, false), PLACE);
    plant("documents/properties.xlsx", workbook(spot, true), PLACE);
    plant("documents/text.pdf", pdf(&format!("{e} {n}"), false, "none"), PLACE);
    plant("documents/packed.pdf", pdf(&format!("{e} {n}"), true, "none"), PLACE);
    plant("documents/property.pdf", pdf("none", true, &format!("{lat}, {lon}")), PLACE);
    // Layers.
    plant(
        "layers-2/point.geojson",
        format!("{{\"type\":\"Point\",\"coordinates\":[{lon},{lat}]}}").into(),
        PLACE,
    );
    plant("layers-2/property.geojson", format!("{{\"type\":\"FeatureCollection\",\"features\":[{{\"type\":\"Feature\",\"geometry\":null,\"properties\":{{\"e\":{e},\"n\":{n}}}}}]}}").into(), PLACE);
    plant(
        "layers-2/line.geojson",
        format!(
            "{{\"type\":\"LineString\",\"coordinates\":[[0.2,54.7],[{lon},{lat}],[0.3,54.8],[0.5,54.9]]}}"
        )
        .into(),
        PLACE,
    );
    plant(
        "layers-2/point.kml",
        format!("<kml><Placemark><Point><coordinates>{lon},{lat},0</coordinates></Point></Placemark></kml>")
            .into(),
        PLACE,
    );
    plant("layers-2/walk.gpx", format!("<gpx><wpt lat=\"{lat}\" lon=\"{lon}\"/></gpx>").into(), PLACE);
    plant("layers-2/text.wkt", format!("POINT({e} {n})").into(), PLACE);
    plant("layers-2/point.shp", shapefile(spot.easting, spot.northing), PLACE);
    let mut known = vec![1, 1, 0, 0, 0];
    known.extend_from_slice(&spot.longitude.to_le_bytes());
    known.extend_from_slice(&spot.latitude.to_le_bytes());
    plant("layers-2/known.txt", known.iter().map(|b| format!("{b:02X}")).collect::<String>().into(), PLACE);
    plant("layers-2/corner.tif", geotiff(spot.easting + 0.25, spot.northing + 0.25), &["raster", "numbers"]);
    // Bytes.
    let bytes = |parts: &[&[u8]]| {
        [&[0x01, 0x00, 0xfe, 0x93, 0x02][..], &parts.concat(), &[0x00, 0x9c, 0x01]].concat()
    };
    plant("bytes/double.bin", bytes(&[&spot.easting.to_le_bytes(), &spot.northing.to_le_bytes()]), PLACE);
    plant("bytes/double-big.bin", bytes(&[&spot.easting.to_be_bytes(), &spot.northing.to_be_bytes()]), PLACE);
    plant(
        "bytes/single.bin",
        bytes(&[&(spot.easting as f32).to_le_bytes(), &(spot.northing as f32).to_le_bytes()]),
        PLACE,
    );
    plant(
        "bytes/whole.bin",
        bytes(&[&(spot.easting as i32).to_be_bytes(), &(spot.northing as i32).to_be_bytes()]),
        PLACE,
    );
    plant(
        "bytes/degrees.bin",
        bytes(&[
            &((spot.latitude * 1e7) as i32).to_le_bytes(),
            &((spot.longitude * 1e7) as i32).to_le_bytes(),
        ]),
        PLACE,
    );
    // Pictures.
    let note = camera_note(spot.latitude, spot.longitude);
    let exif = [&b"Exif\0\0"[..], &note].concat();
    let camera: &[&str] = &["camera"];
    plant("pictures/camera.jpg", jpeg(0xe1, &exif, b""), camera);
    let thumbnail = [&b"Exif\0\0MM\0*\0\0\0\x08\0\0\0\0\0\0"[..], &jpeg(0xe1, &exif, b"")].concat();
    plant("pictures/thumbnail.jpg", jpeg(0xe1, &thumbnail, b""), camera);
    let xmp = format!(
        "http://ns.adobe.com/xap/1.0/\0<x:xmpmeta><rdf:Description exif:GPSLatitude=\"{},{:.4}N\" exif:GPSLongitude=\"{},{:.4}E\"/></x:xmpmeta>",
        ld,
        lm + ls / 60.0,
        od,
        om + os / 60.0
    );
    plant("pictures/xmp.jpg", jpeg(0xe1, xmp.as_bytes(), b""), PLACE);
    plant("pictures/comment.jpg", jpeg(0xfe, plain.as_bytes(), b""), PLACE);
    plant("pictures/behind.jpg", jpeg(0xfe, b"nothing", &zip("notes.txt", plain.as_bytes(), "")), PLACE);
    plant("pictures/text.png", png(b"tEXt", format!("Comment\0{plain}").as_bytes(), b""), PLACE);
    plant(
        "pictures/packed.png",
        png(b"zTXt", &[&b"Comment\0\0"[..], &zlib(plain.as_bytes())].concat(), b""),
        PLACE,
    );
    plant("pictures/camera.png", png(b"eXIf", &note, b""), camera);
    plant("pictures/behind.png", png(b"tEXt", b"a\0b", plain.as_bytes()), PLACE);
    let mut webp = b"RIFF\0\0\0\0WEBPEXIF".to_vec();
    webp.extend_from_slice(&(note.len() as u32).to_le_bytes());
    webp.extend_from_slice(&note);
    let length = webp.len() as u32 - 8;
    webp[4..8].copy_from_slice(&length.to_le_bytes());
    plant("pictures/camera.webp", webp, camera);
    // Names.
    plant(&format!("names/flake {e} {n}.txt"), b"nothing".to_vec(), PLACE);
    plant(&format!("names/OV {fe} {fn_}/notes.txt"), b"nothing".to_vec(), PLACE);
    plants
}
