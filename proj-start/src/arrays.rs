//! Long arrays of places through one operation of PROJ's, in place: the safe library copies each place into a
//! structure of PROJ's and back, which takes as long as a good part of a projection.

use std::ffi::CString;
use std::mem::size_of;
use std::ptr::null_mut;

use proj_sys::{
    PJ, PJ_CONTEXT, PJ_DIRECTION_PJ_FWD, proj_context_create, proj_context_destroy, proj_create_crs_to_crs,
    proj_destroy, proj_errno, proj_errno_reset, proj_normalize_for_visualization, proj_trans_generic,
};

/// PROJ's way between two systems, east before north. Stays on the thread that made it.
pub struct Arrays {
    context: *mut PJ_CONTEXT,
    way: *mut PJ,
}

impl Arrays {
    /// The way that PROJ takes between two systems; `None` where there is none.
    pub fn new(from: &str, to: &str) -> Option<Self> {
        let (from, to) = (CString::new(from).ok()?, CString::new(to).ok()?);
        // SAFETY: the strings live through the call; each object is checked for null and destroyed once, the
        // stale one here and the others in `drop`.
        unsafe {
            let context = proj_context_create();
            let mut arrays = Self { context, way: null_mut() };
            let raw = proj_create_crs_to_crs(context, from.as_ptr(), to.as_ptr(), null_mut());
            if !raw.is_null() {
                arrays.way = proj_normalize_for_visualization(context, raw);
                proj_destroy(raw);
            }
            (!arrays.way.is_null()).then_some(arrays)
        }
    }

    /// Carries all places in place. Answers whether every one was carried; where not, what the arrays hold
    /// is not to be used.
    pub fn carry(&self, xs: &mut [f64], ys: &mut [f64]) -> bool {
        let count = xs.len();
        if count != ys.len() {
            return false;
        }
        let stride = size_of::<f64>();
        // SAFETY: both arrays hold `count` numbers a stride apart, which PROJ reads and writes and nothing
        // else; heights and times are absent, with counts of zero.
        unsafe {
            proj_errno_reset(self.way);
            let carried = proj_trans_generic(
                self.way,
                PJ_DIRECTION_PJ_FWD,
                xs.as_mut_ptr(),
                stride,
                count,
                ys.as_mut_ptr(),
                stride,
                count,
                null_mut(),
                0,
                0,
                null_mut(),
                0,
                0,
            );
            carried == count && proj_errno(self.way) == 0
        }
    }
}

impl Drop for Arrays {
    fn drop(&mut self) {
        // SAFETY: made in `new`, used on one thread, destroyed here alone; PROJ takes null.
        unsafe {
            proj_destroy(self.way);
            proj_context_destroy(self.context);
        }
    }
}
