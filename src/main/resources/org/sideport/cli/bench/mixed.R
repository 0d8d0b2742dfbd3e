# Arguments: data file, number of repeats. Prints the seconds of each fit and the REML criterion.
suppressMessages(library(lme4))
arguments <- commandArgs(trailingOnly = TRUE)
d <- read.csv(arguments[1], stringsAsFactors = TRUE)
for (i in seq_len(as.integer(arguments[2]))) {
  elapsed <- system.time(m <- lmer(value ~ time + (time | subject), d))[["elapsed"]]
  cat("seconds", format(elapsed, digits = 10), "\n")
}
cat("value", format(REMLcrit(m), digits = 15), "\n")
