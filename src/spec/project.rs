//! `[project]`, `[[revision]]` and `[[deviation]]`: what stands in the title block (ISO 7200 fields), which rules of law apply, and who answers
//! for what the rules object to.

use super::date::Date;
use super::reader::{spec_table, words};

words!(
    /// Whether the drawings are of something to be built or of something measured.
    Status {
        /// To be built.
        New = "new",
        /// An existing foot, measured as built.
        Survey = "survey",
    }
);

words!(
    /// Which family of safety rules is applied.
    Jurisdiction {
        /// ISO/EN standards.
        Iso = "iso",
        /// US federal regulations (OSHA).
        Us = "us",
    }
);

spec_table!(
    /// Title block and project.
    Project, AskedProject, "project", {
        /// Legal owner of the drawings.
        owner: String;
        /// Drawing number, at most 16 characters; all sheets of the set carry it with their sheet number.
        number: String;
        /// Title, at most 25 characters.
        title: String;
        /// Plant or project, for the field beside the title block.
        site: String;
        /// Date of issue, like 2026-11-25; the program never takes it from the clock.
        date: Option<Date>;
        /// Who made the spec, at most 20 characters.
        creator: String;
        /// Whether this is to be built or was measured.
        status: Status;
        /// Which family of safety rules is applied.
        jurisdiction: Jurisdiction;
    }
);

spec_table!(
    /// One row of the revision table.
    Revision, AskedRevision, "revision", {
        /// Revision index, at most 2 characters.
        index: String;
        /// Date of the revision, like 2026-11-25.
        date: Option<Date>;
        /// What changed.
        text: String;
        /// Keys or tables that changed, separated by commas, e.g. "inlet.up.sill, door[1]"; the newest revision's are marked on the sheets.
        changed: Option<String>;
        /// Who changed it.
        creator: String;
    }
);

spec_table!(
    /// What a rule objects to and somebody answers for: its failures and warnings are accepted. Law, guards and ways down cannot be.
    Deviation, AskedDeviation, "deviation", {
        /// Rule whose failures and warnings are accepted, e.g. "belt-speed".
        rule: String;
        /// Why it may stay, at most 120 characters.
        reason: String;
        /// Who answers for it, a role or a name, at most 40 characters.
        by: String;
        /// Day of the decision, like 2026-11-25.
        date: Option<Date>;
    }
);
