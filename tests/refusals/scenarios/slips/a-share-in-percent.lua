local banks = grid { contact = 2 }
local map = compare(banks, rule.linear { slope = 2.2 })
expect(map):share_at_least(80 %)
-- refused at 3:28 `80 %`
-- a share is written as a decimal
-- hint: write 0.8
