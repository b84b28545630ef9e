use super::*;

fn speeds() -> FindingAxis {
    let ticks: Vec<String> = ["2", "2.5", "3", "3.5"].map(str::to_owned).to_vec();
    FindingAxis {
        name: "speed".to_owned(),
        amounts: vec![2.0, 2.5, 3.0, 3.5],
        labels: ticks.iter().map(|tick| format!("{tick} m/s")).collect(),
        ticks,
        by_word: false,
    }
}

fn group(label: &str, held: [usize; 4]) -> FindingGroup {
    let count = |held| FindingCount { held, all: 10, ..FindingCount::default() };
    FindingGroup { label: label.to_owned(), counts: held.map(count).to_vec(), across: None }
}

fn alone(held: [usize; 4]) -> String {
    finding(&speeds(), &[group("", held)], "Holds")
}

#[test]
fn a_stretch_is_told_by_its_ends() {
    assert_eq!(alone([10, 10, 10, 10]), "Holds at any speed.");
    assert_eq!(alone([7, 10, 10, 10]), "Holds at nearly any speed.");
    assert_eq!(alone([0, 9, 10, 10]), "Holds at 3 m/s or more.");
    assert_eq!(alone([10, 10, 9, 0]), "Holds up to 2.5 m/s.");
    assert_eq!(alone([0, 10, 10, 0]), "Holds at 2.5 to 3 m/s.");
    assert_eq!(alone([10, 0, 10, 10]), "Holds at 2 m/s only and 3 m/s or more.");
    assert_eq!(alone([0, 0, 8, 3]), "At best 8 of 10 hold, at 3 m/s.");
    assert_eq!(alone([0, 8, 8, 3]), "At best 8 of 10 hold, from 2.5 to 3 m/s.");
    assert_eq!(alone([0, 3, 8, 8]), "At best 8 of 10 hold, from 3 m/s on.");
    assert_eq!(alone([8, 8, 8, 3]), "At best 8 of 10 hold, up to 3 m/s.");
    assert_eq!(alone([7, 7, 7, 7]), "At best 7 of 10 hold, at any speed.");
    assert_eq!(alone([8, 1, 8, 3]), "At best 8 of 10 hold, at 2 m/s and 3 m/s.");
    assert_eq!(alone([0, 0, 0, 0]), "Holds nowhere.");
}

#[test]
fn headings_are_short_and_equal_answers_are_told_once() {
    let groups = [
        group("frozen to the rail", [10, 9, 10, 10]),
        group("5 in off the rail", [0, 0, 10, 10]),
        group("10 in off the rail", [0, 0, 10, 10]),
    ];
    assert_eq!(
        finding(&speeds(), &groups, "Holds"),
        "Frozen: nearly any speed. 5 in off and 10 in off: 3 m/s or more."
    );
}

#[test]
fn one_answer_under_every_heading_is_a_sentence_of_its_own() {
    let words = |held: [usize; 4], count: usize, name: &str| {
        let groups: Vec<FindingGroup> =
            (0..count).map(|at| group(&format!("contact {at}"), held)).collect();
        let axis = FindingAxis { name: name.to_owned(), ..speeds() };
        finding(&axis, &groups, "Holds")
    };
    assert_eq!(words([0, 0, 10, 10], 2, "speed"), "Holds at 3 m/s or more in both cases.");
    assert_eq!(words([10, 10, 10, 10], 3, "tip_side"), "Holds at any tip side in all 3 cases.");
    assert_eq!(words([10, 0, 0, 0], 2, "spin"), "Holds with 2 m/s only in both cases.");
    assert_eq!(words([10, 10, 0, 0], 7, "off_rail"), "Holds up to 2.5 m/s in all 7 cases.");
    assert_eq!(words([0, 0, 0, 0], 2, "speed"), "Holds in neither case.");
    assert_eq!(words([0, 0, 8, 3], 2, "speed"), "At best 8 of 10 hold, at 3 m/s in both cases.");
}

#[test]
fn results_that_cannot_be_played_are_no_misses() {
    let told = |of: [(usize, usize); 4]| {
        let count = |(held, all)| FindingCount {
            held,
            all,
            unplayable: 10 - all,
            ..FindingCount::default()
        };
        let counts = of.map(count).to_vec();
        finding(&speeds(), &[FindingGroup { label: String::new(), counts, across: None }], "Holds")
    };
    assert_eq!(
        told([(0, 7), (6, 7), (7, 7), (7, 7)]),
        "Holds at 3 m/s or more, for the 7 of 10 that can be played."
    );
    assert_eq!(
        told([(0, 7), (2, 7), (6, 7), (6, 7)]),
        "At best 6 of the 7 that can be played hold, from 3 m/s on."
    );
    assert_eq!(
        told([(9, 9), (8, 8), (7, 7), (0, 0)]),
        "Holds at any speed, where it can be played."
    );
    assert_eq!(told([(0, 0); 4]), "Can't be played.");
}

#[test]
fn a_stretch_that_is_less_sure_says_so() {
    let told = |less_sure: [usize; 4]| {
        let mut only = group("", [0, 0, 10, 10]);
        let each = only.counts.iter_mut().zip(less_sure);
        each.for_each(|(count, less_sure)| count.less_sure = less_sure);
        finding(&speeds(), &[only], "Holds")
    };
    assert_eq!(told([0, 0, 10, 10]), "Holds at 3 m/s or more (less sure).");
    assert_eq!(told([0, 0, 9, 10]), "Holds at 3 m/s or more (mostly less sure).");
    assert_eq!(told([0, 0, 5, 5]), "Holds at 3 m/s or more.");
}

