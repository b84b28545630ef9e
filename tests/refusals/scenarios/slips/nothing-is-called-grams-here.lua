local mass = grams(160)
-- refused at 1:14 `grams`
-- nothing is called `grams` here
-- hint: a quantity of any unit is written like quantity "160 g"; write a function of your own above its first call
