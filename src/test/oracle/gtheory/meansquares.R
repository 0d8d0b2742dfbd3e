# Balanced designs: degrees of freedom and sums of squares by aov, components by Brennan's alternating sums of mean
# squares (crossed) or by the expected mean squares written out (nested). Run in this folder: Rscript meansquares.R
# Writes ../../resources/gtheory/ms-expected.csv and two nested data sets. R 4.2.2.
cat("#", R.version.string, "\n")
out <- "../../resources/gtheory/"
read <- function(name) read.csv(paste0(out, name, ".csv"), stringsAsFactors = TRUE)
rows <- NULL
add <- function(data, name, df, ms, v) rows <<- rbind(rows, data.frame(data, name, df, ms = sprintf("%.10g", ms), variance = sprintf("%.10g", v)))

crossed <- function(data) {
  d <- read(data); f <- setdiff(names(d), "score"); n <- sapply(d[f], nlevels)
  full <- as.formula(paste("score ~", paste(f, collapse = "*")))
  a <- anova(lm(full, d)); terms <- rownames(a)[rownames(a) != "Residuals"]
  ms <- setNames(a[terms, "Mean Sq"], terms); sets <- strsplit(terms, ":")
  for (k in seq_along(terms)) {
    v <- 0
    for (m in seq_along(terms)) if (all(sets[[k]] %in% sets[[m]]))
      v <- v + (-1)^(length(sets[[m]]) - length(sets[[k]])) * ms[[m]]
    v <- v / prod(n[setdiff(f, sets[[k]])])
    add(data, terms[k], a[terms[k], "Df"], ms[[k]], v)
  }
}
for (data in c("pr-balanced", "pcr-balanced", "pcir-balanced")) suppressWarnings(crossed(data))

set.seed(5)
d <- expand.grid(r = 1:3, p = 1:9)
d$score <- round(10 + rnorm(9, 0, 1.2)[d$p] + rnorm(27), 1)
e <- data.frame(subject = paste0("S", d$p), rater = paste0("S", d$p, "-R", d$r), score = d$score)
write.csv(e, paste0(out, "r-in-p-balanced.csv"), row.names = FALSE, quote = FALSE)
a <- anova(lm(score ~ subject, read("r-in-p-balanced")))
add("r-in-p-balanced", "subject", a[1, 1], a[1, 3], (a[1, 3] - a[2, 3]) / 3)
add("r-in-p-balanced", "residual", a[2, 1], a[2, 3], a[2, 3])

# (c:p) x r: E(MSp) = s2 + C s2(pr) + R s2(c:p) + C R s2(p); E(MSc:p) = s2 + R s2(c:p); E(MSpr) = s2 + C s2(pr);
# E(MSr) = s2 + C s2(pr) + C P s2(r).
P <- 7; C <- 3; R <- 2
d <- expand.grid(r = 1:R, c = 1:C, p = 1:P)
d$score <- round(10 + rnorm(P, 0, 1.2)[d$p] + rnorm(R, 0, .7)[d$r] + rnorm(P * C, 0, .8)[(d$p - 1) * C + d$c] + rnorm(nrow(d), 0, .7), 1)
e <- data.frame(subject = paste0("S", d$p), case = paste0("S", d$p, "-C", d$c), rater = paste0("R", d$r), score = d$score)
write.csv(e, paste0(out, "c-in-p-by-r-balanced.csv"), row.names = FALSE, quote = FALSE)
d$p <- factor(d$p); d$c <- factor(d$c); d$r <- factor(d$r)
a <- suppressWarnings(anova(lm(score ~ p + r + p:c + p:r + p:c:r, d)))
ms <- setNames(a[, 3], rownames(a)); df <- setNames(a[, 1], rownames(a)); s2 <- ms[["p:r:c"]]
add("c-in-p-by-r-balanced", "subject", df[["p"]], ms[["p"]], (ms[["p"]] - ms[["p:r"]] - ms[["p:c"]] + s2) / (C * R))
add("c-in-p-by-r-balanced", "rater", df[["r"]], ms[["r"]], (ms[["r"]] - ms[["p:r"]]) / (C * P))
add("c-in-p-by-r-balanced", "subject:case", df[["p:c"]], ms[["p:c"]], (ms[["p:c"]] - s2) / R)
add("c-in-p-by-r-balanced", "subject:rater", df[["p:r"]], ms[["p:r"]], (ms[["p:r"]] - s2) / C)
add("c-in-p-by-r-balanced", "residual", df[["p:r:c"]], s2, s2)
write.csv(rows, paste0(out, "ms-expected.csv"), row.names = FALSE, quote = FALSE)
