//! What people call things, and what the spec calls them.
//!
//! In: a word that is no key or choice. Out: the key, table or choice that is meant. Data only; the reader's hints and `footwell explain` ask here.

use std::collections::BTreeMap;
use std::sync::LazyLock;

/// A name that people use for something in the spec.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Synonym {
    /// What they type, in small letters with blanks.
    pub typed: &'static [&'static str],
    /// Key or table that is meant.
    pub path: &'static str,
    /// Choice that is meant, where the word names one.
    pub choice: Option<&'static str>,
}

const fn key(path: &'static str, typed: &'static [&'static str]) -> Synonym {
    Synonym { typed, path, choice: None }
}

const fn choice(path: &'static str, choice: &'static str, typed: &'static [&'static str]) -> Synonym {
    Synonym { typed, path, choice: Some(choice) }
}

/// Tables that may stand several times.
const LISTS: [&str; 2] = ["door", "revision"];

/// All of them; a name in a certain table stands with the table before it.
pub const ALL: &[Synonym] = &[
    key("casing", &["boot", "boot section", "housing", "shell", "foot", "base", "body"]),
    key("foot_pulley", &["tail pulley", "boot pulley", "return pulley", "lower pulley", "bottom pulley", "tail", "foot drum", "tail drum", "pulley"]),
    key("head_pulley", &["drive pulley", "head", "top pulley", "upper pulley", "head drum", "drive drum"]),
    key("bend_pulley", &["snub", "snub pulley", "deflector", "deflector pulley", "deflection pulley"]),
    key("take_up", &["tensioner", "takeup", "take up", "tension", "tensioning", "tensioning device", "belt tensioner"]),
    key("bucket", &["buckets", "cup", "cups", "elevator bucket"]),
    key("belt", &["band", "belting"]),
    key("product", &["material", "commodity", "bulk", "bulk material", "grain"]),
    key("duty", &["elevator", "leg", "machine", "performance"]),
    key("inlet.up", &["hopper", "feed hopper", "inlet hopper", "chute", "spout", "feed", "throat", "up inlet", "inlet front"]),
    key("inlet.down", &["down inlet", "inlet back", "inlet rear"]),
    key("door", &["doors", "inspection door", "inspection doors", "access door", "access doors", "window", "manhole"]),
    key("clean_out", &["cleanout", "clean outs", "cleanouts", "cleaning door", "slide gate"]),
    key("shovel_pocket", &["pocket", "shovel", "auger pocket"]),
    key("sensor_panels", &["panels", "sensors", "rub block", "rub blocks"]),
    key("monitoring", &["hazard monitoring", "motion sensor", "speed sensor", "alignment sensor", "rub sensor"]),
    key("lifting", &["lugs", "lifting lugs", "eyes", "lifting eyes", "pad eyes"]),
    key("removal", &["pulley panel", "removable panel", "pulley removal"]),
    key("revision", &["revisions", "changes"]),
    key("fabrication", &["cutting", "shop", "manufacture"]),
    key("sheet", &["sheets", "drawing", "drawings", "paper", "format"]),
    key("duty.capacity", &["capacity", "throughput", "rate", "flow", "tph", "bph", "tonnage"]),
    key(
        "duty.lift",
        &["duty height", "lift height", "elevation", "discharge height", "head height", "shaft centres", "shaft centers", "centre distance", "center distance"],
    ),
    key("duty.belt_speed", &["duty speed", "speed", "velocity", "duty velocity", "duty rpm", "rpm", "belt speed", "head pulley rpm", "head pulley speed"]),
    key("duty.fill", &["fill factor", "filling", "fill level", "load factor", "filling degree"]),
    key("bucket.length", &["bucket width"]),
    key("bucket.projection", &["bucket depth", "bucket out"]),
    key("bucket.volume", &["bucket capacity", "bucket content", "bucket contents", "water level", "water level capacity"]),
    key("bucket.spacing", &["bucket pitch", "bucket centres", "bucket centers", "bucket distance", "bucket spacing", "pitch of buckets"]),
    key("bucket.mass", &["bucket weight"]),
    key("belt.strength", &["belt tension", "belt rating", "belt working tension", "piw"]),
    key("belt.plies", &["belt ply", "ply", "plies"]),
    key("belt.stretch", &["belt elongation", "elongation"]),
    key("casing.plate", &["casing thickness", "casing plate thickness", "plate thickness", "gauge", "gage", "casing gauge"]),
    key("casing.trunk", &["trunking", "legs", "trunk"]),
    key("product.density", &["bulk density", "test weight", "bushel weight", "product bulk density", "product weight", "product test weight"]),
    key("product.repose", &["angle of repose", "repose"]),
    key("product.lump", &["lump size", "particle size", "grain size"]),
    key("project.number", &["drawing number", "project drawing number", "job number", "project job", "project no"]),
    key("project.owner", &["customer", "client", "owner", "project customer", "project client", "company", "project company"]),
    key("project.creator", &["author", "project author", "drawn by", "designer", "project drawn by", "project designer"]),
    key("project.title", &["project name", "name"]),
    key("sheet.unit", &["units", "unit", "imperial", "metric", "sheet units"]),
    key("sheet.language", &["language", "lang"]),
    key("sheet.size", &["paper size", "sheet format", "sheet paper"]),
    key("pit.depth", &["pit depth", "depth of pit"]),
    key("pit.rail", &["railing", "handrail", "guardrail", "guard rail", "hand rail", "pit railing", "pit handrail"]),
    key("pit.cover", &["grating", "lid", "pit grating", "pit lid"]),
    key("pit.sump", &["sump", "drain"]),
    key("pit.hatch_length", &["hatch", "pit hatch"]),
    key("pit.groundwater", &["water table", "groundwater", "ground water"]),
    key("bearings.kind", &["bearing", "bearings type", "bearing type"]),
    key("bearings.life", &["l10", "l10h", "bearing life"]),
    choice("pit.access", "stair", &["stairs", "staircase", "stairway", "steps", "pit stair", "pit stairs"]),
    choice("pit.access", "ladder", &["ladder", "ladders", "rungs", "pit ladder", "caged ladder"]),
    choice("project.jurisdiction", "us", &["osha", "usa", "u.s.", "united states", "america", "ansi rules", "project osha"]),
    choice("project.jurisdiction", "iso", &["eu", "europe", "en iso", "ce", "international"]),
    choice("project.status", "survey", &["existing", "as built", "measured", "old", "retrofit", "project existing"]),
    choice("project.status", "new", &["design", "planned", "proposed", "new build"]),
    choice("sheet.unit", "inch", &["in", "inches", "decimal inch", "decimal inches"]),
    choice("sheet.unit", "feet-inch", &["ft-in", "feet", "ft", "feet and inches", "feet inches", "architectural"]),
    choice("sheet.unit", "mm", &["millimetre", "millimeter", "millimetres", "millimeters", "si"]),
    choice("sheet.standard", "ansi", &["asme", "us sheets"]),
    choice("sheet.standard", "iso", &["din", "en"]),
    choice("sheet.projection", "third", &["3rd", "third angle", "american"]),
    choice("sheet.projection", "first", &["1st", "first angle", "european"]),
    choice("sheet.language", "en", &["english"]),
    choice("sheet.language", "de", &["german", "deutsch"]),
    choice("bearings.kind", "pillow block", &["plummer block", "pillow", "pedestal"]),
    choice("bearings.kind", "two-bolt flange", &["2-bolt flange", "oval flange", "two bolt"]),
    choice("bearings.kind", "four-bolt flange", &["4-bolt flange", "square flange", "four bolt", "flange"]),
    choice("head_pulley.lagging", "bare", &["none", "steel", "unlagged", "no lagging"]),
    choice("head_pulley.lagging", "rubber", &["lagged", "rubber lagging"]),
    choice("take_up.kind", "gravity", &["weight", "weights", "counterweight", "automatic"]),
    choice("take_up.kind", "screw", &["screws", "manual", "threaded rod", "rods"]),
    choice("belt.carcass", "fabric", &["textile", "ep", "polyester", "nylon", "ply"]),
    choice("belt.carcass", "steel cord", &["steelcord", "steel", "wire"]),
    choice("foot_pulley.style", "winged", &["wing", "self cleaning", "squirrel cage"]),
    choice("foot_pulley.style", "drum", &["solid", "flat", "smooth", "cylindrical"]),
    choice("casing.bottom", "curved", &["round", "rolled", "radius", "radiused"]),
    choice("casing.bottom", "flat", &["straight", "level"]),
    choice("casing.trunk", "two legs", &["double", "twin", "double leg", "twin leg", "two leg"]),
    choice("casing.trunk", "single", &["one", "single leg"]),
    choice("product.kind", "meal", &["powder", "flour", "dust"]),
    choice("product.kind", "pellets", &["pellet", "pelletised", "pelletized"]),
    choice("product.kind", "mineral", &["stone", "ore", "aggregate", "sand"]),
    choice("inlet.up.fed_by", "spout", &["chute", "gravity", "pipe"]),
    choice("inlet.up.fed_by", "conveyor", &["screw", "screw conveyor", "drag", "drag conveyor", "chain conveyor", "auger"]),
];

