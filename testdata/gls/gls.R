# A small logbook by generalised least squares, at known scatters: nlme's gls, with what is believed beforehand as further
# rows. Run here: Rscript gls.R writes values.csv.
#
# y = ln(litres/km) = level + cold c + town t + after d + wander + (brim - brim before) / fuel + noise, where wander is
# first-order autoregressive along the road, neighbours share a brim unless the chain is cut, and fuel is what was
# expected of the tank from all before it.
suppressMessages(library(nlme))
options(digits = 15)
d <- read.csv("tanks.csv"); n <- nrow(d)
y <- log(d$litres / d$km)
X <- cbind(level = 1, cold = d$cold, town = d$town, after = d$after)
mean0 <- c(log(0.115), 0.004, 0.16, 0); sd0 <- c(0.5, 0.0012, 0.05, 0.1)
brim <- 0.8; wander <- 0.012; fade <- 1000

road <- cumsum(d$km + d$gap_km)
W <- wander^2 * exp(-abs(outer(road, road, "-")) / fade)
covariance <- function(fuel) {
  B <- matrix(0, n, n)
  for (i in 1:n) {
    B[i, i] <- 2 * brim^2 / fuel[i]^2
    if (i > 1 && d$chained[i] == 1) B[i, i - 1] <- B[i - 1, i] <- -brim^2 / (fuel[i] * fuel[i - 1])
  }
  W + B + diag(d$sd^2)
}

# Prior and marginal likelihood by the plain normal formulas, for what is expected of the next tank and as a check on gls.
fit <- function(rows, keep, V) {
  S <- V[rows, rows, drop = FALSE] + X[rows, keep, drop = FALSE] %*% diag(sd0[keep]^2) %*% t(X[rows, keep, drop = FALSE])
  e <- y[rows] - X[rows, keep, drop = FALSE] %*% mean0[keep]
  list(logl = -0.5 * (length(rows) * log(2 * pi) + as.numeric(determinant(S)$modulus) + sum(e * solve(S, e))),
       S = S, e = e)
}
expected <- function(keep) {
  fuel <- rep(1, n)
  for (i in 1:n) {
    m <- sum(X[i, keep] * mean0[keep])
    if (i > 1) {
      past <- 1:(i - 1); f <- fit(past, keep, covariance(fuel))
      common <- X[i, keep, drop = FALSE] %*% diag(sd0[keep]^2) %*% t(X[past, keep, drop = FALSE]) + W[i, past]
      m <- m + as.numeric(common %*% solve(f$S, f$e))
    }
    fuel[i] <- d$km[i] * exp(m)
  }
  fuel
}

bygls <- function(keep) {
  V <- covariance(expected(keep)); k <- length(keep)
  A <- rbind(X[, keep], diag(k)); z <- c(y, mean0[keep])
  big <- rbind(cbind(V, matrix(0, n, k)), cbind(matrix(0, k, n), diag(sd0[keep]^2)))
  C <- cov2cor(big)
  rows <- as.data.frame(A); names(rows) <- paste0("x", 1:k); rows$z <- z; rows$v <- diag(big); rows$g <- 1
  g <- gls(as.formula(paste("z ~", paste0("x", 1:k, collapse = " + "), "- 1")), rows, method = "REML",
           correlation = corSymm(C[lower.tri(C)], form = ~ 1 | g, fixed = TRUE), weights = varFixed(~ v),
           control = glsControl(sigma = 1))
  stopifnot(abs(logLik(g, REML = TRUE) - fit(1:n, keep, V)$logl) < 1e-9)
  list(mean = coef(g), sd = sqrt(diag(vcov(g))), logl = as.numeric(logLik(g, REML = TRUE)))
}
with <- bygls(1:4); without <- bygls(1:3)
rows <- function(account, f) data.frame(account = account, what = c(paste0("mean_", colnames(X)[seq_along(f$mean)]),
  paste0("sd_", colnames(X)[seq_along(f$sd)]), "log_likelihood"), value = sprintf("%.12g", c(f$mean, f$sd, f$logl)))
write.csv(rbind(rows("with", with), rows("without", without)), "values.csv", row.names = FALSE, quote = FALSE)
