# Least-cost partitions of the Nile series (datasets::Nile, annual flow 1871-1970; G. W. Cobb, Biometrika 65 (1978)
# 243-251, finds the drop after 1898) by plain dynamic programming over all partitions, without pruning:
# cost of a stretch = sum of squares around its mean; each change costs `penalty`; stretches have at least `least` values.
# Prints the number of values before each change, and the least total cost (sum of squares + penalty * changes).
partition <- function(x, penalty, least) {
  n <- length(x)
  cost <- function(i, j) { y <- x[(i + 1):j]; sum((y - mean(y))^2) }
  best <- rep(Inf, n + 1); best[1] <- -penalty; last <- rep(NA, n + 1)
  for (j in least:n) for (i in 0:(j - least)) {
    total <- best[i + 1] + cost(i, j) + penalty
    if (total < best[j + 1]) { best[j + 1] <- total; last[j + 1] <- i }
  }
  changes <- c(); at <- last[n + 1]
  while (at > 0) { changes <- c(at, changes); at <- last[at + 1] }
  list(changes = changes, total = best[n + 1])
}
cat("#", R.version.string, "\n")
x <- as.numeric(Nile)
for (case in list(c(300000, 1), c(60000, 1), c(30000, 1), c(30000, 8), c(15000, 5))) {
  p <- partition(x, case[1], case[2])
  cat("penalty", case[1], "least", case[2], "changes", p$changes, "total", format(p$total, digits = 12), "\n")
}
# Bai & Perron's search for a given number of changes, by package strucchange: another program, the same optimum.
suppressMessages(library(strucchange))
cat("# strucchange", format(packageVersion("strucchange")), "\n")
all <- breakpoints(Nile ~ 1, h = 8)
for (m in c(1, 4)) cat("breaks", m, "least 8:", breakpoints(all, breaks = m)$breakpoints, "\n")
# Output:
# R version 4.2.2 Patched (2022-11-10 r83330) 
# penalty 3e+05 least 1 changes 28 total 1897457.19444 
# penalty 60000 least 1 changes 6 7 10 19 28 37 40 45 47 83 95 total 1476837.63889 
# penalty 30000 least 1 changes 6 7 9 17 19 28 37 40 42 43 45 47 63 68 71 83 93 94 total 1094837.98194 
# penalty 30000 least 8 changes 10 19 28 83 total 1527526.54355 
# penalty 15000 least 5 changes 10 19 28 35 40 45 50 63 68 75 83 95 total 1205293.33135 
# strucchange 1.5.3 
# breaks 1 least 8: 28 
# breaks 4 least 8: 10 19 28 83 
