local hall = equipment 'harbour-hall'
local bad = rule.func { name = 'bad', start = function(contact)
  if contact > 2 then
    error('no line for this')
  end
  return 2 * contact
end }
compare(grid { equipment = hall, contact = span(1, 3, 0.5), speed = mps(3) }, bad)
-- refused at 4:5 `error('no line for this')`
-- the rule bad failed at contact 2.5: no line for this (contact 2.5)
