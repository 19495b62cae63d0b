//! A value that only `check` and the register's owner may see.

use std::fmt;

/// Something that can hold an exact place. It prints as "withheld", and has no way out but
/// [`Private::show_owner`], which a test allows in `run/check.rs`, `run/new.rs` and `exact/` alone.
pub struct Private<T>(T);

impl<T> Private<T> {
    pub(in crate::exact) fn new(value: T) -> Self {
        Self(value)
    }

    /// The value, for the register's owner at his own terminal.
    pub fn show_owner(&self) -> &T {
        &self.0
    }
}

impl<T> fmt::Debug for Private<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}
