//! Paper, free of any machine and any file format: what is drawn, where it stands on the sheet, how it is styled.
//!
//! `mark`, `style`, `font` and `lettering` know only paper; `view`, `request`, `table`, `notes` are what the author of
//! a sheet writes; `layout` places it all; `ink` proves the result. Which sheets there are is for `sheets`.

pub mod cut_plate;
pub mod drafting;
pub mod font;
pub mod frame;
pub mod grid;
pub mod ink;
pub mod layout;
pub mod lettering;
pub mod mark;
pub mod notes;
pub mod own_block;
pub mod pencil;
pub mod projection_sign;
pub mod request;
pub mod sheet;
pub mod shown;
pub mod stroke;
pub mod stroke_letters;
pub mod style;
pub mod table;
pub mod title_block;
pub mod view;
