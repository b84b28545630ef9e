//! The direction numbers of Sobol's points.
//!
//! S. Joe and F. Kuo 2008, *Constructing Sobol sequences with better two-dimensional projections*,
//! SIAM J. Sci. Comput. 30(5):2635–2654; their table `new-joe-kuo-6`, first 64 dimensions.

/// Number of dimensions.
pub(super) const DIMENSIONS: usize = 64;

/// The number of direction numbers of each dimension: 2⁵² points.
pub(super) const LAST_BIT: usize = 52;

/// For each dimension after the first its primitive polynomial over two elements, a bit for each
/// power, and its first direction numbers, as many as the polynomial's degree.
const FIRST: [(u32, &[u64]); DIMENSIONS - 1] = [
    (0x3, &[1]),
    (0x7, &[1, 3]),
    (0xb, &[1, 3, 1]),
    (0xd, &[1, 1, 1]),
    (0x13, &[1, 1, 3, 3]),
    (0x19, &[1, 3, 5, 13]),
    (0x25, &[1, 1, 5, 5, 17]),
    (0x29, &[1, 1, 5, 5, 5]),
    (0x2f, &[1, 1, 7, 11, 19]),
    (0x37, &[1, 1, 5, 1, 1]),
    (0x3b, &[1, 1, 1, 3, 11]),
    (0x3d, &[1, 3, 5, 5, 31]),
    (0x43, &[1, 3, 3, 9, 7, 49]),
    (0x5b, &[1, 1, 1, 15, 21, 21]),
    (0x61, &[1, 3, 1, 13, 27, 49]),
    (0x67, &[1, 1, 1, 15, 7, 5]),
    (0x6d, &[1, 3, 1, 15, 13, 25]),
    (0x73, &[1, 1, 5, 5, 19, 61]),
    (0x83, &[1, 3, 7, 11, 23, 15, 103]),
    (0x89, &[1, 3, 7, 13, 13, 15, 69]),
    (0x8f, &[1, 1, 3, 13, 7, 35, 63]),
    (0x91, &[1, 3, 5, 9, 1, 25, 53]),
    (0x9d, &[1, 3, 1, 13, 9, 35, 107]),
    (0xa7, &[1, 3, 1, 5, 27, 61, 31]),
    (0xab, &[1, 1, 5, 11, 19, 41, 61]),
    (0xb9, &[1, 3, 5, 3, 3, 13, 69]),
    (0xbf, &[1, 1, 7, 13, 1, 19, 1]),
    (0xc1, &[1, 3, 7, 5, 13, 19, 59]),
    (0xcb, &[1, 1, 3, 9, 25, 29, 41]),
    (0xd3, &[1, 3, 5, 13, 23, 1, 55]),
    (0xd5, &[1, 3, 7, 3, 13, 59, 17]),
    (0xe5, &[1, 3, 1, 3, 5, 53, 69]),
    (0xef, &[1, 1, 5, 5, 23, 33, 13]),
    (0xf1, &[1, 1, 7, 7, 1, 61, 123]),
    (0xf7, &[1, 1, 7, 9, 13, 61, 49]),
    (0xfd, &[1, 3, 3, 5, 3, 55, 33]),
    (0x11d, &[1, 3, 1, 15, 31, 13, 49, 245]),
    (0x12b, &[1, 3, 5, 15, 31, 59, 63, 97]),
    (0x12d, &[1, 3, 1, 11, 11, 11, 77, 249]),
    (0x14d, &[1, 3, 1, 11, 27, 43, 71, 9]),
    (0x15f, &[1, 1, 7, 15, 21, 11, 81, 45]),
    (0x163, &[1, 3, 7, 3, 25, 31, 65, 79]),
    (0x165, &[1, 3, 1, 1, 19, 11, 3, 205]),
    (0x169, &[1, 1, 5, 9, 19, 21, 29, 157]),
    (0x171, &[1, 3, 7, 11, 1, 33, 89, 185]),
    (0x187, &[1, 3, 3, 3, 15, 9, 79, 71]),
    (0x18d, &[1, 3, 7, 11, 15, 39, 119, 27]),
    (0x1a9, &[1, 1, 3, 1, 11, 31, 97, 225]),
    (0x1c3, &[1, 1, 1, 3, 23, 43, 57, 177]),
    (0x1cf, &[1, 3, 7, 7, 17, 17, 37, 71]),
    (0x1e7, &[1, 3, 1, 5, 27, 63, 123, 213]),
    (0x1f5, &[1, 1, 3, 5, 11, 43, 53, 133]),
    (0x211, &[1, 3, 5, 5, 29, 17, 47, 173, 479]),
    (0x21b, &[1, 3, 3, 11, 3, 1, 109, 9, 69]),
    (0x221, &[1, 1, 1, 5, 17, 39, 23, 5, 343]),
    (0x22d, &[1, 3, 1, 5, 25, 15, 31, 103, 499]),
    (0x233, &[1, 1, 1, 11, 11, 17, 63, 105, 183]),
    (0x259, &[1, 1, 5, 11, 9, 29, 97, 231, 363]),
    (0x25f, &[1, 1, 5, 15, 19, 45, 41, 7, 383]),
    (0x269, &[1, 3, 7, 7, 31, 19, 83, 137, 221]),
    (0x26f, &[1, 1, 1, 3, 23, 15, 111, 223, 83]),
    (0x277, &[1, 1, 5, 13, 31, 15, 55, 25, 161]),
    (0x27d, &[1, 1, 3, 13, 25, 47, 39, 87, 257]),
];

/// The direction numbers of every dimension, each with its first binary digit in the highest bit.
///
/// The first dimension has the digits of the index in reverse. Elsewhere a direction number follows
/// from as many before it as the polynomial's degree (Joe & Kuo 2008).
#[expect(clippy::large_stack_arrays, reason = "the compiler computes it")]
pub(super) const fn directions() -> [[u64; LAST_BIT]; DIMENSIONS] {
    let mut all = [[0; LAST_BIT]; DIMENSIONS];
    let mut bit = 0;
    while bit < LAST_BIT {
        all[0][bit] = 1 << (63 - bit);
        bit += 1;
    }
    let mut dimension = 1;
    while dimension < DIMENSIONS {
        let (polynomial, first) = FIRST[dimension - 1];
        let degree = first.len();
        let mut bit = 0;
        while bit < LAST_BIT {
            all[dimension][bit] = if bit < degree {
                first[bit] << (63 - bit)
            } else {
                next(&all[dimension], bit, polynomial, degree)
            };
            bit += 1;
        }
        dimension += 1;
    }
    all
}

/// A direction number from those before it.
const fn next(before: &[u64; LAST_BIT], bit: usize, polynomial: u32, degree: usize) -> u64 {
    let mut number = before[bit - degree] ^ (before[bit - degree] >> degree);
    let mut back = 1;
    while back < degree {
        if polynomial >> (degree - back) & 1 == 1 {
            number ^= before[bit - back];
        }
        back += 1;
    }
    number
}
