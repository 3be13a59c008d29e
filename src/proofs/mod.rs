//! Proofs over the bodies of a machine: what no rule that knows one part can see.
//!
//! In: a machine with its parts. Out: [`overlaps`](overlaps::overlaps), what shares space that may not; [`loose`](held::loose), what hangs
//! in the air; [`in_the_way`](removal::in_the_way), what keeps in what wears; [`unreached`](tools::unreached), what no tool, hand or eye gets
//! to; [`covered`](torch::covered), what no torch gets to; [`gaps`](travel::gaps), what the take-up uncovers on its way. What is allowed stands in [`allowed`], each with its reason; nothing
//! else is passed over.

pub mod allowed;
pub mod fillets;
pub mod held;
pub mod overlaps;
pub mod removal;
pub mod standing;
pub mod tools;
pub mod torch;
pub mod travel;
