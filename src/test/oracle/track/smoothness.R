# Smoothness of two movements, independent of the program: exact derivatives, numerical integrals, the Fourier transform of
# the speed as an integral. Written with R 4.x (see the printed version).
# One movement of least jerk (Flash & Hogan 1985), 1 s, amplitude 1; and two of them, one after the other, each 0.5 s.
cat("#", R.version.string, "\n")
speed1 <- function(t) ifelse(t < 0 | t > 1, 0, 30 * t^2 - 60 * t^3 + 30 * t^4)
jerk1 <- function(t) 60 - 360 * t + 360 * t^2
speed2 <- function(t) { u <- (t %% 0.5) / 0.5; ifelse(t < 0 | t >= 1, 0, (30 * u^2 - 60 * u^3 + 30 * u^4)) }
j <- integrate(function(t) jerk1(t)^2, 0, 1, rel.tol = 1e-12)$value
peak <- optimize(speed1, c(0, 1), maximum = TRUE, tol = 1e-12)$objective
cat("integral of squared jerk", format(j, digits = 10), "log dimensionless jerk", format(-log(j / peak^2), digits = 10), "\n")
grid <- (0:20000) / 20000
sal <- function(speed) {
  v <- speed(grid); n <- length(grid); w <- rep(1 / 20000, n); w[c(1, n)] <- w[1] / 2
  f <- seq(0, 10, by = 100 / 2048) # as fine as 2048 values at 100 a second
  a <- sapply(f, function(k) Mod(sum(w * v * exp(-2i * pi * k * grid))))
  a <- a / a[1]
  last <- max(which(a >= 0.05))
  -sum(sqrt((1 / (last - 1))^2 + diff(a[1:last])^2))
}
cat("spectral arc length, one", format(sal(speed1), digits = 8), "two", format(sal(speed2), digits = 8), "\n")
