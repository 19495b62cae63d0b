//! The density surface as GeoTIFF through GDAL, in the working grid.

use gdal::raster::{Buffer, RasterCreationOptions};
use gdal::{DriverManager, Metadata as _};

use super::geopackage::{in_memory, spatial_ref};
use super::{Contents, facts};
use crate::analyse::Surface;
use crate::fault::{Fault, Result};
use crate::words::Words;

/// What a pixel outside the window holds.
const NO_DATA: f32 = -1.0;

/// Pieces per hectare as 32-bit numbers, north at the top. Four significant figures are kept: the
/// estimate is good to two, and digits beyond would only tell how the pieces lie.
pub(super) fn density(surface: &Surface, contents: &Contents<'_>) -> Result<Vec<u8>> {
    let failed =
        |why: gdal::errors::GdalError| Fault::new("pack-layer").with("name", "density.tif").with("why", why);
    let path = in_memory("tif");
    let written = fill(&path, surface, contents).map_err(failed);
    let bytes = written.and_then(|()| gdal::vsi::get_vsi_mem_file_bytes_owned(&path).map_err(failed));
    if bytes.is_err() {
        // Best done, not needed: the memory goes with the process.
        let _ = gdal::vsi::unlink_mem_file(&path);
    }
    bytes
}

fn fill(path: &str, surface: &Surface, contents: &Contents<'_>) -> gdal::errors::Result<()> {
    let words = Words::of(contents.study.language);
    let driver = DriverManager::get_driver_by_name("GTiff")?;
    let options = RasterCreationOptions::from_iter(["COMPRESS=DEFLATE", "PREDICTOR=3", "TILED=YES"]);
    let mut dataset = driver.create_with_band_type_with_options::<f32, _>(
        path,
        surface.columns,
        surface.rows,
        1,
        &options,
    )?;
    let north_m = surface.south_m + surface.rows as f64 * surface.pixel_m;
    dataset.set_geo_transform(&[surface.west_m, surface.pixel_m, 0.0, north_m, 0.0, -surface.pixel_m])?;
    dataset.set_spatial_ref(&spatial_ref(&contents.study.grid)?)?;
    let mut items =
        vec![("TITLE", contents.study.title.clone()), ("CAUTION", words.say("pack-density-caution"))];
    items.extend(facts::surface(surface, contents));
    if let Some(mark) = contents.handling() {
        items.push(("HANDLING", mark));
    }
    for (key, value) in &items {
        dataset.set_metadata_item(key, value, "")?;
    }
    let mut band = dataset.rasterband(1)?;
    band.set_no_data_value(Some(f64::from(NO_DATA)))?;
    band.set_description(&words.say("pack-density-band"))?;
    let mut values = Vec::with_capacity(surface.columns * surface.rows);
    for row in (0..surface.rows).rev() {
        for column in 0..surface.columns {
            let index = row * surface.columns + column;
            let inside = surface.inside.get(index).is_some_and(|share| *share > 0.0);
            let value = surface.per_hectare.get(index).copied().unwrap_or_default();
            values.push(if inside { four_figures(value) } else { NO_DATA });
        }
    }
    band.write(
        (0, 0),
        (surface.columns, surface.rows),
        &mut Buffer::new((surface.columns, surface.rows), values),
    )?;
    dataset.close()
}

fn four_figures(value: f64) -> f32 {
    if value <= 0.0 || !value.is_finite() {
        return 0.0;
    }
    let scale = 10f64.powi(3 - value.log10().floor() as i32);
    ((value * scale).round() / scale) as f32
}
