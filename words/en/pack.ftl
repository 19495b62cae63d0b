# Words of the pack: report, submission, layers, tables and what can go wrong in writing them.

pack-not-for-publication = Not for publication
pack-total = Total
pack-percent = { $n }%
pack-path = "{ $path }" cannot be the path of a file in a pack
    .hint = This is a fault of the program itself. Please report it.
pack-old-kept = the new pack could not be put in place ({ $why }); the earlier one was moved to { $folder }
    .hint = Move that folder back by hand.
pack-file-is-folder = { $path } is a folder
    .hint = Give the name of a file to write.
pack-file-exists = { $path } is already there
    .hint = Move it away or choose another name.
pack-folder-foreign = { $folder } is not empty and holds no pack of this program
    .hint = Choose a new folder with --out. Only an earlier pack is replaced.
pack-folder-is-file = { $folder } is no folder
    .hint = Choose another name with --out.
pack-folder-additions = { $folder } holds a file that does not belong to the pack there: { $file }
    .hint = Move that file away, or choose a new folder with --out. The old pack would be replaced whole.
pack-not-written = { $path } cannot be written: { $why }
    .hint = Check that the folder exists, that you may write there, and that the disk has room. Nothing was left behind.
pack-layer = { $name } cannot be made: { $why }
    .hint = Nothing was written. If the study's grid is unusual, try one of those the program names.

## Layers
pack-layer-cells = Squares with finds
pack-layer-cells-caution = Each square is the place as agreed. Nothing in it says where in the square a find lay. Its corners are corners of the grid.
pack-layer-concentrations = Where finds lie thick
pack-layer-concentrations-caution = Outlines follow the edges of squares. They are no boundaries of sites, and ground outside them is not empty.
pack-layer-parishes = Finds by parish
pack-layer-parishes-caution = Finds in a square that crosses a boundary are shared between parishes by area.
pack-layer-finds = Finds
pack-layer-fieldwork = Fieldwork
pack-layer-fieldwork-caution = Fields that yielded nothing are listed too: they were looked at.
pack-density-units = pieces per hectare
pack-density-bandwidth-meaning = standard deviation of the Gaussian kernel, in metres
pack-density-band = Pieces per hectare
pack-density-caution = Made from squares, never from exact places. A high value is no site, and a low one may be ground that nobody walked.

## Columns
pack-column-reference = Square
pack-column-side-m = Side (m)
pack-column-pieces = Pieces
pack-column-out-of-place = Out of place
pack-column-classes = Classes
pack-column-periods = Periods
pack-column-letter = Letter
pack-column-hectares = Hectares
pack-column-per-hectare = Pieces per hectare
pack-column-greatest-density = Greatest density (pieces per hectare)
pack-column-firm = Firm (share of resamples)
pack-column-p-global = p, all squares at once
pack-column-p-pointwise = p, best square by itself
pack-layer-contours = Contours of the density of finds
pack-layer-contours-caution = Contours are drawn from squares and stop at the edge of the ground. They are no boundaries of sites, and low ground may be ground that nobody walked.
pack-column-may-hold = May hold
pack-column-parish = Parish
pack-column-square-km = Square km
pack-column-handling = Handling
pack-column-number = Number
pack-column-easting-m = Easting of south-west corner (m)
pack-column-northing-m = Northing of south-west corner (m)
pack-column-held-m = Precision held (m)
pack-column-uncertainty-m = Uncertainty (m)
pack-column-written-system = System as recorded
pack-column-operation = Operation
pack-column-parish-of-cell = Parish of the square
pack-column-class = Class
pack-column-class-as-written = Class as written
pack-column-period = Period
pack-column-period-as-written = Period as written
pack-column-count-rough = Count is rough
pack-column-marks = Marks of human work
pack-column-strength = Strength of marks
pack-column-setting = Setting
pack-column-standing = Standing
pack-column-material = Material
pack-column-length-mm = Length (mm)
pack-column-weight-g = Weight (g)
pack-column-date = Date found
pack-column-finder = Found by
pack-column-looked-at-by = Looked at by
pack-column-kept-at = Kept at
pack-column-landowner = Landowner
pack-column-permission = Landowner's permission
pack-column-note = Note
pack-column-ground = Ground
pack-column-walked-by = Walked by
pack-column-from = From
pack-column-to = To
pack-column-visits = Visits
pack-column-people-hours = Person-hours
pack-column-line-spacing-m = Line spacing (m)
pack-column-cover = Cover
pack-column-visibility = Visibility
pack-column-kept = Kept
pack-kept-all = everything
pack-kept-tools = tools alone
pack-kept-selected = a selection
pack-kept-unknown = not recorded
pack-find-count-rough = rough
pack-workbook-notes = Notes
pack-workbook-about = Each sheet is one table of the pack. Figures are numbers, so that they can be summed; headings are in the first row.

## Precision and what is withheld
pack-precision-squares = squares of { $side }
pack-precision-parish = the parish alone
pack-stricter-near = within { $distance } of protected ground
pack-withheld-finer = Where a find lay, more finely than { $precision }.
pack-withheld-finer-parish = Where in its parish a find lay.
pack-withheld-class = The class of each find.
pack-withheld-period = The period of each find.
pack-withheld-exact-counts = How many pieces one square holds, or of one class or period: bands are told.
pack-withheld-count = How many pieces there are.
pack-withheld-strength = How strongly the marks speak for human work.
pack-withheld-parish = The parish.
pack-withheld-stated-parish = The parish as the finder gave it.
pack-withheld-number = Numbers of finds in the register.
pack-withheld-setting = Where each find lay: beach, ploughland, garden and so on.
pack-withheld-standing = Whether each find was in place.
pack-withheld-marks = Which marks were recorded on each find.
pack-withheld-material = What each find is made of.
pack-withheld-measurements = Lengths and weights.
pack-withheld-date = Dates of finding.
pack-withheld-finder = Names of finders and landowners.
pack-withheld-looked-at-by = Who looked at each find.
pack-withheld-kept-at = Where finds are kept.
pack-withheld-landowner = Whose land finds were picked up on.
pack-withheld-permission = Landowners' permissions.
pack-withheld-note = Notes.
pack-withheld-written = Places as they were written down.
pack-withheld-fieldwork = Who walked what ground, and when.

## README
pack-readme-handling = This folder holds places that were given in confidence. Keep it among the people it was made for, and do not put it on a shared drive or a website.
pack-readme-pack = This folder holds what may be shown of a register of worked stone: maps, tables and layers, with a report that explains them. Start with the report where there is one.
pack-readme-submission = This folder holds a submission of finds of worked stone: one row for each find, at the precision that was agreed, with the fieldwork that the finds come from.
pack-readme-made = It was made by { $program } for { $recipient }. Places are shown by { $precision }, in the grid { $grid }. The same register and settings give the same files, byte for byte.
pack-readme-files = What is here:
pack-readme-withheld = What was withheld, by kind:
pack-readme-reason = Why: { $reason }
pack-readme-cautions = Please bear in mind:
pack-readme-credits = Base data, with credit and licence as stated by their owners:
pack-file-report-html = the report, for a screen; one file that needs no other
pack-file-report-pdf = the report, for paper
pack-file-submission-html = the submission, for a screen
pack-file-submission-pdf = the submission, to print
pack-file-cells-geojson = squares with finds, for any mapping program (WGS84)
pack-file-cells-kml = the same squares, for an earth viewer
pack-file-concentrations = outlines of where finds lie thick (WGS84)
pack-file-contours = contours of the density surface at round levels (WGS84)
pack-file-density = the density surface, pieces per hectare, in the study's grid
pack-file-geopackage = all layers in one file, in the study's grid
pack-file-workbook = every table in one workbook
pack-file-finds-csv = one row for each find
pack-file-finds-gpkg = the same finds as squares, for a mapping program, with the fieldwork
pack-file-fieldwork-csv = who walked what ground, when and how
pack-file-maps = the maps, each in the forms that the study asks for
pack-file-tables = each table as CSV and Markdown
pack-file-manifest = what was agreed, what was withheld, and every file with its checksum
pack-file-readme = this list, in plain text

