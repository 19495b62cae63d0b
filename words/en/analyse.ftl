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
surface-method = how the bandwidth was chosen
surface-pixel = side of a pixel (m)
surface-pieces = pieces that the surface holds
surface-peak = greatest density (pieces per hectare)
surface-mean = mean density on land (pieces per hectare)
surface-hectares = land in the surface (ha)
surface-out-of-place = pieces out of place, left out
surface-by-parish = pieces placed by their parish alone, left out
surface-note = Pieces per hectare of land, not of ground walked: where nobody has looked the surface is low for want of looking.
