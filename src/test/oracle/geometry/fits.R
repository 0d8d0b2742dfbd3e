# Circle and ellipse fits written anew with other algorithms than the application's: Fitzgibbon's original 6 x 6 problem by
# an explicit eigen-decomposition, geometric fits by Nelder-Mead and BFGS on distances found by minimising over the angle.
# R 4.2.2, stats only. Output in fits.out.
cat(R.version.string, "\n"); options(digits = 12)
gander6 <- cbind(c(1, 2, 5, 7, 9, 3), c(7, 6, 8, 7, 5, 7))
gander8 <- rbind(gander6, c(6, 2), c(8, 4))
rhexis <- cbind(c(612, 590, 545, 487, 429, 386, 371, 388, 430, 488, 547, 592),
                c(402, 461, 503, 518, 500, 458, 399, 342, 301, 288, 303, 345))
algebraic <- function(p) { B <- cbind(rowSums(p^2), p, 1); u <- svd(B)$v[, 4]
  z <- -u[2:3] / (2 * u[1]); c(z, sqrt(sum(z^2) - u[4] / u[1])) }
circ <- function(p) { f <- function(q) sum((sqrt((p[, 1] - q[1])^2 + (p[, 2] - q[2])^2) - q[3])^2)
  best <- NULL
  for (s in list(algebraic(p), c(colMeans(p), sd(p)))) {
    q <- s; for (i in 1:6) q <- optim(q, f, control = list(reltol = 1e-16, maxit = 5000))$par
    q <- optim(q, f, method = "BFGS", control = list(reltol = 1e-16, maxit = 500))$par
    if (is.null(best) || f(q) < f(best)) best <- q }
  J <- t(apply(p, 1, function(r) { d <- sqrt(sum((r - best[1:2])^2)); c((best[1:2] - r) / d, -1) }))
  list(par = best, ss = f(best), se = sqrt(diag(solve(t(J) %*% J)))) }
direct <- function(p) { m <- colMeans(p); x <- p[, 1] - m[1]; y <- p[, 2] - m[2]
  D <- cbind(x^2, x * y, y^2, x, y, 1); S <- t(D) %*% D
  C <- matrix(0, 6, 6); C[1, 3] <- C[3, 1] <- 2; C[2, 2] <- -1
  e <- eigen(solve(S, C, tol = 1e-30)); v <- Re(e$vectors[, which.max(Re(e$values))]); v <- v * sign(v[1])
  conic(v, m) }
conic <- function(v, m) { M <- matrix(c(v[1], v[2] / 2, v[2] / 2, v[3]), 2)
  z <- solve(2 * M, -v[4:5]); f <- v[6] + sum(v[4:5] * z) / 2; e <- eigen(M)
  ax <- sqrt(-f / e$values); i <- order(-ax); d <- e$vectors[, i[1]]
  c(z + m, ax[i], atan2(d[2], d[1]) %% pi) }
dist2 <- function(p, q) { w <- c(cos(q[5]), sin(q[5])); x <- abs((p[1] - q[1]) * w[1] + (p[2] - q[2]) * w[2])
  y <- abs(-(p[1] - q[1]) * w[2] + (p[2] - q[2]) * w[1]); a <- abs(q[3]); b <- abs(q[4])
  g <- function(t) (a * cos(t) - x)^2 + (b * sin(t) - y)^2
  t <- seq(0, pi / 2, length.out = 60); k <- which.min(g(t))
  optimize(g, t[c(max(1, k - 1), min(60, k + 1))], tol = 1e-12)$objective }
ell <- function(p, starts) { f <- function(q) sum(apply(p, 1, dist2, q = q)); best <- NULL
  for (s in starts) { q <- s
    for (i in 1:8) q <- optim(q, f, control = list(reltol = 1e-15, maxit = 4000, parscale = c(abs(q[1:4]), 1)))$par
    if (is.null(best) || f(q) < f(best)) best <- q }
  if (abs(best[3]) < abs(best[4])) best <- c(best[1:2], best[c(4, 3)], best[5] + pi / 2)
  h <- c(rep(1e-4, 5)) * pmax(1, abs(best) / 100)
  c(abs(best[1:4]) * sign(c(best[1:2], 1, 1)), best[5] %% pi, f(best)) }
cat("algebraic circle", algebraic(gander6), "\n")
c6 <- circ(gander6); cat("geometric circle", c6$par, "ss", c6$ss, "unit se", c6$se, "\n")
cr <- circ(rhexis); cat("rhexis circle", cr$par, "ss", cr$ss, "unit se", cr$se, "\n")
cat("direct gander8", direct(gander8), "\n")
cat("direct rhexis", direct(rhexis), "\n")
cat("geometric gander8", ell(gander8, list(direct(gander8), c(2.7, 3.8, 6.5, 3, .36), c(4, 5, 4, 3, 1))), "\n")
cat("geometric rhexis", ell(rhexis, list(direct(rhexis))), "\n")
# perimeter by numerical integration
for (r in list(c(2.75, 2.45), c(5, 1), c(1, 1e-3))) cat("perimeter", r, 4 * integrate(function(t) sqrt((r[1] * sin(t))^2 + (r[2] * cos(t))^2), 0, pi / 2, rel.tol = 1e-12, subdivisions = 2000)$value, "\n")
