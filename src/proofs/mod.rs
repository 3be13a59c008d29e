//! Proofs over the bodies of a machine: what no rule that knows one part can see.
//!
//! In: a machine with its parts. Out: [`overlaps`](overlaps::overlaps), what shares space that may not, and
//! [`loose`](held::loose), what hangs in the air, and [`in_the_way`](removal::in_the_way), what keeps the foot pulley in. What is allowed stands in [`allowed`], each with its reason; nothing
//! else is passed over. Bodies are asked where they stand, the shaft as it is drawn: what turns is kept clear of what stands by the
//! rules of its clearances.

pub mod allowed;
pub mod fillets;
pub mod held;
pub mod overlaps;
pub mod removal;
pub mod standing;
