//! Makes PROJ read nothing but what the binary carries, whatever lies about on the machine.
//!
//! Left alone, PROJ takes a `proj.db`, `proj.ini` or shift grid from the current folder, a folder of
//! the user, `../share/proj` or `PROJ_DATA` before the copy inside itself, and a stray old file then
//! breaks or, worse, quietly changes every conversion. [`start`] closes all of these ways for the
//! default context, of which every later context (this program's and GDAL's, on any thread) is a copy.
//!
//! This is the only crate of the program with `unsafe` code.

#![warn(missing_docs)]

mod arrays;
mod files;
mod finer;

use std::ffi::{c_char, c_int, c_void};
use std::ptr::{null, null_mut};
use std::sync::Once;

use proj_sys::{
    proj_context_set_database_path, proj_context_set_enable_network, proj_context_set_file_finder,
    proj_context_set_search_paths, proj_grid_cache_set_enable, proj_log_func,
};

pub use arrays::Arrays;
pub use finer::{Finer, finer};

/// A shift grid that the binary carries: its file name as PROJ asks for it, and its bytes.
pub type Grid = (&'static str, &'static [u8]);

/// PROJ's own name for the database compiled into it.
const DATABASE: &std::ffi::CStr = c"__embedded_proj_db__";

/// A folder that exists nowhere: with a search path set, PROJ asks neither the environment nor the
/// folders of the user.
const NOWHERE: &std::ffi::CStr = c"/nonexistent/strew";

/// Variables that would steer PROJ or GDAL from outside.
const STEERING: [&str; 5] = ["PROJ", "GDAL_", "OSR_", "OGR_", "CPL_"];

static STARTED: Once = Once::new();

/// Fixes where PROJ looks: the database inside it, `grids`, and nothing else. Answers whether PROJ
/// took it. Only the first call does anything.
///
/// Call it first thing in `main`, while the program has one thread.
pub fn start(grids: &'static [Grid]) -> bool {
    STARTED.call_once(|| {
        files::carry(grids);
        forget_environment();
        fix_default_context();
    });
    database_is_embedded()
}

/// Takes out of the environment what would steer PROJ and GDAL. Nothing is touched (so that no race
/// is possible) when, as nearly always, nothing of the kind is set.
fn forget_environment() {
    let names: Vec<_> = std::env::vars_os()
        .map(|(name, _)| name)
        .filter(|name| {
            let name = name.to_string_lossy();
            STEERING.iter().any(|front| name.starts_with(front))
        })
        .collect();
    for name in names {
        // SAFETY: called once, at the start of `main`, before the program has a second thread.
        unsafe { std::env::remove_var(name) };
    }
}

fn fix_default_context() {
    let paths = [NOWHERE.as_ptr()];
    // SAFETY: a null context means the default one; all strings are static and null-terminated, the
    // functions given are `extern "C"` of the asked signature and live as long as the program.
    unsafe {
        proj_log_func(null_mut(), null_mut(), Some(say_nothing));
        proj_context_set_search_paths(null_mut(), 1, paths.as_ptr());
        proj_context_set_file_finder(null_mut(), Some(files::find), null_mut());
        proj_context_set_database_path(null_mut(), DATABASE.as_ptr(), null(), null());
        // Reads `proj.ini` (none, by now) once for all later contexts, and shuts the network.
        proj_context_set_enable_network(null_mut(), 0);
        proj_grid_cache_set_enable(null_mut(), 0);
    }
}

/// PROJ's own lines on standard error would spoil the output; what it reports comes back as errors.
unsafe extern "C" fn say_nothing(_data: *mut c_void, _level: c_int, _text: *const c_char) {}

fn database_is_embedded() -> bool {
    // SAFETY: a null context means the default one; PROJ answers a string that lives as long as the
    // context does, or null.
    let path = unsafe { proj_sys::proj_context_get_database_path(null_mut()) };
    // SAFETY: checked for null; see above.
    !path.is_null()
        && unsafe { std::ffi::CStr::from_ptr(path) }.to_bytes().starts_with(b"file:/proj.db?immutable")
        || (!path.is_null()
            // SAFETY: checked for null; see above.
            && unsafe { std::ffi::CStr::from_ptr(path) } == DATABASE)
}
