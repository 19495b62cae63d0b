# An R peer's side of one density benchmark: density_peer.R JOB IN OUT H SIDE; prints its seconds, and for a
# bandwidth what it is east and north. Windows are polygons beside IN.

suppressWarnings(suppressPackageStartupMessages({
  library(spatstat.geom)
  library(spatstat.explore)
  library(ks)
  library(sparr)
}))
arguments <- commandArgs(trailingOnly = TRUE)
job <- arguments[1]
h <- as.numeric(arguments[4])
side <- as.integer(arguments[5])
read <- function(path) readBin(path, "double", n = file.size(path) / 8)
xy <- matrix(read(arguments[2]), ncol = 2)
wide <- 20000
frame <- owin(c(0, wide), c(0, wide))
at <- list(x = (seq_len(side) - 0.5) * wide / side, y = (seq_len(side) - 0.5) * wide / side)
put <- function(m) {
  m[is.na(m)] <- 0
  writeBin(as.double(t(m)), arguments[3])
}
seconds <- function(work) {
  took <- system.time(result <<- work())[["elapsed"]]
  took
}
result <- NULL
chosen <- function(took, bandwidth) cat(took, rep(as.numeric(bandwidth), length.out = 2), "\n")

if (job == "spatstat") {
  x <- ppp(xy[, 1], xy[, 2], window = frame)
  cat(seconds(function() density(x, sigma = h, edge = FALSE, xy = at)), "\n")
  put(as.matrix(result))
} else if (job %in% c("edge-uniform", "edge-diggle")) {
  ring <- matrix(read(paste0(arguments[2], ".ring")), ncol = 2)
  x <- ppp(xy[, 1], xy[, 2], window = owin(poly = list(x = ring[, 1], y = ring[, 2])), check = FALSE)
  cat(seconds(function() density(x, sigma = h, edge = TRUE, diggle = job == "edge-diggle", xy = at)), "\n")
  put(as.matrix(result))
} else if (job == "ks") {
  # A ring of pixels more: points beyond the outermost centres would be left out.
  limits <- c(-0.5, side + 0.5) * wide / side
  grid <- rep(side + 2, 2)
  took <- seconds(function() kde(xy, H = diag(2) * h^2, gridsize = grid, xmin = rep(limits[1], 2),
                                 xmax = rep(limits[2], 2), binned = TRUE, bgridsize = grid))
  cat(took, "\n")
  put(t(result$estimate[seq_len(side) + 1, seq_len(side) + 1]) * nrow(xy))
} else if (job == "adaptive") {
  x <- ppp(xy[, 1], xy[, 2], window = frame)
  took <- seconds(function() suppressWarnings(bivariate.density(x, h0 = h, hp = h, adapt = TRUE, resolution = side,
    edge = "uniform", intensity = TRUE, davies.baddeley = 0.05, verbose = FALSE)))
  cat(took, "\n")
  put(as.matrix(result$z))
} else if (job == "plug-in-full") {
  chosen(seconds(function() Hpi(xy, binned = TRUE)), sqrt(diag(result)))
} else if (job == "least-squares-diagonal") {
  chosen(seconds(function() suppressWarnings(Hlscv(xy, binned = TRUE))), sqrt(pmax(diag(result), 0)))
} else if (job == "diggle") {
  x <- ppp(xy[, 1], xy[, 2], window = frame)
  chosen(seconds(function() bw.diggle(x, warn = FALSE)), result)
} else if (job == "likelihood") {
  x <- ppp(xy[, 1], xy[, 2], window = frame)
  chosen(seconds(function() bw.ppl(x, warn = FALSE)), result)
} else {
  stop("unknown job")
}
