# 2 000 persons x 6 cases x 3 raters with about one cell in eight missing: lme4's estimates and time.
# The scores come from the Lehmer generator s <- 16807 s mod (2^31 - 1), so that any program can make the same ones.
# Run: Rscript large.R   (R 4.2.2, lme4 1.1.31). Output at the end of this file.
suppressMessages(library(lme4))
s <- 20090
uniform <- function(k) { u <- numeric(k); for (i in seq_len(k)) { s <<- (16807 * s) %% 2147483647; u[i] <- s / 2147483647 }; u }
effect <- function(k, sd) (uniform(k) - 0.5) * sqrt(12) * sd
P <- 2000; C <- 6; R <- 3
p <- effect(P, 1); c <- effect(C, .5); r <- effect(R, .4); pc <- effect(P * C, .6); pr <- effect(P * R, .4); cr <- effect(C * R, .2)
d <- expand.grid(r = seq_len(R), c = seq_len(C), p = seq_len(P))   # rater runs fastest, then case
e <- effect(nrow(d), .8); keep <- uniform(nrow(d)) >= 0.125
d$y <- 3 + p[d$p] + c[d$c] + r[d$r] + pc[(d$p - 1) * C + d$c] + pr[(d$p - 1) * R + d$r] + cr[(d$c - 1) * R + d$r] + e
d <- d[keep, ]
time <- system.time(m <- lmer(y ~ 1 + (1|p) + (1|c) + (1|r) + (1|p:c) + (1|p:r) + (1|c:r), d,
  control = lmerControl(optimizer = "nloptwrap")))
print(time)
# The default settings stop short (a warning); tighter ones give the digits of the test.
m <- lmer(formula(m), d, start = getME(m, "theta"), control = lmerControl(optimizer = "nloptwrap",
  optCtrl = list(xtol_abs = 1e-9, ftol_abs = 1e-11, maxeval = 5000)))
print(nrow(d)); print(sum(d$y), digits = 15)
print(as.data.frame(VarCorr(m))[, c(1, 4)], digits = 8); print(REMLcrit(m), digits = 12); print(fixef(m), digits = 9)
# Output (default settings took 9 to 15 s of processor time on two slow cores):
#    user  system elapsed
#  14.635   0.126  37.928
# [1] 31389
# [1] 91695.5537564479
#        grp        vcov
# 1      p:c 0.361855824
# 2      p:r 0.164610856
# 3        p 0.985473257
# 4      c:r 0.034079665
# 5        c 0.288783235
# 6        r 0.147434663
# 7 Residual 0.631268852
# [1] 93758.8858904
# (Intercept)
#  2.91940372
