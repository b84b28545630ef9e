//! What the facts of the double kiss would do to the contact time of an ensemble, as the guide says.

use super::double_kiss::{Hit, room_mm};
use super::span;
use railproof_engine::ask::CredibleInterval;
use railproof_engine::bank::Bank;
use railproof_engine::ensemble::{Member, MemberNumber};
use railproof_engine::equipment::Equipment;
use railproof_engine::practice::practice_members;
use railproof_engine::rail::{Pocket, Rail};
use railproof_tests::shipped_equipment;
use rayon::prelude::*;

const STOPPED: Hit = Hit { restitution: 1.0, off_rail_m: 0.0 };

/// Frozen balls come back past a cue ball that stops dead, off contacts 2 to 3.5, from this speed up.
fn comes_back_past(table: &Equipment, member: &Member, slowest_m_s: f64) -> bool {
    let equipment = member.equipment(table);
    let model = table.cushion.rail_model;
    let bank = Bank::new(&equipment, Rail::Left, Pocket::FootRight, model).expect("a bank");
    span(2.0, 3.5, 0.5).all(|contact| {
        span(slowest_m_s, 5.0, 0.5).all(|speed| room_mm(&bank, contact, speed, &STOPPED) > 0.0)
    })
}

fn contact_times(members: &[Member]) -> String {
    let ms: Vec<f64> = members.iter().map(|it| 1e3 * it.value(MemberNumber::ContactTime)).collect();
    let even = vec![1.0 / ms.len() as f64; ms.len()];
    let CredibleInterval { ninety: (from, to), .. } =
        CredibleInterval::of(&ms, &even).expect("members");
    format!("{from:.0} to {to:.0} ms")
}

/// The guide's numbers are those of 1,024 tables by practice.
#[test]
fn the_guide_says_what_the_double_kiss_does_to_the_contact_time() {
    let table = shipped_equipment("nine-foot");
    let members =
        practice_members(&table, table.cushion.rail_model, 1024, 1).expect("banks").ensemble;
    let members = members.members();
    let kept = |slowest_m_s: f64| -> Vec<Member> {
        let come = members.par_iter().filter(|it| comes_back_past(&table, it, slowest_m_s));
        come.copied().collect()
    };
    let all = contact_times(members);
    let mut said = vec![format!("lies from {all}, nine times in ten")];
    for slowest_m_s in [3.0, 2.0] {
        let kept = kept(slowest_m_s);
        let of_hundred = 100.0 * kept.len() as f64 / members.len() as f64;
        let times = contact_times(&kept);
        said.push(format!(
            "from {slowest_m_s} m/s up on {of_hundred:.0} of a hundred, and these have {times}"
        ));
    }
    println!("{said:#?}");
    let guide = include_str!("../../../../scenarios/guide/table.md").replace('\n', " ");
    for words in said {
        assert!(guide.contains(&words), "the guide lacks: {words}");
    }
}
