# Expected values of AngoffTest, BorderlineTest, ContrastingGroupsTest.
# R 4.2.2 (printed in the first line of the output).
# Run: Rscript standard.R > standard.txt
options(digits = 12)
cat(R.version.string, "\n")

cat("== Angoff, 4 judges x 5 items\n")
m <- matrix(c(3,3,4,3,4, 4,3,4,3,3, 3,3,3,3,4, 4,4,4,3,4), 4, byrow = TRUE)
angoff <- function(m, level = .95) {
  J <- nrow(m); I <- ncol(m); t <- rowSums(m)
  d <- data.frame(y = c(m), j = factor(row(m)), i = factor(col(m)))
  a <- anova(lm(y ~ j + i, d)); ms <- a[["Mean Sq"]]
  v <- c(judge = (ms[1] - ms[3]) / I, item = (ms[2] - ms[3]) / J, rest = ms[3])
  cat("totals", t, "cut", mean(t), "se", sd(t) / sqrt(J), "t limits", t.test(t, conf.level = level)$conf.int, "\n")
  print(v)
  e <- function(j) I * sqrt((v[1] + v[3] / I) / j)
  e2 <- function(j) sqrt(e(j)^2 + I * max(v[2], 0))
  cat("error with J judges", e(J), "with 10", e(10), "items too", e2(J), "with 10", e2(10), "\n")
}
angoff(m)
cat("-- 3 judges who hardly differ x 4 items\n")
angoff(matrix(c(1,5,3,2, 2,5,3,1, 1,3,3,3), 3, byrow = TRUE), .9)

cat("== borderline regression\n")
g <- c(1,1,2,2,2,3,3,3,4,4,4,5,5); y <- c(38,44,51,47,55,62,58,66,74,71,78,88,84)
f <- lm(y ~ g); print(coef(f)); cat("r2", summary(f)$r.squared, "s", summary(f)$sigma, "\n")
print(predict(f, data.frame(g = c(2, 2.5, 3, 6)), se.fit = TRUE)[1:2])
cat("borderline group at 2: mean", mean(y[g == 2]), "se", sd(y[g == 2]) / sqrt(3), "median", median(y[g == 2]), "\n")

cat("== contrasting groups: crossing of the densities between the means by uniroot\n")
crossing <- function(m1, s1, m2, s2) {
  c <- uniroot(function(x) dnorm(x, m1, s1, log = TRUE) - dnorm(x, m2, s2, log = TRUE), c(m1, m2), tol = 1e-14)$root
  cat(m1, s1, m2, s2, "cut", c, "false pass", 1 - pnorm(c, m1, s1), "false fail", pnorm(c, m2, s2), "\n")
}
crossing(32, 5.3, 55, 12.6); crossing(55, 12.6, 89, 4.7); crossing(55, 12.6, 90, 11.1); crossing(32, 5.3, 90, 11.1)
crossing(.47, .32, .89, .23); crossing(10, 2, 16, 2)
a <- c(31, 35, 28, 40, 44, 37, 33, 52, 29, 38, 41, 36); b <- c(55, 61, 47, 70, 58, 64, 43, 66, 59, 52)
crossing(mean(a), sd(a), mean(b), sd(b))
