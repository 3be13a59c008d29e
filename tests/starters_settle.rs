//! Every starter spec settles without a message, and the foot can be built.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]
use footwell::spec::{load, settle::settle};

#[test]
fn starters_settle() {
    let mut names: Vec<_> = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/templates")).unwrap().map(|e| e.unwrap().path()).filter(|p| p.file_name().unwrap().to_str().unwrap() != "layers.iso13567.toml").collect();
    names.sort();
    for path in names {
        let text = std::fs::read_to_string(&path).unwrap();
        let (asked, read) = load(&text);
        assert!(read.items.is_empty(), "{path:?}: {read:#?}");
        let (spec, problems) = settle(&asked);
        assert!(problems.items.is_empty(), "{path:?}: {problems:#?}");
        let foot = footwell::model::build_model(&spec).unwrap_or_else(|e| panic!("{path:?}: {e:#?}"));
        if std::env::var_os("SHOW").is_some() {
            println!("=== {}", path.display());
            for line in spec.settled_lines() {
                if let footwell::spec::reader::Origin::Default { reason, source } = &line.origin {
                    println!("{:32} {:>18}  {}  [{}]", line.path, line.value, reason, source.label());
                } else {
                    println!("{:32} {:>18}  (given)", line.path, line.value);
                }
            }
            println!("{:?} {:?}", foot.shaft_lowest, foot.openings);
        }
    }
}
