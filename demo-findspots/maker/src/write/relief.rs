//! The relief as a small GeoTIFF in the British grid: whole half-metres, one pixel every 40 m.

use std::path::Path;

use gdal::raster::{Buffer, RasterCreationOptions};
use gdal::spatial_ref::SpatialRef;

use crate::raster::{COLUMNS, PIXEL_M, Place, ROWS, SOUTH_M, WEST_M};
use crate::terrain::Terrain;

const STEP: usize = 2;
const NO_HEIGHT: f32 = -9_999.0;

pub fn write(terrain: &Terrain, path: &Path) -> gdal::errors::Result<()> {
    let (columns, rows) = (COLUMNS / STEP, ROWS / STEP);
    let side = PIXEL_M * STEP as f64;
    let north = SOUTH_M + ROWS as f64 * PIXEL_M;
    let heights: Vec<f32> = (0..rows * columns)
        .map(|i| {
            let (column, row) = (i % columns, i / columns);
            let at = Place { x: WEST_M + (column as f64 + 0.5) * side, y: north - (row as f64 + 0.5) * side };
            let height = terrain.height.at(at);
            if terrain.shape.at(at) > 0.0 { (height * 2.0).round() as f32 / 2.0 } else { NO_HEIGHT }
        })
        .collect();
    let driver = gdal::DriverManager::get_driver_by_name("GTiff")?;
    let options = RasterCreationOptions::from_iter(["COMPRESS=DEFLATE", "PREDICTOR=3", "ZLEVEL=9"]);
    let mut tiff = driver.create_with_band_type_with_options::<f32, _>(path, columns, rows, 1, &options)?;
    tiff.set_geo_transform(&[WEST_M, side, 0.0, north, 0.0, -side])?;
    tiff.set_spatial_ref(&SpatialRef::from_epsg(27_700)?)?;
    let mut band = tiff.rasterband(1)?;
    band.set_no_data_value(Some(f64::from(NO_HEIGHT)))?;
    band.write((0, 0), (columns, rows), &mut Buffer::new((columns, rows), heights))?;
    tiff.close()
}
