discover { player = player 'club' }
-- refused at 1:1 `discover`
-- discover needs `on`: an equipment, or all the tables that one could be
