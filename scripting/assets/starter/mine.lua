-- Your first scenario. A line that begins with two dashes is a note for people.
-- Change a number, save the file, and run it again. The new picture replaces the old one in the folder
-- out/mine beside this file; with --into and another folder you keep both.

-- Numbers and words are written like this:
--   a length      inches(5), feet(1), centimetres(12), millimetres(60)
--   a speed       mps(3), mph(7), kmh(11), lengths(2) as in a lag, or "soft", "medium", "firm"
--   a decimal     inches(10.5), with a point; 10 1/2 in is inches(10.5)
--   several       { inches(0), inches(5) }
--   a range       span(1, 3, 0.25), which is first, last and step
--   a word        "corner", in quotes

scenario {
  shows = "where start = 2.2 × contact holds on my table",
}

-- The table: its numbers stand in my-table.yaml, beside this file.
local my_table = equipment "my-table.yaml"

-- The rule: the start number is 2.2 times the contact number, in diamonds from the pocket.
local ratio = rule.linear { slope = 2.2 }

-- The banks that are played: every contact with every distance and every speed.
local banks = grid {
  equipment = my_table,
  pocket    = "corner",                             -- or "side"
  contact   = span(1.25, 3.5, 0.25),                -- from 1.25 to 3.5, in quarters
  off_rail  = { inches(0), inches(5), inches(10) }, -- where the ball lies; 0 is frozen
  speed     = span(mps(1.5), mps(5), mps(0.25)),    -- also kmh(8) or mph(5)
  spin      = "stun",                               -- or "roll", "draw"
}

local map = compare(banks, ratio)

-- The picture: speed to the right, contact upwards, one panel for each distance.
map:draw { x = "speed", y = "contact", panels = "off_rail" }

-- A claim. It holds or fails, and you are told which. A claim that fails breaks nothing.
expect(map:where { off_rail = inches(0) }):share_at_least(0.8)