#[test]
fn of_many_headings_the_best_and_the_worst_are_told() {
    let many: Vec<FindingGroup> = (0..6)
        .map(|at| group(&format!("contact {at}"), [0, 0, if at > 2 { 10 } else { at }, 10]))
        .collect();
    assert_eq!(
        finding(&speeds(), &many, "Holds"),
        "Best: contact 3 (a tie with 2 others): 3 m/s or more. Worst: contact 0: 3.5 m/s only."
    );
}

#[test]
fn values_stand_in_their_order_and_words_are_listed() {
    let mut axis = speeds();
    axis.amounts.reverse();
    axis.labels.reverse();
    axis.ticks.reverse();
    let groups = [group("", [10, 10, 0, 0])];
    assert_eq!(finding(&axis, &groups, "Drops"), "Drops at 3 m/s or more.");
    let spoken = FindingAxis {
        labels: ["soft", "medium", "firm", "hard"].map(str::to_owned).to_vec(),
        by_word: true,
        ..speeds()
    };
    let groups_of = |held| [group("", held)];
    assert_eq!(finding(&spoken, &groups_of([0, 0, 10, 0]), "Holds"), "Holds at firm.");
    assert_eq!(finding(&spoken, &groups_of([0, 0, 10, 10]), "Holds"), "Holds at firm and hard.");
    assert_eq!(
        finding(&spoken, &groups_of([0, 0, 8, 8]), "Holds"),
        "At best 8 of 10 hold, at firm and hard."
    );
    let words = FindingAxis { name: "spin".to_owned(), amounts: Vec::new(), ..speeds() };
    assert_eq!(finding(&words, &groups, "Holds"), "Holds with 2 m/s and 2.5 m/s.");
    assert_eq!(finding(&speeds(), &[], "Holds"), "");
}

#[test]
fn one_result_that_never_holds_does_not_hide_the_others() {
    // Of six speeds all hold at one, nearly all at four.
    let labels: Vec<String> = (1..=6).map(|at| format!("{at} m/s")).collect();
    let axis = FindingAxis {
        amounts: (1..=6).map(f64::from).collect(),
        ticks: (1..=6).map(|at| at.to_string()).collect(),
        labels,
        ..speeds()
    };
    let told = |held: [usize; 6]| {
        let counts = held.map(|held| FindingCount { held, all: 10, ..FindingCount::default() });
        finding(
            &axis,
            &[FindingGroup { label: String::new(), counts: counts.to_vec(), across: None }],
            "Holds",
        )
    };
    assert_eq!(told([0, 3, 9, 8, 10, 9]), "At least 8 of 10 hold, from 3 m/s on.");
    assert_eq!(told([9, 8, 9, 3, 10, 2]), "At least 8 of 10 hold, up to 3 m/s.");
    // Fewer than four of five are not nearly all, and a stretch as long as this needs no other.
    assert_eq!(told([0, 3, 7, 7, 10, 7]), "Holds at 5 m/s.");
    assert_eq!(told([0, 0, 9, 10, 10, 10]), "Holds at 4 m/s or more.");
}

#[test]
fn sureness_is_said_once() {
    let one = "Frozen: any speed (less sure). 10 in off: 3 m/s or more.";
    assert_eq!(sureness_once(one), one);
    let two = "Frozen: any speed (mostly less sure). 10 in off: 3 m/s or more (less sure).";
    let told =
        "Frozen: any speed. 10 in off: 3 m/s or more. The model is less sure of most of this.";
    assert_eq!(sureness_once(two), told);
}

#[test]
fn the_other_axis_is_told_where_it_says_more() {
    let ticks: Vec<String> = ["1", "2", "3"].map(str::to_owned).to_vec();
    let contacts = FindingAxis {
        name: "contact".to_owned(),
        amounts: vec![1.0, 2.0, 3.0],
        labels: ticks.iter().map(|tick| format!("contact {tick}")).collect(),
        ticks,
        by_word: false,
    };
    // A row of letters for each contact number, a letter for each speed: `#` holds.
    let told = |label: &str, rows: [&str; 3]| {
        let holds = |row: &str, at: usize| row.as_bytes()[at] == b'#';
        let cell = |held| FindingCount { held, all: 1, ..FindingCount::default() };
        let cells: Vec<Vec<FindingCount>> = (0..4)
            .map(|at| rows.iter().map(|row| cell(usize::from(holds(row, at)))).collect())
            .collect();
        let counts = cells.iter().map(|row| FindingCount::of(row.iter().copied())).collect();
        let across = Some(FindingAcross { axis: contacts.clone(), cells });
        finding(&speeds(), &[FindingGroup { label: label.to_owned(), counts, across }], "Holds")
    };
    // The third contact number holds at the last speed only.
    assert_eq!(
        told("frozen to the rail", ["####", "####", "...#"]),
        "Frozen: any speed up to contact 2, else 3.5 m/s only."
    );
    assert_eq!(told("", ["####", "####", "...."]), "Holds at any speed up to contact 2.");
    assert_eq!(told("", ["....", "####", "####"]), "Holds at any speed from contact 2 on.");
    // It says no more where most speeds hold throughout, or few contact numbers.
    assert_eq!(told("", [".###", ".###", ".###"]), "Holds at 2.5 m/s or more.");
    // Where neither axis holds throughout, the largest part that does is told.
    assert_eq!(told("", ["#...", "..##", "..##"]), "Holds at 3 m/s or more, from contact 2 on.");
    assert_eq!(told("", ["...#", ".##.", "..#."]), "At best 2 of 3 hold, at 3 m/s.");
}
