#!/usr/bin/env bash
# Mutation testing of src/formulas and src/rules with cargo-mutants: is every line of a formula and of a rule tested?
#
#   tests/outside/mutation.sh formulas [arguments of cargo mutants, e.g. --shard 0/4 or -f screw.rs]
#   tests/outside/mutation.sh rules
#
# Two at once, each with its shard and its own folder: MUTATION_DIR=/tmp/a ... --shard 0/2, MUTATION_DIR=/tmp/b ... --shard 1/2.
# What lived at the end stands in $MUTATION_DIR/rules/mutants.out/missed.txt, the first pass in mutants.out.old.
# The whole program takes a minute to build, so the folder that is mutated is put into a small crate of its own
# under target/mutation, on top of a second crate (ground) with what it uses; only the first is rebuilt for each
# mutant. A mutant is caught when the unit tests or doc tests beside the code fail (formulas), or when the unit tests,
# tests/rules.rs, tests/rules_property.rs (60 specs) or checks.json of a starter spec fail (rules). Survivors that were judged stand in tests/outside/mutants_survived.txt.
set -euo pipefail
cd "$(dirname "$0")/../.."
subject=${1:?formulas or rules}
command -v cargo-mutants >/dev/null || { echo "cargo-mutants is missing: cargo install cargo-mutants --version 27.1.0 --locked" >&2; exit 2; }
shift
root=$PWD
work=${MUTATION_DIR:-$root/target/mutation}/$subject

ground=(units.rs sources.rs tables)
[ "$subject" = formulas ] || ground+=(diagnostics.rs formulas spec settle model analysis)

rm -rf "$work/ground/src" "$work/top/src"
mkdir -p "$work/ground/src" "$work/top/src"
dependencies=$(sed -n '/^\[dependencies\]/,/^\[dev-dependencies\]/p' Cargo.toml | grep -E '^(i_overlay|kurbo|miette|serde|serde_json|sha2|strsim|toml) ')
cp Cargo.lock "$work/"
cp rustfmt.toml "$work/"
cat >"$work/Cargo.toml" <<TOML
[workspace]
members = ["ground", "top"]
resolver = "3"
[profile.dev]
debug = false
opt-level = 0
[profile.dev.package."*"]
opt-level = 2
[profile.dev.package.ground]
opt-level = 2
TOML
printf '[package]\nname = "ground"\nversion = "0.0.0"\nedition = "2024"\n[lib]\ndoctest = false\n[dependencies]\n%s\n' "$dependencies" >"$work/ground/Cargo.toml"
# Named as the program, so that the doc tests find it.
printf '[package]\nname = "footwell"\nversion = "0.0.0"\nedition = "2024"\n[dependencies]\nground = { path = "../ground" }\n%s\n' "$dependencies" >"$work/top/Cargo.toml"
for part in "${ground[@]}"; do
  cp -rp "src/$part" "$work/ground/src/"
  echo "pub mod ${part%.rs};" >>"$work/ground/src/lib.rs"
