//! Aiming rules as data: a contact number in, a start number out.
