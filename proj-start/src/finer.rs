//! Operations that PROJ knows of and cannot carry out, because they need a shift grid that is not here.

use std::ffi::{CStr, CString, c_char, c_int};
use std::ptr::{null, null_mut};

use proj_sys::{
    PJ, PJ_CONTEXT, PJ_OBJ_LIST, proj_context_create, proj_context_destroy, proj_coordoperation_get_accuracy,
    proj_coordoperation_get_grid_used, proj_coordoperation_get_grid_used_count, proj_create,
    proj_create_operation_factory_context, proj_create_operations, proj_destroy, proj_list_destroy,
    proj_list_get, proj_list_get_count, proj_operation_factory_context_destroy,
    proj_operation_factory_context_set_allow_ballpark_transformations,
    proj_operation_factory_context_set_grid_availability_use,
    proj_operation_factory_context_set_spatial_criterion,
};

/// The most accurate of the operations between two systems that need a grid which is not carried.
#[derive(Debug, Clone, PartialEq)]
pub struct Finer {
    /// The grid's file name.
    pub grid: String,
    /// Published accuracy, metres.
    pub accuracy_m: f64,
}

/// Looks for such operations; `None` where there are none (or a system is unknown).
///
/// An operation may serve a part of the systems' common area alone.
pub fn finer(from: &str, to: &str) -> Option<Finer> {
    let (from, to) = (CString::new(from).ok()?, CString::new(to).ok()?);
    // SAFETY: the context and all objects made from it are used on this thread alone and destroyed below,
    // after their last use, once each; PROJ accepts null where an object could not be made in `destroy`
    // functions, and every pointer is checked before another use.
    unsafe {
        let context = proj_context_create();
        let (source, target) = (proj_create(context, from.as_ptr()), proj_create(context, to.as_ptr()));
        let mut best = None;
        if !source.is_null() && !target.is_null() {
            best = among(context, source, target);
        }
        proj_destroy(source);
        proj_destroy(target);
        proj_context_destroy(context);
        best
    }
}

/// # Safety
/// All three live.
unsafe fn among(context: *mut PJ_CONTEXT, source: *const PJ, target: *const PJ) -> Option<Finer> {
    // SAFETY: as the caller's; the factory and the list are destroyed after their last use.
    unsafe {
        let factory = proj_create_operation_factory_context(context, null());
        if factory.is_null() {
            return None;
        }
        proj_operation_factory_context_set_grid_availability_use(
            context,
            factory,
            proj_sys::PROJ_GRID_AVAILABILITY_USE_PROJ_GRID_AVAILABILITY_IGNORED,
        );
        proj_operation_factory_context_set_spatial_criterion(
            context,
            factory,
            proj_sys::PROJ_SPATIAL_CRITERION_PROJ_SPATIAL_CRITERION_PARTIAL_INTERSECTION,
        );
        proj_operation_factory_context_set_allow_ballpark_transformations(context, factory, 0);
        let list = proj_create_operations(context, source, target, factory);
        let best = if list.is_null() { None } else { best(context, list) };
        proj_list_destroy(list);
        proj_operation_factory_context_destroy(factory);
        best
    }
}

/// # Safety
/// Both live.
unsafe fn best(context: *mut PJ_CONTEXT, list: *const PJ_OBJ_LIST) -> Option<Finer> {
    let mut best: Option<Finer> = None;
    // SAFETY: indices lie within the list; each operation is destroyed after its last use.
    unsafe {
        for index in 0..proj_list_get_count(list) {
            let operation = proj_list_get(context, list, index);
            if operation.is_null() {
                continue;
            }
            let accuracy_m = proj_coordoperation_get_accuracy(context, operation);
            let finer = best.as_ref().is_none_or(|best| accuracy_m < best.accuracy_m);
            if accuracy_m >= 0.0
                && finer
                && let Some(grid) = missing_grid(context, operation)
            {
                best = Some(Finer { grid, accuracy_m });
            }
            proj_destroy(operation);
        }
    }
    best
}

/// The first grid of an operation that is not here.
///
/// # Safety
/// Both live.
unsafe fn missing_grid(context: *mut PJ_CONTEXT, operation: *const PJ) -> Option<String> {
    // SAFETY: PROJ fills in the two places given, the name with a string that lives as long as the operation,
    // and takes null for what is not asked.
    unsafe {
        for index in 0..proj_coordoperation_get_grid_used_count(context, operation) {
            let (mut name, mut available): (*const c_char, c_int) = (null(), 1);
            let known = proj_coordoperation_get_grid_used(
                context,
                operation,
                index,
                &mut name,
                null_mut(),
                null_mut(),
                null_mut(),
                null_mut(),
                null_mut(),
                &mut available,
            );
            if known != 0 && available == 0 && !name.is_null() {
                return Some(CStr::from_ptr(name).to_string_lossy().into_owned());
            }
        }
    }
    None
}
