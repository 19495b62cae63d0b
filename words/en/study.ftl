units-length = "{ $text }" is not a length
    .hint = Write a number and a unit: "100 m" or "1 km".
units-area = "{ $text }" is not an area
    .hint = Write a number and a unit: "0.25 km2", "4 ha" or "900 m2".
units-date = "{ $text }" is not a date
    .hint = Write year, month and day: 2026-10-01.
study-precision = "{ $text }" is not a precision
    .hint = Write a square's side (1, 2 or 5 times a power of ten: "10 m", "100 m", "1 km", "2 km") or "parish".
study-unreadable = the study file cannot be read: { $why }
    .hint = Check the path. "strew new FOLDER --register FILE" writes a study file to start from.
study-no-audience = the study has no agreement called "{ $name }"
    .hint = Its agreements: { $known }. Add a section [agreement.{ $name }] with what was agreed.
study-unknown-key = "{ $key }" is not known here
    .hint = Known here: { $known }.
study-unknown-key-near = "{ $key }" is not known here; did you mean "{ $nearest }"?
    .hint = Change it to "{ $nearest }" or take it out. docs/study-file.md lists every key.
study-unknown-word = "{ $key }" is not known here; did you mean "{ $nearest }"?
    .hint = docs/study-file.md lists every key and word.
study-missing-key = "{ $key }" is missing
    .hint = Add it. docs/study-file.md shows a whole study file.
study-toml = the file does not read as a study file: { $why }
    .hint = Look at this line: a quote, bracket or equals sign may be missing.
study-value = { $why }
    .hint = docs/study-file.md says what this key may hold.
study-wants-list = "{ $key }" holds a list, and { $value } is one value
    .hint = Put it in brackets: { $key } = [{ $value }].
study-wants-text = "{ $key }" holds words, and { $value } has no quotes
    .hint = Put it in quotes: { $key } = "{ $value }".
study-wants-number = "{ $key }" holds a number, and { $value } is none
    .hint = Write the number without quotes and units.
study-wants-yes-no = "{ $key }" holds true or false, not { $value }
    .hint = Write { $key } = true or { $key } = false, without quotes.
study-wants-table = "{ $key }" holds several values, and { $value } is one
    .hint = Write { $key } = {"{"} file = { $value } {"}"}. docs/study-file.md lists what else may stand there.
study-curly-quotes = this line has curved quotation marks
    .hint = Use the straight ones: "like this". Word processors bend them; a plain text editor does not.
study-slashed-date = { $value } is not written as a date is here
    .hint = Year, month, day, with hyphens and without quotes: 2026-10-01.
study-no-register = no register file is named
    .hint = Write files = ["finds.csv"] under [register].
study-grid-in-degrees = "{ $grid }" is in degrees, and everything here is measured in metres
    .hint = Choose a grid in metres: british-grid, lambert-93, or a projected EPSG code.
study-share = { $value } is not a share
    .hint = Write a number between 0 and 1, such as 0.5.
study-times = { $value } is not a number of times
    .hint = Write a whole number from { $least } to { $most }.
study-level = { $value } is not a level of significance
    .hint = Write a number above 0 and up to 0.5, such as 0.05.
study-level-too-fine = { $simulations } simulations cannot reach a level of { $value }
    .hint = The smallest p is 1 / (1 + simulations): simulate more, or set a higher level.
study-prominence = "{ $text }" is not a prominence
    .hint = Write a share of the peak from 0 to 1 (0.25), or pieces per hectare ("2 per hectare").
study-dpi = { $value } dots an inch is out of range
    .hint = Write a whole number from 72 to 1200.
study-bandwidth = "{ $text }" is not a bandwidth
    .hint = Write a length ("250 m"), two lengths (["400 m", "200 m"]), or "rule", "plug-in", "plug-in-full", "least-squares", "likelihood" or "diggle".
study-edge-twice = edge and edge_correction say the same thing twice
    .hint = Keep edge = "diggle", "uniform" or "none", and take edge_correction out.
study-bearing-alone = a bearing needs two bandwidths
    .hint = Write bandwidth = ["400 m", "200 m"]: the first along the bearing, the second across it.
study-bearing = { $value } is not a bearing
    .hint = Write degrees from grid north, clockwise: a number from -360 to 360.
study-pilot-alone = a pilot bandwidth serves an adaptive density alone
    .hint = Add adaptive = true, or take pilot out.
study-adaptive-one-way = an adaptive density has one bandwidth for all directions
    .hint = Give one length as bandwidth, or a way of choosing other than "plug-in-full", or take adaptive out.
study-audience-name = "{ $name }" cannot be an audience's name
    .hint = Use letters, digits and hyphens alone: the name becomes a folder.
study-stricter-hidden = a stricter rule keys on "{ $attribute }", which this audience is not shown
    .hint = A stricter square would tell what is hidden. Show "{ $attribute }", or make the rule's precision "parish".
study-stricter-one-key = each stricter rule keys on one of class, period, setting or near
    .hint = Write one [[…stricter]] section for each.
study-no-audience-near = the study has no agreement called "{ $name }": is "{ $nearest }" meant?
    .hint = Write the name as it stands in the study file's [agreement.…].
study-stricter-not = a stricter rule asks for { $precision }, which is no coarser than the { $agreed } agreed
    .hint = It would do nothing. Give it a coarser precision, such as "2 km" or "parish", or take it out.
study-boundaries-of-parishes = only parishes have a kind and a date of boundaries
    .hint = Write kind and dated at the parishes layer, or take them out.
study-strip-of-beach = only the beach has a strip
    .hint = Write strip at the beach layer: how far from the shore finds of the beach may lie.
study-licence-of-nobody = a licence needs a credit
    .hint = Write whom to credit, such as credit = "County survey", beside the licence.
study-landowner-blank = an agreement with a landowner names nobody
    .hint = Write the name as the register's column of landowners has it: landowner = "Long Farm"; several ways of writing it go in a list.
study-landowner-published = the agreement with "{ $name }" is about one landowner's land, and cannot be for everybody or for the record office
    .hint = What came off somebody's land is between you and them. Give it an audience of its own, such as [agreement.long-farm], without publication = true.
study-counts-by-find = the agreement with "{ $name }" tells counts as bands and lists finds one by one
    .hint = A list of finds tells how many lie in each square. Leave out give = ["finds"] and show = ["number"], or write counts = "exact".
study-language-twice = the language "{ $language }" stands twice
    .hint = Name each language once: languages = ["en", "fr"].
study-is-folder = this is a folder, and a study is a file
    .hint = Name the study file in it, such as study.toml. "strew new FOLDER --register FILE" writes one.
study-list-empty = { $key } holds an empty list
    .hint = Name one at least, or take the line out.
study-wants-length = "{ $key }" holds a length with its unit, and { $value } has none
    .hint = Write { $key } = "{ $value } m", if metres are meant.
study-wants-area = "{ $key }" holds an area with its unit, and { $value } has none
    .hint = Write { $key } = "{ $value } km2" or "{ $value } ha", whichever is meant.
study-dated = "{ $text }" is neither a year nor a day
    .hint = Write a year without quotes (2024), or year, month and day (2024-04-01).
study-cover = "{ $text }" is no cover
    .hint = Write a share from 0 to 1, such as 0.2, or words in quotes.
study-backslash = this line has a backslash, which begins a special character here
    .hint = Write paths with slashes: "ground/parishes.geojson".
study-seal-published = the agreement with "{ $name }" is for publication: there is nothing to seal
    .hint = Move seal_to under the agreement with the record office.
