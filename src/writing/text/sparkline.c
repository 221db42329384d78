#include "writing/text/sparkline.h"

#include <math.h>
#include <string.h>

#define LEVELS 8

static const char *const blocks[LEVELS] = {"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
static const char *const ascii_marks[LEVELS] = {".", ":", "-", "=", "+", "*", "#", "@"}; /* from least to most ink */

/* The mean of the values that share one column; NAN: there is none. */
static double column_mean(const double *values, size_t count)
{
    double sum = 0;
    size_t finite = 0;
    for (size_t i = 0; i < count; i++) {
        if (isfinite(values[i])) {
            sum += values[i];
            finite++;
        }
    }
    return finite ? sum / (double)finite : (double)NAN;
}

static size_t level(double value, double low, double high)
{
    if (!(high > low))
        return LEVELS / 2 - 1;
    double at = (value - low) / (high - low) * LEVELS;
    return at < 0 ? 0 : at >= LEVELS ? LEVELS - 1 : (size_t)at;
}

char *sparkline(struct arena *arena, const double *values, size_t count, const struct sparkline_style *style)
{
    size_t columns = style->width && style->width < count ? style->width : count;
    double *means = ARENA_ARRAY(arena, double, columns);
    double low = style->from_zero ? 0 : (double)INFINITY, high = style->from_zero ? 0 : -(double)INFINITY;
    for (size_t i = 0; i < columns; i++) {
        size_t first = i * count / columns, after = (i + 1) * count / columns;
        means[i] = column_mean(values + first, after - first);
        low = fmin(low, means[i]); /* fmin and fmax ignore NAN */
        high = fmax(high, means[i]);
    }
    char *line = arena_alloc(arena, columns * strlen(blocks[0]) + 1), *end = line;
    for (size_t i = 0; i < columns; i++) {
        const char *mark = isnan(means[i]) ? " " : (style->ascii ? ascii_marks : blocks)[level(means[i], low, high)];
        end = stpcpy(end, mark);
    }
    return line;
}
