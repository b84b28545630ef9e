//! The same layout in Lua and in YAML, with one thing wrong: both say the same of it.

use crate::fault::Fault;
use crate::fields::{Field, FieldKind, Group, Writing};
use crate::layout::tables::{HEADING, LAUNCH, LINE, PLACE};
use crate::layout::{GROUPS, parse_layout};
use crate::scenario::{RunOptions, run_scenario};
use railproof_engine::equipment::Parameter;
use std::path::Path;

/// A value to be written in either language.
#[derive(Clone)]
enum Node {
    Quantity(f64, &'static str),
    Word(&'static str),
    List(Vec<Node>),
    Fields(Vec<(&'static str, Node)>),
}

impl Node {
    fn written(&self, writing: Writing) -> String {
        let lua = writing == Writing::Lua;
        let all = |items: Vec<String>| items.join(", ");
        match self {
            Self::Quantity(amount, unit) => writing.quantity(*amount, unit),
            Self::Word(word) => format!("\"{word}\""),
            Self::List(items) => {
                let items = all(items.iter().map(|item| item.written(writing)).collect());
                if lua { format!("{{ {items} }}") } else { format!("[{items}]") }
            }
            Self::Fields(fields) => {
                let sign = if lua { " =" } else { ":" };
                let one = |(name, value): &(&str, Self)| {
                    format!("{name}{sign} {}", value.written(writing))
                };
                format!("{{ {} }}", all(fields.iter().map(one).collect()))
            }
        }
    }
}

fn one(name: &'static str, value: Node) -> Node {
    Node::Fields(vec![(name, value)])
}

fn word(word: &'static str) -> Node {
    Node::Word(word)
}

fn number(number: f64) -> Node {
    Node::Quantity(number, "")
}

fn position() -> Node {
    Node::List(vec![Node::Quantity(0.0, "m"), Node::Quantity(0.0, "m")])
}

/// Wrong values that are still of the right sort.
fn wrong(kind: &FieldKind) -> Vec<Node> {
    let ends = |parameter: &Parameter| {
        let Parameter { low, high, unit, .. } = *parameter;
        [low - 1.0, high + 1.0].map(|amount| Node::Quantity(amount, unit))
    };
    match kind {
        FieldKind::Number(parameter) | FieldKind::PlainSpeed(parameter) => ends(parameter).to_vec(),
        FieldKind::NumberOr(parameter, _) | FieldKind::Speed(parameter) => {
            ends(parameter).into_iter().chain([word("nonsense")]).collect()
        }
        FieldKind::Vector { each, count, .. } => {
            let zero = Node::Quantity(0.0, each.unit);
            let [low, high] = ends(each);
            let with = |bad: Node| Node::List([vec![zero.clone(); count - 1], vec![bad]].concat());
            vec![with(low), with(high), Node::List(vec![zero.clone(); count + 1])]
        }
        FieldKind::Points { each, .. } => {
            let zero = Node::Quantity(0.0, each.unit);
            let point = |bad: Node| Node::List(vec![Node::List(vec![zero.clone(), bad])]);
            ends(each).map(point).to_vec()
        }
        FieldKind::Word(_) | FieldKind::Flag => vec![word("nonsense")],
        FieldKind::Name | FieldKind::Text => vec![word("")],
        FieldKind::Two(_) => vec![Node::List(vec![word("cue")])],
        FieldKind::Group(_)
        | FieldKind::WordOr(..)
        | FieldKind::NameOr(..)
        | FieldKind::Each { .. } => Vec::new(),
    }
}

/// A place for a group's fields in a layout's ball.
type Around = fn(Node) -> Vec<(&'static str, Node)>;

const IN_A_BALL: [(&str, Around); 4] = [
    ("launch", |launch| vec![("position", position()), ("launch", launch)]),
    ("line", |line| vec![("on_line", line)]),
    ("heading", |heading| vec![("behind", word("cue")), ("heading", heading)]),
    ("place", |place| vec![("between", Node::List(vec![place, word("cue")]))]),
];

/// A layout of these balls and obstacles.
fn layout(ball: Vec<(&'static str, Node)>, obstacle: Option<Node>) -> Vec<(&'static str, Node)> {
    let mut fields = vec![("balls", one("cue", Node::Fields(ball)))];
    fields.extend(obstacle.map(|obstacle| ("obstacles", one("box", obstacle))));
    fields
}

/// The layout of a group's own values.
fn around(group: &str, values: Node) -> Vec<(&'static str, Node)> {
    if let Some((_, around)) = IN_A_BALL.iter().find(|(name, _)| *name == group) {
        return layout(around(values), None);
    }
    match (group, values) {
        ("obstacle", values) => layout(vec![("position", position())], Some(values)),
        (_, Node::Fields(fields)) => layout(fields, None),
        (_, other) => panic!("{}", other.written(Writing::Yaml)),
    }
}

fn in_yaml(fields: &[(&'static str, Node)]) -> Fault {
    let mut fields = fields.to_vec();
    fields.insert(0, ("equipment", word("nine-foot")));
    let text = Node::Fields(fields).written(Writing::Yaml);
    match parse_layout(&text, "a.yaml", Path::new("")) {
        Ok(_) => panic!("not refused: {text}"),
        Err(fault) => fault,
    }
}

fn in_lua(fields: &[(&'static str, Node)], play: &str) -> Fault {
    let Node::Fields(mut fields) = Node::Fields(fields.to_vec()) else { unreachable!() };
    fields.retain(|(name, _)| *name != "stroke");
    let options = Node::Fields(fields).written(Writing::Lua);
    let text = format!(
        "local hall = equipment 'nine-foot'\nlocal balls = lay {{ equipment = hall, {}\n{play}",
        options.trim_start_matches('{')
    );
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.lua");
    std::fs::write(&path, &text).expect("it can be written");
    match run_scenario(&path, &RunOptions::default()).and_then(crate::record::Record::whole) {
        Ok(_) => panic!("not refused: {text}"),
        Err(fault) => fault,
    }
}

/// A message without what differs by the way of writing.
fn plain(fault: &Fault) -> String {
    fault.message.replace("the text ", "").replace('"', "`").replace("``", "nothing")
}

fn same(yaml: &Fault, lua: &Fault, said: &str) {
    assert_eq!(plain(yaml), plain(lua), "{said}");
    assert_eq!(yaml.hint.is_some(), lua.hint.is_some(), "{said}: {yaml:?} {lua:?}");
    assert!(yaml.place.is_some() && lua.place.is_some(), "{said}: no place");
}

/// Fields that keep a group whole beside the one that is wrong.
fn beside(group: &str, field: &Field) -> Vec<(&'static str, Node)> {
    let whole = match group {
        "launch" => vec![
            ("speed", Node::Quantity(1.0, "m/s")),
            ("heading", one("angle", Node::Quantity(0.0, "deg"))),
        ],
        "line" => vec![("contact", number(2.0)), ("start", number(4.0))],
        _ => Vec::new(),
    };
    whole.into_iter().filter(|(name, _)| *name != field.name).collect()
}

#[test]
fn a_wrong_value_of_every_field_is_told_alike() {
    let mut told = 0;
    for name in ["ball", "obstacle"].into_iter().chain(IN_A_BALL.map(|(name, _)| name)) {
        let group = group_named(name);
        for field in group.all() {
            for bad in wrong(&field.kind) {
                let said = format!("{name}.{}: {}", field.name, bad.written(Writing::Yaml));
                let mut fields = beside(name, field);
                fields.push((field.name, bad));
                let layout = around(name, Node::Fields(fields));
                let yaml = in_yaml(&layout);
                let own = yaml.message.contains(&format!("`{}`", field.name));
                assert!(own, "{said}: {}", yaml.message);
                same(&yaml, &in_lua(&layout, ""), &said);
                told += 1;
            }
        }
    }
    assert!(told > 70, "{told}");
}

#[test]
fn a_wrong_value_of_every_field_of_a_stroke_is_told_alike() {
    let mut told = 0;
    for field in group_named("scenario-stroke").all() {
        for bad in wrong(&field.kind) {
            let said = format!("stroke.{}: {}", field.name, bad.written(Writing::Yaml));
            let mut fields = vec![("speed", Node::Quantity(1.0, "m/s")), (field.name, bad)];
            fields.retain(|(name, value)| {
                *name != field.name || !matches!(value, Node::Quantity(amount, _) if *amount == 1.0)
            });
            if field.name != "aim" {
                fields.push(("aim", Node::Quantity(0.0, "deg")));
            }
            let stroke = Node::Fields(fields);
            let play = format!("balls:play {}", stroke.written(Writing::Lua));
            let mut layout = layout(vec![("position", position())], None);
            layout.push(("stroke", stroke));
            same(&in_yaml(&layout), &in_lua(&layout, &play), &said);
            told += 1;
        }
    }
    assert!(told > 9, "{told}");
}

#[test]
fn a_group_without_its_fields_or_with_an_unknown_one_is_told_alike() {
    for name in ["ball", "obstacle"].into_iter().chain(IN_A_BALL.map(|(name, _)| name)) {
        for fields in [Vec::new(), vec![("positron", number(1.0))]] {
            let layout = around(name, Node::Fields(fields));
            same(&in_yaml(&layout), &in_lua(&layout, ""), name);
        }
    }
}

/// Else a new group would be in one language's tests only.
#[test]
fn every_group_of_a_layout_is_among_these() {
    let told_otherwise = ["layout", "target", "stroke", "send", "scenario-stroke"];
    for (name, _, group) in GROUPS {
        let here =
            ["ball", "obstacle"].contains(&name) || IN_A_BALL.iter().any(|(own, _)| *own == name);
        assert!(here || told_otherwise.contains(&name), "{name}");
        assert!(std::ptr::eq(group_named(name), group));
    }
    for group in [&LAUNCH, &LINE, &HEADING, &PLACE] {
        assert!(GROUPS.iter().any(|(_, _, known)| std::ptr::eq(*known, group)));
    }
}

fn group_named(name: &str) -> &'static Group {
    let found = GROUPS.iter().find(|(known, ..)| *known == name);
    found.unwrap_or_else(|| panic!("there is no group {name}")).2
}
