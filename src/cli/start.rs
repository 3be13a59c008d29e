//! `footwell start`: a commented starter spec.

use super::starters::{self, Starter};
use super::{Console, Outcome};
use crate::spec::reader::did_you_mean;
use clap::Args;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Write a commented starter spec.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell start --list
  footwell start                          grain_intake.toml
  footwell start pellets -o cooler_2.toml
  footwell start survey -o -              to the terminal")]
pub struct Start {
    /// Which starter (see --list)
    #[arg(default_value = "grain_intake")]
    name: String,
    /// List the starters and what they show
    #[arg(long)]
    list: bool,
    /// File to write; "-" writes to the terminal [default: NAME.toml]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replace the file if it exists
    #[arg(long)]
    replace: bool,
}

impl Start {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        if self.list {
            for starter in starters::ALL {
                console.say(format_args!("{:<14} {}", starter.name, starter.about));
            }
            return Outcome::Fine;
        }
        let Some(starter) = starters::find(&self.name) else {
            let near = did_you_mean(&self.name, starters::ALL.iter().map(|s| s.name)).map_or_else(String::new, |n| format!("did you mean {n}? "));
            let names: Vec<&str> = starters::ALL.iter().map(|s| s.name).collect();
            console.tell(format_args!("there is no starter \"{}\"; {near}the starters are {}", self.name, names.join(", ")));
            return Outcome::CannotRun;
        };
        let path = self.output.unwrap_or_else(|| PathBuf::from(format!("{}.toml", starter.name)));
        if path == Path::new("-") {
            console.say_bytes(starter.text.as_bytes());
            return Outcome::Fine;
        }
        match write(&path, starter, self.replace) {
            Ok(()) => {
                let shown = path.display();
                console.say(format_args!("wrote {shown}: {}\nnext: edit it, then  footwell check {shown}  and  footwell draw {shown}", starter.about));
                Outcome::Fine
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}

/// Writes beside and moves into place, so that a file is never half there.
fn write(path: &Path, starter: &Starter, replace: bool) -> Result<(), String> {
    let shown = path.display();
    let exists = || format!("{shown} exists and is left as it is; give another name with -o, or --replace");
    if path.exists() && !replace {
        return Err(exists());
    }
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let failed = |why: std::io::Error| format!("cannot write {shown}: {why}");
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    let ordinary = <std::fs::Permissions as std::os::unix::fs::PermissionsExt>::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(ordinary);
    let mut file = builder.prefix(".footwell-").tempfile_in(folder).map_err(failed)?;
    file.write_all(starter.text.as_bytes()).map_err(failed)?;
    if replace {
        file.persist(path).map_err(|e| failed(e.error))?;
    } else {
        file.persist_noclobber(path).map_err(|e| if e.error.kind() == std::io::ErrorKind::AlreadyExists { exists() } else { failed(e.error) })?;
    }
    Ok(())
}
