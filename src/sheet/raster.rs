//! From the one SVG of a sheet to dots: PNG for screens, TIFF for journals.
//!
//! A sheet is drawn in bands of rows, so that a poster at 1,200 dots an inch never stands in memory whole. A
//! sheet in black alone is written in one channel: a third of the file, and what a journal asks of line art.

use std::io::{Cursor, Write as _};

use resvg::{tiny_skia, usvg};
use tiff::encoder::{Compression, Predictor, Rational, TiffEncoder, colortype};
use tiff::tags::{ResolutionUnit, Tag};

use super::Sheet;
use super::output::{broken, tree};
use crate::fault::{Fault, Result};

/// Dots of one band: 256 MB while it is drawn. A4 at 600 dots an inch is one.
const BAND: u32 = 1 << 26;

/// A drawn sheet's size in dots, ready to be drawn band by band.
struct Dots {
    tree: usvg::Tree,
    width: u32,
    height: u32,
    /// Rows of a band.
    rows: u32,
}

/// What a dot is written as.
#[derive(Clone, Copy, PartialEq)]
enum Channels {
    Grey,
    Colour,
}

impl Dots {
    fn of(sheet: &Sheet, dpi: u32) -> Result<Self> {
        if !(72..=1200).contains(&dpi) {
            return Err(Fault::new("sheet-dpi").with("value", dpi));
        }
        let dots = |mm: f64| (mm / 25.4 * f64::from(dpi)).round().max(1.0) as u32;
        let (width, height) = (dots(sheet.width_mm), dots(sheet.height_mm));
        Ok(Self { tree: tree(sheet)?, width, height, rows: (BAND / width).clamp(1, height) })
    }

    /// Draws the band that begins at a row, on white, and gives its dots; `None` when they are to be grey and
    /// one is not.
    fn band(&self, from: u32, channels: Channels) -> Result<Option<Vec<u8>>> {
        let rows = self.rows.min(self.height - from);
        let mut picture = tiny_skia::Pixmap::new(self.width, rows).ok_or_else(|| broken(&"no size"))?;
        picture.fill(tiny_skia::Color::WHITE);
        let (across, down) =
            (self.width as f32 / self.tree.size().width(), self.height as f32 / self.tree.size().height());
        let place = tiny_skia::Transform::from_row(across, 0.0, 0.0, down, 0.0, -(from as f32));
        resvg::render(&self.tree, place, &mut picture.as_mut());
        // White under everything leaves no transparency.
        let dots = picture.data().chunks_exact(4);
        Ok(match channels {
            Channels::Colour => Some(dots.flat_map(|dot| [dot[0], dot[1], dot[2]]).collect()),
            Channels::Grey => {
                dots.map(|dot| (dot[0] == dot[1] && dot[1] == dot[2]).then_some(dot[0])).collect()
            }
        })
    }

    /// Hands every band to `write`, from the top. `Ok(false)` when the sheet is not grey and was to be.
    fn each(&self, channels: Channels, mut write: impl FnMut(&[u8]) -> Result<()>) -> Result<bool> {
        let mut from = 0;
        while from < self.height {
            let Some(band) = self.band(from, channels)? else { return Ok(false) };
            write(&band)?;
            from += self.rows;
        }
        Ok(true)
    }

    /// Writes in grey where every dot is grey, otherwise in colour.
    fn written(&self, mut write: impl FnMut(Channels) -> Result<Option<Vec<u8>>>) -> Result<Vec<u8>> {
        for channels in [Channels::Grey, Channels::Colour] {
            if let Some(bytes) = write(channels)? {
                return Ok(bytes);
            }
        }
        Err(broken(&"no dots"))
    }
}

/// A sheet as PNG on white, its size in dots an inch (72 to 1,200) noted inside.
pub fn png(sheet: &Sheet, dpi: u32) -> Result<Vec<u8>> {
    let dots = Dots::of(sheet, dpi)?;
    let per_metre = (f64::from(dpi) / 0.0254).round() as u32;
    dots.written(|channels| {
        let mut out = Vec::new();
        let mut encoder = png::Encoder::new(&mut out, dots.width, dots.height);
        encoder.set_color(if channels == Channels::Grey {
            png::ColorType::Grayscale
        } else {
            png::ColorType::Rgb
        });
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_compression(png::Compression::Fast);
        encoder.set_pixel_dims(Some(png::PixelDimensions {
            xppu: per_metre,
            yppu: per_metre,
            unit: png::Unit::Meter,
        }));
        let mut writer = encoder.write_header().map_err(|e| broken(&e))?;
        let mut stream = writer.stream_writer().map_err(|e| broken(&e))?;
        let whole = dots.each(channels, |band| stream.write_all(band).map_err(|e| broken(&e)))?;
        if !whole {
            return Ok(None);
        }
        stream.finish().map_err(|e| broken(&e))?;
        writer.finish().map_err(|e| broken(&e))?;
        Ok(Some(out))
    })
}