## Report
pack-report-title = Distribution report
pack-report-contents = Contents
pack-report-skip = Skip to the report
pack-report-figure = Figure
pack-figure-caption = { $title }. Places by { $precision }, or more coarsely.
pack-report-table = Table
pack-report-figure-in-text = Figure
pack-report-table-in-text = Table
pack-report-section = section
pack-report-back = Back to where this source is cited, place
pack-report-cited = cited on page
pack-report-gazetteer = Parish by parish
pack-report-words = Words used here
pack-report-page = Page
pack-report-of = of
pack-report-compiled-by = Compiled by { $name }
pack-report-for = For { $recipient }
pack-report-summary = In short
pack-report-register = The register
pack-report-places = How places are shown
pack-report-maps = Maps
pack-report-tables = Tables
pack-report-concentrations = Concentrations
pack-report-richer-squares = Richer squares
pack-report-shore = Along the shore
pack-report-method = Method
pack-report-cautions = Before you go, dig or share
pack-report-citing = How to cite
pack-report-files = What is in the pack
pack-date-written = { $day } { $month } { $year }
pack-month-1 = January
pack-month-2 = February
pack-month-3 = March
pack-month-4 = April
pack-month-5 = May
pack-month-6 = June
pack-month-7 = July
pack-month-8 = August
pack-month-9 = September
pack-month-10 = October
pack-month-11 = November
pack-month-12 = December
pack-number-pieces = { $n ->
    [one] piece
   *[other] pieces
    }
pack-number-records = { $n ->
    [one] record
   *[other] records
    }
pack-number-cells = { $n ->
    [one] square with finds
   *[other] squares with finds
    }
pack-number-classes = { $n ->
    [one] class
   *[other] classes
    }
pack-number-periods = { $n ->
    [one] named period
   *[other] named periods
    }
pack-number-parishes = { $n ->
    [one] parish with finds
   *[other] parishes with finds
    }
pack-summary-nothing = No find can be shown under this agreement. The register and its faults are told below.
pack-summary-lead = { $pieces ->
    [one] One piece of worked stone, in one record, can be shown.
   *[other] { $pieces_text } pieces of worked stone, in { $records ->
        [one] one record
       *[other] { $records_text } records
    }, can be shown.
    }
pack-summary-part = { $name } ({ $pieces }; { $share })
pack-summary-classes = The commonest classes are: { $list }.
pack-summary-periods = Of those in place and with a named period, most are: { $list }.
pack-summary-undated = Undated: { $share } of the pieces in place; dated no more closely than prehistoric: { $prehistoric }. Most struck stone cannot be dated by itself, so these are given columns of their own and are never spread over the periods.
pack-summary-by-parish = { $n ->
    [one] One piece is known by its parish alone. It counts
   *[other] { $n_text } pieces are known by their parish alone. They count
    } in tables and shading by parish, and in no square and no density.
pack-summary-out-of-place = { $n ->
    [one] One piece lay out of place
   *[other] { $n_text } pieces lay out of place
    } (carried by the sea or the slope, or brought in by people later); of the other { $in ->
    [one] one
   *[other] { $in_text }
    } nothing says so. Pieces out of place count in the totals here and in the squares; tables by period give them a column of their own, and density leaves them out.
pack-summary-more = Before you go, dig or share what you read here, please see { $section }.
pack-summary-precision = Places are shown by squares of { $side } or more. No point on any map is a findspot.
pack-summary-precision-parish = Places are shown by parish. No point on any map is a findspot.
pack-register-rows = { $read ->
    [one] One row was
   *[other] { $read_text } rows were
    } read; { $used_text } used and { $aside_text } set aside. A row that cannot be used is kept with its reason, never dropped in silence.
pack-register-aside-intro = { $table } gives the reasons.
pack-register-set-aside = Rows set aside
pack-register-reason = Reason
pack-register-rows-heading = Rows
pack-register-faults = A register kept by several hands over many years has faults that no program can find: a reference copied from another field, a period guessed, natural flint taken for worked.
pack-register-bias = It also shows where people looked. Ground near homes and paths, and fields that were ploughed when somebody was free, are seen more often. An empty square may be ground that nobody walked.
pack-places-cells = Every place was cut to the square of the agreed grid that holds it, toward the south-west, as grid references are. A find recorded more coarsely is shown in a larger square. Nothing was moved at random { $sources }.
pack-places-parish = Finds are shown by parish alone { $sources }.
pack-places-everyone = everyone
pack-fact-for = For
pack-fact-grid = Grid
pack-fact-precision = Precision
pack-fact-smallest-area = Smallest ground left open for a find
pack-fact-smallest-count = Fewest pieces for a place to be shown
pack-fact-stricter = Shown more coarsely: { $what }
pack-fact-shown = Shown of a find
pack-fact-given = Given
pack-fact-reason = Reason
pack-fact-review = To be looked at again
pack-fact-kernel = Kernel
pack-fact-bandwidth = Bandwidth (standard deviation)
pack-fact-bandwidth-choice = How it was chosen
pack-fact-pixel = Side of a pixel
pack-fact-density-pieces = Pieces in the surface
pack-shown-class = class
pack-shown-period = period
pack-shown-count = count
pack-shown-strength = strength of marks
pack-shown-parish = parish of the square
pack-shown-stated-parish = parish as stated
pack-shown-number = number
pack-shown-setting = setting
pack-shown-standing = standing
pack-shown-marks = marks
pack-shown-material = material
pack-shown-measurements = length and weight
pack-shown-date = date
pack-shown-finder = finder
pack-shown-looked-at-by = who looked at it
pack-shown-kept-at = where it is kept
pack-shown-landowner = the landowner or the holding
pack-shown-permission = permission
pack-shown-note = note, places cut out
pack-shown-written = place as recorded, at the agreed precision
pack-shown-fieldwork = fieldwork
pack-given-maps = maps
pack-given-tables = tables
pack-given-report = report
pack-given-layers = layers
pack-given-density = density
pack-given-concentrations = concentrations
pack-given-finds = finds, one row each
pack-places-withheld-heading = What was withheld
pack-places-withheld = These kinds of thing are in the register, or may be, and are not told here:
pack-places-suppressed = { $n ->
    [one] One more piece lies
   *[other] { $n_text } more pieces lie
    } in places with too few pieces to be shown ({ $places_text } in all). It is counted nowhere else.
pack-places-suppressed-alone = { $n ->
    [one] The finds of one more place
   *[other] The finds of { $n_text } more places
    } are not shown, and counted nowhere: each holds too few pieces.
