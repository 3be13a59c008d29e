//! The starter specs, embedded in the program: name, scenario, text.

/// One starter spec.
#[derive(Debug, Clone, Copy)]
pub struct Starter {
    /// Name as typed after `footwell start`, and stem of its file.
    pub name: &'static str,
    /// What it is, in one line.
    pub about: &'static str,
    /// The commented TOML.
    pub text: &'static str,
}

/// All of them; the first is what `footwell start` writes when no name is given.
pub const ALL: &[Starter] = &[
    Starter { name: "grain_intake", about: "grain intake, 120 t/h of wheat over 28 m", text: include_str!("../../templates/grain_intake.toml") },
    Starter {
        name: "tall_bend",
        about: "port elevator, 700 t/h of maize: large head pulley, small foot pulley, bend pulley",
        text: include_str!("../../templates/tall_bend.toml"),
    },
    Starter {
        name: "pellets",
        about: "fragile pellets, 20 t/h: up side only, narrowed throat, gravity take-up",
        text: include_str!("../../templates/pellets.toml"),
    },
    Starter { name: "us_units", about: "US units, ANSI sheets, third angle, feet and inches", text: include_str!("../../templates/us_units.toml") },
    Starter { name: "survey", about: "an existing foot as measured, which fails several rules", text: include_str!("../../templates/survey.toml") },
];

/// The starter of this name; blanks and hyphens are taken as underscores.
pub fn find(name: &str) -> Option<&'static Starter> {
    let wanted: String = name.chars().map(|c| if c == ' ' || c == '-' { '_' } else { c.to_ascii_lowercase() }).collect();
    let wanted = wanted.strip_suffix(".toml").unwrap_or(&wanted);
    ALL.iter().find(|s| s.name == wanted)
}
