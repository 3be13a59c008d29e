//! `footwell completions`: what a shell needs to complete commands, flags and choices.

use super::{Console, Outcome};
use clap::Args;
use clap_complete::Shell;

/// Print completions for a shell.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell completions bash > ~/.local/share/bash-completion/completions/footwell
  footwell completions zsh > _footwell              into a folder of $fpath
  footwell completions fish > ~/.config/fish/completions/footwell.fish")]
pub struct Completions {
    /// Which shell
    shell: Shell,
}

impl Completions {
    /// Runs it, for a program with these commands.
    pub fn run(self, program: &mut clap::Command, console: &mut Console<'_>) -> Outcome {
        let mut script = Vec::new();
        clap_complete::generate(self.shell, program, "footwell", &mut script);
        console.say_bytes(&script);
        Outcome::Fine
    }
}
