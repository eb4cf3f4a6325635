# Two-sided exact p values of the sum of the scores after, by listing every way in which the labels could have fallen
# within each stratum. Run here: Rscript enumerate.R writes p.csv.
d <- read.csv("scores.csv")
p <- sapply(split(d, d$case), function(case) {
  sums <- 0; expected <- 0; observed <- 0
  for (s in split(case, case$stratum)) {
    k <- sum(s$group == "after")
    if (k == 0 || k == nrow(s)) next
    sums <- as.vector(outer(sums, combn(nrow(s), k, function(i) sum(s$score[i])), "+"))
    expected <- expected + k * mean(s$score)
    observed <- observed + sum(s$score[s$group == "after"])
  }
  mean(abs(sums - expected) >= abs(observed - expected) - 1e-9)
})
write.csv(data.frame(case = names(p), p = sprintf("%.15g", p)), "p.csv", row.names = FALSE, quote = FALSE)
