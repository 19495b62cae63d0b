spot-row = row { $row }
spot-column = column "{ $column }"
