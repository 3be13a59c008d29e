//! What of a machine a view shows: from where it looks, where it cuts, which bodies stand there.
//!
//! In: what the author of a view drew bodies with. Out: the same as plain numbers, so that whoever holds the machine can
//! draw the view again or measure the bodies that its dimensions refer to. Knows no machine.

/// One picture of bodies in a view.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// To the right in the view, a unit vector of the model.
    pub right: [f64; 3],
    /// Up in the view.
    pub up: [f64; 3],
    /// To the viewer.
    pub toward: [f64; 3],
    /// A point of the cutting plane square to the view, model mm; what lies before it is taken away.
    pub cut: Option<[f64; 3]>,
    /// How much higher than at its lowest the take-up stands, mm.
    pub raised: f64,
    /// Drawn in phantom line: it hides nothing and nothing hides it.
    pub phantom: bool,
    /// What stands there.
    pub pieces: Vec<ShownPiece>,
    /// The view was turned over afterwards: right is left.
    pub over: bool,
    /// How far the view was moved up afterwards, mm.
    pub lifted: f64,
}

/// A piece of a body in a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct ShownPiece {
    /// Id of its body.
    pub body: String,
    /// Which piece of its body.
    pub place: usize,
    /// Where its own x, y and z point in the model and where its origin stands, mm.
    pub at: [[f64; 3]; 4],
    /// Whether its hidden edges are drawn.
    pub hidden: bool,
}
