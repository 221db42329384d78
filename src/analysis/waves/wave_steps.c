#include "analysis/waves/wave_steps.h"

#include "analysis/statistics/statistics.h"

#include <gsl/gsl_statistics_double.h>

#include <math.h>

#define NEAR_WAVES 4       /* on each side: they define the pattern */
#define LEFT_OUT_COST 0.01 /* per step: the simpler placement wins unless the loads decide */
#define POLISH_WAVES 3     /* on each side */
#define POLISH_ROUNDS 6
#define LEAST_CELLS 3  /* of a step */
#define LEAST_OFF 0.05 /* as ln: smaller deviations are normal when training by feel */
#define OFF_DEVIATIONS 4
#define NORMAL_SCALE 1.4826 /* median of absolute values to standard deviation */

struct laid /* the waves of one series */
{
    struct wave_week *list; /* list[wave.first - first] is its first week */
    size_t first;
    const struct marked_wave *waves;
    size_t count;
    struct arena *scratch;
};

static struct wave_week *week_of_wave(const struct laid *laid, size_t wave, size_t i)
{
    return &laid->list[laid->waves[wave].first - laid->first + i];
}

static size_t length_of(const struct laid *laid, size_t wave)
{
    return laid->waves[wave].count;
}

static week_number first_week(const struct laid *laid, size_t wave)
{
    return week_of_wave(laid, wave, 0)->week;
}

static week_number last_week(const struct laid *laid, size_t wave)
{
    return week_of_wave(laid, wave, length_of(laid, wave) - 1)->week;
}

/* --- the place in the pattern --------------------------------------------------------------------------------------------------- */

static bool has_aside(const struct laid *laid, size_t wave)
{
    for (size_t i = 0; i < length_of(laid, wave); i++)
        if (week_of_wave(laid, wave, i)->aside)
            return true;
    return false;
}

struct pattern
{
    const double *load_kg; /* by step */
    size_t length;         /* 0: there is no pattern */
};

/* The whole waves near `wave`; returns how many. */
static size_t whole_waves_near(const struct laid *laid, size_t wave, size_t near[2 * NEAR_WAVES])
{
    size_t count = 0;
    for (size_t i = wave > NEAR_WAVES ? wave - NEAR_WAVES : 0; i < laid->count && i <= wave + NEAR_WAVES; i++)
        if (i != wave && last_week(laid, i) - first_week(laid, i) == (week_number)length_of(laid, i) - 1 &&
            !has_aside(laid, i))
            near[count++] = i;
    return count;
}

/* The most frequent length, the first if tied. */
static size_t commonest_length(const struct laid *laid, const size_t *waves, size_t count)
{
    size_t length = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        size_t alike = 0;
        for (size_t j = 0; j < count; j++)
            alike += length_of(laid, waves[j]) == length_of(laid, waves[i]);
        if (alike > most) {
            most = alike;
            length = length_of(laid, waves[i]);
        }
    }
    return length;
}

static double step_kg(const struct laid *laid, size_t wave, size_t step)
{
    return week_of_wave(laid, wave, step)->load_kg[LOAD_STRAIGHT];
}

/* How ln(load) grows from wave to wave: the median over the pairs of those waves that have the length. */
static double growth_of(const struct laid *laid, const size_t *waves, size_t count, size_t length)
{
    double slopes[NEAR_WAVES * 2 * (2 * NEAR_WAVES - 1)];
    size_t pairs = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++) {
            double sum = 0;
            if (length_of(laid, waves[i]) != length || length_of(laid, waves[j]) != length)
                continue;
            for (size_t step = 0; step < length; step++)
                sum += log(step_kg(laid, waves[j], step) / step_kg(laid, waves[i], step));
            slopes[pairs++] = sum / (double)length / (double)(waves[j] - waves[i]);
        }
    return pairs ? median_of(slopes, pairs) : 0;
}

