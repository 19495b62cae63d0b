//! GeoPackage through GDAL, in the working grid.

use std::sync::atomic::{AtomicU64, Ordering};

use gdal::spatial_ref::SpatialRef;
use gdal::vector::{Feature, LayerAccess as _, LayerOptions, OGRFieldType, OGRwkbGeometryType, ToGdal as _};
use gdal::{Dataset, DriverManager, Metadata as _};

use super::Contents;
use super::records::{Datum, Kind, Record, Records};
use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::units::Date;

/// The records as one GeoPackage: a layer each, those without any shape as a table of attributes.
pub(super) fn write(all: &[Records], contents: &Contents<'_>) -> Result<Vec<u8>> {
    let failed =
        |why: gdal::errors::GdalError| Fault::new("pack-layer").with("name", "GeoPackage").with("why", why);
    // A GeoPackage states when it was last changed; no clock is read, so it is the study's own date.
    let stamp = format!("{}T00:00:00.000Z", stated_date(contents));
    gdal::config::set_thread_local_config_option("OGR_CURRENT_DATE", &stamp).map_err(failed)?;
    let path = in_memory("gpkg");
    let written = fill(&path, all, contents).map_err(failed);
    let cleared = gdal::config::clear_thread_local_config_option("OGR_CURRENT_DATE").map_err(failed);
    let bytes = written.and_then(|()| gdal::vsi::get_vsi_mem_file_bytes_owned(&path).map_err(failed));
    if bytes.is_err() {
        // Best done, not needed: the memory goes with the process.
        let _ = gdal::vsi::unlink_mem_file(&path);
    }
    cleared?;
    bytes
}

/// The date that files carry: the study's, or a constant.
pub(super) fn stated_date(contents: &Contents<'_>) -> Date {
    contents.study.date.unwrap_or(Date { year: 2000, month: 1, day: 1 })
}

/// A name in GDAL's memory that nothing else uses. It does not enter the file.
pub(super) fn in_memory(ending: &str) -> String {
    static NEXT: AtomicU64 = AtomicU64::new(0);
    format!("/vsimem/strew-pack-{}.{ending}", NEXT.fetch_add(1, Ordering::Relaxed))
}

/// The working grid as GDAL knows it.
pub(super) fn spatial_ref(grid: &System) -> gdal::errors::Result<SpatialRef> {
    match (grid, grid.epsg()) {
        (System::Stated(text), _) => SpatialRef::from_definition(text),
        (_, Some(code)) => SpatialRef::from_epsg(code),
        (other, None) => SpatialRef::from_definition(&other.to_string()),
    }
}

fn fill(path: &str, all: &[Records], contents: &Contents<'_>) -> gdal::errors::Result<()> {
    let driver = DriverManager::get_driver_by_name("GPKG")?;
    let mut dataset = driver.create_vector_only(path)?;
    let grid = spatial_ref(&contents.study.grid)?;
    if let Some(mark) = contents.handling() {
        dataset.set_metadata_item("HANDLING", &mark, "")?;
    }
    dataset.set_metadata_item("TITLE", &contents.study.title, "")?;
    for records in all {
        let transaction = dataset.start_transaction()?;
        add_layer(transaction, records, contents, &grid)?;
    }
    dataset.close()
}

fn add_layer(
    mut transaction: gdal::vector::Transaction<'_>,
    records: &Records,
    contents: &Contents<'_>,
    grid: &SpatialRef,
) -> gdal::errors::Result<()> {
    let shaped = records.rows.iter().any(|row| row.shape.is_some()) || records.rows.is_empty();
    let description = match contents.handling() {
        Some(mark) => format!("DESCRIPTION={mark}. {}", records.caution),
        None => format!("DESCRIPTION={}", records.caution),
    };
    let identifier = format!("IDENTIFIER={}", records.title);
    let dataset: &mut Dataset = &mut transaction;
    let layer = dataset.create_layer(LayerOptions {
        name: records.name,
        srs: shaped.then_some(grid),
        ty: if shaped { OGRwkbGeometryType::wkbMultiPolygon } else { OGRwkbGeometryType::wkbNone },
        options: Some(&[&identifier, &description]),
    })?;
    let fields: Vec<_> = records
        .columns
        .iter()
        .map(|column| {
            let kind = match column.kind {
                Kind::Text => OGRFieldType::OFTString,
                Kind::Whole => OGRFieldType::OFTInteger64,
                Kind::Real => OGRFieldType::OFTReal,
            };
            (column.name, kind)
        })
        .collect();
    layer.create_defn_fields(&fields)?;
    for row in &records.rows {
        add_feature(&layer, row)?;
    }
    transaction.commit()
}

fn add_feature(layer: &gdal::vector::Layer<'_>, row: &Record) -> gdal::errors::Result<()> {
    let mut feature = Feature::new(layer.defn())?;
    for (index, value) in row.values.iter().enumerate() {
        match value {
            Datum::Nothing => feature.set_field_null(index)?,
            // GDAL takes text up to the first null character; a register's text may hold one.
            Datum::Text(text) => feature.set_field_string(index, &text.replace('\0', ""))?,
            Datum::Whole(n) => feature.set_field_integer64(index, *n)?,
            Datum::Real(n, decimals) => {
                let scale = 10f64.powi(*decimals as i32);
                feature.set_field_double(index, (n * scale).round() / scale)?;
            }
        }
    }
    if let Some(shape) = &row.shape {
        feature.set_geometry(shape.to_gdal()?)?;
    }
    feature.create(layer)
}
