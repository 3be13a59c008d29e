//! The program `footwell`: arguments to a command, its messages to the terminal, its outcome to the exit code.

use footwell::cli::{self, Console};
use std::io::IsTerminal;
use std::process::ExitCode;

fn main() -> ExitCode {
    cli::keep_panics_quiet();
    let colour = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let (stdout, stderr) = (std::io::stdout(), std::io::stderr());
    let (mut out, mut err) = (stdout.lock(), stderr.lock());
    ExitCode::from(cli::run(std::env::args_os(), &mut Console::new(&mut out, &mut err, colour)).code())
}
