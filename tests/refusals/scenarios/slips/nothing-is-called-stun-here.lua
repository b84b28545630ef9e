print(stun)
-- refused at 1:7 `stun`
-- nothing is called `stun` here
-- hint: text goes in quotes: "stun"
