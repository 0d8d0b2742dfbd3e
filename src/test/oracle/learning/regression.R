# Expected values of the regression tests: profile limits, robust fits, AICc.
# R 4.2.2; package MASS (version printed below); data sets Puromycin and stackloss ship with R.
# Run: Rscript regression.R
library(MASS)
cat(R.version.string, "MASS", as.character(packageVersion("MASS")), "\n")
options(digits = 12)
d <- subset(Puromycin, state == "treated")
f <- nls(rate ~ Vm * conc / (K + conc), d, start = list(Vm = 200, K = 0.05), control = list(tol = 5e-8))
print(coef(summary(f))); cat("sigma", sigma(f), "\n")
print(suppressMessages(confint(f)))           # interpolates its profile by a spline: about 4 digits
# the same limits solved for exactly: Vm is linear given K, K solved by optimize given Vm
s2 <- sigma(f)^2; S0 <- deviance(f); t2 <- qt(.975, df.residual(f))^2
SK <- function(K) { x <- d$conc / (K + d$conc); sum(resid(lm(d$rate ~ 0 + x))^2) }
SV <- function(V) optimize(function(K) sum((d$rate - V * d$conc / (K + d$conc))^2), c(.001, 1), tol = 1e-14)$objective
g <- function(S, lo, hi) uniroot(function(z) (S(z) - S0) / s2 - t2, c(lo, hi), tol = 1e-13)$root
cat("K exact", g(SK, .03, coef(f)[["K"]]), g(SK, coef(f)[["K"]], .12), "\n")
cat("Vm exact", g(SV, 170, coef(f)[["Vm"]]), g(SV, coef(f)[["Vm"]], 260), "\n")
t3 <- qt(.9, df.residual(f))^2
h <- function(S, lo, hi) uniroot(function(z) (S(z) - S0) / s2 - t3, c(lo, hi), tol = 1e-13)$root
cat("K 80%", h(SK, .03, coef(f)[["K"]]), h(SK, coef(f)[["K"]], .12), "\n")
cat("cor", summary(f, correlation = TRUE)$correlation[1, 2], "logLik", logLik(f), "\n")
n <- nrow(d); k <- 3
cat("AICc", AIC(f) + 2 * k * (k + 1) / (n - k - 1), "\n")
cat("weighted lm\n")
w <- rep(c(1, 2, 0, .5, 3, 1, 1), 3)
m <- lm(stack.loss ~ ., stackloss, weights = w)
print(coef(summary(m))); cat("sigma", sigma(m), "R2", summary(m)$r.squared, "df", df.residual(m), "\n")
m <- lm(stack.loss ~ ., stackloss)
print(coef(summary(m))); print(confint(m)); cat("R2", summary(m)$r.squared, "hat", hatvalues(m)[c(1, 17, 21)], "\n")
cat("huber\n")
h <- rlm(stack.loss ~ ., stackloss, maxit = 500, acc = 1e-13)
print(coef(summary(h))); cat("s", h$s, "\nw", h$w, "\n")
cat("bisquare\n")
b <- rlm(stack.loss ~ ., stackloss, psi = psi.bisquare, init = coef(h), maxit = 500, acc = 1e-13)
print(coef(summary(b))); cat("s", b$s, "\nw", b$w, "\n")
#
# Output:
# R version 4.2.2 Patched (2022-11-10 r83330) MASS 7.3.58.2
#             Estimate       Std. Error       t value          Pr(>|t|)
# Vm 212.6837427905256 6.94715517768759 30.6145087235 3.24116336082e-11
# K    0.0641212811648 0.00828094953821  7.7432281007 1.56513398546e-05
# sigma 10.9336581913
#                2.5%             97.5%
# Vm 197.302127380369 229.2900639549802
# K    0.046925166838   0.0861599523268
# K exact 0.0469203420352 0.0861569134271
# Vm exact 197.3019329 229.289055055
# K 80% 0.0530318172908 0.0770355015145
# cor 0.765083702582 logLik -44.6354843245
# AICc 98.2709686489
# weighted lm
#                     Estimate      Std. Error         t value         Pr(>|t|)
# (Intercept) -33.339117365102 15.490244147767 -2.152265454764 0.04930847526160
# Air.Flow      0.736904385034  0.123905522896  5.947308625222 0.00003564091062
# Water.Temp    0.981185672695  0.325906279933  3.010637514858 0.00935220676873
# Acid.Conc.   -0.171667235287  0.193626587250 -0.886589170037 0.39027604439267
# sigma 3.23980792813 R2 0.93136998385 df 14
#                     Estimate      Std. Error         t value          Pr(>|t|)
# (Intercept) -39.919674420124 11.895996850644 -3.355723351420 3.75030683226e-03
# Air.Flow      0.715640200485  0.134858185355  5.306613006837 5.79902472425e-05
# Water.Temp    1.295286124389  0.368024265273  3.519567176987 2.63005439649e-03
# Acid.Conc.   -0.152122519149  0.156294043249 -0.973309769117 3.44046096696e-01
#                        2.5 %          97.5 %
# (Intercept) -65.018033889469 -14.82131495078
# Air.Flow      0.431114300224   1.00016610075
# Water.Temp    0.518822796496   2.07174945228
# Acid.Conc.   -0.481874126317   0.17762908802
# R2 0.913576904461 hat 0.301555468936 0.412123497858 0.284533462725
# huber
#                        Value     Std. Error         t value
# (Intercept) -41.026485373295 9.806872294353 -4.183442400582
# Air.Flow      0.829385770254 0.111174962320  7.460184855895
# Water.Temp    0.926059415549 0.303393403350  3.052338664337
# Acid.Conc.   -0.127846317965 0.128846345687 -0.992238602375
# s 2.44048904599
# w 1 1 0.78579661253 0.504855924898 1 1 1 1 1 1 1 1 1 1 1 1 1 1 1 1 0.368083781778
# bisquare
#                        Value     Std. Error         t value
# (Intercept) -42.285321536491 9.531385661490 -4.436429606174
# Air.Flow      0.927558992802 0.108051926238  8.584381834722
# Water.Temp    0.650711198390 0.294870724088  2.206767729833
# Acid.Conc.   -0.112333123036 0.125226899561 -0.897036686441
# s 2.28185331457
# w 0.892866790776 0.884917969359 0.790444427579 0.33578797788 0.94616675382 0.900403569329 0.966310293132 0.997293153615 0.949688514466 0.998998532363 0.989604356204 0.998317618518 0.847288752177 0.964552690778 0.917666913001 0.987241546375 0.997629491292 0.996942117015 0.986500183228 0.958974835485 0.00221785531655
