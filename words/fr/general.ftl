spot-row = ligne { $row }
spot-column = colonne « { $column } »
