# Expected values of the learning-curve tests.
# R 4.2.2; MASS data set wtloss (Venables & Ripley 2002, Modern Applied Statistics with S, section 8.2: b0 81.374,
# b1 102.684, th 141.91, residual SE 0.8949 on 49 df), datasets::Nile (Cobb 1978: the flow falls from 1899 on).
# Run: Rscript learning.R
library(MASS)
cat(R.version.string, "MASS", as.character(packageVersion("MASS")), "\n")
options(digits = 12)
d <- data.frame(n = wtloss$Days + 1, y = wtloss$Weight)
aicc <- function(f, k) AIC(f) + 2 * k * (k + 1) / (nobs(f) - k - 1)
ctl <- nls.control(tol = 1e-7, maxiter = 200)
both <- function(label, log) {
  g <- if (log) base::log else identity
  resp <- g(d$y)
  e <- nls(resp ~ g(P + (S - P) * 2^(-(n - 1) / H)), d, start = list(S = 184, P = 81, H = 142), control = ctl)
  p <- nls(resp ~ g(S * r^log2(n)), d, start = list(S = 190, r = .95), control = ctl)
  l <- nls(resp ~ g(S + D * log2(n)), d, start = list(S = 190, D = -8), control = ctl)
  k <- nls(resp ~ g(L), d, start = list(L = 140), control = ctl)
  for (m in list(e, p, l, k)) { print(coef(summary(m))[, 1:2, drop = FALSE]); cat(label, "sigma", sigma(m), "AICc", aicc(m, length(coef(m)) + 1), "\n") }
  e
}
e <- both("plain", FALSE)
cat("profile limits (spline)\n"); print(suppressMessages(confint(e)))
# exact profile of H: S and P are linear given H
s2 <- sigma(e)^2; S0 <- deviance(e); t2 <- qt(.975, df.residual(e))^2
SH <- function(H) sum(resid(lm(y ~ I(2^(-(n - 1) / H)), d))^2)
g <- function(lo, hi) uniroot(function(h) (SH(h) - S0) / s2 - t2, c(lo, hi), tol = 1e-12)$root
cat("H exact", g(100, coef(e)[["H"]]), g(coef(e)[["H"]], 200), "\n")
co <- coef(e)
cat("case of 100 kg", 1 + co[["H"]] * log2((co[["S"]] - co[["P"]]) / (100 - co[["P"]])), "\n")
cat("case of 150 kg", 1 + co[["H"]] * log2((co[["S"]] - co[["P"]]) / (150 - co[["P"]])), "\n")
# delta method, Venables & Ripley 2002, section 8.2
V <- vcov(e); f <- function(b) 1 + b[3] * log2((b[1] - b[2]) / (100 - b[2]))
gr <- sapply(1:3, function(j) { h <- 1e-5 * abs(co[j]); b1 <- b2 <- co; b1[j] <- b1[j] + h; b2[j] <- b2[j] - h; (f(b1) - f(b2)) / (2 * h) })
cat("its standard error", sqrt(drop(gr %*% V %*% gr)), "\n")
el <- both("log", TRUE)

