/* Where waves begin and end among the training weeks of one lifter, lift and focus. Pure; only for analysis/waves.c. */
#ifndef TAUTLINE_ANALYSIS_WAVE_CUTS_H
#define TAUTLINE_ANALYSIS_WAVE_CUTS_H

#include "analysis/waves.h"

struct marked_wave /* while the weeks may still move in memory: index of the first week and number of weeks in the list
                    */
{
    size_t first, count;
    enum wave_end end;
    size_t next; /* SIZE_MAX: none */
};

struct marked_waves
{
    struct arena *arena;
    LIST(struct marked_wave) list;
};

/* What is usual in a series, in weeks and kg. */
struct usual
{
    double longest_gap; /* weeks from Monday to Monday that a wave may skip at most: 2, or twice the usual interval, but
                           not more than 6; for tests 2 */
    double longest_step; /* half of it: beyond this a week was missed */
    double least_rise; /* two fifths of the usual rise from week to week, as a share; negative: too few rises to tell */
    double reps;       /* median of the weeks' repetitions with at least 80 % of the working load */
};

struct usual usual_of(const struct wave_week *weeks, size_t count);

/* Marks `aside` and `light`, numbers the waves from 1 and their weeks from step 1, and adds the waves to `marked`.
 * weeks[0 .. count) is one series, all weeks of it, by week; `first` is the index of the first one in the list.
 *
 * Aside: a week more than 12 % above all, or below 62 % of all, of the four training weeks on each side (at least
 * three); at either end of the log 25 % and 50 %. A low week is rest and not aside if it has at most 62 % of the usual
 * repetitions, or if the load after it begins below that of the week before it. A week aside neither begins nor ends a
 * wave.
 *
 * A wave ends
 *   with a fall of the straight weight of more than 0.5 %, or of the top load at a straight weight that did not rise;
 *   with a light week;
 *   with a gap longer than 14 days and than twice the lift's usual interval (except for tests), or than six weeks;
 *   after a missed week, if the straight weight rises by less than two fifths of the usual rise.
 *
 * Light: not above the week before, at most 62 % of the median repetitions (counting those with at least 80 % of the
 * working load, which excludes work-up sets), and not followed by a fall of more than 2 %; or below the week before and
 * 15 % below the week after, if other waves do not begin so low (see begins_waves()). A run of one week is not a
 * wave. */
void mark_waves(struct wave_week *weeks, size_t first, size_t count, struct marked_waves *marked);

#define WAVE_FALL 0.005 /* of the load: a smaller drop is not a fall */
bool load_fell(double before_kg, double after_kg, double share);

#endif
