# Intraclass correlations of tables with gaps from lme4's REML components. Run: Rscript incomplete.R
# sf: Shrout & Fleiss 1979, table 2, cells (2,3), (5,1), (5,2) left out. attitude: R data set, every 8th score left out,
# counted along rows.
suppressMessages(library(lme4))
cat("#", R.version.string, "lme4", as.character(packageVersion("lme4")), "\n")
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12, maxfun = 1e5))
icc <- function(name, m) {
  d <- data.frame(y = as.vector(m), s = factor(row(m)), r = factor(col(m))); d <- d[!is.na(d$y), ]
  k <- 1 / mean(1 / table(d$s))
  v <- as.data.frame(VarCorr(lmer(y ~ 1 + (1 | s) + (1 | r), d, control = tight))); v <- setNames(v$vcov, v$grp)
  o <- as.data.frame(VarCorr(lmer(y ~ 1 + (1 | s), d, control = tight))); o <- setNames(o$vcov, o$grp)
  cat(name, "subject, rater, residual, k:", sprintf("%.8f", c(v["s"], v["r"], v["Residual"], k)), "\n")
  cat(name, "one-way subject, residual:", sprintf("%.8f", o[c("s", "Residual")]), "\n")
  s <- v["s"]; r <- v["r"]; e <- v["Residual"]
  cat(name, "ICC(1,1) (2,1) (3,1) (1,k) (2,k) (3,k):", sprintf("%.8f", c(o["s"] / sum(o), s / (s + r + e), s / (s + e),
    o["s"] / (o["s"] + o["Residual"] / k), s / (s + (r + e) / k), s / (s + e / k))), "\n")
}
sf <- matrix(c(9,2,5,8, 6,1,3,2, 8,4,6,8, 7,1,2,6, 10,5,6,9, 6,2,4,7), ncol = 4, byrow = TRUE)
sf[2, 3] <- NA; sf[5, 1] <- NA; sf[5, 2] <- NA; icc("sf", sf)
a <- as.matrix(attitude); for (i in seq_len(nrow(a))) for (j in seq_len(ncol(a))) if (((i - 1) * 7 + j) %% 8 == 0) a[i, j] <- NA
icc("attitude", a)
