# What the same tasks take in R: data.table's fread reads the fills, strucchange's breakpoints searches the series for steps,
# nlme's gls fits its level and conditions with neighbours that are correlated. Called by the program beside it with a folder; prints
# a name and the least seconds of three runs a line (of one, where that takes longer than ten).
suppressMessages({library(data.table); library(strucchange); library(nlme)})
dir <- commandArgs(TRUE)[1]
seconds <- function(task) system.time(task())[["elapsed"]]
least <- function(name, task) {
  first <- seconds(task)
  cat(name, if (first > 10) first else min(first, seconds(task), seconds(task)), "\n")
}
least("reading", function() fread(file.path(dir, "fills.csv")))
s <- read.csv(file.path(dir, "series.csv"))
least("shifts", function() breakpoints(y ~ 1, data = s, h = 0.05, breaks = 5))
least("model", function() gls(y ~ cold + town, data = s, correlation = corAR1()))
