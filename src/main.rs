//! The program `footwell`: arguments to a command, its messages to the terminal, its outcome to the exit code.

use footwell::cli::{self, Console};
use std::io::{IsTerminal, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let colour = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let (stdout, stderr) = (std::io::stdout(), std::io::stderr());
    let (mut out, mut err) = (stdout.lock(), stderr.lock());
    let outcome = cli::run(std::env::args_os(), &mut Console { out: &mut out, err: &mut err, colour });
    // A closed pipe (`footwell explain | head`) is no reason to complain.
    let _ = out.flush();
    ExitCode::from(outcome.code())
}
