# Random-effects models by REML with lme4, on simulated scores that are written beside the results.
# Run in this folder: Rscript reml.R  (R 4.2.2, lme4 1.1.31, numDeriv 2016.8.1.1: see the head of the output)
# Writes ../../resources/gtheory/*.csv (data) and reml-expected.csv (components, standard errors, criterion).
# Components: lme4's, polished (see below). Standard errors: inverse of the Hessian (numDeriv) of minus the restricted log-likelihood, written out with dense
# matrices, by the variances that lme4 finds above 0.
suppressMessages({library(lme4); library(numDeriv)})
out <- "../../resources/gtheory/"
cat("#", R.version.string, "lme4", as.character(packageVersion("lme4")),
    "numDeriv", as.character(packageVersion("numDeriv")), "\n")

effects <- function(keys, sd) { u <- unique(keys); setNames(rnorm(length(u), 0, sd), u)[keys] }
score <- function(d, sds) {
  y <- rep(10, nrow(d))
  for (name in names(sds)) {
    keys <- do.call(paste, c(d[strsplit(name, ":")[[1]]], sep = ":"))
    y <- y + effects(keys, sds[[name]])
  }
  round(y + rnorm(nrow(d), 0, 1), 1)
}
grid <- function(...) {
  n <- c(...)
  d <- expand.grid(lapply(n, seq_len))
  d <- d[do.call(order, d), , drop = FALSE]
  for (v in names(n)) d[[v]] <- paste0(toupper(substr(v, 1, 1)), d[[v]])
  rownames(d) <- NULL
  d
}
save <- function(d, name) write.csv(d, paste0(out, name, ".csv"), row.names = FALSE, quote = FALSE)

dense <- function(d, names, mean = FALSE) {
  X <- matrix(1, nrow(d), 1)
  mats <- lapply(names, function(name) {
    key <- factor(do.call(paste, c(d[strsplit(name, ":")[[1]]], sep = ":")))
    Z <- model.matrix(~ 0 + key); Z %*% t(Z)
  })
  mats <- c(mats, list(diag(nrow(d))))
  function(v) {
    V <- Reduce(`+`, Map(`*`, mats, v))
    Vi <- solve(V); XVX <- t(X) %*% Vi %*% X
    if (mean) return(c(sum(Vi %*% d$score) / XVX, sqrt(1 / XVX)))
    P <- Vi - Vi %*% X %*% solve(XVX) %*% t(X) %*% Vi
    as.numeric(determinant(V)$modulus + log(det(XVX)) + t(d$score) %*% P %*% d$score +
      (nrow(d) - 1) * log(2 * pi)) / 2
  }
}
rows <- list()
fit <- function(d, data, names) {
  f <- as.formula(paste("score ~ 1 +", paste0("(1|", names, ")", collapse = "+")))
  m <- suppressMessages(suppressWarnings(lmer(f, d, control = lmerControl(optimizer = "nloptwrap",
    optCtrl = list(xtol_abs = 1e-12, ftol_abs = 1e-14, maxeval = 20000), check.nobs.vs.nlev = "ignore"))))
  vc <- as.data.frame(VarCorr(m)); est <- setNames(vc$vcov, vc$grp)[c(names, "Residual")]
  se <- rep(NA, length(est)); on <- est > 1e-7
  nll <- dense(d, names[on[seq_along(names)]])
  stopifnot(abs(2 * nll(est[on]) - REMLcrit(m)) < 1e-6)
  # lme4 stops a few units of the fifth digit short: Newton steps on the written-out likelihood give the digits beyond.
  for (step in 1:4) est[on] <- est[on] - solve(hessian(nll, est[on]), grad(nll, est[on]))
  stopifnot(2 * nll(est[on]) <= REMLcrit(m) + 1e-9, 2 * nll(est[on]) > REMLcrit(m) - 1e-6)
  best <- dense(d, names[on[seq_along(names)]], TRUE)(est[on])
  se[on] <- sqrt(diag(solve(hessian(nll, est[on]))))
  rows[[length(rows) + 1]] <<- data.frame(data = data, model = paste(names, collapse = "+"),
    name = c(names, "residual", "criterion", "mean"),
    value = sprintf("%.9g", c(ifelse(on, est, 0), REMLcrit(m), best[1])),
    se = sprintf("%.7g", c(se, NA, best[2])))
  stopifnot(abs(best - c(fixef(m), sqrt(vcov(m)[1, 1]))) < 1e-4)
}