/// A sheet as TIFF (revision 6.0) on white, packed without loss (LZW), its dots an inch (72 to 1,200) noted
/// inside: what journals ask of line art.
pub fn tiff(sheet: &Sheet, dpi: u32) -> Result<Vec<u8>> {
    let dots = Dots::of(sheet, dpi)?;
    dots.written(|channels| match channels {
        Channels::Grey => tiff_of::<colortype::Gray8>(&dots, sheet, dpi, channels),
        Channels::Colour => tiff_of::<colortype::RGB8>(&dots, sheet, dpi, channels),
    })
}

fn tiff_of<C>(dots: &Dots, sheet: &Sheet, dpi: u32, channels: Channels) -> Result<Option<Vec<u8>>>
where
    C: colortype::ColorType<Inner = u8>,
{
    let mut out = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::new(&mut out)
        .map_err(|e| broken(&e))?
        .with_compression(Compression::Lzw)
        .with_predictor(Predictor::Horizontal);
    let mut image = encoder.new_image::<C>(dots.width, dots.height).map_err(|e| broken(&e))?;
    image.resolution(ResolutionUnit::Inch, Rational { n: dpi, d: 1 });
    // Tags hold ASCII alone (TIFF 6.0, section 2).
    let title: String = sheet.title.chars().map(|c| if c.is_ascii() { c } else { '?' }).collect();
    image.encoder().write_tag(Tag::ImageDescription, title.as_str()).map_err(|e| broken(&e))?;
    // Whole: strip by strip the library (0.11.3) would write the dots unpacked and say that they are packed.
    let mut all = Vec::new();
    let whole = dots.each(channels, |band| {
        all.extend_from_slice(band);
        Ok(())
    })?;
    if !whole {
        return Ok(None);
    }
    image.write_data(&all).map_err(|e| broken(&e))?;
    Ok(Some(out.into_inner()))
}

#[cfg(test)]
mod tests {
    use super::{Channels, Dots, png, tiff};
    use crate::sheet::Sheet;

    fn sheet(ink: &str) -> Sheet {
        let shapes: String = (0..40)
            .map(|i| format!(r#"<circle cx="{}" cy="{}" r="37" fill="{ink}"/>"#, 50 + i * 53, 60 + i * 97))
            .collect();
        Sheet {
            name: "s".to_owned(),
            title: "Marées".to_owned(),
            description: String::new(),
            width_mm: 25.0,
            height_mm: 40.0,
            svg: format!(
                r#"<svg xmlns="http://www.w3.org/2000/svg" width="25mm" height="40mm" viewBox="0 0 2500 4000">{shapes}</svg>"#
            ),
            placed: Vec::new(),
            maps: Vec::new(),
        }
    }

    /// Bands must meet without a seam: the slow way draws the sheet whole. Moved by whole rows, an edge that ends
    /// within a dot may be rounded the other way: one in a hundred may differ by
    /// a quarter.
    #[test]
    fn bands_join_to_the_whole() {
        let mut dots = Dots::of(&sheet("#8A4A22"), 300).unwrap();
        assert_eq!(dots.rows, dots.height);
        let whole = dots.band(0, Channels::Colour).unwrap().unwrap();
        for rows in [7, 100, dots.height - 1] {
            dots.rows = rows;
            let mut joined = Vec::new();
            assert!(
                dots.each(Channels::Colour, |band| {
                    joined.extend_from_slice(band);
                    Ok(())
                })
                .unwrap()
            );
            let apart: Vec<u8> =
                joined.iter().zip(&whole).map(|(a, b)| a.abs_diff(*b)).filter(|n| *n > 0).collect();
            let most = apart.iter().max().copied().unwrap_or_default();
            assert_eq!(joined.len(), whole.len());
            let told = format!("bands of {rows} rows: {} of {} differ, by {most}", apart.len(), whole.len());
            assert!(most <= 64 && apart.len() * 100 <= whole.len(), "{told}");
        }
    }

    #[test]
    fn a_sheet_in_black_alone_has_one_channel() {
        use tiff::decoder::{Decoder, DecodingResult};
        for (ink, colour) in [("#000000", tiff::ColorType::Gray(8)), ("#8A4A22", tiff::ColorType::RGB(8))] {
            let bytes = tiff(&sheet(ink), 600).unwrap();
            assert_eq!(bytes, tiff(&sheet(ink), 600).unwrap(), "the same bytes each run");
            let mut read = Decoder::new(std::io::Cursor::new(&bytes)).unwrap();
            assert_eq!(read.dimensions().unwrap(), (591, 945));
            assert_eq!(read.colortype().unwrap(), colour);
            let dpi = read.get_tag(tiff::tags::Tag::XResolution).unwrap();
            assert_eq!(dpi.into_u32_vec().unwrap(), [600, 1]);
            let DecodingResult::U8(dots) = read.read_image().unwrap() else { panic!("not bytes") };
            // The same dots as the PNG.
            let png = png(&sheet(ink), 600).unwrap();
            let mut reader = png::Decoder::new(std::io::Cursor::new(&png)).read_info().unwrap();
            let mut other = vec![0; reader.output_buffer_size().unwrap()];
            reader.next_frame(&mut other).unwrap();
            assert!(
                dots == other
                    && bytes.len() * 4 < dots.len()
                    && dots.contains(&0xff)
                    && dots.iter().any(|dot| *dot < 0x40)
            );
        }
    }
}
