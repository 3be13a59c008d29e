//! The README's table is the program's own (`<!-- starters -->` … `<!-- end -->`), and so is the reference beside it.
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

/// The page of keys, rules and presets is what the program prints.
#[test]
fn the_reference_is_printed_from_the_program() {
    let path = root().join("out/reference.html");
    let page = footwell::cli::reference::page().unwrap();
    if std::env::var_os("FOOTWELL_ACCEPT").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    assert!(
        std::fs::read_to_string(&path).unwrap() == page,
        "out/reference.html is not what the program prints; run FOOTWELL_ACCEPT=1 cargo test --test readme"
    );
    for key in footwell::spec::keys() {
        assert!(page.contains(&format!("<code>{}</code>", key.path)), "{} is not in the reference", key.path);
    }
}

/// The picture of the words is what the program draws, and names what the documents speak of.
#[test]
fn the_picture_is_drawn_by_the_program() {
    let path = root().join("out/words.svg");
    let picture = footwell::cli::reference::words().unwrap();
    if std::env::var_os("FOOTWELL_ACCEPT").is_some() {
        std::fs::write(&path, &picture).unwrap();
    }
    assert!(std::fs::read_to_string(&path).unwrap() == picture, "out/words.svg is not what the program draws; run FOOTWELL_ACCEPT=1 cargo test --test readme");
    for word in ["UP SIDE", "DOWN SIDE", "near side", "sill", "throat", "lip", "take-up", "bend pulley", "pit floor", "foot pulley"] {
        assert!(picture.contains(word), "the picture does not say {word}");
    }
}

/// A reader who has a job to do reads no more than this.
#[test]
fn the_readme_is_short() {
    let words = std::fs::read_to_string(root().join("README.md")).unwrap().split_whitespace().count();
    assert!(words <= 900, "README.md has {words} words");
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
