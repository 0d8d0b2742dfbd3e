# Frame-wise kappa (psych), intersection over union, segmental edit score and F1 after Lea et al. 2017 (CVPR), here
# written anew from the paper's text on vectors of frames. "." is background: a category for kappa, no segment otherwise.
# R 4.2.2, psych 2.2.9. Output in src/test/resources/org/sideport/stats/segments/frames.csv
suppressMessages(library(psych))
cat("#", R.version.string, "psych", as.character(packageVersion("psych")), "\n")
set.seed(7)
runs <- function(v) { r <- rle(v); e <- cumsum(r$lengths); d <- data.frame(l = r$values, s = e - r$lengths, e = e); d[d$l != ".", ] }
f1 <- function(ref, got, tau) {
  a <- runs(ref); b <- runs(got); used <- rep(FALSE, nrow(a)); tp <- 0
  for (j in seq_len(nrow(b))) {
    inter <- pmax(0, pmin(a$e, b$e[j]) - pmax(a$s, b$s[j])) * (a$l == b$l[j])
    iou <- inter / ((a$e - a$s) + (b$e[j] - b$s[j]) - inter)
    k <- which.max(iou)
    if (length(k) && iou[k] >= tau - 1e-12 && !used[k]) { used[k] <- TRUE; tp <- tp + 1 }
  }
  c(tp, nrow(b) - tp, nrow(a) - tp)
}
edit <- function(ref, got) {
  a <- paste(runs(ref)$l, collapse = ""); b <- paste(runs(got)$l, collapse = "")
  100 * (1 - as.numeric(adist(a, b)) / max(nchar(a), nchar(b)))
}
out <- function(ref, got) {
  # what is compared runs from the first start to the last end of either
  any <- which(strsplit(ref, "")[[1]] != "." | strsplit(got, "")[[1]] != ".")
  ref <- substr(ref, min(any), max(any)); got <- substr(got, min(any), max(any))
  R <- strsplit(ref, "")[[1]]; G <- strsplit(got, "")[[1]]
  lev <- sort(unique(c(R, G)))
  k <- cohen.kappa(table(factor(R, lev), factor(G, lev)))$kappa
  iou <- sapply(c("A", "B", "C"), function(l) sum(R == l & G == l) / sum(R == l | G == l))
  cat(ref, got, format(mean(R == G), digits = 15), format(k, digits = 15), paste(format(iou, digits = 15), collapse = " "),
      format(edit(R, G), digits = 15), f1(R, G, .1), f1(R, G, .25), f1(R, G, .5), "\n", sep = ",")
}
cat("# reference,found,accuracy,kappa,IoU of A B C,edit,tp fp fn at 10,at 25,at 50\n")
out("AAAABBBBCC", "AAABBBBBCC")
for (i in 1:12) {
  n <- sample(8:16, 1)
  lab <- sample(c("A", "B", "C", "."), n, TRUE, c(3, 3, 3, 2)); len <- sample(1:9, n, TRUE)
  r <- rep(lab, len); g <- r
  for (m in 1:(2 + i)) { at <- sample(length(g), 1); to <- min(length(g), at + sample(0:6, 1)); g[at:to] <- sample(c("A", "B", "C", "."), 1) }
  out(paste(r, collapse = ""), paste(g, collapse = ""))
}
