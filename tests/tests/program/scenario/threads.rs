//! The same scenario gives the same record for any number of threads.

use super::HALL;
use railproof::record::{Picture, Record};

fn on_threads(count: usize, text: &str) -> Record {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(count).build().unwrap();
    pool.install(|| super::run(text))
}

#[test]
fn one_thread_and_sixteen_give_the_same() {
    let text = format!(
        "{HALL}local bent = rule.func {{ name = 'bent', start = function(c) return 2.1 * c + 0.05 * c * c end }}
local map = compare(grid {{ equipment = hall, contact = span(1, 3.5, 0.05), speed = span(mps(1), mps(7), mps(0.1)) }}, \
 ratio, bent)
map:draw {{ x = 'speed', y = 'contact', panels = 'rule' }}
local starts = exact_starts(grid {{ equipment = hall, contact = span(1, 3.5, 0.05), speed = mps(4) }})
print(starts:fit().slope, map:rms(), map:ranking()[1].rule)
expect(map):share_at_least(0.9)"
    );
    let one = on_threads(1, &text);
    for threads in [2, 8, 16] {
        same(&one, &on_threads(threads, &text));
    }
}

fn same(one: &Record, two: &Record) {
    assert_eq!(one.maps[0].rows, two.maps[0].rows);
    assert_eq!(one.starts[0].rows, two.starts[0].rows);
    assert_eq!(one.printed, two.printed);
    assert_eq!(one.expectations[0].found, two.expectations[0].found);
    let picture = |record: &Record| match &record.drawings[0].picture {
        Picture::Map(map) => map.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(picture(one), picture(two));
    assert_eq!(one.maps[0].rows.len(), 51 * 61 * 2);
}
