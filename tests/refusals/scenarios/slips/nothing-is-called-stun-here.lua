print(stun)
-- refused at 1:7 `stun`
-- nothing is called `stun` here
-- hint: a text stands in quotes: "stun"
