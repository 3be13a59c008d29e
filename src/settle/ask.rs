//! What every decision starts from, and what stands in for values that only the user can give.

use super::rounding::Rounding;
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::say::Words;
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::reader::{Chosen, Leaf};
use crate::spec::sheet::Language;

/// What every decision starts from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ask<'a> {
    /// The spec as asked.
    pub asked: &'a AskedSpec,
    /// How defaults are rounded.
    pub rounding: Rounding,
}

impl<'a> Ask<'a> {
    pub(super) fn of(asked: &'a AskedSpec) -> Self {
        Self { asked, rounding: Rounding::of(asked) }
    }

    /// Words of the job's language, for texts that the spec leaves to the program.
    pub(super) fn words(&self) -> Words {
        Words::of(self.asked.sheet.language.value().unwrap_or(Language::English).tag(self.rounding.us))
    }
}

/// Common practice of the trade without a published source.
pub(super) const PRACTICE: Source = Source::practice("");

/// A value that must be given; reports it when it is absent and goes on with a stand-in.
pub(super) fn needed<T: Clone>(leaf: &Leaf<T>, path: &str, type_this: &str, stand_in: T, out: &mut Diagnostics) -> Chosen<T> {
    if leaf.is_absent() {
        let table = path.rsplit_once('.').map_or(path, |(t, _)| t);
        let key = path.rsplit_once('.').map_or(path, |(_, k)| k);
        out.push(Diagnostic::error(
            Code::Missing,
            path,
            None,
            format!("{path} is not given and no rule can decide it"),
            format!("under [{table}] write  {key} = {type_this}"),
        ));
    }
    Chosen::or(leaf, stand_in, PRACTICE, "stand-in for a value that is missing or cannot be used; not for drawing")
}
