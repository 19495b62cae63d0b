ground-no-file = there is no such file for the layer "{ $layer }"
    .hint = Paths are relative to the study file's folder. Check the spelling, or take the layer out of [ground].
ground-not-a-file = this is a folder, not a file
    .hint = Name the file itself: the .shp of a shapefile, the .gpkg, the .geojson.
ground-format = the file cannot be read as a layer
    .hint = Formats that can be read: { $formats }. A shapefile needs its .shx and .dbf beside it.
ground-no-layer = the file has no layer called "{ $name }"
    .hint = Its layers: { $known }.
ground-which-layer = the file has several layers
    .hint = Say which, with layer = "…". Its layers: { $known }.
ground-which-name = it is not plain which attribute names the { $layer }
    .hint = Say which, with name = "…". The layer's attributes: { $known }.
ground-no-attribute = the layer has no attribute called "{ $name }"
    .hint = Its attributes: { $known }.
ground-no-attribute-near = the layer has no attribute called "{ $name }"; did you mean "{ $nearest }"?
    .hint = Its attributes: { $known }.
ground-cover = "{ $text }" is not a share of ground
    .hint = Write a number from 0 to 1, or a percentage: 0.2 or 20%.
ground-shape = this shape is of a kind that cannot be used
    .hint = Points, lines and polygons can be read. Turn curves and surfaces into them first.
ground-not-finite = a vertex of this shape has no place in the working grid
    .hint = Check the shape, and the coordinate system that the layer states.
ground-no-system = the layer "{ $layer }" does not say which coordinate system it is in
    .hint = Say it in the study file, with system = "british-grid" or system = "EPSG:…". A shapefile states it in its .prj file.
ground-not-degrees = the layer "{ $layer }" says that it is in degrees, and its numbers cannot be degrees
    .hint = GeoJSON is in WGS84 degrees unless it says otherwise. If this file is in a grid, say which with system = "british-grid" or system = "EPSG:…".
ground-unmendable = a polygon crosses itself and cannot be mended
    .hint = Look at the layer in a mapping program and draw the polygon again.
ground-no-parcels = the agreement asks for a number of places, and no public layer counts them
    .hint = Give a layer of parcels, parcels = {"{"} file = "…", public = true {"}"}, or take smallest_places out.
ground-too-little = there is less ground than the agreement promises to leave: { $hectares } ha
    .hint = Agree on a smaller "smallest_area" (or "smallest_places"), or check that the land layer is whole.
ground-empty = the layer "{ $layer }" is empty
    .hint = Put shapes into it, or take it out of [ground].
ground-wrong-shapes = the layer "{ $layer }" should hold { $wanted }, and it holds { $held }
    .hint = Another layer or file may be meant.
ground-unnamed = a parish has no name
    .hint = Give every parish a name in the layer.
ground-relief-nowhere = the raster does not say where it lies
    .hint = A picture needs a world file beside it; a GeoTIFF carries its place inside.
ground-relief-turned = the raster is turned or mirrored
    .hint = Warp it so that north is at the top, and read it again.
ground-relief-picture = the raster has { $bands } bands, and heights have one
    .hint = A coloured picture holds no heights. Use the height model it was made from.
ground-relief-away = the raster does not reach the study's ground
    .hint = Check the file, and the coordinate system that it states.
ground-relief-broken = the raster's heights cannot be read
    .hint = The file may be cut short: fetch it again.
ground-credit-licence = { $whom } (licence { $licence })
