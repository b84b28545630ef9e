local hall = equipment 'nine-foot'
bank_shot { equipment = hall, rail = 'left', pocket = 'foot-left', contact = 2, start = 4 }
-- refused at 2:46 `pocket`
-- this makes no bank: the foot-left pocket opens into the left rail itself, so no bank off that rail reaches it
