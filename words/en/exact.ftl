# Registers: what stops the reading of a file.
register-unreadable = the register file cannot be opened: { $why }
    .hint = Check the path and that no other program holds the file.
register-empty = the register file is empty
    .hint = Save the table again, or take the file out of the study file.
register-not-text = this is a spreadsheet, a picture or another kind of file under a text file's name
    .hint = Open it in the program it came from and save it as CSV, best as "CSV UTF-8".
register-spreadsheet = the spreadsheet cannot be read: { $why }
    .hint = Open it, choose "Save as", then "CSV UTF-8" (or XLSX again), and name that file in the study file.
register-waypoints = the waypoints cannot be read: { $why }
    .hint = Save them from the phone or receiver again, as GPX.
register-no-waypoints = the file holds no waypoints
    .hint = A track or a route is where somebody walked, not a find. Save the finds as waypoints.
register-no-spreadsheet = the file is no spreadsheet, though its name ends like one
    .hint = If it is a text table, let its name end in .csv; if it came by mail, ask for it again.
register-format = ".{ $ending }" files are not read
    .hint = Save the register as CSV (best as "CSV UTF-8"), TSV or TXT.
register-pattern = "{ $pattern }" is no pattern for files
    .hint = Write a path, or a pattern such as "walks/*.csv".
register-no-file = no file matches "{ $pattern }"
    .hint = Paths are relative to the study file's folder. Check spelling, capitals and the ending.
register-no-headings = no row of headings was found
    .hint = One row near the top must name the columns, such as "No, Grid ref, Class, Count". Other headings can be named under [register.columns] in the study file.
register-no-column = no register file has a column "{ $heading }"
    .hint = The nearest heading is "{ $nearest }". All headings: { $known }.

# Registers: more about a row that was set aside.
register-open-quote = a quotation mark is opened and not closed
    .hint = Close it or take it out. For "as above" write "do." instead of a bare mark.
register-too-many-cells = the row has { $cells } cells, and there are { $columns } columns
    .hint = A comma inside a cell needs quotation marks round the whole cell; or save with semicolons.
register-count-became-date = a date: a spreadsheet has probably turned a range such as "3-5" into it
    .hint = Write the least number of pieces as a plain figure, or format the column as text and write "3 to 5".
register-half-a-place = one of the two coordinates is missing
    .hint = Fill in both columns, or give the parish alone.
register-letters-lost = the reference has lost its letters
    .hint = References near it begin with { $letters }. If this one does too, write the letters in front of the figures.
register-letters-lost-unknown = the reference has no letters before its figures
    .hint = Write the two letters of the hundred-kilometre square in front of the figures.
register-class-near = near to a class of the vocabulary: { $nearest }
    .hint = If that is meant, correct the spelling.

# Why a row was set aside. The hint says what to do.
reason-no-place = neither a place nor a parish
    .hint = Give a grid reference, a pair of coordinates, or the parish. For "as above" write "do.".
reason-place-unreadable = the place cannot be read
    .hint = Write it as a grid reference ("OV 523 417"), as an easting and northing, or in degrees.
reason-place-ambiguous = the place has two readings
    .hint = Write it so that only one is left: with its letters, hemisphere, or system.
reason-place-outside = the place lies outside the system it is written in
    .hint = Check for a figure too many or too few, and for easting and northing swapped.
ledger-not-opened = the ledger of what was told cannot be opened: { $why }
    .hint = Nothing is given to anybody without it. Make its folder writable, or name another: [register] ledger = "…".
ledger-not-written = the ledger of what was told cannot be written: { $why }
    .hint = Nothing is given to anybody without it. Look for room on the disk, and make its folder writable.
ledger-spoilt = the ledger of what was told was changed by something else
    .hint = Put back your last good copy of the ledger's folder and its head file, and take in with "strew ledger --take-in" the packs given since.
ledger-cut = the ledger of what was told is shorter than it was: { $held } lines of { $told }
    .hint = It was cut, or an earlier copy was put back. Put back the last copy; where there is none, take in the packs given since with "strew ledger --take-in".
ledger-no-head = the head count of the ledger is gone or spoilt
    .hint = Put it back beside the ledger's folder: without it nobody can say whether the ledger is whole.
ledger-no-release = what was kept of this publication is gone or was changed
    .hint = Put the ledger's folder of releases back from a copy.
ledger-no-publication = the ledger has no publication { $number }
    .hint = "strew ledger STUDY" lists them.
ledger-no-pack = this is no pack of this program
    .hint = Give the folder that holds MANIFEST.json.
ledger-renumbered = this row has the number of one find and says what another said: numbers may have been given anew
    .hint = Nothing was written. If rows were renumbered, write known_by = "content" under [register]; if their places or dates were corrected, write known_by = "number". Take it out again after the next pack.
ledger-number-twice = several changed rows have this number, and nothing says which was which
    .hint = Nothing was written. Give each row its own number again; or write known_by = "content" under [register] to take changed rows as new finds.
