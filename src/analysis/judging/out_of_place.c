#include "analysis/judging/out_of_place.h"

#include <gsl/gsl_statistics_double.h>

#include <limits.h>
#include <math.h>
#include <stddef.h>

#define ROBUST 1.4826       /* a deviation from the median of deviations, where errors are normal */
#define NEAR_WAVES 3
#define SWEEPS 6            /* of the median polish, at most */
#define SETTLED 1e-9        /* of a logarithm: a sweep that moved less is the last */
#define LEAST_OFF 0.05      /* of the load: less is within what a lifter does by feel */
#define OFF_DEVIATIONS 4
#define LEAST_WAVES 3
#define LEAST_OF_STEP 3
#define LEAST_OF_WAVE 2

struct cell
{
    const struct placed_load *load;
    double rest; /* of the logarithm */
};

struct polish /* of the weeks near one wave */
{
    struct cell *cells;
    size_t count;
    double *values; /* room for as many */
};

static unsigned axis_of(const struct cell *cell, bool by_step)
{
    return by_step ? cell->load->step : cell->load->wave;
}

static double median_along(const struct polish *polish, bool by_step, unsigned line)
{
    size_t found = 0;
    for (size_t i = 0; i < polish->count; i++)
        if (axis_of(&polish->cells[i], by_step) == line)
            polish->values[found++] = polish->cells[i].rest;
    return found ? gsl_stats_median(polish->values, 1, found) : 0;
}

/* Returns the largest change. */
static double sweep(const struct polish *polish, bool by_step)
{
    unsigned first = UINT_MAX, last = 0;
    double most = 0;
    for (size_t i = 0; i < polish->count; i++) {
        unsigned line = axis_of(&polish->cells[i], by_step);
        first = line < first ? line : first;
        last = line > last ? line : last;
    }
    for (unsigned line = first; line <= last && polish->count; line++) {
        double middle = median_along(polish, by_step, line);
        for (size_t i = 0; i < polish->count; i++)
            if (axis_of(&polish->cells[i], by_step) == line)
                polish->cells[i].rest -= middle;
        most = fmax(most, fabs(middle));
    }
    return most;
}

static double robust_deviation(const struct polish *polish)
{
    for (size_t i = 0; i < polish->count; i++)
        polish->values[i] = fabs(polish->cells[i].rest);
    return ROBUST * gsl_stats_median(polish->values, 1, polish->count);
}

static bool has_company(const struct polish *polish, const struct placed_load *load)
{
    size_t of_step = 0, of_wave = 0;
    for (size_t i = 0; i < polish->count; i++) {
        of_step += polish->cells[i].load->step == load->step;
        of_wave += polish->cells[i].load->wave == load->wave;
    }
    return of_step >= LEAST_OF_STEP && of_wave >= LEAST_OF_WAVE;
}

static void judge_wave(const struct polish *polish, const struct placed_load *loads, unsigned wave, double *expected_kg)
{
    double change = INFINITY;
    if (!polish->count)
        return;
    for (int i = 0; i < SWEEPS && change > SETTLED; i++) {
        change = sweep(polish, true);
        change = fmax(change, sweep(polish, false));
    }
    double limit = fmax(LEAST_OFF, OFF_DEVIATIONS * robust_deviation(polish));
    for (size_t i = 0; i < polish->count; i++) {
        const struct cell *cell = &polish->cells[i];
        if (cell->load->wave == wave && fabs(cell->rest) > limit && has_company(polish, cell->load))
            expected_kg[cell->load - loads] = cell->load->kg * exp(-cell->rest);
    }
}

static bool is_cell(const struct placed_load *load)
{
    return load->wave && !load->left_out && load->kg > 0;
}

void find_out_of_place(struct arena *scratch, const struct placed_load *loads, size_t count, double *expected_kg)
{
    struct polish polish = {ARENA_ARRAY(scratch, struct cell, count), 0, ARENA_ARRAY(scratch, double, count)};
    unsigned waves = 0, before = 0;
    for (size_t i = 0; i < count; i++)
        expected_kg[i] = NAN;
    for (size_t i = 0; i < count; i++) /* loads are by wave */
        if (is_cell(&loads[i]) && loads[i].wave != before) {
            waves++;
            before = loads[i].wave;
        }
    for (size_t i = 0; waves >= LEAST_WAVES && i < count; i++) {
        unsigned wave = loads[i].wave;
        polish.count = 0;
        if (!wave || (i && loads[i - 1].wave == wave))
            continue;
        for (size_t j = 0; j < count; j++)
            if (is_cell(&loads[j]) && loads[j].wave + NEAR_WAVES >= wave && loads[j].wave <= wave + NEAR_WAVES)
                polish.cells[polish.count++] = (struct cell){&loads[j], log(loads[j].kg)};
        judge_wave(&polish, loads, wave, expected_kg);
    }
}
