fn main() {
    use railproof_benches::table::bank;
    use railproof_benches::timing::time;
    use railproof_engine::bank::*;
    use railproof_engine::batch::*;
    use railproof_engine::equipment::RailModel;
    use railproof_engine::rail::Line;
    let mut s = 1u64;
    let mut u = |lo: f64, hi: f64| {
        s = s.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = s;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        lo + (hi - lo) * (((z ^ (z >> 31)) >> 11) as f64) / 9007199254740992.0
    };
    let n = 16384;
    let mut inp = Inputs::default();
    for _ in 0..n {
        let c = u(0.5, 3.5);
        let r = u(2.0, 2.4);
        inp.push(
            Line::new(c, c * r),
            Launch {
                off_rail_m: u(0.0, 0.6),
                speed_m_s: u(1.0, 7.0),
                roll: u(-0.5, 1.0),
                side: u(-0.5, 0.5),
                aim_error_rad: u(-0.01, 0.01),
            },
        );
    }
    for model in [RailModel::Planar, RailModel::NoseOnly, RailModel::NoseAndCloth] {
        let b = bank(model);
        let mut o = Outcomes::default();
        let mut v = Verdicts::default();
        let t = time(|| {
            for i in 0..n {
                std::hint::black_box(b.play(
                    Line::new(inp.contact[i], inp.start[i]),
                    Launch {
                        off_rail_m: inp.off_rail_m[i],
                        speed_m_s: inp.speed_m_s[i],
                        roll: inp.roll[i],
                        side: inp.side[i],
                        aim_error_rad: inp.aim_error_rad[i],
                    },
                ))
                .ok();
            }
        });
        println!("{} scalar {:.1} ns", model.name(), t.seconds / n as f64 * 1e9);
        for w in Width::ALL {
            let t = time(|| play_at(w, &b, &inp, &mut o));
            let t2 = time(|| play_verdicts_at(w, &b, &inp, &mut v));
            println!(
                "{w:?} full {:.1} ns, verdicts {:.1} ns",
                t.seconds / n as f64 * 1e9,
                t2.seconds / n as f64 * 1e9
            );
        }
        for k in Verdict::ALL {
            print!(
                "{} {:.3}  ",
                k.name(),
                v.verdict.iter().filter(|x| **x == k).count() as f64 / n as f64
            );
        }
        println!();
    }
}
