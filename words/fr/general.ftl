spot-row = ligne { $row }
spot-column = colonne « { $column } »
general-list = { $first } et { $last }