pack-places-why = A precise place, once published, cannot be called back. It invites illegal digging and collecting at night, and people crossing land without leave. That is why the squares are as large as they are.
pack-maps-reading = Each map prints its precision, its scale and its sources. Shaded squares tell how many pieces were recorded in a square, and nothing of where in it.
pack-tables-reading = Figures are pieces, not records. Totals are those of the finds that can be shown.
pack-tables-from-bands = A square's count is told as a band. Figures of parishes, patches, stretches of shore and of the density are therefore estimates; totals are exact, or stand as a range where an exact one would tell the number of a square ({ $section }).
pack-concentrations-intro = Areas where the density is highest, holding { $share } of its mass together. Each follows the edges of squares. It is a patch of finds as recorded, and may be larger or smaller than any place of ancient work.
pack-concentrations-richer = Squares where the density is highest, holding { $share } of its mass together. Squares of this size say only that there is more here than elsewhere.
pack-concentrations-envelope = Areas where finds lie thicker than the same records scattered evenly over { $over } would put them by chance. For the finds as a whole, p = { $p }. Each follows the edges of squares. It is a patch of finds as recorded, and may be larger or smaller than any place of ancient work.
pack-concentration-density = Pieces per hectare: { $density }.
pack-concentration-firm = It comes again in { $stays_text } of { $of_text } resamples of the finds.
pack-concentration-chance = Against an even scatter: p = { $p }.
pack-concentrations-none = No patch stands out by the settings used.
pack-concentration-heading = Concentration { $letter }
pack-concentration-heading-richer = Richer squares { $letter }
pack-concentration-size = { $hectares } ha in { $cells ->
    [one] one square
   *[other] { $cells_text } squares
    }; pieces: { $pieces }.
pack-concentration-size-alone = { $hectares } ha in { $cells ->
    [one] one square
   *[other] { $cells_text } squares
    }.
pack-concentration-may-hold = Some of the pieces in larger squares that overlap it may lie here too ({ $pieces }).
pack-concentration-classes = Classes: { $list }.
pack-concentration-periods = Periods: { $list }.
pack-concentrations-caution = An outline is no boundary of a site. Where many people walked often, finds lie thick on the map.
pack-shore-length = The shore measures { $length } once simplified to { $tolerance }; a finer line would be longer. Finds up to { $within } from it are counted { $sources }.
pack-shore-beyond = { $n ->
    [one] One piece lies
   *[other] { $n_text } pieces lie
    } further inland and is left out here.
pack-shore-by-parish = { $n ->
    [one] One piece is
   *[other] { $n_text } pieces are
    } known by parish alone and cannot be placed along the shore.
pack-shore-ranges = A square lies somewhere along a range of the shore, never at a point of it. Its pieces are shared evenly over the stretches in that range.
pack-method-cells = Places are converted to the agreed grid, with the operation and its accuracy kept for each, and cut to their square. The side is the largest of three: the side agreed, the square that the find was recorded with, and twice its stated uncertainty. It depends on sizes alone, never on where the find lay { $sources }.
pack-method-bands = How many pieces a square holds, and how many of each class and period, is told as a band (1–2, 3–9, 10–49, 50 and more). Maps, density, patches, parishes and stretches of shore are worked out from these bands and not from the true numbers: each square stands for a number in its band, and all squares together for the totals. They are estimates, good for comparing, and their figures are not to be added to other counts. Totals of the whole register are exact, but where an exact one would tell the number of a square; a range stands there { $sources }.
pack-method-parishes = Where a square crosses parish boundaries, its pieces are shared between parishes by area.
pack-method-density = Density is a Gaussian kernel estimate made from the squares: each square's pieces are spread evenly over it and then smoothed. The bandwidth is the standard deviation of the kernel, { $bandwidth }, and the surface is worked out on pixels of { $pixel } { $sources }.
pack-method-edge = Mass that the kernel would lay on the sea is kept on land, by dividing by the part of the kernel that falls on land; the surface holds as many pieces as there are finds in it { $sources }.
pack-method-edge-uniform = Along the edge of the ground the surface is divided, place by place, by the part of a kernel that falls on the ground there: even ground comes out even, and the surface need not hold as many pieces as there are finds in it { $sources }.
pack-method-no-edge = No correction was made at the edge, so density is a little too low along it.
pack-method-left-out = Left out of density: { $place_text } pieces out of place, { $parish_text } known by parish alone.
pack-method-kernel = Gaussian
pack-method-concentrations = Concentrations are made of the squares of highest density that hold { $share } of the mass together { $sources }.
pack-method-envelope = Concentrations are made of the squares where the density is higher than chance would make it: the records, each with its pieces, were scattered evenly over the ground { $n_text } times and smoothed in the same way. A square belongs where its excess over the mean of such scatters, counted in their standard deviation, is reached anywhere on the ground in no more than { $level } of them { $sources }.
pack-method-pointwise-envelope = Concentrations are made of the squares where the density is higher than chance would make it: the records, each with its pieces, were scattered evenly over the ground { $n_text } times and smoothed in the same way. A square belongs where its density is reached in no more than { $level } of them; each square is judged by itself, so that some stand out by chance alone { $sources }.
pack-method-peaks = Each square drains to the peak that it rises to most steeply; { $prominence } is part of its neighbour. Squares that hang together by their sides and drain to one peak are one patch; a patch of fewer than { $smallest_text } pieces is not listed { $sources }.
pack-method-prominence-share = a peak that rises less than { $share } of its height above its meeting with a higher one
pack-method-prominence-pieces = a peak that rises less than { $pieces } pieces per hectare above its meeting with a higher one
pack-method-firm = How firm each is was tried by drawing the records anew, with replacement, { $n_text } times: it stays in a resample that shows a concentration with at least half of the squares of both in common { $sources }.
pack-method-shore = The shoreline was simplified with a tolerance of { $tolerance } and cut into stretches of { $stretch }. Length along a coast depends on the tolerance, so figures per kilometre compare within this report only { $sources }.
pack-method-periods = Periods are those of the country named in the study. A find dated to a broad period is counted there and not in the narrower ones.
pack-method-strength = Strength of marks follows common practice: strong for several aligned scars with a platform or for regular retouch, moderate for a bulb with a platform or scars alone, weak for single marks, which frost, ploughs and beaches make too.
pack-method-sources = Sources of the method
pack-source-chapman = Chapman, A. D. 2020. Current Best Practices for Generalizing Sensitive Species Occurrence Data. GBIF. doi:10.15468/doc-5jp4-5g10.
pack-source-chapman-wieczorek = Chapman, A. D. and Wieczorek, J. R. 2020. Georeferencing Best Practices. GBIF. doi:10.15468/doc-gg7h-s853.
pack-source-diggle = Diggle, P. 1985. A kernel method for smoothing point process data. Applied Statistics 34, 138–147.
pack-source-silverman = Silverman, B. W. 1986. Density Estimation for Statistics and Data Analysis. Chapman and Hall.
pack-source-scott = Scott, D. W. 1992. Multivariate Density Estimation. Wiley.
pack-source-beardah = Beardah, C. C. and Baxter, M. J. 1996. The archaeological use of kernel density estimates. Internet Archaeology 1.
pack-source-hyndman = Hyndman, R. J. 1996. Computing and graphing highest density regions. The American Statistician 50, 120–126.
pack-source-hundepool = Hundepool, A. and others 2012. Statistical Disclosure Control. Wiley.
pack-source-wong = Wong, R. C.-W., Fu, A. W.-C., Wang, K. and Pei, J. 2007. Minimality attack in privacy preserving data publishing. VLDB 2007, 543–554.
pack-source-besag = Besag, J. and Diggle, P. J. 1977. Simple Monte Carlo tests for spatial pattern. Applied Statistics 26, 327–333.
pack-source-chazal = Chazal, F., Guibas, L. J., Oudot, S. Y. and Skraba, P. 2013. Persistence-based clustering in Riemannian manifolds. Journal of the ACM 60(6), 41.
pack-source-edelsbrunner = Edelsbrunner, H., Letscher, D. and Zomorodian, A. 2002. Topological persistence and simplification. Discrete & Computational Geometry 28, 511–533.
pack-source-hennig = Hennig, C. 2007. Cluster-wise assessment of cluster stability. Computational Statistics & Data Analysis 52, 258–271.
pack-source-myllymaki = Myllymäki, M., Mrkvička, T., Grabarnik, P., Seijo, H. and Hahn, U. 2017. Global envelope tests for spatial processes. Journal of the Royal Statistical Society B 79, 381–404.
pack-source-mandelbrot = Mandelbrot, B. 1967. How long is the coast of Britain? Science 156, 636–638.
pack-caution-nighthawking = Illegal digging and collecting, often by night, destroys what the ground could tell. Precise places are withheld so that this report does not lead anybody to a spot. Please do not try to work them out, and do not share what you know of them.
pack-caution-landowner = Every piece of land has an owner, and so have most finds. Ask the landowner's permission before you look, and agree in writing what happens to what is found.
pack-caution-report = Report what you find to the local record office or heritage service, with the place as well as you know it, and follow local law.
pack-caution-protected = Protected sites have rules of their own. On many of them, searching and picking up are offences. Find out before you go.
pack-caution-entry = A map is no right of way. Entry to land needs permission, on foot too.
pack-caution-tides = On the shore, look up the tide and leave before it turns. Keep away from the foot and the edge of cliffs: they fall without warning, above all after rain and frost.
pack-caution-photographs = Before you post a photograph, a walked route or a date, think of what it gives away: skylines, buildings and hidden place data in a picture can lead to the spot.
pack-caution-ask = Nothing here is legal advice. Licensed practice and the advice of the local heritage service come first.
pack-law-england-wales = In England and Wales some finds must be reported by law within a set time, others are recorded by choice, and scheduled ground is protected. The local record office and finds liaison service will say what applies.
pack-law-scotland = In Scotland ownerless finds of every material belong to the Crown and must be reported. The body that receives such reports will say how.
pack-law-ireland = In Ireland finds must be reported within a few days and should be left where they are unless they are in danger; searching with detection devices needs consent, and digging for finds a licence. North and south have laws of their own.
pack-law-france = In France chance finds, prehistoric ones among them, are declared without delay to the mayor, who tells the regional archaeology service; digging, and searching with a metal detector, need authorisation, and systematic walking should be agreed with that service.
pack-law-other = Laws on finds differ from one country to the next. Ask the heritage service where you are before you search.
pack-law-general = The foreshore and the sea bed often have owners and rules of their own.
pack-citing-made = Distribution report made with strew { $version }, places shown by { $precision }.
pack-citing-credits = Credit for base data, with licences as stated by their owners:

