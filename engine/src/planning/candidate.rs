//! Banks that a person can set up and read.

use crate::column::SetUp;
use crate::rail::{Line, Pocket, Rail};
use crate::units::{INCH_M, Speed, SpeedWord};

/// Contacts from 2 to 3.5 by quarters from twice the number, and a quarter more; frozen and 4, 8
/// and 12 inches off; by the three words; into both corners across. Below contact 2 a frozen ball may come
/// back into the cue ball.
pub fn candidates() -> Vec<SetUp> {
    let mut all = Vec::new();
    for quarter in 8..=14 {
        let contact = 0.25 * f64::from(quarter);
        for away in [0.0, 0.25] {
            for inches in [0.0, 4.0, 8.0, 12.0] {
                for word in SpeedWord::ALL {
                    for pocket in [Pocket::FootRight, Pocket::HeadRight] {
                        all.push(SetUp::stun(
                            Rail::Left,
                            pocket,
                            Line::new(contact, 2.0 * contact + away),
                            inches * INCH_M,
                            Speed::Word(word),
                        ));
                    }
                }
            }
        }
    }
    all
}
