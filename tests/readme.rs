//! The README's tables are the program's own: `<!-- keys -->` … `<!-- end -->` and so on.
//! Run with FOOTWELL_ACCEPT=1 to write them anew.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn tables_are_printed_from_the_program() {
    let path = root().join("README.md");
    let mut text = std::fs::read_to_string(&path).unwrap();
    let before = text.clone();
    for (name, table) in footwell::cli::tables::ALL {
        let open = format!("<!-- {name} -->\n");
        let start = text.find(&open).unwrap_or_else(|| panic!("README.md has no marker <!-- {name} -->")) + open.len();
        let end = start + text[start..].find("<!-- end -->").unwrap_or_else(|| panic!("README.md: <!-- {name} --> has no <!-- end -->"));
        text.replace_range(start..end, &format!("\n{}\n", table()));
    }
    if std::env::var_os("FOOTWELL_ACCEPT").is_some() {
        std::fs::write(&path, &text).unwrap();
    } else {
        assert!(text == before, "README.md is not what the program prints; run FOOTWELL_ACCEPT=1 cargo test --test readme");
    }
}

/// Files that the two documents name exist.
#[test]
fn what_the_documents_point_at_exists() {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = std::fs::read_to_string(root().join(document)).unwrap();
        for (at, _) in text.match_indices("](") {
            let target: String = text[at + 2..].chars().take_while(|c| *c != ')' && *c != '#').collect();
            if !target.is_empty() && !target.contains("://") {
                assert!(root().join(&target).exists(), "{document} points at {target}, which does not exist");
            }
        }
    }
}
