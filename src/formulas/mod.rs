//! Engineering formulas: pure functions, one file a topic, each citing its source. They know no machine.
