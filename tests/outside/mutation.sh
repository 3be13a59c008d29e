#!/usr/bin/env bash
# Mutation testing of src/formulas and src/rules with cargo-mutants: is every line of a formula and of a rule tested?
#
#   tests/outside/mutation.sh formulas [arguments of cargo mutants, e.g. --shard 0/4 or -f screw.rs]
#   tests/outside/mutation.sh rules
#
# The whole program takes a minute to build, so the folder that is mutated is put into a small crate of its own
# under target/mutation, on top of a second crate (ground) with what it uses; only the first is rebuilt for each
# mutant. A mutant is caught when the unit tests and doc tests beside the code fail (formulas) or when those and
# tests/rules.rs fail (rules). Survivors that were judged stand in tests/outside/mutants_survived.txt.
set -euo pipefail
cd "$(dirname "$0")/../.."
subject=${1:?formulas or rules}
shift
root=$PWD
work=${MUTATION_DIR:-$root/target/mutation}/$subject

ground=(units.rs sources.rs tables)
[ "$subject" = formulas ] || ground+=(diagnostics.rs formulas spec model analysis)

rm -rf "$work/ground/src" "$work/top/src" "$work/top/tests"
mkdir -p "$work/ground/src" "$work/top/src" "$work/top/tests"
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
  cp -r "src/$part" "$work/ground/src/"
  echo "pub mod ${part%.rs};" >>"$work/ground/src/lib.rs"
done
rm -rf "$work/ground/templates" "$work/top/templates"
cp -r templates "$work/ground/"
cp -r templates "$work/top/"
cp -r "src/$subject" "$work/top/src/"
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
  cp -r tests/support tests/rules.rs "$work/top/tests/"
fi

cd "$work/top"
export CARGO_PROFILE_TEST_DEBUG=false CARGO_TERM_COLOR=never
if [ "${1:-}" = --only-build ]; then exec cargo test; fi
# In place: the scratch copy may be changed, and the build folder stays warm. First the unit tests alone, then what
# they leave with all tests.
mutate() { nice -n 15 cargo mutants --in-place --timeout 60 --no-shuffle --output "$work" "$@"; }
mutate "$@" -- --lib || true
mutate --iterate "$@"
