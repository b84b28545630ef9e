//! Whether measured banks agree with any table that could be, and how small a disagreement they could show.
//!
//! Numbers that were read are held to what the narrowed members expect of them. Where places go nearly straight
//! with the members' numbers, the differences have the covariance N − C: N from scatter and reading, C that of the
//! expected places over the narrowed members (the banks have drawn the members towards themselves). Their
//! squares against it then follow the chi-square law; A. Gelman, X.-L. Meng and H. Stern 1996, *Posterior predictive
//! assessment of model fitness via realized discrepancies*, Statistica Sinica 6:733–807, name such a measure a
//! discrepancy.

mod chi_square;
mod discrepancy;

pub use discrepancy::Misfit;
