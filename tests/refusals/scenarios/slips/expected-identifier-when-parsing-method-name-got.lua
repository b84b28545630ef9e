grid { spin : 'stun' }
-- refused at 1:1 `grid { spin : 'stun' }`
-- Expected identifier when parsing method name, got "stun"
-- hint: a value is given with =, as in speed = mps(3)
