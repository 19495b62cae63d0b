# Kinds of map.
sheet-kind-of-map-finds-by-cell = Finds by square
sheet-kind-of-map-finds-by-parish = Finds by parish
sheet-kind-of-map-classes-and-periods = Classes and periods
sheet-kind-of-map-density = Density of finds
sheet-kind-of-map-concentrations = Where finds lie thick
sheet-only = { $kind }: { $only }

# Above the map.
sheet-not-for-publication = Not for publication
sheet-not-for-publication-for = Not for publication · for { $recipient } alone
sheet-cells-detail = Each square is shaded by the number of pieces found in it, in four bands.
sheet-kind-of-map-ladder = How finely places can be shown
sheet-ladder-detail = Each piece of ground is shaded by the square in which a find there would be shown. Public layers and the agreement fixed this before any find was read: it says nothing of where finds lie.
sheet-ladder-caution = Squares grow where a smaller one would leave too little ground for a find to lie on, or where the agreement asks for it. A find recorded more coarsely is shown in a larger square than this.
sheet-legend-ladder = Finds are shown by
sheet-legend-ladder-square = squares of { $side }
sheet-legend-ladder-square-agreed = squares of { $side }, as agreed
sheet-legend-ladder-more = squares of { $side } and more
sheet-legend-ladder-parish = the parish alone
sheet-legend-ladder-nowhere = not shown: too little ground
sheet-parishes-detail = Each parish is shaded by the number of pieces found in it, and the number is printed.
sheet-symbols-detail = In each { $side } square: a symbol for each class and period, larger for more pieces. Where in the square a symbol stands means nothing.
sheet-symbols-detail-joined = Squares of { $finest } are joined into squares of { $side } to leave room for the symbols. Where in the square a symbol stands means nothing.
sheet-density-detail = Pieces per hectare, spread by a Gaussian kernel with a standard deviation (bandwidth) of { $bandwidth }{"\u00A0"}m ({ $method }).
sheet-density-detail-walked = Pieces per hectare walked, spread by a Gaussian kernel with a standard deviation (bandwidth) of { $bandwidth }{"\u00A0"}m ({ $method }).
sheet-density-detail-covered = Pieces per hectare looked at, spread by a Gaussian kernel with a standard deviation (bandwidth) of { $bandwidth }{"\u00A0"}m ({ $method }).
sheet-concentrations-detail = Outlines hold { $share }% of the density, where it is greatest. Gaussian kernel, standard deviation (bandwidth) { $bandwidth }{"\u00A0"}m.
sheet-richer-squares-detail = Richer squares: those that hold { $share }% of the density, where it is greatest. Gaussian kernel, standard deviation (bandwidth) { $bandwidth }{"\u00A0"}m.
sheet-concentrations-detail-envelope = Outlines hold the squares where finds lie thicker than the same records scattered evenly over { $over } would put them ({ $simulations_text } simulations, { $level }%, { $at_once }). Gaussian kernel, standard deviation (bandwidth) { $bandwidth }{"\u00A0"}m.
sheet-richer-squares-detail-envelope = Richer squares: those where finds lie thicker than the same records scattered evenly over { $over } would put them ({ $simulations_text } simulations, { $level }%, { $at_once }). Gaussian kernel, standard deviation (bandwidth) { $bandwidth }{"\u00A0"}m.
sheet-all-squares = all squares at once
sheet-each-square = each square by itself

# Legends.
sheet-heading-legend = Legend
sheet-legend-pieces-in = Pieces in a { $side } square
sheet-legend-unwalked = Not walked: nothing is known
sheet-legend-by-parish = Pieces in a parish
sheet-legend-by-parish-estimated = Pieces in a parish, estimated
sheet-legend-none = None recorded
sheet-legend-density = Pieces per hectare
sheet-legend-density-walked = Pieces per hectare walked
sheet-legend-density-covered = Pieces per hectare looked at
sheet-legend-square-with-finds = Square with finds
sheet-legend-larger-square-with-finds = Larger square with finds
sheet-legend-larger-square = Larger square: symbols in a corner of it stand for all of it
sheet-legend-concentrations = Concentration
sheet-legend-richer-squares = Richer squares
sheet-legend-one-concentration = { $n ->
    [one] One piece, { $hectares }{"\u00A0"}ha
   *[other] { $n_text } pieces, { $hectares }{"\u00A0"}ha
}
sheet-legend-shape = Class
sheet-legend-colour = Period
sheet-legend-size = Size: pieces in a { $side } square
sheet-from-to = { $from } to { $to }
sheet-and-more = { $from } and more
sheet-nothing = There is nothing to show: the study gives no ground, and no find has a square.
sheet-no-finds = No finds to show.
sheet-no-parishes = The study gives no parishes.
sheet-no-concentrations = No concentration was found.
sheet-no-richer-squares = No squares stand out.

