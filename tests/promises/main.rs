//! What the program promises, one module a promise.

mod sheets;
