# BCa limits by package boot. R 4.2.2, boot 1.3-28.1. Output in bca.out.
library(boot)
cat(R.version.string, "boot", as.character(packageVersion("boot")), "\n")
set.seed(20240717)
one <- function(name, data, stat, level, R = 99999) {
  b <- boot(data, stat, R)
  jack <- empinf(data = data, statistic = stat, stype = "i", type = "jack")
  a <- sum(jack^3) / (6 * sum(jack^2)^1.5)
  z0 <- qnorm((sum(b$t < b$t0) + .5 * sum(b$t == b$t0)) / R)
  ci <- boot.ci(b, conf = level, type = c("bca", "perc"), L = jack)
  cat(name, "level", level, "t0", b$t0, "z0", z0, "a", a, "bca", ci$bca[4:5], "perc", ci$percent[4:5], "\n")
}
# Efron & Tibshirani 1993, table 14.1: 26 children, variance of A with denominator n
A <- c(48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41)
one("spatial", A, function(d, i) mean((d[i] - mean(d[i]))^2), .9)
one("spatial", A, function(d, i) mean((d[i] - mean(d[i]))^2), .95)
# law school data, Efron & Tibshirani 1993, table 3.1
lsat <- c(576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594)
gpa <- c(3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96)
law <- data.frame(lsat, gpa)
one("law", law, function(d, i) cor(d$lsat[i], d$gpa[i]), .9)
# Davison & Hinkley 1997, air-conditioning data
one("aircondit", aircondit$hours, function(d, i) mean(d[i]), .95)
one("city", city, function(d, i) sum(d$x[i]) / sum(d$u[i]), .95)
# the acceleration by equation 14.15 of Efron & Tibshirani 1993, the jackknife centred at its mean
j <- sapply(seq_along(A), function(i) { x <- A[-i]; mean((x - mean(x))^2) }); d <- mean(j) - j
cat("spatial a by 14.15", sum(d^3) / (6 * sum(d^2)^1.5), "\n")
