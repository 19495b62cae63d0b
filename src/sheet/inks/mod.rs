//! The inks of the styles: how they were made, and what they are held to. Tests alone; a sheet only reads the
//! colours that stand in `styles/`.
//!
//! ```text
//! sight  how far apart two colours look
//! made   the ramps and the inks of the periods, made anew and compared with the styles
//! held   what every style must do: be told apart by everyone, and be read
//! ```

mod held;
mod made;
mod sight;