pack-places-agreed = What was agreed is set out here; { $section } tells how it was carried out.
pack-figure-intro = { $figure } is a sheet of its own: { $title }.
pack-figure-intro-cells = { $figure } shades each square by how many pieces were recorded in it, in four bands.
pack-figure-intro-symbols = { $figure } tells what was found in each square: the shape of a symbol is the class, its colour the period, its size the count.
pack-figure-intro-parishes = { $figure } counts by parish. Here, and in no square, the finds that are known by their parish alone have their part.
pack-figure-intro-density = { $figure } smooths the squares into a surface of pieces per hectare, with a bandwidth of { $bandwidth }. It shows the lie of the finds at a glance and invents no detail; { $section } tells how it was made.
pack-figure-intro-concentrations = { $figure } outlines them, each with its letter.
pack-figure-intro-ladder = { $figure } shows in squares of which size, and where by the parish alone, finds can be shown. It was fixed by public layers and the agreement, before any find was read.
pack-figure-intro-shore = { $figure } follows the shore from its kilometre 0, a bar for each stretch.
pack-table-intro = { $table } gives the figures: { $title }.
pack-table-intro-class-by-period = { $table } sets the classes against the periods.
pack-table-intro-parish-by-period = { $table } sets the parishes against the periods.
pack-table-intro-parish-by-class = { $table } tells which classes come from which parish.
pack-table-intro-class-by-strength = { $table } tells how strongly the marks on each class speak for human work.
pack-table-intro-class-by-setting = { $table } tells on what kind of ground each class was picked up.
pack-table-intro-concentrations = { $table } sets them side by side.
pack-table-intro-concentration-by-class = { $table } tells which classes lie in each.
pack-table-intro-concentration-by-period = { $table } tells which periods lie in each.
pack-table-intro-ladder = { $table } counts the squares that are shown less finely than agreed.
pack-table-intro-shore = { $table } gives the figures of each stretch.
pack-concentration-parishes = { $n ->
    [one] It lies in the parish of { $list }.
   *[other] It lies in the parishes of { $list }.
    }
pack-places-estimated = Numbers of parts of the ground are estimates, worked out from the bands of squares.
pack-gazetteer-intro = { $n ->
    [one] The one parish with finds that can be shown.
   *[other] The { $n_text } parishes with finds that can be shown, in order of name.
    } A square that several parishes share is parted among them by area, so that a small figure may be no more than such a part.
pack-gazetteer-pieces = { $n ->
    [one] One piece.
   *[other] { $pieces } pieces.
    }
pack-gazetteer-part = { $name } ({ $pieces })
pack-gazetteer-others = { $n ->
    [one] one other ({ $pieces })
   *[other] { $n_text } others ({ $pieces })
    }
pack-table-others = { $n ->
    [one] other
   *[other] others
    }
pack-table-others-note = { $n ->
    [one] Under other: { $list }. The files of tables give it its own column.
   *[other] Under others: { $list }. The files of tables give each its own column.
    }
pack-gazetteer-classes = By class: { $list }.
pack-gazetteer-periods = By period: { $list }.
pack-gazetteer-out-of-place = { $n ->
    [one] One piece lay out of place.
   *[other] { $pieces } pieces lay out of place.
    }
pack-gazetteer-concentrations = { $n ->
    [one] Concentration { $list } lies here, whole or in part ({ $section }).
   *[other] Concentrations { $list } lie here, whole or in part ({ $section }).
    }
pack-gazetteer-richer-squares = { $n ->
    [one] The richer squares { $list } lie here, whole or in part ({ $section }).
   *[other] The richer squares { $list } lie here, whole or in part ({ $section }).
    }
pack-gazetteer-field = { $name } ({ $hectares } ha)
pack-gazetteer-fieldwork = Walked: { $list }.
pack-gazetteer-none = { $n ->
    [one] From one parish no find is shown: { $list }. That does not mean that there is none.
   *[other] From { $n_text } parishes no find is shown: { $list }. That does not mean that there is none.
    }
