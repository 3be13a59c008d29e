//! Paper, free of any file format: what is drawn, where it stands on the sheet, and how it is styled.
//!
//! `mark`, `style` know only paper; `view`, `request`, `table`, `notes` are what a sheet author writes;
//! `layout` places it all; `ink` proves the result; `sheets/` holds one file a sheet.

pub mod cut_plate;
pub mod cutting;
pub mod drafting;
pub mod frame;
pub mod grid;
pub mod ink;
pub mod layout;
pub mod lettering;
pub mod mark;
pub mod notes;
pub mod number;
pub mod own_block;
pub mod pencil;
pub mod request;
pub mod retold;
pub mod sheet;
pub mod sheets;
pub mod stroke;
pub mod stroke_letters;
pub mod style;
pub mod table;
pub mod title_block;
pub mod view;
pub mod words;
