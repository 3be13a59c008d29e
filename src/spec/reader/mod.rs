//! How one TOML table becomes a struct: leaves with spans, unknown keys caught, units read, ranges kept.
//!
//! [`spec_table!`] declares a table once; from it come the struct *as asked* (every key may be absent),
//! the struct *as settled* (every key has a value and says where it came from), the reader, and the
//! registry of keys that README and help print. A leaf that cannot be read becomes [`Leaf::Bad`] and a
//! message, so that all messages of a spec are reported together. Nothing here knows the machine.

mod choices;
mod declare;
mod leaf;
mod meant;
mod registry;
mod table;
mod value;

pub use choices::did_you_mean;
pub(crate) use choices::words;
pub(crate) use declare::spec_table;
pub use leaf::{Chosen, Leaf, Origin};
pub use registry::{Key, SettledLine, range_text};
pub use table::{TableReader, sub_table, table_list};
pub(in crate::spec) use value::wrong_kind;
pub use value::{Outline, ReadValue};
