swep {}
-- refused at 1:1 `swep`
-- nothing is called `swep` here
-- hint: did you mean `sweep`?
