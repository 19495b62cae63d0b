//! The start: what PROJ and GDAL may read, and say.

use std::sync::Once;

/// The notice that must travel with IGN's grid.
pub const NTF_LICENCE: &str = include_str!("../../docs/licences/NTF-RGF93.txt");

static STARTED: Once = Once::new();

/// Shift grids that the binary carries for PROJ: IGN's from NTF to RGF93 (`docs/licences`).
static GRIDS: &[proj_start::Grid] = &[("ntf_r93.gsb", include_bytes!("../../data/ntf_r93.gsb"))];

/// Points PROJ and GDAL at the data inside the binary and at nothing else, and keeps them from writing
/// on standard error themselves. Call it first thing in `main`, and in tests that convert or read
/// layers; only the first call does anything.
pub fn start() {
    STARTED.call_once(|| {
        proj_start::start(GRIDS);
        // GDAL sets search paths of its own on top of PROJ's; a folder that exists nowhere keeps it from
        // asking the environment. Its data files are not needed by any driver that is built in.
        for key in ["PROJ_DATA", "GDAL_DATA"] {
            // Fails only for a text with a null character.
            let _ = gdal::config::set_config_option(key, "/nonexistent/strew");
        }
        // What GDAL reports comes back as errors of its calls; its own lines would spoil the output.
        gdal::config::set_error_handler(|_, _, _| {});
    });
}
