//! Equipment standards against what the engine accepts and how it places the ball. The shipped
//! profiles are held to the standards where the profiles are tested.

use super::{exact, printed, table};
use railproof_engine::equipment::{Ball, Cushion, Equipment, Parameter, Table};
use railproof_engine::units::{INCH_M, OUNCE_KG};

fn accepts(parameter: Parameter, values: impl IntoIterator<Item = f64>) {
    for value in values {
        assert!(parameter.check(value).is_ok(), "{} refuses {value}", parameter.name);
    }
}

/// WPA equipment specifications (published): the ends of every tolerance. Shelves and mouth angles
/// are no parameters of the engine.
#[test]
fn pool_tolerances_are_accepted() {
    accepts(Table::LENGTH, [99.875, 100.125, 91.875, 92.125].map(|inches| inches * INCH_M));
    accepts(Table::WIDTH, [49.875, 50.125, 45.875, 46.125].map(|inches| inches * INCH_M));
    accepts(Table::CORNER_MOUTH, [4.5, 4.625].map(|inches| inches * INCH_M));
    accepts(Table::SIDE_MOUTH, [5.0, 5.125].map(|inches| inches * INCH_M));
    accepts(Table::SIGHT_SETBACK, [3.5625, 3.8125].map(|inches| inches * INCH_M));
    accepts(Ball::DIAMETER, [2.245, 2.255].map(|inches| inches * INCH_M));
    accepts(Ball::MASS, [5.5, 6.0].map(|ounces| ounces * OUNCE_KG));
    accepts(Cushion::NOSE_RATIO, [0.625, 0.635, 0.645]);
}

/// UMB rules for carom (published): 2.84 by 1.42 m, cushion 37 ± 1 mm, ball 61 to 61.5 mm, 205 to
/// 220 g. WPBSA rules for snooker (published): 3569 by 1778 mm, ± 13, ball 52.5 ± 0.05 mm.
#[test]
fn carom_and_snooker_sizes_are_accepted() {
    accepts(Table::LENGTH, [2.84, 3.556, 3.582]);
    accepts(Table::WIDTH, [1.42, 1.765, 1.791]);
    accepts(Ball::DIAMETER, [0.061, 0.0615, 0.05245, 0.05255]);
    accepts(Ball::MASS, [0.205, 0.220]);
    accepts(Cushion::NOSE_HEIGHT, [0.036, 0.038]);
    accepts(Cushion::NOSE_RATIO, [0.036 / 0.0615, 0.038 / 0.061]);
}

/// Derived, for the standard nose (63.5 % of the diameter: WPA, wording quoted from memory) and the
/// standard ball of 2.25 in: sinθ = 0.27, and the centre is R·cosθ = 27.514 mm from the nose line.
#[test]
fn the_groove_of_the_standard_nose() {
    let equipment = table::nine_foot();
    exact(equipment.sin_theta(), 0.27);
    exact(equipment.groove_m(), 1.125 * INCH_M * (1.0_f64 - 0.27 * 0.27).sqrt());
    printed(1e3 * equipment.groove_m(), "27.514");
}

/// A carom table has no pockets, but its ball and cushion make sense together: 37 mm under a ball of
/// 61.5 mm (UMB, published) give sinθ = 0.203 [derived].
#[test]
fn the_carom_nose() {
    let mut equipment: Equipment = table::nine_foot();
    equipment.ball = Ball { diameter_m: 0.0615, mass_kg: 0.21 };
    equipment.cushion.nose_height_m = 0.037;
    let equipment = equipment.validated().expect("it is within range");
    printed(equipment.sin_theta(), "0.203");
}