static struct pattern pattern_near(const struct laid *laid, size_t wave)
{
    size_t near[2 * NEAR_WAVES], count = whole_waves_near(laid, wave, near);
    size_t length = commonest_length(laid, near, count);
    double *pattern = ARENA_ARRAY(laid->scratch, double, length), loads[2 * NEAR_WAVES],
           growth = growth_of(laid, near, count, length);
    for (size_t step = 0; step < length; step++) {
        size_t known = 0;
        for (size_t i = 0; i < count; i++)
            if (length_of(laid, near[i]) == length)
                loads[known++] = step_kg(laid, near[i], step) * exp(growth * ((double)wave - (double)near[i]));
        pattern[step] = median_of(loads, known);
    }
    return (struct pattern){pattern, length};
}

/* The step, from 1, of the wave's week `i` if `shift` steps at its beginning and `use` in its missing weeks were left
 * out. */
static size_t step_at(const struct laid *laid, size_t wave, size_t i, size_t shift, size_t use)
{
    size_t missing = (size_t)(week_of_wave(laid, wave, i)->week - first_week(laid, wave)) - i;
    return 1 + i + shift + (missing < use ? missing : use);
}

static double cost_of(const struct laid *laid, size_t wave, const struct pattern *pattern, size_t shift, size_t use)
{
    double sum = 0;
    size_t count = 0, length = length_of(laid, wave);
    if (step_at(laid, wave, length - 1, shift, use) > pattern->length)
        return INFINITY;
    for (size_t i = 0; i < length; i++) {
        const struct wave_week *week = week_of_wave(laid, wave, i);
        if (week->aside)
            continue;
        sum += fabs(log(week->load_kg[LOAD_STRAIGHT] / pattern->load_kg[step_at(laid, wave, i, shift, use) - 1]));
        count++;
    }
    return (count ? sum / (double)count : 0) + LEFT_OUT_COST * (double)(shift + use);
}

static void place_wave(const struct laid *laid, size_t wave)
{
    struct pattern pattern = pattern_near(laid, wave);
    week_number before = wave ? first_week(laid, wave) - week_of_wave(laid, wave, 0)[-1].week - 1
                              : 0; /* a light week does not count as missed */
    size_t length = length_of(laid, wave), room = before > 0 ? (size_t)before : 0;
    size_t holes = (size_t)(last_week(laid, wave) - first_week(laid, wave)) + 1 - length, best_shift = 0, best_use = 0;
    double best = INFINITY;
    if (length >= pattern.length || (!holes && !room))
        return;
    room = room < pattern.length ? room : pattern.length;
    for (size_t shift = 0; shift <= room; shift++)
        for (size_t use = 0; use <= holes; use++) {
            double cost = cost_of(laid, wave, &pattern, shift, use);
            if (cost < best) {
                best = cost;
                best_shift = shift;
                best_use = use;
            }
        }
    for (size_t i = 0; best < INFINITY && i < length; i++)
        week_of_wave(laid, wave, i)->step = (unsigned)step_at(laid, wave, i, best_shift, best_use);
}

void place_steps(struct wave_week *list, size_t first, const struct marked_wave *waves, size_t count)
{
    struct laid laid = {list, first, waves, count, arena_new()};
    for (size_t wave = 0; wave < count; wave++) {
        place_wave(&laid, wave);
        arena_reset(laid.scratch);
    }
    arena_free(laid.scratch);
}

/* --- weeks off their place -------------------------------------------------------------------------------------------------------- */

struct cell
{
    struct wave_week *week;
    double rest; /* of ln(load), not explained by wave and step */
};

struct cells
{
    struct cell *items;
    size_t count;
    double *values; /* room for as many, and for as many cells of one row */
    struct cell **row;
};

static unsigned axis_of(const struct cell *cell, bool by_step)
{
    return by_step ? cell->week->step : cell->week->wave;
}

