//! How the user wants the drawings: formats, file version, layers, title block.
//!
//! In: arguments of the command line and the files that they name. Out: a [`Wish`].

use super::input;
use crate::export::{self, CadVersion, layers::LayerMap};
use crate::files::{Format, Wish};
use crate::paper::own_block::OwnBlock;
use crate::sheets::SheetSet;
use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// The formats' names with what each is for, and the format behind a name.
fn formats() -> impl TypedValueParser<Value = Format> {
    PossibleValuesParser::new(Format::all().map(|format| PossibleValue::new(format.id()).help(format.about())))
        .try_map(|id| Format::all().find(|format| format.id() == id).ok_or("no such format"))
}

/// File version of DXF and DWG.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Version {
    /// AC1015
    R2000,
    /// AC1024
    R2010,
    /// AC1027
    R2013,
    /// AC1032
    R2018,
}

impl Version {
    const fn cad(self) -> CadVersion {
        match self {
            Version::R2000 => CadVersion::R2000,
            Version::R2010 => CadVersion::R2010,
            Version::R2013 => CadVersion::R2013,
            Version::R2018 => CadVersion::R2018,
        }
    }
}

/// A part of the whole set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Only {
    /// For the civil engineer: pit sheets, checks of the pit, loads and quantities
    Pit,
}

/// How drawings are written.
#[derive(Debug, Clone, Args)]
pub struct DrawingOptions {
    /// Formats of the drawings, and of the model
    #[arg(short, long, value_parser = formats(), value_delimiter = ',', default_value = "dxf,svg,pdf")]
    pub formats: Vec<Format>,
    /// File version of DXF and DWG
    #[arg(long, value_enum, default_value_t = Version::R2010, value_name = "VERSION")]
    pub cad_version: Version,
    /// Layer names: "own", "iso13567", or a TOML file that maps our layers to yours
    #[arg(long, default_value = "own", value_name = "NAME|FILE")]
    pub layers: String,
    /// DXF of your own title block, 1:1 mm or inches, with {NUMBER}, {TITLE}, {SHEET} … as texts (footwell explain --page lists them)
    #[arg(long, value_name = "FILE")]
    pub title_block: Option<PathBuf>,
    /// Only a part of the set
    #[arg(long, value_enum, value_name = "SET")]
    pub only: Option<Only>,
}

impl DrawingOptions {
    /// What these arguments ask for; `stem` names files of the whole set.
    ///
    /// # Errors
    /// A plain sentence when a title block or a layer table cannot be read or used.
    pub fn wish(&self, stem: &str) -> Result<Wish, String> {
        let asked = |format: &Format| self.formats.iter().any(|wanted| wanted.id() == format.id());
        let model = asked(&Format::Model);
        if model && self.only.is_some() {
            return Err("step is a model of the whole foot: leave --only out, or step".into());
        }
        let drawings = |format: Format| if let Format::Drawings(exporter) = format { Some(exporter) } else { None };
        Ok(Wish {
            set: match self.only {
                Some(Only::Pit) => SheetSet::Civil,
                None => SheetSet::Whole,
            },
            formats: Format::all().filter(asked).filter_map(drawings).collect(),
            model,
            options: export::Options { version: self.cad_version.cad(), layers: layer_map(&self.layers)?, set_stem: stem.into(), ..export::Options::default() },
            own_block: self.title_block.as_deref().map(own_block).transpose()?,
        })
    }
}

fn own_block(path: &Path) -> Result<OwnBlock, String> {
    let name = path.display();
    let bytes = input::bytes(path, input::LARGEST_DRAWING).map_err(|why| format!("title block: {why}"))?;
    let foreign = export::foreign::read(&bytes).map_err(|why| format!("{name}: {why}"))?;
    if let Some((kind, n)) = foreign.left_out.iter().next() {
        return Err(format!("{name}: {n} × {kind} cannot be drawn; explode it to lines, arcs, circles, polylines and single-line texts"));
    }
    // What no sheet could hold is a fault of the block, and said before it stands on one.
    export::preflight::fit(&foreign.marks).map_err(|why| format!("{name}: {why}"))?;
    let (low, high) = foreign.extent().ok_or_else(|| format!("{name}: it has no lines"))?;
    OwnBlock::new(foreign.marks, foreign.fields, low, high).map_err(|why| format!("{name}: {why}"))
}

fn layer_map(name: &str) -> Result<LayerMap, String> {
    match name {
        "own" => Ok(LayerMap::own()),
        "iso13567" => LayerMap::iso_13567().map_err(|why| why.to_string()),
        file => {
            let text = input::text(Path::new(file)).map_err(|why| format!("layer table: {why}; write own, iso13567 or the path of a TOML file"))?;
            LayerMap::parse(&text).map_err(|why| format!("{file}: {why}"))
        }
    }
}
