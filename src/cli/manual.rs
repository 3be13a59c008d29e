//! `footwell man`: the manual page of the program or of one command.

use super::{Console, Outcome};
use crate::spec::reader::did_you_mean;
use clap::Args;

/// Print a manual page (for man).
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell man | man -l -
  footwell man draw > footwell-draw.1")]
pub struct Manual {
    /// A command; left out, the program
    command: Option<String>,
}

impl Manual {
    /// Runs it, for a program with these commands.
    pub fn run(self, program: clap::Command, console: &mut Console<'_>) -> Outcome {
        match page(program, self.command.as_deref()) {
            Ok(page) => {
                console.say_bytes(&page);
                Outcome::Fine
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}

fn page(mut program: clap::Command, command: Option<&str>) -> Result<Vec<u8>, String> {
    program.build();
    let shown = match command {
        None => program,
        Some(name) => program.find_subcommand(name).cloned().ok_or_else(|| {
            let known: Vec<&str> = program.get_subcommands().map(clap::Command::get_name).collect();
            let near = did_you_mean(name, known.iter().copied()).map_or_else(String::new, |near| format!("did you mean {near}? "));
            format!("there is no command \"{name}\"; {near}the commands are {}", known.join(", "))
        })?,
    };
    let mut page = Vec::new();
    clap_mangen::Man::new(shown).render(&mut page).map_err(|why| format!("the page cannot be written: {why}"))?;
    Ok(page)
}
