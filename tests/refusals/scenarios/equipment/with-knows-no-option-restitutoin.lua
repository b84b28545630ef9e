local hall = equipment 'harbour-hall'
hall:with { restitutoin = 0.9 }
-- refused at 2:13 `restitutoin`
-- with has no option `restitutoin`
-- hint: did you mean `restitution`?
