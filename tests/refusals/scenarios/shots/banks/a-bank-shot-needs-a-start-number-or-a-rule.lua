local hall = equipment 'nine-foot'
bank_shot { equipment = hall, contact = 2 }
-- refused at 2:1 `bank_shot`
-- a bank shot needs a `start` number or a `rule`