sheet-kind-dagger = Dagger
sheet-kind-axehead = Axehead, adzehead or pick
sheet-kind-arrowhead = Arrowhead
sheet-kind-microlith = Microlith or microburin
sheet-kind-scraper = Scraper
sheet-kind-tool = Other tool
sheet-kind-core = Core
sheet-kind-blade = Blade or bladelet
sheet-kind-waste = Flake, chip or waste
sheet-kind-other = Worked stone, no class given

sheet-era-palaeolithic = Palaeolithic
sheet-era-mesolithic = Mesolithic
sheet-era-mesolithic-early-neolithic = Mesolithic or Early Neolithic
sheet-era-early-neolithic = Early Neolithic
sheet-era-neolithic = Neolithic
sheet-era-late-neolithic-early-bronze-age = Late Neolithic to Early Bronze Age
sheet-era-bronze-age = Bronze Age
sheet-era-undated = Not dated, or prehistoric only

# Lines of the ground.
sheet-legend-parish-line = Parish boundary
sheet-legend-road = Road
sheet-legend-stream = Stream

# Scale, north, grid.
sheet-km = { $n }{"\u00A0"}km
sheet-m = { $n }{"\u00A0"}m
sheet-scale = Scale 1:{ $scale }
sheet-grid-north-arrow = Grid north
sheet-true-north-star-west = The star marks true north, { $angle }° west of grid north.
sheet-true-north-star-east = The star marks true north, { $angle }° east of grid north.
sheet-true-north-west = True north lies { $angle }° west of grid north.
sheet-true-north-east = True north lies { $angle }° east of grid north.
sheet-norths-agree = True north and grid north agree here.
sheet-heading-around = Where this lies
sheet-around = The inset is { $km }{"\u00A0"}km wide; its box is this map.
sheet-grid-east = { $km } km E
sheet-grid-north = { $km } km N
sheet-grid-british = British National Grid
sheet-grid-lambert-93 = Lambert-93 grid
sheet-grid-other = { $system } grid
sheet-datum-british = Grid: British National Grid, kilometres east and north of its origin (datum OSGB36, by OSTN15).
sheet-datum-lambert-93 = Grid: Lambert-93, kilometres east and north of its origin (datum RGF93).
sheet-datum-other = Grid: { $system }, kilometres east and north of its origin.

