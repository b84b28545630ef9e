//! Aim solvers: what they find is played out and does what was asked.

use super::{SMOOTH, impulsive, table};
use railproof_engine::aim::{
    LineSetup, NoAim, OBJECT, Setup, aim_along, aims_that_make, compare, first_hit, gear, overcut,
    speeds_that_make, ways,
};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::shot::EventKind;
use railproof_engine::stroke::Stroke;
use railproof_tests::shipped_equipment;

fn on_line(contact: f64, cut_deg: f64) -> LineSetup {
    LineSetup {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        line: Line::new(contact, 2.2 * contact),
        off_rail_m: 0.15,
        cue_distance_m: 0.35,
        cut_rad: cut_deg.to_radians(),
    }
}

#[test]
fn the_aim_sends_the_object_ball_along_the_line_in_the_whole_shot() {
    let world = table(&shipped_equipment("nine-foot"));
    for cut in [-35.0, -10.0, 0.0, 10.0, 35.0] {
        for side in [-0.3, 0.0, 0.25] {
            let (setup, line) = Setup::on_line(&world, &on_line(2.5, cut)).unwrap();
            let stroke = Stroke {
                side_offset: side,
                height_offset: 0.1,
                elevation_rad: 0.05,
                ..Stroke::centre(3.0, 0.0)
            };
            let aim = aim_along(&setup, &stroke, line).unwrap();
            let shot = setup.play(&aim.stroke).unwrap();
            let hit = shot.events.iter().find(|event| event.kind.name() == "ball").unwrap();
            let EventKind::Ball(touch) = hit.kind else { panic!() };
            assert_eq!(touch.other, OBJECT);
            let off = line.cross(touch.other_after.velocity.unit_or_zero());
            assert!(off.abs() < 1e-9, "cut {cut}, side {side}: {off}");
        }
    }
}

#[test]
fn without_friction_and_end_mass_geometry_alone_is_right() {
    let mut equipment = impulsive(RailModel::NoseAndCloth);
    equipment.ball_contact = SMOOTH;
    equipment.cue.end_mass_kg = 0.0;
    // So short that it may stay level: a raised cue's side swerves.
    equipment.cue.shape.length_m = 0.05;
    let world = table(&equipment);
    for cut in [-40.0, 15.0, 70.0] {
        let (setup, line) = Setup::on_line(&world, &on_line(2.5, cut)).unwrap();
        let stroke = Stroke { side_offset: 0.3, ..Stroke::centre(3.0, 0.0) };
        let aim = aim_along(&setup, &stroke, line).unwrap();
        assert!(aim.correction_rad().abs() < 1e-9, "{}", aim.correction_rad());
        assert!((aim.hit.cut_rad().abs().to_degrees() - cut.abs()).abs() < 1e-6);
    }
}

#[test]
fn gearing_neither_throws_nor_gives_side_and_is_near_its_formula() {
    let world = table(&shipped_equipment("nine-foot"));
    for cut in [-40.0_f64, -20.0, 10.0, 30.0] {
        let (setup, line) = Setup::on_line(&world, &on_line(2.5, cut)).unwrap();
        let aim = gear(&setup, &Stroke::centre(4.0, 0.0), line).unwrap();
        assert!(aim.hit.throw_rad().abs() < 1e-9, "{}", aim.hit.throw_rad());
        assert!(aim.hit.object_after.spin.z.abs() < 1e-6);
        // b/R = 0.4·sin(cut), b square to the impulse, if speed and spin are still those the tip gave;
        // counted from the cue's axis that takes (21 + 2.5·(1 − b²))/21 of it for an end of a twentieth
        // of the ball's mass (derived). Speed falls on the way and spin hardly does, so a little less is
        // needed.
        let square = 0.4 * cut.to_radians().sin().abs();
        let mut formula = square;
        for _ in 0..40 {
            formula = square * (21.0 + 2.5 * (1.0 - formula * formula)) / 21.0;
        }
        let needed = aim.stroke.side_offset.abs();
        assert!(needed < formula && needed > 0.9 * formula, "{cut}: {needed}, formula {formula}");
    }
}

#[test]
fn an_overcut_goes_through_the_middle_and_says_how_much_it_took() {
    let world = table(&shipped_equipment("nine-foot"));
    let (setup, line) = Setup::on_line(&world, &on_line(2.5, 12.0)).unwrap();
    let found = overcut(&setup, &Stroke::centre(4.0, 0.0), line).unwrap();
    let arrival = found.verdict.arrival.unwrap();
    assert!(arrival.miss_m.abs() < 1e-6, "{}", arrival.miss_m);
    assert!(found.verdict.is_made());
    // Throw pulls the object ball back to the cue ball's line and transferred side works the same
    // way on an outside cut: it has to be overcut.
    assert!(found.overcut_rad > 1e-3, "{}", found.overcut_rad);
    let apart = (setup.object.state.position - setup.cue.state.position).norm();
    assert!((found.overcut_at_ball_m - found.overcut_rad * apart).abs() < 1e-12);
}

