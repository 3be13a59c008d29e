//! The drawings of a job as files: sheets laid out, then written in every format asked for.
//!
//! In: a prepared job, formats, options. Out: files with their paths in the output folder, and the
//! titles for the report's links. A conflict left in the ink of a sheet is a defect of the program
//! and comes back as a sentence; the sheet is drawn all the same.

use super::folder::OutputFile;
use super::job::Job;
use crate::export::{self, CadVersion, Page, layers::LayerMap};
use crate::paper::ink::DefectKind;
use crate::paper::own_block::OwnBlock;
use crate::report::html::SheetLink;
use crate::sheets;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// A file format of the drawings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, ValueEnum)]
pub enum Format {
    /// One DXF a sheet
    Dxf,
    /// One SVG a sheet
    Svg,
    /// One PDF for the whole set
    Pdf,
    /// One DWG a sheet (read back by independent open readers only)
    Dwg,
}

impl Format {
    const fn id(self) -> &'static str {
        match self {
            Format::Dxf => "dxf",
            Format::Svg => "svg",
            Format::Pdf => "pdf",
            Format::Dwg => "dwg",
        }
    }
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
    /// Formats of the drawings
    #[arg(short, long, value_enum, value_delimiter = ',', default_values_t = [Format::Dxf, Format::Svg, Format::Pdf])]
    pub formats: Vec<Format>,
    /// File version of DXF and DWG
    #[arg(long, value_enum, default_value_t = Version::R2010, value_name = "VERSION")]
    pub cad_version: Version,
    /// Layer names: "own", "iso13567", or a TOML file that maps our layers to yours
    #[arg(long, default_value = "own", value_name = "NAME|FILE")]
    pub layers: String,
    /// DXF of your own title block, 1:1 mm or inches, with {NUMBER}, {TITLE}, {SHEET} … as texts (see README)
    #[arg(long, value_name = "FILE")]
    pub title_block: Option<PathBuf>,
    /// Only a part of the set
    #[arg(long, value_enum, value_name = "SET")]
    pub only: Option<Only>,
}

/// Finished drawings.
#[derive(Debug)]
pub struct Drawings {
    /// Files for the output folder.
    pub files: Vec<OutputFile>,
    /// Title and SVG file of each sheet, for the report.
    pub links: Vec<SheetLink>,
    /// Conflicts that the layout could not avoid, one sentence each: defects of the program, or formats asked for that are too small.
    pub defects: Vec<String>,
}

/// Lays out and writes the sheets of a job. `stem` names files of the whole set.
///
/// # Errors
/// A plain sentence when a layer table cannot be used or a format cannot hold a sheet.
pub fn drawings(job: &Job, stem: &str, options: &DrawingOptions) -> Result<Drawings, String> {
    let own_block = options.title_block.as_deref().map(own_block).transpose()?;
    let parts = crate::parts::build_parts(&job.spec, &job.foot);
    let plan = sheets::Subject::new(&job.spec, &job.foot, &job.results, &job.findings, &parts)
        .with_hash(&job.spec_hash)
        .with_comparison(job.comparison.as_ref())
        .with_own_block(own_block);
    let laid_out = match options.only {
        Some(Only::Pit) => sheets::lay_out_only(&plan, sheets::is_civil),
        None => sheets::lay_out(&plan),
    };
    let defects = laid_out
        .iter()
        .flat_map(|s| {
            s.defects.iter().map(move |d| match d.kind {
                DefectKind::FormatTooSmall => d.message.clone(),
                _ => format!("defect of the program: sheet {}: {:?}, {} at ({:.0}, {:.0}) mm", s.id, d.kind, d.message, d.x, d.y),
            })
        })
        .collect();
    let pages: Vec<Page<'_>> = laid_out.iter().map(Page::from).collect();
    let settings = export::Options {
        version: options.cad_version.cad(),
        layers: layer_map(&options.layers)?,
        set_title: job.spec.project.title.value.clone(),
        set_stem: stem.into(),
    };
    let mut formats = options.formats.clone();
    formats.sort();
    formats.dedup();
    let mut files = Vec::new();
    for exporter in export::ALL.iter().filter(|e| formats.iter().any(|f| f.id() == e.id())) {
        let written = exporter.export(&pages, &settings).map_err(|why| format!("{}: {why}", exporter.id()))?;
        files.extend(written.into_iter().map(|f| OutputFile { path: format!("sheets/{}", f.name), bytes: f.bytes }));
    }
    let links = if formats.contains(&Format::Svg) {
        laid_out.iter().map(|s| SheetLink { title: s.title.clone(), file: format!("sheets/{}.svg", s.id) }).collect()
    } else {
        Vec::new()
    };
    Ok(Drawings { files, links, defects })
}

fn own_block(path: &Path) -> Result<OwnBlock, String> {
    let name = path.display();
    let bytes = std::fs::read(path).map_err(|why| format!("cannot read the title block {name}: {why}"))?;
    let foreign = export::foreign::read(&bytes).map_err(|why| format!("{name}: {why}"))?;
    if let Some((kind, n)) = foreign.left_out.iter().next() {
        return Err(format!("{name}: {n} × {kind} cannot be drawn; explode it to lines, arcs, circles, polylines and single-line texts"));
    }
    let (low, high) = foreign.extent().ok_or_else(|| format!("{name}: it has no lines"))?;
    OwnBlock::new(foreign.marks, foreign.fields, low, high).map_err(|why| format!("{name}: {why}"))
}

fn layer_map(name: &str) -> Result<LayerMap, String> {
    match name {
        "own" => Ok(LayerMap::own()),
        "iso13567" => LayerMap::iso_13567().map_err(|why| why.to_string()),
        file => {
            let path = PathBuf::from(file);
            let text = std::fs::read_to_string(&path)
                .map_err(|why| format!("cannot read the layer table {file}: {why}; write own, iso13567 or the path of a TOML file"))?;
            LayerMap::parse(&text).map_err(|why| format!("{file}: {why}"))
        }
    }
}
