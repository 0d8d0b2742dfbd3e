# Decision consistency and accuracy of the normal model by mvtnorm; Phi(lambda) written out. Run: Rscript cutscore.R
suppressMessages(library(mvtnorm))
cat("#", R.version.string, "mvtnorm", as.character(packageVersion("mvtnorm")), "\n")
cat("# universe, error, mean, meanVariance, cut: phiLambda, consistency, accuracy, passRate\n")
both <- function(h, k, r) pmvnorm(upper = c(h, k), corr = matrix(c(1, r, r, 1), 2), algorithm = TVPACK(1e-14))[1]
for (x in list(c(77, 23, 70, 0, 60), c(4, 1, 10, 0, 10), c(1, 3, 3, .2, 3.1), c(.5, .01, 2, .1, 3.2), c(2, .7, 0, 0, -1.3))) {
  u <- x[1]; e <- x[2]; phi <- u / (u + e); ho <- (x[5] - x[3]) / sqrt(u + e); hu <- (x[5] - x[3]) / sqrt(u)
  d2 <- max((x[3] - x[5])^2 - x[4], 0)
  cat(paste(c(x, sprintf("%.9f", c((u + d2) / (u + d2 + e), both(ho, ho, phi) + both(-ho, -ho, phi),
    both(hu, ho, sqrt(phi)) + both(-hu, -ho, sqrt(phi)), pnorm(-ho)))), collapse = ", "), "\n")
}