pack-method-intro = This section tells how the figures were made. { $table }, at its end, lists every setting: whoever has the same register and these settings gets the same report.
pack-method-bandwidth = The bandwidth was chosen by { $how } { $sources }.
pack-method-adaptive = Each find has a bandwidth of its own, wide where finds lie thin { $sources }.
pack-settings-title = Settings
pack-settings-name = Setting
pack-settings-value = Value
pack-settings-part = Where it enters
pack-part-places = places
pack-part-density = density
pack-part-concentrations = concentrations
pack-part-shore = the shore
pack-part-program = all of it
pack-fact-operation = Conversion from latitude and longitude
pack-fact-accuracy = Its accuracy
pack-fact-tolerance = Smoothing of the shoreline
pack-fact-stretch = Length of a stretch
pack-fact-within = Greatest distance from the shore
pack-fact-program = Program
pack-fact-libraries = Libraries
pack-fact-bandwidth-axes = Bandwidth, by direction
pack-fact-bandwidth-axes-value = { $east } east and west, { $north } north and south
pack-fact-pilot = Bandwidth of the pilot
pack-fact-edge = At the edge of the ground
pack-edge-diggle = each find's kernel divided by its part on the ground
pack-edge-uniform = the surface divided by the part of a kernel on the ground
pack-edge-none = nothing done
pack-fact-per = Density is per
pack-per-land = hectare of land
pack-per-walked = hectare walked
pack-per-covered = hectare looked at
pack-fact-left-out-of-place = Left out: pieces out of place
pack-fact-left-by-parish = Left out: pieces known by parish alone
pack-fact-left-by-setting = Left out: pieces of other settings
pack-fact-left-off-land = Left out: pieces in squares off the land
pack-fact-left-unwalked = Left out: pieces on ground not known as walked
pack-fact-share = Share of the mass that they hold
pack-fact-bound = What bounds them
pack-bound-global = an even scatter, all squares at once
pack-bound-pointwise = an even scatter, each square by itself
pack-fact-simulations = Simulated scatters
pack-fact-level = Level
pack-fact-prominence = Least rise of a peak, of its height
pack-fact-prominence-density = Least rise of a peak, pieces per hectare
pack-fact-smallest = Fewest pieces in a patch that is listed
pack-fact-resamples = Resamples
pack-fact-seed = Seed of the random numbers
pack-word-piece = Piece
pack-word-piece-meaning = one object. A record may be of several alike.
pack-word-record = Record
pack-word-record-meaning = one row of the register: what somebody wrote down of a find.
pack-word-square = Square
pack-word-square-meaning = the square of the agreed grid that holds a find. Where in it the find lay is not told, on any map or in any file.
pack-word-band = Band
pack-word-band-meaning = how the pieces of one square are told: 1–2, 3–9, 10–49, 50 and more.
pack-word-in-place = In place, out of place
pack-word-in-place-meaning = whether a find lay where people of its time left it, as far as the finder could tell. Flint on a beach was mostly carried there.
pack-word-strength = Strength of marks
pack-word-strength-meaning = how strongly the marks on a stone speak for human work, from the marks that were recorded alone.
pack-word-bandwidth = Bandwidth
pack-word-bandwidth-meaning = how far the density smooths: the standard deviation of the kernel. The wider it is, the less a single find is seen.
pack-word-concentration = Concentration
pack-word-concentration-meaning = a patch where finds lie thick. Whether it is a scatter, a site or the path of a careful walker is for people to judge.
pack-sources-intro = Numbers in the text lead here; each source tells where it is cited.
pack-source-abramson = Abramson, I. S. 1982. On bandwidth variation in kernel estimates: a square root law. Annals of Statistics 10, 1217–1223.
pack-source-bowman = Bowman, A. W. 1984. An alternative method of cross-validation for the smoothing of density estimates. Biometrika 71, 353–360.
pack-source-jones = Jones, M. C. 1993. Simple boundary correction for kernel density estimation. Statistics and Computing 3, 135–146.
pack-source-loader = Loader, C. 1999. Local Regression and Likelihood. Springer.
pack-source-wand = Wand, M. P. and Jones, M. C. 1994. Multivariate plug-in bandwidth selection. Computational Statistics 9, 97–116.

## Submission
pack-submission-title = Submission of finds
pack-submission-places = What is submitted
pack-submission-fieldwork = Fieldwork
pack-submission-finds = Finds
pack-submission-summary = { $records ->
    [one] One find
   *[other] { $records_text } finds
    } ({ $pieces ->
    [one] one piece
   *[other] { $pieces_text } pieces
    }) of { $read_text } rows in the register; { $aside_text } rows were set aside.
pack-submission-precision = Places are given by { $precision }, in the grid { $grid }. The reference names the square, and the easting and northing are those of its south-west corner. Precision held is the square in which the find was recorded.
pack-submission-operations = Places were converted by:
pack-submission-no-fieldwork = No fieldwork is recorded in the study. The absence of finds elsewhere says nothing.
pack-submission-too-many = The first { $n_text } finds are printed; finds.csv and finds.gpkg hold them all.
pack-sheet-heading-number = Number
pack-sheet-heading-place = Place
pack-sheet-heading-what = What
pack-sheet-heading-marks = Marks
pack-sheet-heading-measures = Material and size
pack-sheet-heading-people = Seen, kept, owned
pack-sheet-heading-note = Papers and note
pack-sheet-corner = { $east } E, { $north } N
pack-sheet-side = square of { $value }
pack-sheet-held = held to { $value }
pack-sheet-uncertainty = ± { $value }
pack-sheet-as-written = { $term } (written: { $written })
pack-sheet-strength = strength: { $value }
pack-sheet-length = { $value } mm
pack-sheet-weight = { $value } g
pack-sheet-looked-at-by = looked at by { $value }
pack-sheet-kept-at = kept at { $value }
pack-sheet-landowner = land of { $value }
pack-sheet-permission = permission: { $value }
pack-sheet-operation = converted by { $number }

### Hand-outs: blank pages to fill in by hand. A "column" is a heading that registers are read by: the tests read each of them.