/// As names are compared: small letters, blanks for strokes below and between.
pub fn plain(typed: &str) -> String {
    typed.trim().trim_matches(['[', ']']).to_lowercase().split(['_', '-', ' ', '.']).filter(|w| !w.is_empty()).collect::<Vec<_>>().join(" ")
}

/// The synonyms by what is typed, in the order of [`ALL`].
static BY_NAME: LazyLock<BTreeMap<String, Vec<&'static Synonym>>> = LazyLock::new(|| {
    let mut all: BTreeMap<String, Vec<&'static Synonym>> = BTreeMap::new();
    for synonym in ALL {
        for typed in synonym.typed {
            all.entry(plain(typed)).or_default().push(synonym);
        }
    }
    all
});

/// What a name is meant for, in a table where there is one (empty where not).
pub fn meant(table: &str, typed: &str) -> Option<&'static Synonym> {
    let first = |name: &str| BY_NAME.get(&plain(name)).and_then(|all| all.first().copied());
    first(&format!("{table}.{typed}")).or_else(|| first(typed))
}

/// The choice that a word is meant for, among some.
pub fn meant_choice(typed: &str, among: impl Fn(&str) -> bool) -> Option<&'static str> {
    BY_NAME.get(&plain(typed))?.iter().filter_map(|s| s.choice).find(|c| among(c))
}

