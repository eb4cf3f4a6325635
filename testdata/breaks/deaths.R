# Breaks in the level of the logarithm of UKDriverDeaths once its season, a mean for each month, is taken out.
# R 4.2.2, strucchange 1.5-3. Writes deaths.csv: the last month of each stretch, its 95 % interval, and the step after it.
library(strucchange)
y <- log(UKDriverDeaths)
month <- factor(cycle(y))
level <- ts(residuals(lm(y ~ month)) + mean(y), start = start(y), frequency = 12)
b <- breakpoints(level ~ 1, h = 12)
k <- confint(b)$confint
means <- tapply(level, breakfactor(b), mean)
when <- function(i) sprintf("%d-%02d", floor(time(y)[i] + 1e-6), cycle(y)[i])
write.csv(data.frame(last = when(k[, 2]), low = when(k[, 1]), high = when(k[, 3]), step = round(diff(means), 4)), "deaths.csv", row.names = FALSE, quote = FALSE)
cat("scatter", sqrt(sum((level - fitted(b))^2) / (length(level) - length(means))), "\n")