# The panel.
sheet-heading-precision = Precision
sheet-precision-square = Agreed for places: { $side } squares of the { $grid }. Nothing finer is given.
sheet-precision-parish = Places are shown by parish alone, as agreed.
sheet-precision-stricter = Some kinds of find are shown more coarsely.
sheet-heading-counts = Numbers
sheet-shown = { $n ->
    [0] No pieces are shown.
    [one] One piece is shown.
   *[other] { $n_text } pieces are shown.
}
sheet-by-parish-only = { $n ->
    [one] One more is known by its parish alone and lies in no square here.
   *[other] { $n_text } more are known by their parish alone and lie in no square here.
}
sheet-density-left-setting = { $n ->
    [one] One piece of another setting is left out of the density.
   *[other] { $n_text } pieces of other settings are left out of the density.
}
sheet-density-left-off-land = { $n ->
    [one] One piece whose square lies wholly off the land is left out of the density.
   *[other] { $n_text } pieces whose squares lie wholly off the land are left out of the density.
}
sheet-density-left-unwalked = { $n ->
    [one] One piece whose square lies wholly off walked ground is left out of the density.
   *[other] { $n_text } pieces whose squares lie wholly off walked ground are left out of the density.
}
sheet-out-of-place = { $n ->
    [one] One piece that is out of place (derived or brought in) is left out of the density.
   *[other] { $n_text } pieces that are out of place (derived or brought in) are left out of the density.
}
sheet-apart = { $n ->
    [one] One of all pieces is out of place (derived or brought in). It is counted with the rest here; tables count it apart.
   *[other] { $n_text } of all pieces are out of place (derived or brought in). They are counted with the rest here; tables count them apart.
}
sheet-withheld = { $n ->
    [one] One piece is withheld: its square or parish holds too few to be shown.
   *[other] { $n_text } pieces are withheld: their squares or parishes hold too few to be shown.
}
sheet-withheld-places = { $n ->
    [one] The finds of one square or parish are withheld: it holds too few to be shown.
   *[other] The finds of { $n_text } squares or parishes are withheld: they hold too few to be shown.
}
sheet-from-bands = Numbers of parts of the ground are estimates, worked out from the bands of squares.
sheet-from-bands-ranges = Where two numbers stand, the figure lies between them. Numbers of parts of the ground are estimates, worked out from the bands of squares.
sheet-doubtful = { $n ->
    [one] One of all pieces is doubtful: its marks speak weakly for human work.
   *[other] { $n_text } of all pieces are doubtful: their marks speak weakly for human work.
}
sheet-doubtful-besides = { $n ->
    [one] Besides those out of place, one of all pieces is doubtful: its marks speak weakly for human work.
   *[other] Besides those out of place, { $n_text } of all pieces are doubtful: their marks speak weakly for human work.
}
sheet-collected = Collected { $years }.
sheet-walked = Ground walked: { $hectares }{"\u00A0"}ha.
sheet-walked-cover = Ground walked: { $hectares }{"\u00A0"}ha, of which { $share }% was looked at.
sheet-set-aside = { $n ->
    [one] One of the { $read_text } rows of the register could not be used and is set aside.
   *[other] { $n_text } of the { $read_text } rows of the register could not be used and are set aside.
}
sheet-heading-cautions = Read with care
sheet-no-symbol = No symbol and no shading does not mean no finds: ground may not have been walked.
sheet-permission = Entry to land needs the owner’s permission.
sheet-record-office = Consult the record office before any fieldwork.
sheet-parishes-caution = Parishes differ in size and in how much of them was walked.
sheet-parishes-elsewhere = { $n ->
    [one] One piece belongs to a parish that this map does not show.
   *[other] { $n_text } pieces belong to parishes that this map does not show.
}
sheet-symbols-caution = A symbol stands for its whole square, never for a place.
sheet-symbols-left-out = { $n ->
    [one] One symbol found no room in its square.
   *[other] { $n_text } symbols found no room in their squares.
}
sheet-symbols-in-larger = { $n ->
    [one] One piece in a still larger square is not drawn.
   *[other] { $n_text } pieces in still larger squares are not drawn.
}
sheet-density-caution = Made from whole squares, not from findspots; more walking finds more.
sheet-legend-firm = { "" }, { $firm }%
sheet-firm-caution = The percentage says how firm: in how many of { $n_text } resamples of the finds it comes again.
sheet-kind-of-map-bandwidths = Density at several bandwidths
sheet-bandwidths-detail = The same finds, spread by Gaussian kernels of several standard deviations (bandwidths), from the narrowest to the widest. All are shaded by the same scale.
sheet-bandwidth = Bandwidth { $bandwidth }{"\u00A0"}m
sheet-bandwidths-chosen = The bandwidth of this study
sheet-bandwidths-other = Another bandwidth
sheet-bandwidths-caution = A wide kernel joins patches, a narrow one shows more of chance. What stays in all of them is firmest.
sheet-bandwidths-one = Bandwidth { $bandwidth }{"\u00A0"}m ({ $why }): up to { $peak } pieces per hectare.
sheet-no-site-boundary = Outlines follow the squares and are no site boundary.
sheet-contours-no-boundary = Contours are no site boundary.
sheet-names-left-out = { $n ->
    [one] One name found no room on the map.
   *[other] { $n_text } names found no room on the map.
}
sheet-notes-left-out = For want of room, some notes are left out here.
sheet-heading-sources = Sources
sheet-credits = Base: { $credits }.
sheet-boundaries = Boundaries: { $kind }.
sheet-boundaries-dated = Boundaries as of { $date }.
sheet-boundaries-kind-dated = Boundaries: { $kind }, { $date }.
sheet-compiler = Compiled by { $name }.
sheet-edition = Edition { $edition }.
sheet-edition-named = { $edition }.
sheet-dated = { $date }.
sheet-made-with = Drawn with strew.
sheet-day = { $day } { $month } { $year }
sheet-month = { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[12] December
}