ledger-unnumbered = a row without a number was changed, or one was taken out and another put in
    .hint = Nothing was written. Give rows numbers and keep them; or write known_by = "content" under [register] to take changed rows as new finds.
ledger-entered-anew = this row is new, and could be a find that stood in the register before under another number, in a square beside this one
    .hint = Nothing was written: the two squares together would tell on which edge it lies. If it is that find, give it its old number again. If it is another, write known_by = "number" under [register], and take it out again after the next pack.
exact-scatters-betrayed = { $n ->
        [one] one tight scatter would be told
       *[other] { $n } tight scatters would be told
    } to less ground than was agreed, the tightest to { $hectares } ha
    .hint = Nothing was written. Give the finds of a scatter one name in a "site" column, so that they are all told in one square; or agree on larger squares; or take protect_scatters out.
reason-far-away = the place lies far from the study's ground
    .hint = Check letters and figures, and easting and northing swapped. If the place is right, the ground layers end too soon.
reason-ground-too-small = the place lies on ground too small to be shown to this audience
    .hint = Agree on a larger precision or a smaller "smallest_area", or give the layer of parishes: then such finds are told by parish.
reason-told-before = told before in another way, so that telling it again would say more than was agreed
    .hint = Nothing need be done. Keep to one grid and one precision for an audience, and for audiences that may talk.
reason-parish-unknown = placed by its parish alone, and the parish is not in the layer
    .hint = Spell the parish as the layer does, or add it to the layer.
reason-count-unreadable = the number of pieces cannot be read
    .hint = Write a plain figure. "c. 20", "12+", "several" and "3 to 5" are understood too.
reason-count-zero = the number of pieces is nothing or less
    .hint = Correct the figure, or take the row out. Ground walked without a find belongs under [[fieldwork]].
reason-natural = recorded as natural
    .hint = Nothing, if it is natural. If it was worked, write its class.
reason-total-line = a line of totals
    .hint = Nothing: totals are worked out afresh.
reason-heading = a heading between rows
    .hint = Nothing. If a year or field stands there, write it in a column of its own on every row.
reason-damaged = the row is damaged
    .hint = Open the file in a text editor at this row and mend it.

# Why a row that is used may be wrong.
doubt-class-unknown = the class is not in the vocabulary; counted as unclassified
    .hint = docs/register.md lists the words. The word as written is kept.
doubt-class-queried = the class has a query; it is taken as written
    .hint = Have the piece looked at, and take the query out or write another class.
doubt-maybe-natural = the note says that it may be natural
    .hint = If it is, write "natural" as its class, and it will be set aside.
doubt-period-unknown = the period is not understood; counted as undated
    .hint = Write a period of the vocabulary, or years such as "4000-3500 BC".
doubt-period-queried = the period has a query; it is taken as written
    .hint = If the date is a guess, write the broader period or leave it blank.
doubt-years-unclear = the years run forwards or have no era; they are taken as BC
    .hint = Write the earlier year first and the era after it: "4000-3500 BC".
doubt-count-large = more pieces in one row than a bag holds
    .hint = Check that the figure is a number of pieces, not a find number, a weight or a date.
doubt-filled-from-above = no place and no number of its own: taken as part of the entry above
    .hint = If it is not, give the row its own place or parish. "do." says plainly that it is.
doubt-ditto-above-nothing = a ditto mark with nothing above it
    .hint = Write out what it stands for.
doubt-place-in-words = the place is in words; the row is used by its parish alone
    .hint = Look the place up on a map and write its grid reference.
doubt-uncertainty-unreadable = the uncertainty cannot be read; none is taken
    .hint = Write metres: "10 m".
doubt-marks-unknown = these are no marks in the list; they do not count
    .hint = The list: striking platform, bulb, ripples, dorsal scars, retouch. Other features belong in the note.
doubt-mark-queried = the mark has a query; it is not counted as seen
    .hint = Look again, and write yes or no.
doubt-setting-unknown = the setting is not in the vocabulary; counted as unknown
    .hint = Write ploughland, pasture, garden, woodland, path, beach, cliff section, cliff fall, dune, upcast or brought in.
doubt-standing-unknown = the standing is not in the vocabulary; counted as unknown
    .hint = Write in place, disturbed, derived or brought in.
doubt-length-unreadable = the length cannot be read; it is left out
    .hint = Write a figure in millimetres, or with its unit: "34 mm", "3.4 cm".
doubt-length-unlikely = a strange length for struck stone: are these millimetres?
    .hint = Write the unit in the cell: "34 mm" or "3.4 cm".
doubt-weight-unreadable = the weight cannot be read; it is left out
    .hint = Write a figure in grams, or with its unit: "12 g".
doubt-weight-unlikely = a strange weight for struck stone: are these grams?
    .hint = Write the unit in the cell: "12 g" or "0.5 kg".
