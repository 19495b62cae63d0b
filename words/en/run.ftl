step-study = Reading the study file
step-ground = Reading the ground
step-register = Reading the register
step-release = Releasing finds
step-analysis = Working out densities and tables
step-sheets = Drawing sheets
step-pack = Writing the pack
run-tally = Rows read { $read } = used { $used } + set aside { $aside }
run-tally-reason = {"  "}{ $rows }: { $reason }
run-tally-check = "strew check" lists each of them, with what to do.
run-ledger-empty = Nothing was told to anybody yet.
run-ledger-line = { $number }  { $audience }  release { $release }
run-ledger-never-given = { $number }  { $audience }  release { $release }, never given
run-ledger-taken-in = { $n ->
    [one] One find counts as told to { $audience }, as in the pack that was taken in.
   *[other] { $n } finds count as told to { $audience }, as in the pack that was taken in.
}
run-scatters-betrayed = { $n ->
    [one] Finds of one tight scatter lie on both sides of square edges: their counts tell its centre to less than the { $agreed } ha that were agreed.
   *[other] Finds of { $n_text } tight scatters lie on both sides of square edges: their counts tell each centre to less than the { $agreed } ha that were agreed.
}
run-scatter-betrayed = { $tiny ->
    [yes] - to under { $hectares } ha: squares { $squares }
   *[no] - to { $hectares } ha: squares { $squares }
}
run-scatters-advice = Give the finds of a scatter one name in a "site" column to tell them in one square, or agree on larger squares. (protect_scatters = true makes this a refusal.)
run-wrote = { $n ->
    [one] Wrote { $n_text } file to { $folder }
   *[other] Wrote { $n_text } files to { $folder }
}
run-wrote-file = Wrote { $file }
run-not-for-publication = NOT FOR PUBLICATION: this is for its recipient alone. Do not post, print or pass it on.
run-cautions = Precise places are withheld because, once published, they invite illegal digging and cannot be called back. Ask the landowner before entering land. Report finds to the record office and follow the law where you are. Keep off protected sites. On the shore, mind tides and cliffs.
run-not-given = the agreement with "{ $audience }" does not give "{ $giving }"
    .hint = If it was agreed, add "{ $giving }" to give = [...] under [agreement.{ $audience }].
run-not-shown = the agreement with "{ $audience }" does not show "{ $attribute }"
    .hint = If it was agreed, add "{ $attribute }" to show = [...] under [agreement.{ $audience }].
run-no-shore = the study has no public shore layer
    .hint = Name one under [ground]: shore = {"{"} file = "ground/shore.geojson" {"}"}.
run-nothing-in-squares = no find is shown in a square, so there is nothing to work out
    .hint = Finds placed by their parish alone count in parish tables and shading only.
run-map-ending = "{ $ending }" is not a form a sheet can be written in
    .hint = End the file's name in .svg, .png, .pdf or .tif.
run-table-ending = "{ $ending }" is not a form a table can be written in
    .hint = End the file's name in .csv, .md, .html or .xlsx.
run-table-same = rows and columns are the same
    .hint = Choose two of class, period, parish, strength, setting, concentration.
run-unknown-term = "{ $text }" is no known { $key }
    .hint = Known: { $known }.
run-rows-so-far = { $n ->
    [one] { $n_text } row
   *[other] { $n_text } rows
}
licences-data = Data
licences-fonts = Fonts
licences-libraries = Libraries
licences-crates = Packages
licences-see = text { $texts }
licences-text = --- { $heading }, text { $number } ---
licences-damaged = a list of notices inside the program is damaged
    .hint = Build or fetch the program again; the lists also stand in docs/licences.
run-published-closely = This agreement publishes squares of { $precision }: as good as the places themselves, and they cannot be called back. Common practice shows finds to the public by the kilometre.
run-blank-ending = "{ $file }" does not end in .pdf
    .hint = Blank pages are PDF, to be printed: --out recording-sheet.pdf.
run-no-parishes = the study has no public parish layer
    .hint = Name one under [ground]: parishes = {"{"} file = "ground/parishes.geojson", name = "parish" {"}"}.
run-parish-unknown = the layer has no parish called "{ $name }"
    .hint = Known: { $known }.
run-no-land-of = No row of the register is stated to be off { $land }: the copy is empty. Names must be written as the register has them.
run-pair-unlike = the two agreements with "{ $audience }" differ in "{ $key }"
    .hint = Two releases stand side by side only when they were made for like audiences: give both agreements the same grid, precision, stricter rules and shown fields.
run-map-nothing = No find is shown of what was asked for: the map is empty.
    .hint = "strew table" tells which classes and periods there are.
run-map-none-before = No find is shown from before { $year }.
    .hint = Choose a year that lies within the years of collecting.
run-map-none-from = No find is shown from { $year } on.
    .hint = Choose a year that lies within the years of collecting.
run-parish-folder = "{ $file }" looks like the name of one file, and there is a page for every parish
    .hint = Name a folder, or one parish: --parish NAME --out parish.pdf.
run-seal-file = { $file } cannot be read ({ $why })
    .hint = Give a key, age1…, or the path of a file.
run-seal-folder = { $path } is a folder, and a sealed submission is one file
    .hint = Name a file: --out submission.zip.age.
run-seal-no-terminal = there is no terminal to ask for the passphrase
    .hint = Put it on the first line of a file that you alone can read, and give --passphrase-file FILE.
run-seal-differs = the two passphrases differ
    .hint = Nothing was written. Run it again and type the same words twice.
run-seal-ask = Passphrase (not shown):{" "}
run-seal-ask-again = The same again:{" "}
run-seal-tell = It is sealed, and nothing of it was written unsealed. Send it with these words:
run-seal-plain-beside = A submission that is not sealed lies at { $folder }: delete it if it is not meant to be there.
