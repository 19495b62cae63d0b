//! What each command does, as a short list of steps.