done
rm -rf "$work/ground/templates" "$work/top/templates"
cp -r templates "$work/ground/"
cp -r templates "$work/top/"
cp -rp "src/$subject" "$work/top/src/"
{
  echo "pub use ground::{$(printf '%s, ' "${ground[@]%.rs}")};"
  echo "pub mod $subject;"
} >"$work/top/src/lib.rs"
if [ "$subject" = rules ]; then
  # cargo-mutants does not look into macros: the modules that the macro declares are declared in plain words.
  list=$work/top/src/rules/mod.rs
  sed -i '/\$(mod \$file;)+/d' "$list"
  for file in src/rules/*.rs; do
    name=$(basename "$file" .rs)
    grep -qE "^(pub )?mod $name;" "$list" || [ "$name" = mod ] || echo "mod $name;" >>"$list"
  done
  # The suites over all rules become unit tests, so that each mutant is linked once; and checks.json of the
  # starter specs, as tests/golden.rs compares it, here against what the code wrote before any mutation.
  whole=$work/top/src/whole
  mkdir -p "$whole"
  for suite in rules rules_property; do
    mkdir "$whole/$suite"
    cp -r tests/support "$whole/$suite/"
    cp "tests/$suite.rs" "$whole/$suite/mod.rs"
  done
  cat >"$whole/mod.rs" <<'RUST'
mod rules;
mod rules_property;

#[test]
fn checks_json_as_before() {
    let kept = std::path::Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/kept"));
    for (name, text) in rules::support::templates() {
        let now = rules::support::run(&text).unwrap().findings().to_json(&footwell::say::Voice::plain()).unwrap();
        let file = kept.join(name);
        if std::env::var_os("KEEP").is_some() {
            std::fs::create_dir_all(kept).unwrap();
            std::fs::write(&file, &now).unwrap();
        }
        assert_eq!(std::fs::read_to_string(&file).unwrap(), now);
    }
}
RUST
  sed -i 's/^mod support;/pub mod support;/' "$whole/rules/mod.rs"
  # The front door without what stands behind the rules: src/job.rs would ask for sheets and formats too.
  cat >"$work/top/src/job.rs" <<'RUST'
use crate::analysis::{Results, analyse};
use crate::diagnostics::Diagnostics;
use crate::model::{Foot, build_model};
use crate::rules::{Findings, check};
use crate::settle::settle;
use crate::spec::{Spec, load};

pub struct Job(Spec, Foot, Results, std::cell::OnceCell<Findings>);

impl Job {
    fn build(text: &str, strict: bool) -> Result<Self, Diagnostics> {
        let (asked, problems) = load(text);
        let (spec, more) = settle(&asked);
        for found in [problems, if strict { more } else { Diagnostics::default() }] {
            if found.has_errors() {
                return Err(found);
            }
        }
        let foot = build_model(&spec)?;
        let results = analyse(&spec, &foot);
        Ok(Self(spec, foot, results, std::cell::OnceCell::new()))
    }
    pub fn of(text: &str) -> Result<Self, Diagnostics> {
        Self::build(text, true)
    }
    pub fn of_contradicting(text: &str) -> Result<Self, Diagnostics> {
        Self::build(text, false)
    }
    pub fn spec(&self) -> &Spec {
        &self.0
    }
    pub fn foot(&self) -> &Foot {
        &self.1
    }
    pub fn results(&self) -> &Results {
        &self.2
    }
    pub fn findings(&self) -> &Findings {
        self.3.get_or_init(|| check(&self.0, &self.1, &self.2))
    }
}
RUST
  echo 'pub mod job;' >>"$work/top/src/lib.rs"
  printf 'extern crate self as footwell;\n#[cfg(test)]\n#[allow(dead_code, clippy::unwrap_used)]\nmod whole;\n' >>"$work/top/src/lib.rs"
  printf '[dev-dependencies]\n%s\n' "$(grep '^proptest ' Cargo.toml)" >>"$work/top/Cargo.toml"
  export RULES_SWEEP=60
fi

cd "$work/top"
export CARGO_PROFILE_TEST_DEBUG=false CARGO_TERM_COLOR=never
if [ "${1:-}" = --only-build ]; then exec cargo test; fi
out=$work/mutants.out
mutate() { nice -n 15 cargo mutants --in-place --timeout 60 --no-shuffle --output "$work" "$@"; } # in place: the build folder stays warm
# First what is quick, then what that leaves with all tests. By name, since a shard of fewer mutants holds others.
again() {
  local names
  names=$(sed 's/[].^$*+?(){}|\\[]/\\&/g' "$out/missed.txt" | paste -sd '|')
  if [ -n "$names" ]; then mutate --re "^($names)$" "$@"; fi
}
if [ "$subject" = rules ]; then
  KEEP=1 cargo test --lib checks_json_as_before
  mutate "$@" -- --lib -- --skip rules_property --skip whole::rules:: || true
  again -- --lib
else
  mutate "$@" -- --lib || true
  again
fi
