//! What was typed.
