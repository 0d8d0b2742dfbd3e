# Limits of agreement, by the definitions in the papers with R's own lm and aov. Run: Rscript blandaltman.R
# pefr: Bland & Altman 1986, Lancet i:307, first readings. cardiac: Bland & Altman 1999, table 4 (2007, table 1).
cat("#", R.version.string, "\n")
out <- function(name, ...) cat(name, sprintf("%.10f", c(...)), "\n")
x <- c(494,395,516,434,476,557,413,442,650,433,417,656,267,478,178,423,427)
y <- c(512,430,520,428,500,600,364,380,658,445,432,626,260,477,259,350,451)
d <- x - y; n <- length(d); q <- qt(.975, n - 1)
se <- sd(d) * sqrt(1 / n + 1.96^2 / (2 * (n - 1)))
out("pefr bias sd t-limits", mean(d), sd(d), t.test(d)$conf.int)
out("pefr lower limit and its limits", mean(d) - 1.96 * sd(d) + c(0, -q, q) * se)
out("pefr slope p", coef(summary(lm(d ~ I((x + y) / 2))))[2, c(1, 4)])
cardiac <- read.csv("../../resources/org/sideport/stats/agreement/cardiac.csv")
cardiac$d <- cardiac$rv - cardiac$ic; cardiac$subject <- factor(cardiac$subject)
a <- anova(lm(d ~ subject, cardiac)); m <- table(cardiac$subject); N <- sum(m); k <- length(m)
div <- (N^2 - sum(m^2)) / ((k - 1) * N); b <- (a[1, 3] - a[2, 3]) / div
out("cardiac varying: bias, MSB, MSW, divisor, between, sd", mean(cardiac$d), a[1, 3], a[2, 3], div, b, sqrt(b + a[2, 3]))
out("cardiac varying: limits", mean(cardiac$d) + c(-1.96, 1.96) * sqrt(b + a[2, 3]))
rv <- anova(lm(rv ~ subject, cardiac))[2, 3]; ic <- anova(lm(ic ~ subject, cardiac))[2, 3]
md <- with(cardiac, tapply(rv, subject, mean) - tapply(ic, subject, mean)); h <- 1 - mean(1 / m)
v <- var(md) + h * (rv + ic)
out("cardiac constant: bias, var of means, rv, ic within, sd", mean(md), var(md), rv, ic, sqrt(v))
out("cardiac constant: limits", mean(md) + c(-1.96, 1.96) * sqrt(v))