# change-points by plain enumeration of lm
enum <- function(x, y) {
  levels <- sapply(3:(length(x) - 3), function(k) sum(resid(lm(y ~ (seq_along(x) > k)))^2))
  k <- which.min(levels) + 2
  cat("levels: first of the second", x[k + 1], "SS", min(levels), "means", mean(y[1:k]), mean(y[-(1:k)]),
      "F", (sum((y - mean(y))^2) - min(levels)) / 2 / (min(levels) / (length(x) - 3)), "\n")
  hinge <- function(t) sum(resid(lm(y ~ x + pmax(0, x - t)))^2)
  best <- c(Inf, NA)
  for (k in 3:(length(x) - 3)) {
    if (x[k + 1] == x[k]) next
    o <- optimize(hinge, c(x[k], x[k + 1]), tol = 1e-10)
    for (c0 in list(c(o$objective, o$minimum), c(hinge(x[k]), x[k]), c(hinge(x[k + 1]), x[k + 1])))
      if (c0[1] < best[1]) best <- c0
  }
  m <- lm(y ~ x + pmax(0, x - best[2]))
  cat("lines: join", best[2], "SS", best[1], "slopes", coef(m)[2], coef(m)[2] + coef(m)[3],
      "F", (sum(resid(lm(y ~ x))^2) - best[1]) / 2 / (best[1] / (length(x) - 4)), "\n")
}
enum(1:100, as.numeric(Nile))
enum(1:100, log(as.numeric(Nile)))
x <- as.numeric(d$n); enum(x, d$y)
# bootstrap of the null, residuals stretched, 4999 series: p of wobble (no change) and of Nile
wob <- c(5.1, 4.7, 5.6, 5.0, 4.4, 5.3, 4.9, 5.8, 4.6, 5.2, 5.0, 4.5, 5.5, 4.8, 5.4, 5.1)
sup <- function(y) max(sapply(3:(length(y) - 3), function(k) { r <- sum((y[1:k] - mean(y[1:k]))^2) + sum((y[-(1:k)] - mean(y[-(1:k)]))^2); (sum((y - mean(y))^2) - r) / 2 / (r / (length(y) - 3)) }))
set.seed(1); r <- (wob - mean(wob)) * sqrt(16 / 15)
cat("wobble F", sup(wob), "p", (1 + sum(replicate(4999, sup(mean(wob) + sample(r, replace = TRUE))) >= sup(wob))) / 5000, "\n")
# robust: rlm-like bisquare of a power curve on the log scale is linear: log y = log S + log r * log2 n
n <- 1:14; y <- c(1000, 905, 860, 800, 790, 1900, 720, 735, 700, 690, 660, 668, 645, 640)
h <- rlm(log(y) ~ log2(n), maxit = 500, acc = 1e-13)
b <- rlm(log(y) ~ log2(n), psi = psi.bisquare, init = coef(h), maxit = 500, acc = 1e-13)
cat("bisquare S", exp(coef(b)[1]), "r", exp(coef(b)[2]), "s", b$s, "w6", b$w[6], "w8", b$w[8], "\n")
cat("huber S", exp(coef(h)[1]), "r", exp(coef(h)[2]), "s", h$s, "w6", h$w[6], "\n")
#
# Output:
# R version 4.2.2 Patched (2022-11-10 r83330) MASS 7.3.58.2
#         Estimate     Std. Error
# S 184.0579320959 0.370507585398
# P  81.3738167949 2.269006350527
# H 141.9103645118 5.294516851906
# plain sigma 0.894936989741 AICc 141.786448985
#           Estimate       Std. Error
# S 219.501153353254 6.84879587941645
# r   0.933512011298 0.00464562678198
# plain sigma 10.2080294649 AICc 393.640290127
#         Estimate     Std. Error
# S 217.9983102250 4.899680264148
# D -11.8516526321 0.743314176618
# plain sigma 8.64024574388 AICc 376.298956968
#        Estimate   Std. Error
# L 142.248076923 2.9264060612
# plain sigma 21.1026142827 AICc 467.942045924
# profile limits (spline)
#             2.5%          97.5%
# S 183.3156503133 184.8036761553
# P  76.4821573367  85.6320712658
# H 131.9899483425 153.3416483168
# H exact 131.98860103 153.340779594
# case of 100 kg 350.498128942
# case of 150 kg 83.5041312706
# its standard error 8.17542063695
#         Estimate     Std. Error
# S 184.0943482230 0.493371055582
# P  81.6279655427 2.335594545152
# H 141.2699659910 5.702235820647
# log sigma 0.00692136079136 AICc -363.876206365
#           Estimate       Std. Error
# S 234.436119267723 8.85892418890341
# r   0.923287496119 0.00529295364233
# log sigma 0.0666369030827 AICc -129.653532104
#         Estimate     Std. Error
# S 229.4270938405 5.685238686105
# D -13.6444027606 0.827824408729
# log sigma 0.0545896795202 AICc -150.392554754
#        Estimate    Std. Error
# L 140.758460684 2.84416461498
# log sigma 0.145707486343 AICc -49.5152703127
# levels: first of the second 29 SS 1597457.19444 means 1097.75 849.972222222 F 37.5774879309
# lines: join 43 SS 1833664.25863 slopes -8.17368316833 0.751664357076 F 10.1462252966
# levels: first of the second 29 SS 2.07330081447 means 6.99330334831 6.73421177892 F 31.6574924063
# lines: join 43 SS 2.31704416401 slopes -0.00878861614102 0.00105558809426 F 9.76789471859
# levels: first of the second 107 SS 5789.37290909 means 163.313636364 126.8 F 71.6119210191
# lines: join 117.95371192 SS 76.7389560175 slopes -0.38410647957 -0.200816313473 F 183.083469633
# wobble F 0.310221941537 p 0.9574
# bisquare S 1019.923136 r 0.887238608071 s 0.0206540970309 w6 0 w8 0.801544179483
# huber S 1022.57632476 r 0.887309126446 s 0.0233726304362 w6 0.0338536232989
