# Expected densities and bandwidths from spatstat, ks and sparr, for tests/promises/reference_density.rs.
#
# density.R FOLDER: writes, for patterns of spatstat.data with their own windows, scaled so that the longer
# side of the frame is 10 km:
#   patterns.csv    pattern, columns, rows, west, south, pixel
#   NAME.points     x and y of each point in turn
#   NAME.window     1 or 0 for each pixel, row by row from the south
#   NAME.diggle-curve, NAME.likelihood-curve  in turn each bandwidth and its score
#   NAME.WHAT       a surface, points per square metre at pixel centres, nothing outside the window
#   bandwidths.csv  pattern, selector, east, north, covariance (square metres; 0 unless full)
# Numbers in files without a heading are 64-bit floats.

suppressWarnings(suppressPackageStartupMessages({
  library(spatstat.geom)
  library(spatstat.explore)
  library(spatstat.data)
  library(ks)
  library(sparr)
}))

folder <- commandArgs(trailingOnly = TRUE)[1]
patterns <- NULL
bandwidths <- NULL

put <- function(values, ...) {
  con <- file(file.path(folder, paste(..., sep = ".")), "wb")
  writeBin(as.double(values), con)
  close(con)
}

surface <- function(im, ...) {
  m <- as.matrix(im)
  m[is.na(m)] <- 0
  put(as.vector(t(m)), ...)
}

chosen <- function(name, selector, h, xy = 0) {
  h <- rep(as.numeric(h), length.out = 2)
  bandwidths <<- rbind(bandwidths, data.frame(name, selector, h[1], h[2], xy))
}

# The pattern in metres on a raster of square pixels; points on pixels that are outside are left out.
prepare <- function(pattern, pixels, square = FALSE) {
  x <- unmark(get(pattern))
  frame <- Frame(x)
  scale <- 10000 / max(diff(frame$xrange), diff(frame$yrange))
  x <- unique(affine(x, mat = diag(c(scale, scale)), vec = -scale * c(frame$xrange[1], frame$yrange[1])))
  frame <- Frame(x)
  pixel <- 10000 / pixels
  count <- function(range) if (square) pixels else ceiling(diff(range) / pixel - 1e-9)
  columns <- count(frame$xrange)
  rows <- count(frame$yrange)
  xs <- (seq_len(columns) - 0.5) * pixel
  ys <- (seq_len(rows) - 0.5) * pixel
  centres <- expand.grid(x = xs, y = ys)
  inside <- matrix(inside.owin(centres$x, centres$y, Window(x)), rows, columns, byrow = TRUE)
  mask <- owin(c(0, columns * pixel), c(0, rows * pixel), mask = inside)
  list(x = x[mask], pixel = pixel, xs = xs, ys = ys, inside = inside)
}

write_pattern <- function(name, p) {
  patterns <<- rbind(patterns, data.frame(name, length(p$xs), length(p$ys), 0, 0, p$pixel))
  put(as.vector(rbind(p$x$x, p$x$y)), name, "points")
  put(as.vector(t(p$inside)), name, "window")
}

# The two-stage plug-in matrix from ks's own parts. Hpi(pilot = "samse") of ks 1.14 hands the pilot of the second
# stage all 64 sixth-order functionals, while it reads the first seven as the seven distinct ones: (5, 1) for
# (4, 2) and so on. Here it is handed the distinct ones.
full_plug_in <- function(xy) {
  n <- nrow(xy)
  root <- ks:::matrix.sqrt(var(xy))
  standard <- ks::pre.sphere(xy)
  g <- ks:::gsamse(var(standard), n, 6)
  sixth <- ks::kfe(standard, G = g^2 * diag(2), deriv.order = 6, deriv.vec = TRUE, binned = FALSE, add.index = FALSE)
  g <- ks:::gsamse(var(standard), n, 4, nstage = 2, psihat = sixth[c(1, 2, 4, 8, 16, 32, 64)])
  fourth <- ks::kfe(standard, G = g^2 * diag(2), deriv.order = 4, deriv.vec = TRUE, binned = FALSE, add.index = FALSE)
  fourth <- matrix(fourth, 4, 4)
  error <- function(l) {
    lower <- matrix(c(exp(l[1]), l[2], 0, exp(l[3])), 2)
    h <- lower %*% t(lower)
    1 / (4 * pi * n * sqrt(det(h))) + drop(t(as.vector(h)) %*% fourth %*% as.vector(h)) / 4
  }
  start <- -log(n) / 6
  l <- optim(c(start, 0, start), error, control = list(reltol = 1e-12, maxit = 2000))$par
  lower <- matrix(c(exp(l[1]), l[2], 0, exp(l[3])), 2)
  root %*% lower %*% t(lower) %*% root
}

