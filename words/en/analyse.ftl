table-shore-by-period = Pieces per kilometre of shore, by period
table-shore-by-class = Pieces per kilometre of shore, by class
table-cells-along-the-shore = Where each square lies along the shore
shore-stretch = stretch of shore
shore-all = all
shore-cell-square = square
shore-cell-side = side (m)
shore-cell-km-from = from (km)
shore-cell-km-to = to (km)
shore-cell-near = nearest shore (m)
shore-cell-far = farthest from shore (m)
shore-note-length = The shore measures { $length } km when simplified to { $tolerance } m. A coast has no one length: compare only lengths measured with the same tolerance.
shore-note-shared = A square lies along a range of the shore; its pieces are shared evenly over that range.
shore-note-beyond = { $n ->
    [one] { $n_text } piece lies more than { $within } m from the shore and is left out.
   *[other] { $n_text } pieces lie more than { $within } m from the shore and are left out.
}
shore-note-parish = { $n ->
    [one] { $n_text } piece is placed by its parish alone and is left out.
   *[other] { $n_text } pieces are placed by their parish alone and are left out.
}
table-density-surface = The density surface
surface-what = measure
surface-value = value
surface-bandwidth = bandwidth: standard deviation of the kernel (m)
surface-bandwidth-east = bandwidth east and west (m)
surface-bandwidth-north = bandwidth north and south (m)
surface-bandwidth-lean = correlation of the kernel east and north
surface-method = how the bandwidth was chosen
surface-pilot = bandwidth of the pilot (m)
surface-narrowest = narrowest bandwidth of a square (m)
surface-widest = widest bandwidth of a square (m)
surface-edge = at the edge of the ground
surface-edge-diggle = each square is divided by the part of its kernel on the ground, so that the pieces add up
surface-edge-uniform = each place is divided by the part of a kernel on the ground there; the pieces need not add up
surface-edge-none = nothing is corrected
surface-pixel = side of a pixel (m)
surface-pieces = pieces that the surface holds
surface-peak = greatest density (pieces per hectare)
surface-mean = mean density on land (pieces per hectare)
surface-mean-walked = mean density on walked ground (pieces per hectare walked)
surface-mean-covered = mean density on ground looked at (pieces per hectare looked at)
surface-hectares = land in the surface (ha)
surface-hectares-walked = walked ground in the surface (ha)
surface-hectares-covered = ground looked at in the surface (ha)
surface-by-setting = pieces of other settings, left out
surface-off-land = pieces in squares wholly off the land, left out
surface-unwalked = pieces in squares wholly off walked ground, left out
surface-out-of-place = pieces out of place, left out
surface-by-parish = pieces placed by their parish alone, left out
surface-note-from-bands = Made from the bands of squares and not from true numbers: each square stands for an estimate.
surface-note = Pieces per hectare of land, not of ground walked: where nobody has looked the surface is low for want of looking.
surface-note-walked = Pieces per hectare of walked ground. Ground that was not walked is outside the surface.
surface-note-covered = Pieces per hectare looked at: walked ground counts by the share of it that was looked at. Ground that was not walked is outside the surface.
bandwidth-fixed-two = set in the study file, for two directions
bandwidth-plug-in = plug-in, one east and one north (Wand and Jones 1994)
bandwidth-plug-in-full = plug-in, a full matrix (Wand and Jones 1994; Duong and Hazelton 2003)
bandwidth-least-squares = least-squares cross-validation (Rudemo 1982; Bowman 1984)
bandwidth-likelihood = likelihood cross-validation (Loader 1999)
bandwidth-diggle = least mean square error (Diggle 1985; Berman and Diggle 1989)
bandwidth-doubt-under-square = The bandwidth is under the side of the squares: the surface shows the squares as much as the finds.
bandwidth-doubt-at-end = The bandwidth lies at an end of the range that was searched: the finds do not settle it, so set it yourself.
bandwidth-doubt-too-few = Too few finds lie apart for the way of choosing the bandwidth that was asked for: the rule of thumb was used.
density-doubt-settings-hidden = This audience is not shown settings, so the surface could not be kept to those that the study names.
density-doubt-none-walked = No find lies on ground that is known to be walked: the surface is per hectare of land.
density-doubt-cover = Some walked ground states no cover and counts as wholly looked at.
bandwidth-fixed = set in the study file
bandwidth-rule = rule of thumb (Scott 1992), and never under the side of the squares
bandwidth-half = half the study's own
bandwidth-double = twice the study's own
bandwidth-chosen = the study's own: { $why }
bandwidths-title = Bandwidths tried
bandwidths-why = why it was tried
bandwidths-note = A wider kernel joins patches and lowers peaks; a narrower one parts them and shows more of chance. No rule knows which patches matter.
tables-title = Pieces: { $rows } by { $columns }
tables-class = class
tables-period = period
tables-parish = parish
tables-strength = strength of marks
tables-setting = setting
tables-concentration = concentration
tables-richer-squares = richer squares
tables-total = total
tables-elsewhere = elsewhere
tables-parish-unknown = parish not known
tables-not-shown = not shown
tables-out-of-place = out of place
tables-note-area = A square that several parishes share is parted among them by area, and the parts are rounded so that the totals are kept. A small number in a parish may be no more than such a part.
tables-note-parish-only = { $n ->
    [one] { $n_text } piece is placed by its parish alone.
   *[other] { $n_text } pieces are placed by their parish alone.
}
tables-note-elsewhere = A piece counts here when its square lies wholly inside the outline. Elsewhere: outside, in squares that overlap an outline, placed by parish alone, out of place, or of a setting that is left out of the surface.
tables-note-prehistoric = { $n ->
    [one] { $n_text } piece is dated no more closely than prehistoric, and is not spread over periods.
   *[other] { $n_text } pieces are dated no more closely than prehistoric, and are not spread over periods.
}
ladder-title = Squares shown less finely than agreed
ladder-square = Square
ladder-side = Side
ladder-told = How its finds are told
ladder-as-one = as one square
ladder-by-parish = by their parish: { $parish }
ladder-squares = Squares
ladder-listed = The table “ladder” beside this report lists each square.
ladder-not-told = not told: too little ground
ladder-note = All other squares are shown with sides of { $side }. Each leaves { $hectares } ha of ground at least. Which squares are shown so was fixed by public layers and the agreement, before any find was read: it says nothing of where finds lie.
tables-note-undated = { $n ->
    [one] { $n_text } piece has no date in the register.
   *[other] { $n_text } pieces have no date in the register.
}
tables-note-out-of-place = { $n ->
    [one] { $n_text } piece is out of place (derived or brought in): counted apart, and left out of density and concentrations.
   *[other] { $n_text } pieces are out of place (derived or brought in): counted apart, and left out of density and concentrations.
}
tables-note-ranges = Where two numbers stand, the figure lies between them: told exactly it would tell how many pieces one square holds.
tables-note-from-bands = Pieces of each part of the ground are estimates, worked out from the bands of its squares and brought to the totals: a few squares' true numbers may lie well off them.
tables-note-withheld-places = Left out of every table and map, because so few pieces lie in one place: the finds of { $places ->
    [one] { $places_text } place.
   *[other] { $places_text } places.
}
tables-note-withheld = Left out of every table and map, because so few lie in one place: { $n ->
    [one] { $n_text } piece
   *[other] { $n_text } pieces
} in { $places ->
    [one] { $places_text } place.
   *[other] { $places_text } places.
}
shore-missing = the study has no public shore to measure along
    .hint = Add a line layer to the study: shore = { "{" } file = "ground/shore.geojson" { "}" } under [ground].
