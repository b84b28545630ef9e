local hall = equipment 'harbour-hall'
print(hall.nme)
-- refused at 2:12 `nme`
-- equipment has no `nme`
-- hint: did you mean `name`?
