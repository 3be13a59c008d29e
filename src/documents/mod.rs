//! Paper, free of any file format: what is drawn, where it stands on the sheet, and how it is styled.
//!
//! `mark`, `style` know only paper; `view`, `dimension`, `sheet` place things; `sheets/` holds one file a sheet.

pub mod mark;
pub mod style;
