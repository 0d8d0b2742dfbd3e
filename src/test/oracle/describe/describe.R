# Quantiles, limits of shares and quantiles, geometric mean. R 4.2.2, stats only.
# Output of the run is in describe.out.
cat(R.version.string, "\n")
options(digits = 15)
x <- c(3, 7, 8, 9, 12, 15, 21, 40)
p <- c(0, .05, .1, .25, .3, .5, .625, .75, .9, 1)
for (type in 1:9) cat("type", type, quantile(x, p, type = type, names = FALSE), "\n")
y <- c(5, 1, 4, 2, 3, 2, 7, 6, 9, 10, 8)
for (type in 1:9) cat("ties", type, quantile(y, c(.1, .5, .55, .9), type = type, names = FALSE), "\n")
for (k in list(c(81, 263), c(15, 148), c(0, 20), c(1, 29), c(20, 20))) {
  w <- prop.test(k[1], k[2], correct = FALSE)$conf.int
  b <- binom.test(k[1], k[2])$conf.int
  cat(k, "wilson", w, "clopper", b, "\n")
}
cat("wilson 90%", prop.test(15, 148, correct = FALSE, conf.level = .9)$conf.int, "\n")
cat("median n=10 ranks", qbinom(.025, 10, .5), qbinom(.975, 10, .5) + 1, pbinom(8, 10, .5) - pbinom(1, 10, .5), "\n")
cat("p90 n=50 ranks", qbinom(.025, 50, .9), qbinom(.975, 50, .9) + 1,
    pbinom(qbinom(.975, 50, .9), 50, .9) - pbinom(qbinom(.025, 50, .9) - 1, 50, .9), "\n")
cat("p25 n=30", qbinom(.05, 30, .25), qbinom(.95, 30, .25) + 1,
    pbinom(qbinom(.95, 30, .25), 30, .25) - pbinom(qbinom(.05, 30, .25) - 1, 30, .25), "\n")
t <- t.test(log(x))
cat("geometric", exp(mean(log(x))), exp(sd(log(x))), exp(t$conf.int), exp(mean(log(x))) * t$stderr, "\n")
g <- c(rep("a", 4), rep("b", 3), rep("c", 5)); v <- c(6.1, 5.9, 7.2, 6.6, 8.1, 7.7, 9.0, 5.0, 5.5, 6.1, 4.9, 5.2)
a <- summary(aov(v ~ factor(g)))[[1]]
cat("anova", a$Df, a$`Sum Sq`, a$`F value`[1], a$`Pr(>F)`[1], "\n")
cat("3 of 10 wilson", prop.test(3, 10, correct = FALSE)$conf.int, "clopper", binom.test(3, 10)$conf.int, "\n")
cat("5 of 10 wilson", prop.test(5, 10, correct = FALSE)$conf.int, "clopper", binom.test(5, 10)$conf.int, "\n")
