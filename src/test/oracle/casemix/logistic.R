# Expected values of LogisticRegressionTest, DiscriminationTest, CalibrationTest, FirthTest.
# Data: MASS::birthwt, datasets::infert (both shipped with R), ../../resources/.../endometrial.csv
# (Heinze & Schemper 2002, Statistics in Medicine 21:2409; also A. Agresti's public data page).
# R 4.2.2, MASS 7.3-58.2, pROC 1.18.0 (printed in the first line of the output).
# Run: Rscript logistic.R > logistic.txt
options(digits = 12, warn = 1)
suppressMessages({library(MASS); library(pROC)})
cat(R.version.string, "MASS", format(packageVersion("MASS")), "pROC", format(packageVersion("pROC")), "\n")
out <- "../../resources/org/sideport/stats/casemix/"
b <- birthwt
b$race <- factor(c("a", "b", "c")[b$race])
write.csv(data.frame(failure = b$low, age = b$age, lwt = b$lwt, race = b$race, smoke = b$smoke, ptl = b$ptl,
  ht = b$ht, ui = b$ui), paste0(out, "birthwt.csv"), row.names = FALSE, quote = FALSE)
i <- infert
write.csv(data.frame(failure = i$case, age = i$age, parity = i$parity, education = i$education,
  spontaneous = i$spontaneous, induced = i$induced), paste0(out, "infert.csv"), row.names = FALSE, quote = FALSE)

show <- function(fit) {
  print(coef(summary(fit)))
  cat("deviance", deviance(fit), "null", fit$null.deviance, "logLik", logLik(fit), "AIC", AIC(fit), "\n")
  print(confint(fit))          # profile likelihood, MASS
  print(confint.default(fit))  # Wald
  print(drop1(fit, test = "LRT"))
}
ctl <- glm.control(epsilon = 1e-14, maxit = 100)
cat("== birthwt\n")
f1 <- glm(low ~ age + lwt + race + smoke + ptl + ht + ui, binomial, b, control = ctl)
show(f1)
# confint interpolates a spline; profile limits here by uniroot on the refitted deviance
limits <- function(data, response, X, j, fit) {
  target <- deviance(fit) + qchisq(.95, 1)
  g <- function(v) deviance(glm.fit(X[, -j, drop = FALSE], data[[response]], offset = v * X[, j],
    family = binomial(), control = ctl)) - target
  e <- coef(fit)[j]; s <- sqrt(diag(vcov(fit)))[j]
  c(uniroot(g, c(e - 6 * s, e), tol = 1e-12)$root, uniroot(g, c(e, e + 6 * s), tol = 1e-12)$root)
}
X <- model.matrix(f1)
for (j in seq_len(ncol(X))) cat("profile", colnames(X)[j], limits(b, "low", X, j, f1), "\n")
nd <- data.frame(age = 30, lwt = 120, race = "b", smoke = 1, ptl = 0, ht = 0, ui = 1)
pr <- predict(f1, nd, se.fit = TRUE)
cat("predict link", pr$fit, pr$se.fit, "p", plogis(pr$fit), "\n")
p <- fitted(f1)
r <- roc(b$low, p, quiet = TRUE, direction = "<")
cat("auc", auc(r), "var", var(r, method = "delong"), "se", sqrt(var(r, method = "delong")), "\n")
print(ci.auc(r, method = "delong"))
cat("brier", mean((b$low - p)^2), "\n")
hl <- function(y, p, g = 10) {
  cut <- cut(p, unique(quantile(p, seq(0, 1, 1 / g))), include.lowest = TRUE)
  o <- tapply(y, cut, sum); e <- tapply(p, cut, sum); n <- tapply(y, cut, length)
  x <- sum((o - e)^2 / e + (o - e)^2 / (n - e))
  print(cbind(n, o, e))
  cat("hosmer-lemeshow", x, "df", length(n) - 2, "p", pchisq(x, length(n) - 2, lower.tail = FALSE), "\n")
}
hl(b$low, p)
# recalibration of a distorted risk: intercept with the slope held at 1, then both free
d <- plogis(0.4 + 0.7 * qlogis(p))
print(coef(summary(glm(b$low ~ offset(qlogis(d)), family = binomial, control = ctl))))
print(coef(summary(glm(b$low ~ qlogis(d), family = binomial, control = ctl))))
cat("== infert\n")
f2 <- glm(case ~ age + parity + education + spontaneous + induced, binomial, i, control = ctl)
show(f2)

cat("== Firth by direct maximisation of loglik + log|I|/2\n")
firth <- function(X, y) {
  s <- apply(X, 2, function(c) max(abs(c)))
  Z <- sweep(X, 2, s, "/")
  pl <- function(bz) {
    eta <- as.vector(Z %*% bz); q <- plogis(eta)
    I <- crossprod(X * sqrt(q * (1 - q)))
    sum(y * eta - ifelse(eta > 0, eta + log1p(exp(-eta)), log1p(exp(eta)))) + determinant(I)$modulus / 2
  }
  max <- function(j = 0, v = 0, start = rep(0, ncol(Z))) {
    free <- setdiff(seq_len(ncol(Z)), j)
    full <- function(t) { bz <- numeric(ncol(Z)); bz[free] <- t; if (j > 0) bz[j] <- v * s[j]; bz }
    o <- list(par = start[free])
    for (k in 1:6) o <- optim(o$par, function(t) -pl(full(t)), method = "BFGS",
      control = list(reltol = 1e-16, maxit = 2000, ndeps = rep(1e-5, length(free))))
    list(b = full(o$par), pl = -o$value)
  }
  m <- max()
  bz <- m$b; beta <- bz / s
  q <- plogis(as.vector(X %*% beta))
  se <- sqrt(diag(solve(crossprod(X * sqrt(q * (1 - q))))))
  cat("penalised loglik", m$pl, "\n"); print(cbind(beta, se))
  for (j in seq_len(ncol(X))) {
    g <- function(v) 2 * (m$pl - max(j, v, bz)$pl) - qchisq(.95, 1)
    lo <- uniroot(g, c(beta[j] - 5 * se[j], beta[j]), tol = 1e-9)$root
    hi <- uniroot(g, c(beta[j], beta[j] + 7 * se[j]), tol = 1e-9)$root
    x <- 2 * (m$pl - max(j, 0, bz)$pl)
    cat(colnames(X)[j], "limits", lo, hi, "LR", x, "p", pchisq(x, 1, lower.tail = FALSE), "\n")
  }
}
en <- read.csv(paste0(out, "endometrial.csv"))
firth(model.matrix(failure ~ nv + pi + eh, en), en$failure)
firth(X, b$low)