pack-blank-title = Recording sheet for worked stone
pack-blank-lead = One sheet for one piece, or for like pieces from one spot. Typed into a table, the headings in bold are its columns, and what is ticked or written stands below them.
pack-blank-office = Record office
pack-blank-column-number = Number
pack-blank-column-date = Date found
pack-blank-column-finder = Finder
pack-blank-column-looked-at-by = Looked at by
pack-blank-column-parish = Parish
pack-blank-column-landowner = Landowner
pack-blank-column-permission = Permission
pack-blank-column-setting = Setting
pack-blank-column-place = Grid reference
pack-blank-column-accuracy = Accuracy (m)
pack-blank-column-standing = Standing
pack-blank-column-marks = Marks
pack-blank-column-class = Class
pack-blank-column-period = Period
pack-blank-column-count = Count
pack-blank-column-length = Length (mm)
pack-blank-column-weight = Weight (g)
pack-blank-column-material = Material
pack-blank-column-kept-at = Kept at
pack-blank-column-note = Note
pack-blank-box-system = in which system
pack-blank-box-how-got = read from
pack-blank-box-how-found = how found, and how deep
pack-blank-box-sketch = sketch
pack-blank-box-photographs = photographs
pack-blank-box-left = what was left in place
pack-blank-hint-permission = asked of whom, and when
pack-blank-hint-place = as read, with its letters or its units
pack-blank-hint-accuracy = give or take
pack-blank-hint-marks = Tick what you see; leave what you doubt.
pack-blank-hint-class = tick one, or write it
pack-blank-hint-period = as thought; “undated” is a good answer
pack-blank-hint-sketch = both faces and edge on, platform up
pack-blank-view-bulbar = bulbar face
pack-blank-view-side = edge on
pack-blank-view-back = back
pack-blank-system-degrees = degrees (WGS84)
pack-blank-system-other = other
pack-blank-got-phone = phone
pack-blank-got-receiver = GPS
pack-blank-got-map = paper map
pack-blank-got-screen = map on screen
pack-blank-found-surface = on the surface
pack-blank-found-section = in a section
pack-blank-found-dug = dug up
pack-blank-bulbar-scar = bulbar scar
pack-blank-dorsal-ridges = dorsal ridges
pack-blank-mark-platform = the flat that took the blow
pack-blank-mark-bulb = the swelling below it
pack-blank-mark-bulbar-scar = a small scar on the bulb
pack-blank-mark-ripples = waves from the blow
pack-blank-mark-dorsal-ridges = between the scars of earlier flakes
pack-blank-mark-retouch = small, regular, side by side on an edge
pack-blank-photograph-face = face
pack-blank-photograph-back = back
pack-blank-photograph-side = side
pack-blank-photograph-scale = with a scale
pack-blank-drawing = A struck flake drawn from three sides. Bulbar face: the platform at the top, the bulb below it with a small scar, ripples spreading down. Edge on: the bulb swelling below the platform. Back: ridges between the scars of earlier flakes, and retouch along the right edge.
pack-blank-cautions = Ask the landowner before you look, and keep off protected sites. Tell the record office what you find. On the shore mind tides and cliffs. Do not post places: once public, a precise place invites illegal digging and cannot be called back.
pack-slip-title = The stone you showed us
pack-slip-number = Number
pack-slip-date = date
pack-slip-seen = What was seen
pack-slip-no-mark = none of these
pack-slip-strength = How strongly the marks speak for human work
pack-slip-natural = natural, we think
pack-slip-class = Class
pack-slip-period = period, as thought
pack-slip-unsure = What was not sure
pack-slip-next = What you may do next
pack-slip-next-place = Write down the place (map reference or phone position, and how sure it is) and the day. Keep them to yourself: a posted place invites illegal digging.
pack-slip-next-office = Tell the record office. Some finds must be reported by law: they know what applies where you are.
pack-slip-next-office-france = Tell the record office. In France chance finds, prehistoric ones among them, are declared without delay to the mayor.
pack-slip-next-rest = Leave the rest where it lies, and do not dig. Ask the landowner before you go back; on the shore mind tides and cliffs.
pack-slip-office = Record office
pack-slip-tear = tear off and leave with us
pack-slip-consent = Your consent: tick what you agree to
pack-slip-consent-keep = You may keep my name, and how to reach me, with the record.
pack-slip-consent-name = You may give my name to the record office.
pack-slip-consent-place = You may keep the place, and give it to the record office.
pack-slip-consent-show = You may show the find without my name, its place by a wide square or the parish alone.
pack-slip-name = name
pack-slip-reach = how to reach you
pack-slip-signed = signed
pack-slip-change = You may change your mind at any time: tell us, and we alter the record. Without a tick, neither name nor place is passed on.

### The parish sheet

pack-parish-title = Worked stone in { $parish }
pack-parish-lead = { $n ->
    [one] { $n_text } piece of worked stone is recorded from this parish.
   *[other] { $n_text } pieces of worked stone are recorded from this parish.
}
pack-parish-about = { $n ->
    [one] About { $n_text } piece of worked stone is recorded from this parish (an estimate).
   *[other] About { $n_text } pieces of worked stone are recorded from this parish (an estimate).
}
pack-parish-none = No worked stone is recorded from { $parish } yet.
pack-parish-squares = The map shows them by { $precision }, some by larger ones: a shaded square holds finds somewhere inside it, and nothing finer is told. Pieces in squares that cross the parish line are shared out by area.
pack-parish-by-parish = They are counted for the parish as a whole: no place in it is told.
pack-parish-white = Ground without shading is not empty ground: perhaps nobody has looked there.
pack-parish-by-class = What was found
pack-parish-by-period = How old it may be
pack-parish-others = Others
pack-parish-found = Found something?
pack-parish-found-do = Leave the rest where it lies, note the spot and the day, keep them to yourself, and tell the local record office or society. Some finds must be reported by law.
pack-parish-found-do-france = Leave the rest where it lies, note the spot and the day, keep them to yourself, and tell the local record office or society. In France chance finds, prehistoric ones among them, are declared without delay to the mayor.
pack-parish-places = Places are shown coarsely on purpose: a precise place, once public, invites illegal digging. Please do not try to work them out.
pack-parish-land = This map is no right of way. Ask the landowner before you go on land; protected sites have rules of their own; on the shore mind tides and cliffs.

### A landowner's copy

pack-land-title = What came off your land
pack-land-found = What was found
pack-land-lead = { $pieces ->
    [one] { $pieces_text } piece of worked stone
   *[other] { $pieces_text } pieces of worked stone
} in { $records ->
    [one] { $records_text } record is
   *[other] { $records_text } records are
} stated as found on the land of { $land }.
pack-land-nothing = Nothing in the register is stated as found on the land of { $land }.
pack-land-what = This copy holds what the finders wrote down as coming off this land, and nothing of anybody else's. What they did not write down is not in it.
pack-land-list = Piece by piece
pack-land-list-cut = The first { $n_text } records; the table at the beginning counts them all.
pack-land-map = Places are shown by { $precision }. A shaded square holds finds somewhere inside it; its edges are no boundary of a site. Please do not pass the maps on: they show where to look.
pack-land-kept = Where it is kept
pack-land-kept-where = Whatever you and the finders agreed about who keeps what holds; this page changes nothing in it. You may ask to see the pieces.
pack-land-kept-unknown = not recorded
pack-land-pieces = { $n ->
    [one] { $n_text } piece
   *[other] { $n_text } pieces
}
pack-land-asked = What the finders ask
pack-land-thanks = Thank you for letting people look. Without leave to walk, nothing of this would be known.
pack-land-ask = Please tick what you agree to, sign, and send this page back to { $to }. Nobody minds a no.
pack-land-ask-giver = whoever gave it to you
pack-land-ask-record = The record office may hold these finds, with their places as closely as was agreed with it.
pack-land-ask-show = The finds may be shown to others by wide squares or by the parish, without the name of the land.
pack-land-ask-name = The name of the land may stand beside the finds in what the record office holds.
pack-land-ask-walk = People may walk here again, after asking each time.
pack-land-ask-see = I should like to see the pieces.
pack-land-unsaid = What is not ticked is not agreed. You may change your mind at any time.

### What the fields of layers and rows mean

