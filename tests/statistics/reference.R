# The statistics of tables of holes by R: Rscript reference.R FILE.csv ...
# Prints a line "file name value" for each; names as in `driftbench stats --json`, joined by dots.

level <- 0.95
say <- function(file, name, value) cat(file, name, format(value, digits = 17), "\n")

group <- function(file, holes) {
  approach <- holes$approach[1]
  points <- as.matrix(holes[, c("entry_md_mm", "entry_bl_mm")])
  points <- points[complete.cases(points), ]
  n <- nrow(points)
  covariance <- cov(points)
  t2 <- as.numeric(mahalanobis(rep(0, 2), colMeans(points), covariance)) * n
  f <- (n - 2) / (2 * (n - 1)) * t2
  axes <- eigen(covariance, symmetric = TRUE)$values
  k <- sqrt(2 * (n - 1) / (n * (n - 2)) * qf(level, 2, n - 2))
  values <- c(n = n, bias_md_mm = mean(points[, 1]), bias_bl_mm = mean(points[, 2]), sd_md_mm = sd(points[, 1]),
              sd_bl_mm = sd(points[, 2]), hotelling.t2 = t2, hotelling.f = f,
              hotelling.p = pf(f, 2, n - 2, lower.tail = FALSE))
  if (n >= 6) {
    values <- c(values, mean_ellipse.semi_major_mm = k * sqrt(axes[1]), mean_ellipse.semi_minor_mm = k * sqrt(axes[2]),
                prediction_ellipse.semi_major_mm = k * sqrt((n + 1) * axes[1]))
  }
  whole <- holes[complete.cases(holes$distance), ]
  squares <- summary(aov(distance ~ factor(operator), data = whole))[[1]][["Mean Sq"]]
  counts <- as.numeric(table(factor(whole$operator)))
  each <- (sum(counts) - sum(counts^2) / sum(counts)) / (length(counts) - 1)
  between <- max(0, (squares[1] - squares[2]) / each)
  values <- c(values, iso5725.repeatability_sd_mm = sqrt(squares[2]),
              iso5725.reproducibility_sd_mm = sqrt(squares[2] + between))
  for (name in names(values)) say(file, paste0(approach, ".", name), values[[name]])
}

pairs_of <- function(file, holes) {
  means <- tapply(holes$distance, list(holes$operator, holes$approach), mean, na.rm = TRUE)
  means <- means[is.finite(means[, "freehand"]) & is.finite(means[, "sleeve"]), ]
  test <- t.test(means[, "freehand"], means[, "sleeve"], paired = TRUE, conf.level = level)
  ranks <- wilcox.test(means[, "freehand"], means[, "sleeve"], paired = TRUE, exact = TRUE)
  say(file, "paired.operators", nrow(means))
  say(file, "paired.mean_difference_mm", test$estimate[[1]])
  say(file, "paired.t", test$statistic[[1]])
  say(file, "paired.p", test$p.value)
  say(file, "paired.wilcoxon.w", ranks$statistic[[1]])
  if (nrow(means) <= 20) say(file, "paired.wilcoxon.p_exact", ranks$p.value)
}

for (file in commandArgs(trailingOnly = TRUE)) {
  holes <- read.csv(file)
  holes$distance <- sqrt(holes$entry_md_mm^2 + holes$entry_bl_mm^2)
  for (one in split(holes, holes$approach)) group(file, one)
  pairs_of(file, holes)
}

for (difference in c(0.3, 0.5, 0.8, 1.2)) {
  for (power in c(0.8, 0.9)) {
    one <- power.t.test(delta = difference, sd = 0.7, sig.level = 0.05, power = power, type = "paired", strict = TRUE)
    two <- power.t.test(delta = difference, sd = 0.7, sig.level = 0.05, power = power, type = "two.sample", strict = TRUE)
    say("paired_size", paste(difference, power), ceiling(one$n))
    say("two_group_size", paste(difference, power), ceiling(two$n))
  }
}
