# Arguments: data file, number of repeats. Prints the seconds of each fit and the REML criterion.
suppressMessages(library(lme4))
arguments <- commandArgs(trailingOnly = TRUE)
d <- read.csv(arguments[1], stringsAsFactors = TRUE)
model <- score ~ 1 + (1 | person) + (1 | case) + (1 | rater) + (1 | person:case) + (1 | person:rater) + (1 | case:rater)
for (i in seq_len(as.integer(arguments[2]))) {
  elapsed <- system.time(m <- suppressWarnings(lmer(model, d)))[["elapsed"]]
  cat("seconds", format(elapsed, digits = 10), "\n")
}
cat("value", format(REMLcrit(m), digits = 15), "\n")