#[test]
fn windows_hold_inside_and_break_outside() {
    let world = table(&shipped_equipment("nine-foot"));
    let (setup, line) = Setup::on_line(&world, &on_line(2.5, 0.0)).unwrap();
    let stroke = overcut(&setup, &Stroke::centre(4.0, 0.0), line).unwrap().stroke;
    let made = |stroke: &Stroke| setup.judge(stroke).unwrap().1.is_made();
    let aims = aims_that_make(&setup, &stroke, 0.03).unwrap();
    let own = aims.iter().find(|it| it.from <= stroke.aim_rad && stroke.aim_rad <= it.to).unwrap();
    for (aim_rad, expected) in [
        (own.from + 1e-7, true),
        (own.to - 1e-7, true),
        (own.from - 1e-7, false),
        (own.to + 1e-7, false),
    ] {
        assert_eq!(made(&Stroke { aim_rad, ..stroke }), expected, "{own:?}");
    }
    let speeds = speeds_that_make(&setup, &stroke, (1.0, 7.0)).unwrap();
    let own = speeds.iter().find(|it| it.from <= 4.0 && 4.0 <= it.to).unwrap();
    assert!(own.from > 1.0, "the slowest does not arrive");
    assert!(!made(&Stroke { speed_m_s: own.from - 1e-5, ..stroke }));
    assert!(made(&Stroke { speed_m_s: own.from + 1e-5, ..stroke }));
}

#[test]
fn overcutting_and_gearing_are_compared_by_margin_and_sensitivity() {
    let world = table(&shipped_equipment("nine-foot"));
    let (setup, line) = Setup::on_line(&world, &on_line(2.5, 12.0)).unwrap();
    let both = compare(&setup, &Stroke::centre(4.0, 0.0), line);
    let (overcut, gearing) = (both.overcut.unwrap(), both.gearing.unwrap());
    assert_eq!(overcut.stroke.side_offset, 0.0);
    assert!(gearing.stroke.side_offset.abs() > 0.05);
    for played in [&overcut, &gearing] {
        assert!(played.verdict.is_made());
        let aims = played.aims.unwrap();
        assert!(aims.width() > 0.0 && aims.from <= played.stroke.aim_rad);
        // More cut aim sends it further by about the way it has to go.
        assert!(played.miss_per_aim_m_rad.unwrap().abs() > 1.0);
        assert!(played.miss_per_speed_s.is_some() && played.miss_per_side_m.is_some());
    }
}

#[test]
fn other_ways_are_found_where_the_natural_line_kisses() {
    let world = table(&impulsive(RailModel::NoseAndCloth));
    let steep = LineSetup { off_rail_m: 0.0254, ..on_line(1.5, 0.0) };
    let (setup, line) = Setup::on_line(&world, &steep).unwrap();
    let natural = aim_along(&setup, &Stroke::centre(4.0, 0.0), line).unwrap();
    assert!(setup.judge(&natural.stroke).unwrap().1.kissed_at_s.is_some());
    let found = ways(&setup, line, &[3.0, 4.0, 5.0], &[-0.3, 0.0, 0.3], &[-0.3, 0.0, 0.3], 0.02);
    assert_eq!(found.len(), 27);
    let made: Vec<_> = found.iter().flatten().collect();
    assert!(!made.is_empty() && made.len() < 27, "{}", made.len());
    for way in made {
        let (_, verdict) = setup.judge(&way.stroke).unwrap();
        assert!(verdict.is_made() && verdict.kissed_at_s.is_none());
    }
}

#[test]
fn each_solver_says_why_there_is_no_answer() {
    let world = table(&shipped_equipment("nine-foot"));
    let (setup, line) = Setup::on_line(&world, &on_line(2.5, 0.0)).unwrap();
    let stroke = Stroke::centre(4.0, 0.0);
    assert!(matches!(aim_along(&setup, &stroke, -line), Err(NoAim::BehindTheBall { .. })));
    let soft = Stroke::centre(0.05, 0.0);
    assert!(matches!(aim_along(&setup, &soft, line), Err(NoAim::TooSoft { .. })));
    let wild = Stroke { side_offset: 0.7, ..stroke };
    assert!(matches!(aim_along(&setup, &wild, line), Err(NoAim::Stroke(_))));
    // Little draw room left for side.
    let (thin, line) = Setup::on_line(&world, &on_line(2.5, 65.0)).unwrap();
    let tight = Stroke { height_offset: 0.48, ..stroke };
    let refused = gear(&thin, &tight, line);
    assert!(matches!(refused, Err(NoAim::TooMuchSide { .. })), "{refused:?}");
    assert!(matches!(speeds_that_make(&thin, &stroke, (0.1, 0.2)), Err(NoAim::NeverMade { .. })));
    let message = refused.unwrap_err().to_string();
    assert!(message.contains("the tip slips off"), "{message}");
    assert!(first_hit(&setup, &Stroke { aim_rad: 3.0, ..stroke }).unwrap().is_none());
}