set.seed(11)
d <- grid(subject = 12, rater = 4); d$score <- score(d, list(subject = 1.2, rater = .6))
save(d, "pr-balanced"); fit(d, "pr-balanced", c("subject", "rater"))
d <- grid(subject = 20, rater = 5); d$score <- score(d, list(subject = .9, rater = .8))
d <- d[runif(nrow(d)) > .3, ]; save(d, "pr-missing"); fit(d, "pr-missing", c("subject", "rater"))

six <- c("subject", "case", "rater", "subject:case", "subject:rater", "case:rater")
d <- grid(subject = 16, case = 4, rater = 3)
d$score <- score(d, list(subject = 1.5, case = .5, rater = .7, "subject:case" = .8, "subject:rater" = .6, "case:rater" = .4))
d <- d[runif(nrow(d)) > .2, ]; save(d, "pcr-missing"); fit(d, "pcr-missing", six)
# No rater severity and no case difficulty at all: some components land on 0.
d <- grid(subject = 14, case = 3, rater = 3)
d$score <- score(d, list(subject = 1, "subject:case" = .7))
d <- d[runif(nrow(d)) > .15, ]; save(d, "pcr-boundary"); fit(d, "pcr-boundary", six)
d <- grid(subject = 14, case = 4, rater = 3)
d$score <- score(d, list(subject = 1.5, case = .5, rater = .7, "subject:case" = .8, "subject:rater" = .6, "case:rater" = .4))
save(d, "pcr-balanced"); fit(d, "pcr-balanced", six)

# Raters nested in persons, 2 to 5 each, one or two scores by each.
d <- grid(subject = 18, rater = 5, round = 2)
d$rater <- paste0(d$subject, "-", d$rater); d$score <- score(d, list(subject = 1.1, rater = .9))
d <- d[runif(nrow(d)) > .35, ]; d$round <- NULL
save(d, "r-in-p-replicated"); fit(d, "r-in-p-replicated", c("subject", "rater"))
d <- d[!duplicated(d$rater), ]; save(d, "r-in-p"); fit(d, "r-in-p", "subject")
# Everyone's own cases, seen by the same raters: (c:p) x r, with gaps.
d <- grid(subject = 15, case = 4, rater = 3)
d$case <- paste0(d$subject, "-", d$case)
d$score <- score(d, list(subject = 1.2, rater = .7, case = .9, "subject:rater" = .5))
d <- d[runif(nrow(d)) > .2, ]; save(d, "c-in-p-by-r"); fit(d, "c-in-p-by-r", c("subject", "rater", "case", "subject:rater"))
# Four facets crossed.
d <- grid(subject = 8, case = 3, item = 4, rater = 3)
d$score <- score(d, list(subject = 1.2, case = .4, item = .8, rater = .6, "subject:case" = .6, "subject:rater" = .5,
  "case:item" = .4, "subject:case:rater" = .5))
fourteen <- c("subject", "case", "item", "rater", "subject:case", "subject:item", "subject:rater", "case:item",
  "case:rater", "item:rater", "subject:case:item", "subject:case:rater", "subject:item:rater", "case:item:rater")
save(d, "pcir-balanced")
e <- d[runif(nrow(d)) > .15, ]; save(e, "pcir-missing")
fit(e, "pcir-missing", c("subject", "case", "item", "rater", "subject:case", "subject:rater", "case:item", "subject:case:rater"))

write.csv(do.call(rbind, rows), paste0(out, "reml-expected.csv"), row.names = FALSE, quote = FALSE)