impl Synonym {
    /// What to type.
    pub fn hint(&self) -> String {
        match (self.choice, self.path.rsplit_once('.')) {
            (Some(choice), Some((table, key))) => format!("under [{table}] write  {key} = \"{choice}\""),
            _ if LISTS.contains(&self.path) => format!("write [[{}]] above each", self.path),
            (None, Some((table, key))) if self.path != "inlet.up" && self.path != "inlet.down" => format!("did you mean {key} under [{table}]?"),
            _ => format!("did you mean [{}]?", self.path),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::spec::{TABLES, keys, load};

    /// Every key and choice that a synonym leads to is there.
    #[test]
    fn they_lead_somewhere() {
        let keys: Vec<String> = keys().into_iter().map(|k| k.path).collect();
        for s in ALL {
            let known = keys.iter().any(|k| k.as_str() == s.path || [".", "[n]."].iter().any(|end| k.starts_with(&format!("{}{end}", s.path))));
            assert!(known, "{}", s.path);
            if let (Some(choice), Some((table, key))) = (s.choice, s.path.rsplit_once('.')) {
                let (_, problems) = load(&format!("[{table}]\n{key} = \"{choice}\"\n"));
                assert!(problems.items.is_empty(), "{}: {problems:?}", s.path);
            }
        }
    }

    /// A synonym is no key of its own, and means one thing.
    #[test]
    fn they_are_no_keys() {
        let mut seen: Vec<String> = Vec::new();
        for s in ALL {
            for typed in s.typed {
                assert_eq!(*typed, typed.to_lowercase());
                assert!(s.choice.is_some() || (!TABLES.contains(typed) && keys().iter().all(|k| k.path != *typed)), "{typed}");
                let name = format!("{} {}", plain(typed), s.choice.map_or("", |_| s.path));
                assert!(!seen.contains(&name), "{typed} twice");
                seen.push(name);
            }
        }
    }

    #[test]
    fn what_people_type() {
        for (spec, hint) in [
            ("[boot]\n", "did you mean [casing]?"),
            ("[Tail-Pulley]\n", "did you mean [foot_pulley]?"),
            ("[duty]\nspeed = \"2 m/s\"\n", "did you mean belt_speed under [duty]?"),
            ("[bucket]\nwidth = \"2 m\"\n", "did you mean length under [bucket]?"),
            ("[pit]\nstairs = true\n", "under [pit] write  access = \"stair\""),
            ("[osha]\n", "under [project] write  jurisdiction = \"us\""),
            ("existing = true\n", "under [project] write  status = \"survey\""),
            ("[doors]\n", "write [[door]] above each"),
            ("[pit]\naccess = \"stairs\"\n", "did you mean \"stair\"? The choices are \"ladder\" or \"stair\""),
            ("[project]\nstatus = \"Existing\"\n", "did you mean \"survey\"? The choices are \"new\" or \"survey\""),
            ("[project]\njurisdiction = \"OSHA\"\n", "did you mean \"us\"? The choices are \"iso\" or \"us\""),
            ("[casing]\nplies = 3\n", "did you mean plies under [belt]?"),
            ("[casing]\nfeed_level = \"1 m\"\n", "feed_level stands under [pit]"),
        ] {
            let (_, problems) = load(spec);
            assert_eq!(problems.items.first().unwrap().hint, hint, "{spec}");
        }
    }

    /// Choices are taken in any case, with blanks or strokes.
    #[test]
    fn choices_in_any_case() {
        let (asked, problems) =
            load("[project]\nstatus = \"SURVEY\"\n[bearings]\nkind = \"Two bolt Flange\"\n[[door]]\non = \"up-end\"\n[sheet]\nunit = \"Feet_Inch\"\n");
        assert!(problems.items.is_empty(), "{problems:?}");
        assert_eq!(asked.bearings.kind.value().map(|k| k.word()), Some("two-bolt flange"));
    }
}
