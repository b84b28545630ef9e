local hall = equipment("nine-foot"):with { restitution = 0.8 }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = { inches(0), inches(10) }, speed = mps(3), spin = "stun" }
local map = compare(banks, rule.linear { slope = 2.2, reading = "groove" }, rule.mirror())
map:draw { x = "off_rail", y = "contact", title = "small" }
expect(map:where { contact = 2 }):share_at_least(0.1)
print(bank { equipment = hall, contact = 2, start = 4.4, speed = mps(3) }.verdict, map:count "holds")
