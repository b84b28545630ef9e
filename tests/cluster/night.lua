-- Enough stepped banks for six tasks of a few seconds. The hall is the shipped nine-foot table.

scenario { shows = "a night short enough for a test" }

plan(
  grid {
    equipment = equipment "nine-foot",
    contact    = span(1.5, 3.5, 0.02),
    speed      = span(mps(2), mps(4), mps(0.02)),
    spin       = "stun",
    rail_model = "compliant",
  },
  rule.linear { slope = 2.2, reading = "groove" }
)