shore-too-short = the shore is too short to measure along
    .hint = Check the shore layer, or make simplify under [shore] smaller.
shore-note-others = { $n ->
    [one] { $n_text } other line of the shore layer does not join this one, and is left out.
   *[other] { $n_text } other lines of the shore layer do not join this one, and are left out.
}

## Concentrations
patches-title-concentration = Concentrations
patches-title-richer-squares = Richer squares
patches-hectares = hectares
patches-pieces = pieces
patches-may-hold = pieces in larger squares that overlap it
patches-per-hectare = pieces per hectare
patches-peak = greatest density of the surface (pieces per hectare)
patches-firm = firm (share of resamples in which it stays)
patches-p-global = p, all squares at once
patches-p-pointwise = p, its best square by itself
patches-by-share = They are the squares of greatest density that together hold { $share }% of the density of the whole surface.
patches-by-envelope = They are the squares where finds lie thicker than the same records scattered evenly, by chance, over { $over } would put them ({ $simulations_text } simulations, level { $level }, all squares at once). The finds as a whole: p = { $p }. Random numbers start from { $seed }.
patches-by-pointwise-envelope = They are the squares where finds lie thicker than the same records scattered evenly, by chance, over { $over } would put them ({ $simulations_text } simulations, level { $level }, each square by itself): of many squares some stand out by chance alone. The finds as a whole: p = { $p }. Random numbers start from { $seed }.
patches-over-walked = the ground that was walked
patches-over-land = the land
patches-firm-note = Firm: the share of { $n_text } resamples of the records in which a concentration comes again that has at least half of its squares in common with it.
patches-no-boundary = An outline follows the edges of squares and is no boundary of a site.
analyse-no-ground-for-envelope = there is no ground to scatter finds over
    .hint = Give a land layer, or a public walked layer, under [ground]; or write bound = "share" under [concentrations].
