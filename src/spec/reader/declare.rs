//! The macro that declares one table of the spec.
//!
//! In: names, types and ranges of its keys. Out: the structs as asked and as settled, their reader, their part of the registry.

/// Declares one table of the spec: struct as asked, struct as settled, reader, key list.
macro_rules! spec_table {
    ($(#[$doc:meta])* $name:ident, $asked:ident, $path:literal, {
        $($(#[doc = $kdoc:literal])+ $key:ident : $t:ty $(, $least:literal ..= $most:literal)?);+ $(;)?
    }) => {
        $(#[$doc])*
        ///
        /// Settled: every key has a value and says where it came from.
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name { $($(#[doc = $kdoc])+ pub $key: $crate::spec::reader::Chosen<$t>),+ }

        $(#[$doc])*
        ///
        /// As asked: keys may be absent.
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct $asked {
            /// Where the table stands, if it does.
            pub span: Option<$crate::diagnostics::Span>,
            $($(#[doc = $kdoc])+ pub $key: $crate::spec::reader::Leaf<$t>),+
        }

        impl $asked {
            /// Reads the table.
            pub fn read(found: Option<(&toml::de::DeTable<'_>, $crate::diagnostics::Span)>, path: &str, out: &mut $crate::diagnostics::Diagnostics) -> Self {
                let (table, span) = match found { Some((t, s)) => (Some(t), Some(s)), None => (None, None) };
                let mut reader = $crate::spec::reader::TableReader::new(table, path, out);
                let this = Self {
                    span,
                    $($key: {
                        #[allow(unused_mut, unused_assignments, reason = "keys without a range leave them as they are")]
                        let (mut least, mut most): (Option<f64>, Option<f64>) = (None, None);
                        $(least = Some($least); most = Some($most);)?
                        reader.leaf(stringify!($key), least, most)
                    }),+
                };
                reader.finish();
                this
            }

            /// The registry of its keys.
            pub fn keys(path: &str) -> Vec<$crate::spec::reader::Key> {
                use $crate::spec::reader::ReadValue;
                vec![$({
                    #[allow(unused_mut, unused_assignments, reason = "keys without a range leave them as they are")]
                    let (mut least, mut most): (Option<f64>, Option<f64>) = (None, None);
                    $(least = Some($least); most = Some($most);)?
                    $crate::spec::reader::Key {
                        path: format!("{path}.{}", stringify!($key)),
                        kind: <$t>::kind(),
                        least,
                        most,
                        range: $crate::spec::reader::range_text::<$t>(least, most),
                        about: [$($kdoc),+].iter().map(|line| line.trim()).collect::<Vec<_>>().join(" "),
                    }
                }),+]
            }
        }

        impl $name {
            /// Every value with its origin, in the order of the keys.
            pub fn settled_lines(&self, path: &str) -> Vec<$crate::spec::reader::SettledLine> {
                use $crate::spec::reader::ReadValue;
                vec![$($crate::spec::reader::SettledLine {
                    path: format!("{path}.{}", stringify!($key)),
                    value: self.$key.value.show(),
                    customary: self.$key.value.show_customary(),
                    amount: self.$key.value.amount(),
                    origin: self.$key.origin.clone(),
                }),+]
            }
        }
    };
}
pub(crate) use spec_table;
