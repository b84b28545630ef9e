//! YAML that is meant ill, as a layout, a profile and a player.

use crate::case::Case;
use railproof::exit::Exit::BadInput;

pub fn cases() -> Vec<Case> {
    let shot = |name, text: &[u8]| {
        Case::command(name, &["shot", "case.yaml", "--into", "out", "--time", "1 s"], &[BadInput])
            .file("case.yaml", text)
    };
    let profile = |name, text: &[u8]| {
        Case::script(name, "equipment('case.yaml')", &[BadInput]).file("case.yaml", text)
    };
    let bomb = (b'b'..=b'z').fold("a: &a [x,x,x,x,x,x,x,x,x]\n".to_owned(), |text, name| {
        let (name, before) = (char::from(name), char::from(name - 1));
        text + &format!("{name}: &{name} [{}]\n", vec![format!("*{before}"); 9].join(","))
    });
    let many_keys = (0..100_000).fold(String::new(), |text, at| text + &format!("k{at}: 1\n"));
    vec![
        shot("yaml: aliases of aliases", bomb.as_bytes()),
        profile("yaml: aliases of aliases, a profile", bomb.as_bytes()),
        shot("yaml: an alias of itself", b"a: &a [*a]\n"),
        shot("yaml: brackets nested deep", "[".repeat(200_000).as_bytes()),
        profile("yaml: maps nested deep", "{a: ".repeat(100_000).as_bytes()),
        shot("yaml: too long", "# no end\n".repeat(2_000_000).as_bytes()),
        shot("yaml: many keys", many_keys.as_bytes()),
        shot("yaml: a key twice", b"equipment: nine-foot\nequipment: nine-foot\nballs: {}\n"),
        shot("yaml: a tag", b"!!python/object/apply:os.system ['touch owned']\n"),
        shot("yaml: several documents", b"equipment: nine-foot\n---\nequipment: nine-foot\n"),
        shot("yaml: UTF-16", &[0xff, 0xfe, b'a', 0, b':', 0]),
        shot("yaml: zeros", &[0; 4096]),
        shot(
            "yaml: no number",
            b"equipment: nine-foot\nballs: { cue: { position: [.nan m, .inf m] } }\n",
        ),
        shot(
            "yaml: a number past all",
            b"equipment: nine-foot\nballs: { cue: { position: [1e999 m, 0 m] } }\n",
        ),
        shot(
            "yaml: a million balls",
            (0..100_000)
                .fold("equipment: nine-foot\nballs:\n".to_owned(), |text, at| {
                    text + &format!("  b{at}: {{ position: [0 m, 0 m] }}\n")
                })
                .as_bytes(),
        ),
        shot("yaml: escapes in a key", b"\"\\e[31m\\n::error::owned\": 1\n"),
        shot("yaml: a table outside", b"equipment: ../outside/secret.yaml\nballs: {}\n"),
        shot("yaml: a table of the system", b"equipment: /etc/passwd\nballs: {}\n"),
        profile("yaml: a cushion outside", b"from: nine-foot\ncushion: ../outside/secret.yaml\n"),
        Case::command("yaml: the layout is a pipe", &["shot", "pipe.yaml"], &[BadInput]).prepared(
            |work| {
                let made =
                    std::process::Command::new("mkfifo").arg(work.join("pipe.yaml")).status();
                assert!(made.unwrap().success());
            },
        ),
    ]
}