pack-report-fields = The fields of the layers
pack-fields-intro = { $table } says what each field of the layers means. The same list lies beside the layers as fields.csv. Lengths are in metres of the working grid unless a unit says otherwise; what is not known is left empty, never zero.
pack-fields-title = Fields, their units and how sure they are
pack-fields-layer = Layer
pack-fields-field = Field
pack-fields-unit = Unit
pack-fields-meaning = Meaning
pack-unit-count = pieces
pack-unit-per-hectare = pieces/ha
pack-unit-date = as written
pack-file-fields = what each field of the layers and rows means, with its unit and how sure it is
pack-field-number = The register’s own number. It stays with the find.
pack-field-reference = The square in the notation of the grid. It names the south-west corner; the find lies somewhere in the square.
pack-field-side-m = Side of the square. As a point, take its centre, with half its diagonal (0.71 of the side) as the least uncertainty.
pack-field-easting-m = South-west corner of the square, cut, never rounded.
pack-field-northing-m = South-west corner of the square, cut, never rounded.
pack-field-held-m = Side of the square that the place was recorded with: the precision held, not how true it is.
pack-field-uncertainty-m = Half the diagonal of the square given, and what the source and the operation add to it.
pack-field-written-system = The system that the place was recorded in.
pack-field-operation = How the place was carried into the working grid, with its accuracy.
pack-field-parish = The parish: as stated, or as the layer of parishes names it.
pack-field-parish-of-cell = The parishes that the square lies in, the one with most of it first: of the square, not of the find.
pack-field-class = Class in the words of the study. Unclassified where the register's word is not known.
pack-field-class-as-written = Class as the register has it.
pack-field-period = Named period. A name stands for a range of years, which goes by country.
pack-field-period-as-written = Period as the register has it.
pack-field-pieces = How many pieces: the figure, or a band (1–2, 3–9, 10–49, 50+) where one square may not tell it. In parishes, pieces of squares across a line are shared by area, to a tenth.
pack-field-count-rough = Whether the register gives the number roughly; then it is the least that the words vouch for.
pack-field-marks = Marks of human work that were recorded. One not named may not have been looked for.
pack-field-strength = How strongly the recorded marks speak for human work: a rule of thumb, not a probability.
pack-field-setting = Where it lay.
pack-field-standing = Whether it was in place.
pack-field-material = Material, as written.
pack-field-length-mm = Greatest length as recorded, to a tenth.
pack-field-weight-g = Weight as recorded, to a tenth.
pack-field-date = When it was found, as written.
pack-field-finder = Who found or showed it.
pack-field-looked-at-by = Who looked at it.
pack-field-kept-at = Where it is kept.
pack-field-landowner = The landowner or the holding, as stated.
pack-field-permission = Whether the landowner gave permission, as stated.
pack-field-note = The note, with anything that reads as a place cut out.
pack-field-handling = The mark of a pack that is not for publication.
pack-field-out-of-place = Of the pieces, those that were carried here later; they are kept out of densities.
pack-field-classes = Classes present, each with its pieces.
pack-field-periods = Periods present, each with its pieces.
pack-field-letter = The letter of the concentration on maps and in tables.
pack-field-hectares = Area. Of a concentration: of whole squares, so that its edge is no boundary of a site.
pack-field-may-hold = Further pieces, in larger squares, that may lie here.
pack-field-per-hectare = Mean density within the outline, to two figures.
pack-field-greatest-density = Greatest density within the outline, to two figures; it depends on the bandwidth.
pack-field-firm = Share of resamples in which the concentration comes again.
pack-field-p-global = How often an even scatter reaches as much anywhere.
pack-field-p-pointwise = How often an even scatter reaches as much in this square.
pack-field-square-km = Area of the parish in the layer.
pack-field-band-1 = Density of pieces. Minus one where there is no ground to speak of. Good to two figures; bandwidth, pixel and edge are in the file's metadata.
pack-field-pieces-per-hectare = Level of the contour.
pack-field-ground = The name of the ground walked.
pack-field-walked-by = Who walked it.
pack-field-from = First day.
pack-field-to = Last day.
pack-field-visits = How many times.
pack-field-people-hours = Hours on the ground, of all walkers together.
pack-field-line-spacing-m = Distance between walked lines.
pack-field-cover = Share of the ground that was looked at.
pack-field-visibility = How well the surface could be seen, in the walkers' words.
pack-field-kept = What was kept of what was seen.

### The cover page of a submission

pack-cover = Submission at a glance
pack-cover-from = From
pack-cover-records = Records
pack-cover-records-told = { $records ->
    [one] { $records_text } record
   *[other] { $records_text } records
} of { $pieces ->
    [one] { $pieces_text } piece
   *[other] { $pieces_text } pieces
}, of them { $parish_text } placed by the parish alone. Rows of the register: { $read_text } read, { $aside_text } set aside.
pack-cover-state = State
pack-cover-state-told = As the register has it on this day: no account was kept of earlier submissions. Numbers are the register’s own.
pack-cover-grid = Grid
pack-cover-precision = Precision
pack-cover-precision-told = Given: { $given }. Held: squares from { $least } to { $most }, find by find.
pack-cover-consent = Permission
pack-cover-consent-told = { $n ->
    [one] { $n_text } record states
   *[other] { $n_text } records state
} how the landowner’s permission stands, of { $records_text }. What they agreed to beyond that is for the sender to say.
pack-cover-consent-unshown = Permissions are not part of this submission.
pack-cover-folder = In this folder
pack-cover-file-rows = { $file } ({ $n ->
    [one] { $n_text } row
   *[other] { $n_text } rows
})
pack-cover-file-maps = maps/ ({ $n ->
    [one] { $n_text } file
   *[other] { $n_text } files
})
pack-cover-contact = Whom to ask, and how
pack-cover-cut = cut here and send back
pack-cover-receipt = Receipt
pack-cover-receipt-told = { $recipient } has received from { $sender }: “{ $title }”{ $edition }, { $records ->
    [one] { $records_text } record
   *[other] { $records_text } records
}.
pack-cover-received = Received on, by
pack-cover-reference = Entered on, by; your reference
pack-cover-questions = Questions

### A submission: what an office enters, its terms, its seal