# gorillas lies in a polygon, bei in a rectangle; demopat's window has a hole.
for (name in c("chorley", "bei", "humberside", "gorillas", "demopat")) {
  p <- prepare(name, 320)
  x <- p$x
  write_pattern(name, p)
  at <- list(x = p$xs, y = p$ys)
  sigma <- 700
  surface(density(x, sigma = sigma, edge = FALSE, xy = at), name, "none")
  surface(density(x, sigma = sigma, edge = TRUE, xy = at), name, "uniform")
  surface(density(x, sigma = sigma, edge = TRUE, diggle = TRUE, xy = at), name, "diggle")
  surface(density(x, varcov = matrix(c(900^2, 250000, 250000, 600^2), 2), edge = FALSE, xy = at), name, "leaning")

  xy <- cbind(x$x, x$y)
  chosen(name, "scott", bw.scott(x))
  diggle <- bw.diggle(x, correction = "translate")
  chosen(name, "diggle", diggle)
  put(as.vector(rbind(attr(diggle, "h"), attr(diggle, "cv"))), name, "diggle-curve")
  pair <- Hpi.diag(xy, pilot = "amse", binned = FALSE)
  chosen(name, "plug-in", sqrt(diag(pair)))

  # On a coarser raster, and not for thousands of points: these take seconds each.
  if (npoints(x) <= 1100) {
    coarse <- prepare(name, 128)
    write_pattern(paste(name, "coarse", sep = "-"), coarse)
    coarse <- coarse$x
    first <- bw.ppl(coarse, warn = FALSE)
    for (step in c(0.12, 0.015)) {
      first <- bw.ppl(coarse, sigma = as.numeric(first) * exp(step * (-8:8)), warn = FALSE)
    }
    chosen(paste(name, "coarse", sep = "-"), "likelihood", first)
    put(as.vector(rbind(attr(first, "h"), attr(first, "cv"))), name, "likelihood-curve")
    full <- full_plug_in(xy)
    chosen(name, "plug-in-full", sqrt(diag(full)), full[1, 2])
    # chorley's coordinates are rounded, and many share one: there the score of points falls without end as one
    # bandwidth goes to nought, and Hlscv.diag follows it.
    if (name != "chorley") {
      pair <- Hlscv.diag(xy, binned = FALSE)
      chosen(name, "least-squares-diagonal", sqrt(diag(pair)))
    }
  }
  if (npoints(x) <= 250) {
    points <- expand.grid(p$xs, p$ys)
    each <- kde(xy, H = diag(c(700, 500)^2), eval.points = points, binned = FALSE)
    put(each$estimate * npoints(x), name, "kde")
  }
}

for (name in c("humberside", "demopat")) {
  p <- prepare(name, 80, square = TRUE)
  name <- paste(name, "square", sep = "-")
  write_pattern(name, p)
  for (edge in c("diggle", "uniform")) {
    # The pilot by the same kernel on the same raster; the sum over points is exact.
    f <- bivariate.density(p$x, h0 = 800, hp = 1000, adapt = TRUE, edge = edge, resolution = 80, intensity = TRUE,
                           verbose = FALSE)
    surface(f$z, name, paste("adaptive", edge, sep = "-"))
  }
}

write.csv(patterns, file.path(folder, "patterns.csv"), row.names = FALSE, quote = FALSE)
write.csv(bandwidths, file.path(folder, "bandwidths.csv"), row.names = FALSE, quote = FALSE)
