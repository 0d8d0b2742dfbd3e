# Arguments: data file, number of repeats. Prints the seconds of each computation and ICC(2,1).
suppressMessages(library(psych))
arguments <- commandArgs(trailingOnly = TRUE)
d <- read.csv(arguments[1])
for (i in seq_len(as.integer(arguments[2]))) {
  elapsed <- system.time(m <- ICC(d, missing = FALSE))[["elapsed"]]
  cat("seconds", format(elapsed, digits = 10), "\n")
}
cat("value", format(m$results[2, "ICC"], digits = 15), "\n")
