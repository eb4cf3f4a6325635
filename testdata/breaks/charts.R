# Control charts with a given number of observations to a false alarm, a, and how late each sees a step of 1.5 and 2.5 deviations
# (steady state: the chart has run quietly before). R 4.2.2, spc 0.6.7. Writes charts.csv.
library(spc)
rows <- list()
for (a in c(200, 500, 1000, 2000, 5000, 10000, 20000, 50000)) {
  for (lambda in c(0.1, 0.2, 0.4)) {
    L <- xewma.crit(lambda, a, sided = "two")
    late <- sapply(c(1.5, 2.5), function(s) xewma.ad(lambda, L, s, sided = "two"))
    rows[[length(rows) + 1]] <- data.frame(chart = "EWMA", design = lambda, limit = round(L, 4), a = a, late_1.5 = round(late[1], 3), late_2.5 = round(late[2], 3))
  }
  for (k in c(0.5, 0.75, 1)) {
    h <- xcusum.crit(k, 2 * a) # two-sided: either side alone half as often
    late <- sapply(c(1.5, 2.5), function(s) xcusum.ad(k, h, s, sided = "one"))
    rows[[length(rows) + 1]] <- data.frame(chart = "CUSUM", design = k, limit = round(h, 4), a = a, late_1.5 = round(late[1], 3), late_2.5 = round(late[2], 3))
  }
}
write.csv(do.call(rbind, rows), "charts.csv", row.names = FALSE, quote = FALSE)
