# Slopes, intervals, p-values, medians and regressions of the sample year by R's own functions and by definitions written out here, held
# against what tautline prints. Rscript reference.R TREND.csv SLOPES.csv LOADS.csv VELOCITY.csv
files <- commandArgs(TRUE)
trend <- read.csv(files[1]); slopes <- read.csv(files[2]); loads <- read.csv(files[3]); velocity <- read.csv(files[4])
passed <- 0; failed <- 0
same <- function(what, ours, theirs, tolerance = 1e-6) {
    good <- (is.na(ours) && is.na(theirs)) || isTRUE(abs(ours - theirs) <= tolerance * max(1, abs(theirs)))
    if (good) passed <<- passed + 1 else { failed <<- failed + 1; cat("FAIL:", what, ours, "reference", theirs, "\n") }
}
measures <- c("volume_mean_kg", "intensity_mean", "peak_straight_kg", "peak_top_kg")
for (i in seq_len(nrow(slopes))) {
    row <- slopes[i, ]
    weeks <- trend[trend$lifter == row$lifter & trend$lift == row$lift, ]
    x <- seq_len(nrow(weeks)); y <- weeks[[row$measure]]
    keep <- !is.na(y); x <- x[keep]; y <- y[keep]
    what <- paste(row$lifter, row$lift, row$measure)
    same(paste(what, "points"), row$weeks, length(y))
    same(paste(what, "median"), row$median, median(y))
    if (length(y) < 4) next
    pairs <- combn(length(y), 2)
    all <- sort((y[pairs[2, ]] - y[pairs[1, ]]) / (x[pairs[2, ]] - x[pairs[1, ]]))
    same(paste(what, "Theil-Sen slope"), row$slope, median(all))
    # Mann and Kendall's p: R's test of Kendall's tau without the exact distribution, with continuity correction
    kendall <- suppressWarnings(cor.test(x, y, method = "kendall", exact = FALSE, continuity = TRUE))
    if (length(unique(y)) > 1) same(paste(what, "Mann-Kendall p"), row$p, kendall$p.value, 1e-6)
    # Sen's interval as defined: ranks (N - C)/2 and (N + C)/2 + 1 of the sorted slopes, C = z sqrt(Var S) with ties
    n <- length(y); ties <- table(y)
    variance <- (n * (n - 1) * (2 * n + 5) - sum(ties * (ties - 1) * (2 * ties + 5))) / 18
    c95 <- qnorm(0.975) * sqrt(variance)
    half_up <- function(v) floor(v + 0.5)
    low <- half_up((length(all) - c95) / 2); high <- half_up((length(all) + c95) / 2) + 1
    enough <- low >= 1 && high <= length(all) # below rank 1 there is no interval
    same(paste(what, "Sen's lower limit"), row$low, if (enough) all[low] else NA)
    same(paste(what, "Sen's upper limit"), row$high, if (enough) all[high] else NA)
}
# The share of all orders of whole waves with an |S| at least as large: signs[i, j] is what S gains where i comes before j
orders_of <- function(v) if (length(v) == 1) matrix(v) else do.call(rbind, lapply(seq_along(v), function(i) cbind(v[i], orders_of(v[-i]))))
exact_p <- function(seasons, waves, s) {
    signs <- matrix(0, length(waves), length(waves))
    for (v in seasons) { at <- match(v$wave, waves); signs[at, at] <- signs[at, at] + sign(outer(v$y, v$y, function(a, b) b - a)) }
    orders <- orders_of(seq_along(waves)); all <- numeric(nrow(orders))
    for (i in seq_along(waves)) for (j in seq_along(waves)) if (i < j) all <- all + signs[cbind(orders[, i], orders[, j])]
    mean(abs(all) >= abs(s))
}
# Waves: one point per wave by cor.test(); every week by the seasonal Kendall test, written out here
if (length(files) >= 7) {
    waves <- read.csv(files[6]); wave_slopes <- read.csv(files[7])
    ties_variance <- function(y) { n <- length(y); t <- table(y); (n * (n - 1) * (2 * n + 5) - sum(t * (t - 1) * (2 * t + 5))) / 18 }
    s_of <- function(y) { d <- outer(y, y, function(a, b) sign(b - a)); sum(d[upper.tri(d)]) }
    covariance <- function(a, b) { # data frames of wave and y
        both <- merge(a, b, by = "wave"); n <- nrow(both)
        if (n < 5) return(0)
        d <- outer(both$y.x, both$y.x, "-") * outer(both$y.y, both$y.y, "-")
        (sum(sign(d[upper.tri(d)])) + 4 * sum(rank(both$y.x) * rank(both$y.y)) - n * (n + 1)^2) / 3
    }
    for (i in seq_len(nrow(wave_slopes))) {
        row <- wave_slopes[i, ]
        mine <- waves[waves$lifter == row$lifter & waves$lift == row$lift & waves$focus == row$focus, ]
        what <- paste(row$lifter, row$lift, row$focus, row$measure)
        end <- sub("_.*", "", row$measure)
        if (end %in% c("first", "last")) {
            mine <- mine[order(mine$wave, mine$step), ]
            of_wave <- split(mine[[sub("^[a-z]*_", "", row$measure)]], mine$wave)
            y <- sapply(of_wave, function(v) if (end == "first") v[1] else v[length(v)]); x <- as.numeric(names(of_wave))
            keep <- !is.na(y); x <- x[keep]; y <- y[keep]
            if (length(y) >= 4 && length(unique(y)) > 1)
                same(paste(what, "p"), row$p, suppressWarnings(cor.test(x, y, method = "kendall", exact = FALSE, continuity = TRUE))$p.value, 1e-6)
            next
        }
        mine <- mine[is.na(mine$set_aside) | mine$set_aside != "yes", ]; mine$y <- mine[[row$measure]]
        mine <- mine[!is.na(mine$y), ]
        seasons <- Filter(function(s) nrow(s) > 1, split(mine[c("wave", "y")], mine$step))
        if (!length(seasons) || is.na(row$p)) next
        seasons <- lapply(seasons, function(s) s[order(s$wave), ])
        s <- sum(sapply(seasons, function(v) s_of(v$y)))
        alone <- sum(sapply(seasons, function(v) ties_variance(v$y))); together <- 0
        for (g in seq_along(seasons)) for (h in seq_along(seasons)) if (g < h) together <- together + 2 * covariance(seasons[[g]], seasons[[h]])
        variance <- max(alone + together, alone / 2)
        waves_in <- sort(unique(unlist(lapply(seasons, function(v) v$wave))))
        p <- if (length(waves_in) %in% 5:8) exact_p(seasons, waves_in, s) else min(1, 2 * pnorm(-max(abs(s) - 1, 0) / sqrt(variance)))
        same(paste(what, "seasonal Kendall p"), row$p, p, 1e-6)
        slopes_within <- unlist(lapply(seasons, function(v) { k <- combn(nrow(v), 2); (v$y[k[2, ]] - v$y[k[1, ]]) / (v$wave[k[2, ]] - v$wave[k[1, ]]) }))
        same(paste(what, "seasonal slope"), row$slope, median(slopes_within))
    }
}
# Volume load of each lifter and lift, out of the sets themselves
work <- loads[loads$kind == "work" & !is.na(loads$mean_kg) & loads$reps > 0, ]
for (key in unique(paste(work$lifter, work$lift, sep = "\n"))) {
    sets <- work[paste(work$lifter, work$lift, sep = "\n") == key, ]
    if (any(is.na(loads$mean_kg[paste(loads$lifter, loads$lift, sep = "\n") == key & loads$kind == "work"]))) next
    weeks <- trend[paste(trend$lifter, trend$lift, sep = "\n") == key, ]
    same(paste(sub("\n", " ", key), "volume of the year"), sum(weeks$volume_mean_kg), sum(sets$reps * sets$mean_kg), 1e-6)
    same(paste(sub("\n", " ", key), "repetitions of the year"), sum(weeks$lifts), sum(sets$reps))
}
# The lifter's own line of load on velocity, by lm()
if (nrow(velocity) > 0) {
    sets <- read.csv(files[5])
    sets <- sets[sets$kind == "work" & sets$lift == "squat" & !is.na(sets$velocity) & (is.na(sets$ar) | sets$ar == ""), ]
    sets <- sets[!duplicated(sets$line), ] # a velocity is a line's, however many sets it holds
    line <- lm(straight_kg ~ velocity, sets)
    fit <- summary(line)
    for (i in which(velocity$lift == "squat" & !is.na(velocity$at_ms))) {
        row <- velocity[i, ]
        at <- predict(line, data.frame(velocity = row$at_ms), interval = "confidence", level = 0.95)
        same("load-velocity intercept", row$intercept_kg, fit$coefficients[1, 1])
        same("load-velocity slope", row$slope_kg, fit$coefficients[2, 1])
        same("load-velocity slope's standard error", row$slope_se_kg, fit$coefficients[2, 2])
        same("load-velocity R squared", row$r2, fit$r.squared)
        same("load-velocity residual", row$residual_kg, fit$sigma)
        same("load-velocity mean", row$load_kg, at[1])
        same("load-velocity lower limit", row$load_low_kg, at[2])
        same("load-velocity upper limit", row$load_high_kg, at[3])
    }
}
cat(passed, "passed,", failed, "failed\n")
quit(status = failed > 0 || passed == 0)
