# Rasch, rating scale and partial credit models by conditional maximum likelihood, and the many-facet forms as linear
# logistic models (virtual items assessor x item with a design matrix), for RaschReferenceTest.
# R 4.2.2, eRm 1.0.2. Data: eRm's own sets raschdat1, rsmdat, pcmdat (simulated, GPL) and a simulated incomplete design.
# Run in this directory: Rscript erm.R OUTDIR ; writes OUTDIR/*.csv (committed in src/test/resources/.../rasch).
suppressMessages(library(eRm))
out <- commandArgs(TRUE)[1]
head <- paste("#", R.version.string, "eRm", as.character(packageVersion("eRm")))
num <- function(v) ifelse(is.na(v), "", sprintf("%.10f", v))
long <- function(X, file, split = NULL) {
  X <- as.matrix(X); n <- nrow(X); k <- ncol(X)
  d <- data.frame(trainee = sprintf("T%03d", row(X)), assessor = "A1", item = colnames(X)[col(X)], level = as.vector(X))
  if (!is.null(split)) { s <- do.call(rbind, strsplit(d$item, ":")); d$assessor <- s[, 1]; d$item <- s[, 2] }
  d <- d[!is.na(d$level), ]
  write.csv(d, file.path(out, file), row.names = FALSE, quote = FALSE)
}
# item-category difficulties -> steps; sum zero over items of the locations, with standard errors by contrasts
report <- function(m, cats, file) {
  V <- m$W %*% solve(m$hessian) %*% t(m$W)
  b <- -m$betapar
  I <- length(cats); end <- cumsum(cats)
  L <- matrix(0, I, length(b)); for (i in 1:I) L[i, end[i]] <- 1 / cats[i]
  L <- L - matrix(colMeans(L), I, length(b), byrow = TRUE)
  S <- NULL; lab <- NULL
  for (i in 1:I) for (h in 1:cats[i]) {
    r <- rep(0, length(b)); r[end[i] - cats[i] + h] <- 1
    if (h > 1) r[end[i] - cats[i] + h - 1] <- -1
    r[end[i]] <- r[end[i]] - 1 / cats[i]
    S <- rbind(S, r); lab <- rbind(lab, c(i, h))
  }
  con <- file(file.path(out, file), "w")
  writeLines(head, con)
  writeLines("kind,item,step,estimate,se", con)
  writeLines(paste("loglik", "", "", num(m$loglik), "", sep = ","), con)
  writeLines(paste("item", colnames(m$X), "", num(L %*% b), num(sqrt(diag(L %*% V %*% t(L)))), sep = ","), con)
  if (max(cats) > 1) writeLines(paste("step", colnames(m$X)[lab[, 1]], lab[, 2], num(S %*% b), num(sqrt(pmax(0, diag(S %*% V %*% t(S))))), sep = ","), con)
  p <- person.parameter(m); th <- p$thetapar[[1]]
  writeLines(paste("person", names(th), "", num(th), num(p$se.theta[[1]]), sep = ","), con)
  f <- itemfit(p)
  # eRm df is the number of responses: the mean squares of Wright & Masters 1982, p. 100
  writeLines(paste("outfit", names(f$i.fit), f$i.df, num(f$i.fit / f$i.df), num(f$i.outfitZ), sep = ","), con)
  writeLines(paste("infit", names(f$i.fit), f$i.df, num(f$i.infitMSQ), num(f$i.infitZ), sep = ","), con)
  q <- personfit(p)
  writeLines(paste("personoutfit", names(q$p.fit), q$p.df, num(q$p.fit / q$p.df), num(q$p.outfitZ), sep = ","), con)
  writeLines(paste("personinfit", names(q$p.fit), q$p.df, num(q$p.infitMSQ), num(q$p.infitZ), sep = ","), con)
  s <- SepRel(p)
  writeLines(paste("separation", "", "", num(s$sep.rel), num(s$MSE), sep = ","), con)
  close(con)
}
data(raschdat1); data(rsmdat); data(pcmdat)
X <- raschdat1[, 1:12]; long(X, "rm.csv"); report(RM(X), rep(1, 12), "rm-erm.csv")
long(rsmdat, "rsm.csv"); report(RSM(rsmdat), rep(3, 6), "rsm-erm.csv")
long(pcmdat, "pcm.csv"); report(PCM(pcmdat), c(rep(3, 6), 2), "pcm-erm.csv")
# many facets: 3 assessors x 4 items, levels 0..3, 24 trainees, each marked by two of the three
set.seed(2) # every level of every virtual item occurs, which eRm needs
A <- c(-.7, .1, .6); B <- c(-.8, -.2, .3, .7); tau <- c(-1.2, .1, 1.1); T <- 45
theta <- rnorm(T, .3, 1.1); X <- matrix(NA, T, 12); colnames(X) <- paste0("A", rep(1:3, each = 4), ":I", rep(1:4, 3))
for (t in 1:T) for (a in 1:3) if (a != t %% 3 + 1) for (i in 1:4) {
  e <- cumsum(c(0, theta[t] - A[a] - B[i] - tau)); X[t, 4 * (a - 1) + i] <- sample(0:3, 1, prob = exp(e))
}
long(X, "facets.csv", TRUE)
design <- function(pcm) {
  W <- NULL
  for (a in 1:3) for (i in 1:4) for (h in 1:3) {
    r <- c(-h * c(a == 2, a == 3), -h * c(i == 2, i == 3, i == 4))
    psi <- -c(h == 1, h == 2)
    W <- rbind(W, c(r, if (pcm) as.vector(sapply(1:4, function(j) psi * (j == i))) else psi))
  }
  W
}
centre <- function(k) diag(k) - 1 / k
for (pcm in c(FALSE, TRUE)) {
  W <- design(pcm)
  m <- if (pcm) LPCM(as.data.frame(X), W) else LRSM(as.data.frame(X), W)
  # the design matrix as used; eta on its columns
  V <- solve(m$hessian); e <- m$etapar
  k <- ncol(W) - 5
  ca <- cbind(centre(3)[, 2:3], matrix(0, 3, 3 + k)); ci <- cbind(matrix(0, 4, 2), centre(4)[, 2:4], matrix(0, 4, k))
  cp <- cbind(matrix(0, k, 5), diag(k))
  con <- file(file.path(out, if (pcm) "facets-pcm-erm.csv" else "facets-rsm-erm.csv"), "w")
  writeLines(head, con); writeLines("kind,item,step,estimate,se", con)
  writeLines(paste("loglik", "", "", num(m$loglik), "", sep = ","), con)
  put <- function(kind, lab, C) writeLines(paste(kind, lab, "", num(C %*% e), num(sqrt(diag(C %*% V %*% t(C)))), sep = ","), con)
  put("assessor", paste0("A", 1:3), ca); put("item", paste0("I", 1:4), ci); put("psi", 1:k, cp)
  close(con)
}