/* Subtracts the median of each wave, or of each step, from its cells. */
static void polish(struct cells *cells, bool by_step, unsigned least, unsigned most)
{
    for (unsigned value = least; value <= most; value++) {
        size_t count = 0;
        for (size_t i = 0; i < cells->count; i++)
            if (axis_of(&cells->items[i], by_step) == value) {
                cells->row[count] = &cells->items[i];
                cells->values[count++] = cells->items[i].rest;
            }
        double middle = count ? gsl_stats_median(cells->values, 1, count) : 0;
        for (size_t i = 0; i < count; i++)
            cells->row[i]->rest -= middle;
    }
}

static struct cells cells_near(const struct laid *laid, size_t wave)
{
    size_t from = wave > POLISH_WAVES ? wave - POLISH_WAVES : 0,
           to = wave + POLISH_WAVES < laid->count ? wave + POLISH_WAVES : laid->count - 1, room = 0;
    for (size_t i = from; i <= to; i++)
        room += length_of(laid, i);
    struct cells cells = {ARENA_ARRAY(laid->scratch, struct cell, room), 0, ARENA_ARRAY(laid->scratch, double, room),
                          ARENA_ARRAY(laid->scratch, struct cell *, room)};
    for (size_t i = from; i <= to; i++)
        for (size_t j = 0; j < length_of(laid, i); j++) {
            struct wave_week *week = week_of_wave(laid, i, j);
            if (!week->aside)
                cells.items[cells.count++] = (struct cell){week, log(week->load_kg[LOAD_STRAIGHT])};
        }
    return cells;
}

static void polish_all(struct cells *cells, unsigned wave)
{
    unsigned steps = 0;
    for (size_t i = 0; i < cells->count; i++)
        steps = cells->items[i].week->step > steps ? cells->items[i].week->step : steps;
    for (int round = 0; round < POLISH_ROUNDS; round++) {
        polish(cells, true, 1, steps);
        polish(cells, false, wave > POLISH_WAVES ? wave - POLISH_WAVES : 1, wave + POLISH_WAVES);
    }
}

static double spread_of(const struct cells *cells)
{
    for (size_t i = 0; i < cells->count; i++)
        cells->values[i] = fabs(cells->items[i].rest);
    return NORMAL_SCALE * gsl_stats_median(cells->values, 1, cells->count);
}

static bool tells_nothing(const struct cells *cells, const struct cell *cell)
{
    size_t of_step = 0, of_wave = 0;
    for (size_t i = 0; i < cells->count; i++) {
        of_step += cells->items[i].week->step == cell->week->step;
        of_wave += cells->items[i].week->wave == cell->week->wave;
    }
    return of_step < LEAST_CELLS || of_wave < 2;
}

/* The results go into `off`, not into the weeks: finding one week must not keep another from being found. */
static void find_off_place(const struct laid *laid, size_t wave, bool *off)
{
    struct cells cells = cells_near(laid, wave);
    if (!cells.count)
        return;
    unsigned number = (unsigned)wave + 1;
    polish_all(&cells, number);
    double limit = fmax(LEAST_OFF, OFF_DEVIATIONS * spread_of(&cells));
    for (size_t i = 0; i < cells.count; i++) {
        const struct cell *cell = &cells.items[i];
        if (cell->week->wave == number && fabs(cell->rest) > limit && !tells_nothing(&cells, cell))
            off[cell->week - laid->list] = true;
    }
}

void set_aside_off_place(struct wave_week *list, size_t first, const struct marked_wave *waves, size_t count)
{
    if (count < LEAST_CELLS)
        return;
    struct arena *arena = arena_new();
    struct laid laid = {list, first, waves, count, arena_new()};
    size_t weeks = waves[count - 1].first + waves[count - 1].count - first;
    bool *off = ARENA_ARRAY(arena, bool, weeks);
    for (size_t wave = 0; wave < count; wave++) {
        find_off_place(&laid, wave, off);
        arena_reset(laid.scratch);
    }
    for (size_t i = 0; i < weeks; i++)
        list[i].aside |= off[i];
    arena_free(laid.scratch);
    arena_free(arena);
}
