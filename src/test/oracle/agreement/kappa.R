# Kappa of two raters with large-sample standard errors (Fleiss, Cohen & Everitt 1969), by vcd. Run: Rscript kappa.R
suppressMessages(library(vcd))
cat("#", R.version.string, "vcd", as.character(packageVersion("vcd")), "\n")
show <- function(name, m) for (w in c("Equal-Spacing", "Fleiss-Cohen")) {
  k <- Kappa(m, weights = w)
  cat(name, w, sprintf("%.12f", c(k$Unweighted, k$Weighted, confint(k))), "\n")
}
show("levels2to5", matrix(c(4,2,0,0, 1,6,3,0, 0,2,9,2, 0,0,3,8), 4, byrow = TRUE))
data(SexualFun); show("SexualFun", SexualFun)         # Agresti 1990, table 2.10
data(MSPatients); show("MSPatients", MSPatients[, , 1]) # Landis & Koch 1977, Winnipeg patients
