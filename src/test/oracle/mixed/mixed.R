# Expected values of the linear mixed models, and the open data sets they are fitted to.
# R 4.2.2 Patched (2022-11-10), lme4 1.1.31, lmerTest 3.1.3, nlme 3.1.162, numDeriv 2016.8.1.1, Matrix 1.5.3.
# Run from the project's root:  Rscript src/test/oracle/mixed/mixed.R
# Writes src/test/resources/mixed/*.csv; the output is the committed expected.csv (case,quantity,value).
# Data: lme4::sleepstudy (Belenky et al. 2003), lme4::Dyestuff and Dyestuff2 (Davies & Goldsmith 1972; Box & Tiao
# 1973), nlme::Orthodont (Potthoff & Roy 1964), nlme::Oxboys (Goldstein 1987).
suppressMessages({library(lme4); library(lmerTest); library(nlme)})
dir <- "src/test/resources/mixed"
out <- data.frame(case = character(), quantity = character(), value = numeric())
put <- function(case, quantity, value)
  out[nrow(out) + seq_along(value), ] <<- data.frame(case, quantity, value)
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.02, rhoend = 1e-11, maxfun = 1e5),
                     check.conv.singular = "ignore", check.conv.grad = "ignore", calc.derivs = FALSE)
short <- function(names) sub("\\(Intercept\\)", "intercept", names)

describe <- function(case, formula, data, REML = TRUE, group, df = TRUE, effects = TRUE) {
  m <- lmerTest::lmer(formula, data, REML = REML, control = tight)
  put(case, "criterion", if (REML) REMLcrit(m) else deviance(m))
  put(case, "loglik", as.numeric(logLik(m)))
  put(case, "aic", AIC(m))
  b <- fixef(m); se <- sqrt(diag(as.matrix(vcov(m))))
  put(case, paste0("beta.", seq_along(b)), b)
  put(case, paste0("se.", seq_along(b)), se)
  if (df) {
    s <- summary(m)$coefficients
    put(case, paste0("df.", seq_along(b)), s[, "df"])
    put(case, paste0("p.", seq_along(b)), s[, "Pr(>|t|)"])
  }
  v <- VarCorr(m)[[group]]
  put(case, paste0("sd.", seq_len(nrow(v))), attr(v, "stddev"))
  if (nrow(v) > 1) for (i in 2:nrow(v)) for (j in 1:(i - 1)) put(case, paste0("cor.", i, ".", j), attr(v, "correlation")[i, j])
  put(case, "sigma", sigma(m))
  if (effects) {
    r <- ranef(m, condVar = TRUE)[[group]]; pv <- attr(r, "postVar")
    for (l in rownames(r)) for (k in seq_len(ncol(r))) {
      put(case, paste0("ranef.", l, ".", k), r[l, k])
      put(case, paste0("condsd.", l, ".", k), sqrt(pv[k, k, match(l, rownames(r))]))
    }
    st <- resid(m) / (sigma(m) * sqrt(1 - hatvalues(m)))
    put(case, paste0("stdres.", seq_along(st)), st)
  }
  # Nakagawa & Schielzeth 2013 and Johnson 2014 from the fitted components
  X <- getME(m, "X"); f <- var(as.vector(X %*% b))
  Zi <- do.call(cbind, getME(m, "mmList")); S <- as.matrix(v); rv <- mean(rowSums((Zi %*% S) * Zi)); e <- sigma(m)^2
  put(case, "r2m", f / (f + rv + e)); put(case, "r2c", (f + rv) / (f + rv + e))
  put(case, "icc", S[1, 1] / (S[1, 1] + e))
  invisible(m)
}

save <- function(name, d) write.csv(d, file.path(dir, paste0(name, ".csv")), row.names = FALSE, quote = FALSE)
ss <- data.frame(subject = paste0("S", sleepstudy$Subject), days = sleepstudy$Days, reaction = sleepstudy$Reaction)
save("sleepstudy", ss)
orth <- data.frame(subject = as.character(Orthodont$Subject), age = Orthodont$age, sex = as.character(Orthodont$Sex),
                   distance = Orthodont$distance)
orth <- orth[-seq(3, nrow(orth), by = 7), ]   # every seventh row away: an unbalanced design
save("orthodont", orth)
d1 <- data.frame(subject = as.character(Dyestuff$Batch), yield = Dyestuff$Yield); save("dyestuff", d1)
d2 <- data.frame(subject = as.character(Dyestuff2$Batch), yield = Dyestuff2$Yield); save("dyestuff2", d2)
ox <- data.frame(subject = paste0("B", Oxboys$Subject), age = Oxboys$age, height = Oxboys$height); save("oxboys", ox)

