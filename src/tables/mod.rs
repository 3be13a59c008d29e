//! Standard tables as data, each with its source; a lookup answers `None` outside the table, never a guess.