# Small maps side by side.
sheet-number-of = { $kind } (sheet { $n_text } of { $of_text })
sheet-each-period = { $kind }, period by period
sheet-each-class = { $kind }, class by class
sheet-each-class-and-period = { $kind }, by class (down) and period (across)
sheet-each-detail = One ground, one scale and one key for all the maps.
sheet-squares-joined = Squares of { $finest } are joined into squares of { $side } to be seen at this size.
sheet-squares-joined-further = Those of { $finest } do not fit into these and are joined into squares of { $side }.
sheet-each-groups = Each find stands on one map alone. Where there is no map for a class or period, there are no finds of it to show.
sheet-each-parish-numbers = A number that finds no room on its parish is left out; the shade stands.
sheet-panel-pieces = { $n ->
    [0] no pieces
    [one] 1 piece
   *[other] { $n_text } pieces
}
sheet-panel-apart = { $pieces } ({ $n_text } out of place)
sheet-panel-by-parish = { $pieces }, { $n_text } more by parish
sheet-panel-told = { $name }: { $pieces }.
sheet-pair-registers = { $kind }, side by side
sheet-pair-years = { $kind }, before { $year } and from { $year } on
sheet-pair-before = Before { $year }
sheet-pair-from = From { $year } on
sheet-pair-first = The first register
sheet-pair-second = The second register
sheet-pair-detail = One ground, one scale and one key for both maps.
sheet-pair-registers-caution = Two registers differ in who walked, where, how often and what was kept: a square on one map alone need not have been bare on the other.
sheet-pair-years-caution = The two spans differ in who walked, where, how often and what was kept: a square on one map alone need not have been bare on the other.
sheet-pair-squares = Of the squares drawn, with finds on both maps: { $both }; on the first alone: { $first }; on the second alone: { $second }.
sheet-pair-no-year = { $n ->
    [one] One piece has no year of finding that can be read, or years on both sides, and stands on neither map.
   *[other] { $n_text } pieces have no year of finding that can be read, or years on both sides, and stand on neither map.
}
sheet-legend-classes-left-out = { $n ->
    [one] One other class is counted, not drawn.
   *[other] { $n_text } other classes are counted, not drawn.
}
sheet-legend-periods-left-out = { $n ->
    [one] One other period is counted, not drawn.
   *[other] { $n_text } other periods are counted, not drawn.
}
sheet-legend-symbols-left-out = “+3”: three symbols found no room in that square.
sheet-contours-every = Contours of the land every { $interval }{"\u00A0"}m.

# The shore.
sheet-shore-title = Finds along the shore
sheet-shore-detail = Pieces per kilometre of shore, by period, in stretches of { $stretch }. Pieces whose square reaches over several stretches are shared between them.
sheet-shore-along = Kilometres along the shore
sheet-shore-per-km = Pieces per km
sheet-shore-all = All periods together
sheet-shore-length = The shore is { $km }{"\u00A0"}km long when simplified to { $tolerance }. A finer line would be longer: a coast has no one length.
sheet-shore-closed = The line closes on itself: its end is its start.
sheet-shore-others = { $n ->
    [one] One line of the shore that does not join this one (an islet, a lagoon) is left out.
   *[other] { $n_text } lines of the shore that do not join this one (islets, lagoons) are left out.
}
sheet-shore-beyond = { $n ->
    [one] One piece lies further from the shore than { $within }, and is left out.
   *[other] { $n_text } pieces lie further from the shore than { $within }, and are left out.
}

# Faults.
sheet-colour = "{ $text }" is not a colour
    .hint = Write # and six hexadecimal digits: "#AD4F21".
sheet-style-unknown = there is no style called "{ $name }"
    .hint = Styles: { $known }.
sheet-style-broken = the style cannot be read: { $why }
    .hint = This is a fault of the program: please report it.
sheet-paper-unknown = "{ $name }" is not a paper
    .hint = Write a2, a3, a4, a5, figure-wide, figure-tall, figure-column, or a width and height in millimetres from 60 to 1200: "170x105".
sheet-paper-too-small = { $width } × { $height } mm is too small for this map with its legend
    .hint = Choose a larger paper, or draw one class or period alone, which needs a shorter legend.
sheet-all-together = the map { $map } shows all classes and periods together
    .hint = Leave out the class and the period, or draw finds-by-cell or classes-and-periods.
sheet-no-density = there is no density to draw
    .hint = The agreement must give "density" or "concentrations", and some find must have a square.
sheet-dpi = { $value } dots an inch is out of range
    .hint = Choose from 72 to 1200.
sheet-picture = the picture could not be made: { $why }
    .hint = Try SVG instead, and report this as a fault of the program.
sheet-parish-map = Finds in { $parish }
sheet-parish-map-shows = Map of { $parish }, with what lies round it quiet: squares shaded by how many pieces they hold, under roads, streams and the line of the parish.
sheet-not-side-by-side = the map { $map } cannot be drawn as small maps side by side
    .hint = Draw finds-by-cell, classes-and-periods or finds-by-parish; for two registers, density too.
sheet-nothing-side-by-side = there are no finds to draw side by side
    .hint = Leave out the class and the period, or look at what "strew check" sets aside.
sheet-no-ladder = The map of how finely places can be shown needs ground that is shown less finely than agreed.
    .hint = All ground of this audience is shown as agreed: there is nothing to draw.