doubt-date-future = found after the study's date
    .hint = Correct the date found, or the date of the study.
doubt-date-unlikely = found before anybody kept such registers
    .hint = Correct the year. Dates of the objects belong in the column of periods.
doubt-note-gives-place = the note gives a place away
    .hint = It is cut out wherever the note is shown. Better to take it out of the note.
doubt-counted-twice = the note says that it includes a piece with a row of its own: both are counted
    .hint = Take the piece off the number of the bag, or take its row out.
doubt-row-twice = the same row as an earlier one with this number: both are counted
    .hint = Take one of them out.
doubt-number-twice = an earlier row has the same number and says something else
    .hint = Correct one of the numbers.
doubt-one-reference = one precise place for many finds: perhaps one reference taken for a whole field
    .hint = If so, shorten the reference to the square that holds the field, or state the uncertainty.
doubt-maybe-swapped = the place lies off the study's ground, and would lie on it with easting and northing swapped
    .hint = Check the two figures against the map.
doubt-other-parish = the place lies in another parish than the one stated
    .hint = Check the reference and the parish. Near a boundary both can be right.
doubt-sheet-passed-over = the sheet has no headings of a register, and its rows are not read
    .hint = If it holds finds, give it a row of headings such as "Grid ref" and "Class"; if not, nothing is wrong.
doubt-in-the-sea = the place lies off the land
    .hint = Check the reference. A find from the foreshore can lie off the land layer; then nothing is wrong.

# What check says.
check-file = { $file }: { $encoding }, separated by { $separator }, headings in row { $heading }, last row { $last }
check-tab = tabs
check-decimal-comma = numbers have a decimal comma
check-system = its headings state the system { $system }
check-understood = columns understood: { $list }
check-not-understood = columns not used: { $list }
check-set-aside = SET ASIDE
check-doubts = DOUBTS (these rows are used)
check-problem = { $spot }: { $written }
check-more = and { $n_text } more
check-audience = "{ $audience }" ({ $precision }) would be shown { $finds } finds, { $pieces } pieces: { $sides }
check-by-parish = { $finds } by parish
check-in-squares = { $finds } in squares of { $side }
check-doubts-total = { $n ->
    [0] No doubts.
    [one] { $n_text } doubt.
   *[other] { $n_text } doubts.
}
check-total = Rows read { $read } = used { $used } + set aside { $aside } (for "{ $audience }")
check-rows-as-spreadsheet = Rows are numbered as a spreadsheet numbers them: the first line is row 1, and blank lines count.
check-owner-only = This list names precise places. Keep it to yourself.

# What new says, and writes into the study file.
new-exists = { $path } is there already
    .hint = Edit it, or name another folder. Nothing was overwritten.
new-file = { $file }: { $encoding }, separated by { $separator }, headings in row { $heading }
new-no-place = no column tells where finds lay: name one under [register.columns]
new-grid = The study works in { $grid }; change grid in the study file if that is wrong.
new-next = Edit it: above all the precision that was agreed with each audience. Then run: strew check { $file }
new-toml-head = A study: what is shown of a register, and to whom.
    docs/study-file.md describes every key. Paths start from this file's folder.
new-toml-grid = The grid that everything is measured and shown in: british-grid, lambert-93, or an EPSG code of a grid in metres.
new-toml-date = The date printed on sheets. No clock is ever read.
new-toml-system = The system of eastings and northings whose headings state none; the study's grid unless said.
new-toml-columns = What each heading was taken for. Where a guess is wrong, take the hash
    away from [register.columns] and from one line a field. A named column counts in every file that has it.
new-toml-unused = not used: { $list }
new-toml-ground = Layers of the ground. Parishes, land and shore are public unless said; others are private unless said.
new-toml-public = What was agreed for the public. 1 km is a place to start, not advice: ask the record office.
new-toml-stricter = Kinds of find that need a coarser square.
new-toml-office = What the record office asked for. Ask, do not assume.
check-heading-near = "{ $heading }" (if { $field } is meant, correct the heading)
register-is-folder = "{ $pattern }" is a folder
    .hint = Name the files in it: files = ["{ $pattern }/*.csv"].
check-file-book = { $file }: { $encoding }, headings in row { $heading }, last row { $last }
check-file-passed-over = { $file }: { $encoding }, no headings of a register, last row { $last }: passed over
check-encoding-spreadsheet = a spreadsheet
check-encoding-waypoints = waypoints (row 2 is the first)
new-file-book = { $file }: { $encoding }, headings in row { $heading }
check-agreements = THE AGREEMENTS
check-land-unknown = "{ $audience }": no row is stated to be off "{ $land }"
    .hint = Names must be written as the register has them.
check-land-near = "{ $audience }": no row is stated to be off "{ $land }"; is "{ $nearest }" meant?
check-audience-near = The agreement "{ $audience }" is nearly called "{ $nearest }". If "{ $nearest }" is meant, correct it: commands take "{ $nearest }" unless told otherwise.
