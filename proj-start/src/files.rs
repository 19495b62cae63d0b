//! The only files PROJ can open: the grids that the binary carries, in memory.
//!
//! PROJ asks its *finder* where a file is before it opens it. The finder here installs, in the asking
//! context, functions for opening and reading that know no disk. (A context does not inherit them from
//! the default one, and a bare name would be tried in the current folder; hence this way round.)

use std::ffi::{CStr, c_char, c_int, c_longlong, c_ulonglong, c_void};
use std::io::{Cursor, Read, Seek, SeekFrom};
use std::ptr::{null, null_mut};
use std::sync::OnceLock;

use proj_sys::{PJ_CONTEXT, PROJ_FILE_API, PROJ_FILE_HANDLE, PROJ_OPEN_ACCESS, proj_context_set_fileapi};

use crate::Grid;

static GRIDS: OnceLock<&'static [Grid]> = OnceLock::new();

type Open = Cursor<&'static [u8]>;

const READ_ONLY: PROJ_OPEN_ACCESS = proj_sys::PROJ_OPEN_ACCESS_PROJ_OPEN_ACCESS_READ_ONLY;

/// Which grids there are.
pub fn carry(grids: &'static [Grid]) {
    // A second call keeps the first list.
    let _ = GRIDS.set(grids);
}

/// PROJ's finder: knows no place, but makes sure that the context opens nothing from disk.
///
/// # Safety
/// Called by PROJ with a live context.
pub unsafe extern "C" fn find(
    context: *mut PJ_CONTEXT,
    _name: *const c_char,
    _data: *mut c_void,
) -> *const c_char {
    let functions = PROJ_FILE_API {
        version: 1,
        open_cbk: Some(open),
        read_cbk: Some(read),
        write_cbk: Some(write),
        seek_cbk: Some(seek),
        tell_cbk: Some(tell),
        close_cbk: Some(close),
        exists_cbk: Some(exists),
        mkdir_cbk: Some(refuse),
        unlink_cbk: Some(refuse),
        rename_cbk: Some(refuse_two),
    };
    // SAFETY: PROJ hands over a live context and copies the functions out of the struct.
    unsafe { proj_context_set_fileapi(context, &functions, null_mut()) };
    null()
}

/// The bytes of the grid a path ends in, if the binary carries it.
///
/// # Safety
/// `path` is null or a null-terminated string.
unsafe fn grid(path: *const c_char) -> Option<&'static [u8]> {
    if path.is_null() {
        return None;
    }
    // SAFETY: not null; PROJ's paths are null-terminated.
    let path = unsafe { CStr::from_ptr(path) }.to_str().ok()?;
    let name = path.rsplit('/').next()?;
    GRIDS.get()?.iter().find(|(known, _)| *known == name).map(|(_, bytes)| *bytes)
}

unsafe extern "C" fn open(
    _context: *mut PJ_CONTEXT,
    path: *const c_char,
    access: PROJ_OPEN_ACCESS,
    _data: *mut c_void,
) -> *mut PROJ_FILE_HANDLE {
    // SAFETY: PROJ's paths are null-terminated.
    match unsafe { grid(path) } {
        Some(bytes) if access == READ_ONLY => Box::into_raw(Box::new(Open::new(bytes))).cast(),
        _ => null_mut(),
    }
}

unsafe extern "C" fn read(
    _context: *mut PJ_CONTEXT,
    file: *mut PROJ_FILE_HANDLE,
    buffer: *mut c_void,
    size: usize,
    _data: *mut c_void,
) -> usize {
    // SAFETY: `file` came from `open` and is not closed yet; PROJ's buffer holds `size` bytes.
    let (file, buffer) =
        unsafe { (&mut *file.cast::<Open>(), std::slice::from_raw_parts_mut(buffer.cast::<u8>(), size)) };
    file.read(buffer).unwrap_or(0)
}

unsafe extern "C" fn write(
    _context: *mut PJ_CONTEXT,
    _file: *mut PROJ_FILE_HANDLE,
    _buffer: *const c_void,
    _size: usize,
    _data: *mut c_void,
) -> usize {
    0
}

unsafe extern "C" fn seek(
    _context: *mut PJ_CONTEXT,
    file: *mut PROJ_FILE_HANDLE,
    offset: c_longlong,
    whence: c_int,
    _data: *mut c_void,
) -> c_int {
    // SAFETY: `file` came from `open` and is not closed yet.
    let file = unsafe { &mut *file.cast::<Open>() };
    // SEEK_SET, SEEK_CUR and SEEK_END of C.
    let to = match whence {
        0 => u64::try_from(offset).ok().map(SeekFrom::Start),
        1 => Some(SeekFrom::Current(offset)),
        2 => Some(SeekFrom::End(offset)),
        _ => None,
    };
    c_int::from(to.is_some_and(|to| file.seek(to).is_ok()))
}

unsafe extern "C" fn tell(
    _context: *mut PJ_CONTEXT,
    file: *mut PROJ_FILE_HANDLE,
    _data: *mut c_void,
) -> c_ulonglong {
    // SAFETY: `file` came from `open` and is not closed yet.
    unsafe { &*file.cast::<Open>() }.position()
}

unsafe extern "C" fn close(_context: *mut PJ_CONTEXT, file: *mut PROJ_FILE_HANDLE, _data: *mut c_void) {
    // SAFETY: `file` came from `open`, and PROJ closes it once.
    drop(unsafe { Box::from_raw(file.cast::<Open>()) });
}

unsafe extern "C" fn exists(_context: *mut PJ_CONTEXT, path: *const c_char, _data: *mut c_void) -> c_int {
    // SAFETY: PROJ's paths are null-terminated.
    c_int::from(unsafe { grid(path) }.is_some())
}

unsafe extern "C" fn refuse(_context: *mut PJ_CONTEXT, _path: *const c_char, _data: *mut c_void) -> c_int {
    0
}

unsafe extern "C" fn refuse_two(
    _context: *mut PJ_CONTEXT,
    _from: *const c_char,
    _to: *const c_char,
    _data: *mut c_void,
) -> c_int {
    0
}
