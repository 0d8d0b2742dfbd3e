# Run lengths of normal control charts with package spc: quoted in ValueRunLengthTest. Its output:
#
# R version 4.2.2 Patched (2022-11-10 r83330) spc 0.6.7
# two-sided CUSUM k=.5 h= 4 : 167.68379 74.224028 26.630203 13.285088 8.3831319 4.7471682 3.3427701 2.6195189 2.1944809 1.7084572
# two-sided CUSUM k=.5 h= 5 : 465.44351 139.49369 37.996143 17.048326 10.375970 5.7472177 4.0088711 3.1136884 2.5732521 2.0125675
# one-sided CUSUM k=.5 h=4 mu 0 1: 335.36758 8.3832021
# one-sided with head start 2: 316.37944 5.2910193
# two-sided with head start 2: 148.69565 5.2868862
# one-sided survival k=.5 h=4 mu 0, n 10 50 100: 0.98249225 0.87073575 0.74853519
# one-sided survival k=.5 h=4 mu 1, n 5 10 20: 0.69794074 0.24848395 0.024853822
# one-sided median k=.5 h=4 mu 0: 234
# EWMA l=.1 c=2.7 fix mu 0 .5 1 2: 368.99373 28.190540 9.7300116 4.1785876
# EWMA l=.1 c=2.7 vacl mu 0 .5 1 2: 356.09510 25.327552 7.5412764 2.4954300
# EWMA l=.3 c=3 fix mu 0 .5 1: 465.55343 53.160280 11.698629
# EWMA l=.3 c=3 vacl mu 0 .5 1: 462.57201 52.195966 11.089724
# EWMA l=.3 c=3 fix survival mu 0 n 20 100: 0.96277145 0.80987739
# EWMA l=.3 c=3 vacl survival mu 0 n 20 100: 0.95657750 0.80466707
# one-sided h for ARL 500 k=.5: 4.3891297 two-sided: 5.0707039
# EWMA c for ARL 500 l=.1 fix: 2.8143100
library(spc)
cat(R.version.string, "spc", as.character(packageVersion("spc")), "\n")
f <- function(x) formatC(x, digits = 8, format = "fg", flag = "#")
for (h in c(4, 5)) cat("two-sided CUSUM k=.5 h=", h, ":", f(sapply(c(0,.25,.5,.75,1,1.5,2,2.5,3,4), function(m) xcusum.arl(.5, h, m, sided="two", r=60))), "\n")
cat("one-sided CUSUM k=.5 h=4 mu 0 1:", f(sapply(c(0,1), function(m) xcusum.arl(.5, 4, m, r=60))), "\n")
cat("one-sided with head start 2:", f(sapply(c(0,1), function(m) xcusum.arl(.5, 4, m, hs=2, r=60))), "\n")
cat("two-sided with head start 2:", f(sapply(c(0,1), function(m) xcusum.arl(.5, 4, m, hs=2, sided="two", r=60))), "\n")
cat("one-sided survival k=.5 h=4 mu 0, n 10 50 100:", f(xcusum.sf(.5, 4, 0, 100)[c(10,50,100)]), "\n")
cat("one-sided survival k=.5 h=4 mu 1, n 5 10 20:", f(xcusum.sf(.5, 4, 1, 100)[c(5,10,20)]), "\n")
cat("one-sided median k=.5 h=4 mu 0:", xcusum.q(.5, 4, 0, .5), "\n")
cat("EWMA l=.1 c=2.7 fix mu 0 .5 1 2:", f(sapply(c(0,.5,1,2), function(m) xewma.arl(.1, 2.7, m, sided="two", limits="fix"))), "\n")
cat("EWMA l=.1 c=2.7 vacl mu 0 .5 1 2:", f(sapply(c(0,.5,1,2), function(m) xewma.arl(.1, 2.7, m, sided="two", limits="vacl"))), "\n")
cat("EWMA l=.3 c=3 fix mu 0 .5 1:", f(sapply(c(0,.5,1), function(m) xewma.arl(.3, 3, m, sided="two", limits="fix"))), "\n")
cat("EWMA l=.3 c=3 vacl mu 0 .5 1:", f(sapply(c(0,.5,1), function(m) xewma.arl(.3, 3, m, sided="two", limits="vacl"))), "\n")
cat("EWMA l=.3 c=3 fix survival mu 0 n 20 100:", f(xewma.sf(.3, 3, 0, 100, sided="two", limits="fix")[c(20,100)]), "\n")
cat("EWMA l=.3 c=3 vacl survival mu 0 n 20 100:", f(xewma.sf(.3, 3, 0, 100, sided="two", limits="vacl")[c(20,100)]), "\n")
cat("one-sided h for ARL 500 k=.5:", f(xcusum.crit(.5, 500)), "two-sided:", f(xcusum.crit(.5, 500, sided="two")), "\n")
cat("EWMA c for ARL 500 l=.1 fix:", f(xewma.crit(.1, 500, sided="two")), "\n")
