spot-row = row { $row }
spot-column = column "{ $column }"
general-list = { $first } and { $last }