pack-column-state = State
pack-field-state = How the row stands to what was given before: new, amended, withdrawn or unchanged; blank where no account is kept.
pack-column-how-found = How found
pack-field-how-found = How it was found, as stated.
pack-column-depth = Depth
pack-field-depth = How deep it lay, as stated, with its unit.
pack-column-breadth-mm = Breadth (mm)
pack-field-breadth-mm = Breadth as recorded, to a tenth.
pack-column-thickness-mm = Thickness (mm)
pack-field-thickness-mm = Thickness as recorded, to a tenth.
pack-column-condition = Condition
pack-field-condition = Condition, as stated.
pack-column-examined = Looked at how
pack-field-examined = Looked at in hand or from a photograph, as stated.
pack-column-owner = Owner
pack-field-owner = Who owns it, as stated. Who owns what is found goes by the law where it was found.
pack-column-grid = Grid
pack-field-grid = The grid of the square.
pack-column-recorded-as = Square in the system of the record (reference or centre)
pack-field-recorded-as = The square in the system that the place was recorded in: its reference, or its centre. Worked out from the square, never from the recorded figures.
pack-column-how-placed = How the place was read
pack-field-how-placed = How the place was read, as stated: by which instrument, off which map.
pack-column-place-name = Place-name
pack-field-place-name = A place by its name, as stated. Told with squares of 100 m or less alone: with larger ones it would tell more than the square.
pack-column-commune-code = Commune code
pack-field-commune-code = The commune’s code, as stated.
pack-column-section = Section
pack-field-section = Section of the land register’s plan. Told with squares of 100 m or less alone.
pack-column-parcel = Parcel
pack-field-parcel = Parcel of the plan. Told with squares of 100 m or less alone.
pack-column-plan-year = Year of the plan
pack-field-plan-year = Year of the plan that section and parcel are of: parcels are renumbered.
pack-column-authorisation = Authorisation
pack-field-authorisation = Authorisation, as stated, where the country works by it.
pack-column-declaration = Declaration
pack-field-declaration = Declaration, as stated, where the country works by it.
pack-column-photographs = Photographs
pack-field-photographs = Photographs, by their names. They are not in this pack.
pack-column-kept-or-left = Kept or left
pack-field-kept-or-left = What was kept and what was left, as stated.
pack-column-publication = Earlier publication
pack-field-publication = Where it was published before, as stated.
pack-column-names-consent = Consent to hold names
pack-field-names-consent = Whether those named agreed that the office holds their names, as stated. Where they did not, the names are taken out.
pack-column-may-publish = May be published
pack-field-may-publish = What the recipient may publish, as agreed.
pack-column-why-no-more = Why no more
pack-field-why-no-more = Why places are not shown more finely.
pack-column-review = Review
pack-field-review = When the agreement is to be looked at again.
pack-column-embargo = Embargo until
pack-field-embargo = Not to be shown to others before this day: of the row, or of the whole submission.
pack-column-edition = Edition
pack-field-edition = The edition of the submission that the row belongs to.
pack-column-method = Method
pack-field-method = How the ground was looked at.
pack-column-light = Light
pack-field-light = The light, in the walkers’ words.
pack-column-crop = Crop
pack-field-crop = What grew there, and how high.
pack-column-picked-up = Picked up
pack-field-picked-up = How many pieces were picked up. “Nothing”: the ground was walked and gave none. Blank: not stated.
pack-column-left = Left
pack-field-left = What was left where it lay, in the walkers’ words.
pack-state-new = new
pack-state-amended = amended
pack-state-withdrawn = withdrawn
pack-state-unchanged = unchanged
pack-walk-nothing = nothing
pack-withheld-how-found = How finds were found, and how deep.
pack-shown-how-found = how found and how deep
pack-withheld-condition = The condition of each find.
pack-shown-condition = condition
pack-withheld-owner = Who owns finds.
pack-shown-owner = owner
pack-withheld-place-name = Names of fields and places.
pack-shown-place-name = place-name
pack-withheld-parcel = Sections and parcels of the land register.
pack-shown-parcel = section and parcel
pack-withheld-authorisation = Authorisations and declarations.
pack-shown-authorisation = authorisation and declaration
pack-withheld-photographs = Names of photographs.
pack-shown-photographs = photographs
pack-withheld-kept-or-left = What was kept and what was left.
pack-shown-kept-or-left = kept or left
pack-withheld-publication = Earlier publications.
pack-shown-publication = earlier publication
pack-withheld-names-consent = Who agreed that names are held.
pack-shown-names-consent = consent to hold names
pack-withheld-embargo = Terms and embargoes of single finds.
pack-shown-embargo = terms and embargo
pack-sheet-heading-found = Found
pack-sheet-depth = depth { $value }
pack-sheet-pieces = pieces: { $value }
pack-sheet-recorded-as = recorded in another system, in which the centre of the square is { $value }
pack-sheet-section = section { $value }
pack-sheet-parcel = parcel { $value }
pack-sheet-plan-year = plan of { $value }
pack-sheet-kept-or-left = kept or left: { $value }
pack-sheet-owner = owner: { $value }
pack-sheet-names-consent = names may be held: { $value }
pack-sheet-authorisation = authorisation { $value }
pack-sheet-declaration = declaration { $value }
pack-sheet-photographs = photographs: { $value }
pack-sheet-publication = published: { $value }
pack-sheet-embargo = embargo: { $value }
pack-submission-extent = Finds come from ground that somebody walked. Without this table, ground that gave nothing cannot be told from ground where nobody looked.
pack-submission-walked = { $n ->
    [one] { $n_text } piece of ground is
   *[other] { $n_text } pieces of ground are
} listed, { $hectares } ha in all as far as stated.
pack-submission-blank = { $n ->
    [one] One of them gave
   *[other] { $n_text } of them gave
} nothing: { $grounds }.
pack-submission-no-blank = None is stated to have given nothing.
pack-submission-blank-unsaid = Which of them gave nothing is not stated.
pack-terms = Who may see this, and what may be done with it
pack-terms-shows-closely = This pack shows where each find lay by { $precision }: near enough to walk to. It is a submission, not a publication, and more than the public is told.
pack-terms-shows = This pack shows where each find lay by { $precision }. It is a submission, not a publication, and holds more than the public is told.
pack-terms-who = Who may receive it
pack-terms-who-told = { $recipient }: those whose work needs it. Nobody else without the sender’s word.
pack-terms-publish = What may be published
pack-terms-nothing = nothing, until the sender has agreed to it in writing
pack-terms-as-public = no more than the public is shown: { $precision }, or coarser where that asks for it
pack-terms-as-shown = what it shows
pack-terms-why = Why no more
pack-terms-why-told = a precise place, once published, invites illegal digging and trespass, and cannot be called back
pack-terms-embargo = Embargo until
pack-terms-embargo-each = none for the whole; single records may have one
pack-terms-review = To be looked at again
pack-terms-edition = Edition
pack-terms-unsaid = not stated
pack-terms-do-keep = Keep it where only those who need it can read it, and take it out of mail boxes and shared folders. Before a map, an extract or a search result goes to others, cut its places to what may be published.
pack-terms-do-ask = If somebody asks for it under a law on access to information, the law where you are decides; please tell the sender first, and say that the places need protecting.
pack-terms-do-names = Names are personal data. They are here for your records; show them to others only where those named agreed.
pack-terms-do-land = A record is no right of way: a visit needs the landowner’s permission, and protected sites have rules of their own.
pack-terms-do-mistakes = Write mistakes on the receipt, by the number of the record. Numbers stay the same for ever, so that an amended record takes the place of the old one.
pack-terms-do-yours = Your own rules on sensitive places, licensed practice and the law come before this page.
pack-cover-withdrawn = Withdrawn since the edition before, to be struck out: { $list }.
pack-cover-withdrawn-more = { $n ->
    [0] No more is named in finds.csv.
    [one] One more is named in finds.csv.
   *[other] { $n_text } more are named in finds.csv.
}
pack-cover-state-counted = { $new_text } new, { $amended_text } amended, { $withdrawn_text } withdrawn, { $unchanged_text } unchanged. Numbers are the register’s own.
pack-cover-names = Names
pack-cover-names-told = { $stated_text } records state whether names may be held. Names taken out because those named did not agree: in { $withheld_text }.
pack-cover-places-withheld = Names of fields and parcels left out, since they would tell more than the square: in { $n_text }.
pack-seal-open-key = This file is sealed in the open format age v1 (age-encryption.org/v1). Any program for that format opens it with the secret key that belongs to the key you gave.
pack-seal-open-passphrase = This file is sealed in the open format age v1 (age-encryption.org/v1). Any program for that format opens it with the passphrase. The passphrase goes another way than the file: by telephone, or by hand.
pack-seal-open-zip = Inside is a ZIP with the submission; begin with README.txt.
pack-seal-told = padding.bin holds nothing but noughts: it fills the file up to one of a few sizes, so that its length does not tell how many finds there are. Delete it.
    The seal kept the places safe on the way. Once opened they are as safe as the disk that they lie on: keep them where only those who need them can read them.
pack-seal-key = "{ $key }" is no key to seal to
    .hint = Keys are written age1 and 58 letters and figures, and are copied whole. Ask the office for theirs.
pack-seal-secret-key = this is a secret key: it opens what is sealed, and is nobody’s but its holder’s
    .hint = Seal to the key that begins with age1. If somebody sent you their secret key, tell them to make a new pair.
pack-seal-nobody = no key to seal to
    .hint = Give the office’s key, age1…, or a file with one a line.
pack-seal-passphrase-short = the passphrase has fewer than { $least } characters: it could be guessed
    .hint = Draw five or more words by chance, as with dice and a list, and write them with spaces between.
pack-seal-failed = the pack could not be sealed ({ $why })
    .hint = Nothing was written. Run it again; if it happens again, please report it.
pack-cover-names-unsaid = The register does not say whether names may be held. Please ask the sender before names are shown to others.
pack-terms-fact = { $name }: { $value }
