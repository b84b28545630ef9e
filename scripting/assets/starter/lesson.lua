-- A page to print for a lesson: one bank on your table, how often a player makes it, and where to start from
-- other distances and at other speeds. Change a number, save the file, and run it again. Print page.png or
-- page.svg, which lie in out/lesson beside this file.

scenario {
  shows = "one bank on my table, as a page to print",
}

page {
  equipment = equipment "my-table.yaml",
  pocket    = "corner",                    -- or "side"
  contact   = 2,                           -- where the ball meets the rail, in diamonds from the pocket
  rule      = rule.linear { slope = 2.2 }, -- or your own start number: start = 4.4
  off_rail  = inches(10),                  -- where the ball lies; 0 is frozen
  speed     = "medium",                    -- or "soft", "firm", mps(3), mph(7)
  spin      = "stun",                      -- or "roll", "draw"
  -- title  = "Tuesday: a bank from ten inches off", -- without its dashes: your own words at the top
  player    = player "club",               -- or "steady", "beginner"; all three are invented
}
