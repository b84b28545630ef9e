grid { spin : 'stun' }
-- refused at 1:8 `spin : 'stun'`
-- spin is given its value by a colon
-- hint: write spin = 'stun'