m <- describe("sleepstudy", reaction ~ days + (days | subject), ss, TRUE, "subject")
L <- cbind(1, c(0, 4, 9))
for (i in 1:3) { ct <- contest1D(m, L[i, ], confint = TRUE)
  put("sleepstudy", paste0("predict.", L[i, 2], c(".fit", ".se", ".df", ".lower", ".upper")),
      unlist(ct[c("Estimate", "Std. Error", "df", "lower", "upper")])) }
m0 <- lme4::lmer(reaction ~ days + (1 | subject), ss, control = tight)
put("sleepstudy", "bound", qnorm(1 - 0.025 / 180))
put("sleepstudy", "slope.lrt", REMLcrit(m0) - REMLcrit(m))
# prediction variance of each subject's own value at day 9: Henderson's mixed model equations, dense
X <- getME(m, "X"); Z <- as.matrix(getME(m, "Z")); S <- as.matrix(VarCorr(m)$subject); k <- nlevels(factor(ss$subject))
G <- kronecker(diag(k), S); e <- sigma(m)^2
C <- solve(rbind(cbind(crossprod(X), crossprod(X, Z)), cbind(crossprod(Z, X), crossprod(Z) + e * solve(G)))) * e
for (l in c("S308", "S309", "S372")) { g <- match(l, rownames(ranef(m)$subject))
  w <- c(1, 9, rep(0, 2 * k)); w[2 + 2 * g - 1] <- 1; w[2 + 2 * g] <- 9
  put("sleepstudy", paste0("own.", l, c(".fit", ".se")), c(sum(c(1, 9) * unlist(coef(m)$subject[l, ])), sqrt(drop(t(w) %*% C %*% w))))
  w <- c(0, 1, rep(0, 2 * k)); w[2 + 2 * g] <- 1
  put("sleepstudy", paste0("ownslope.", l, c(".fit", ".se")), c(coef(m)$subject[l, 2], sqrt(drop(t(w) %*% C %*% w)))) }
mm <- describe("sleepstudy.ml", reaction ~ days + (days | subject), ss, FALSE, "subject")
ci <- suppressMessages(confint(lme4::lmer(reaction ~ days + (days | subject), ss, REML = FALSE, control = tight), oldNames = FALSE, quiet = TRUE))
for (i in 1:4) put("sleepstudy.ml", paste0("profile.", i, c(".lower", ".upper")), ci[i, ])
describe("sleepstudy.intercept", reaction ~ days + (1 | subject), ss, TRUE, "subject", effects = FALSE)
describe("orthodont", distance ~ age + sex + (age | subject), within(orth, sex <- factor(sex, levels = c("Male", "Female"))), TRUE, "subject")
describe("orthodont.ml", distance ~ age + sex + (age | subject), within(orth, sex <- factor(sex, levels = c("Male", "Female"))), FALSE, "subject", effects = FALSE)
describe("dyestuff", yield ~ 1 + (1 | subject), d1, TRUE, "subject")
describe("dyestuff.ml", yield ~ 1 + (1 | subject), d1, FALSE, "subject")
ci <- confint(lme4::lmer(yield ~ 1 + (1 | subject), d1, REML = FALSE, control = tight), oldNames = FALSE, quiet = TRUE)
for (i in 1:2) put("dyestuff.ml", paste0("profile.", i, c(".lower", ".upper")), ci[i, ])
describe("dyestuff2", yield ~ 1 + (1 | subject), d2, TRUE, "subject")
ci <- confint(lme4::lmer(yield ~ 1 + (1 | subject), d2, REML = FALSE, control = tight), oldNames = FALSE, quiet = TRUE)
for (i in 1:2) put("dyestuff2.ml", paste0("profile.", i, c(".lower", ".upper")), ci[i, ])
describe("oxboys", height ~ age + (age | subject), ox, TRUE, "subject")
describe("oxboys3", height ~ age + I(age^2) + (age + I(age^2) | subject), ox, TRUE, "subject", effects = FALSE)
# a singular slope: the first 4 days of 12 subjects after rounding, correlation on the boundary where lme4 says so
few <- subset(ss, days < 4); save("sleepstudy-first4", few)
s4 <- describe("sleepstudy4", reaction ~ days + (days | subject), few, TRUE, "subject")
put("sleepstudy4", "singular", as.numeric(isSingular(s4)))
out$value <- sprintf("%.12g", out$value)
write.csv(out, file.path(dir, "expected.csv"), row.names = FALSE, quote = FALSE)
