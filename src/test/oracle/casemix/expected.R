# Expected values of ExpectedEventsTest and of the exact limits in RiskCalibrationTest, OddsTableTest.
# R 4.2.2 (printed in the first line of the output), base packages only.
# Run: Rscript expected.R > expected.txt
options(digits = 12)
cat(R.version.string, "\n")
# sum of independent events with different risks: exact distribution by convolution
exact <- function(p) { d <- 1; for (r in p) d <- c(d * (1 - r), 0) + c(0, d * r); d }
tails <- function(p, o) {
  d <- exact(p)
  cat("n", length(p), "observed", o, "expected", sum(p), "sd", sqrt(sum(p * (1 - p))),
    "at most", sum(d[seq_len(o + 1)]), "at least", if (o == 0) 1 else 1 - sum(d[seq_len(o)]), "\n")
}
tails(c(.01, .02, .03, .10, .25, .05, .5), 2)
tails(c(.01, .02, .03, .10, .25, .05, .5), 0)
tails(c(.01, .02, .03, .10, .25, .05, .5), 7)
tails((1:200) / 1000, 30)
tails(rep(.3, 10), 5); cat(pbinom(5, 10, .3), 1 - pbinom(4, 10, .3), "\n")
# ratio observed / expected: exact Poisson limits (Garwood 1936)
for (o in c(0, 5, 59)) { p <- poisson.test(o, 4.2); cat("observed", o, "ratio", o / 4.2, p$conf.int, "\n") }
p <- poisson.test(59, 59, conf.level = .9); cat("59 of 59, 90 %", p$conf.int, "\n")
# composite odds, table of Narendran et al. 2009, p0 = .75 %
composite <- function(...) { o <- .0075 / .9925 * prod(c(...)); cat("product", prod(c(...)), "risk", o / (1 + o), "\n") }
composite(1); composite(1.42); composite(1.42, 3.73); composite(1.42, 1.63, 1.14, 1.60)
composite(1.28, 1.58, 2.99, 2.92, 1.45); composite(1.28, 1.58, 2.99, 2.92, 1.45, 3.73)
# covariances of coefficients, birthwt (R's glm, iterated once more so that vcov belongs to the estimates)
b <- read.csv("../../resources/org/sideport/stats/casemix/birthwt.csv")
f <- glm(failure ~ age + lwt + race + smoke + ptl + ht + ui, binomial, b, control = glm.control(epsilon = 1e-14, maxit = 100))
X <- model.matrix(f); p <- fitted(f); v <- solve(crossprod(X * sqrt(p * (1 - p))))
cat("age, lwt", v["age", "lwt"], "intercept, lwt", v["(Intercept)", "lwt"], "\n")
# standard errors at the estimates themselves: glm takes the information of the step before the last
print(sqrt(diag(v)), digits = 12)
