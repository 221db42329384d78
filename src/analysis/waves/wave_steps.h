/* Which step of the lifter's own pattern each week of a wave is, and which weeks are off their place in it. Pure;
 * only for wave_cuts.c. */
#ifndef TAUTLINE_ANALYSIS_WAVE_STEPS_H
#define TAUTLINE_ANALYSIS_WAVE_STEPS_H

#include "analysis/waves/wave_cuts.h"

/* Determines the steps in the waves of one series; list[0] is the week with the number `first`.
 *
 * A wave that is shorter than the whole waves near it (four on each side, without missing weeks or weeks set aside),
 * and that has weeks missing in it or before it, is matched with the pattern. The pattern is the median load of each
 * step, over those near waves that have the most frequent length, each extrapolated to this wave by their own growth
 * from wave to wave (the median over their pairs). Of all positions for which the calendar has room, the wave takes the
 * one where the loads differ least: mean |ln(load / pattern)| + 0.01 for each step left out. */
void place_steps(struct wave_week *list, size_t first, const struct marked_wave *waves, size_t count);

/* Sets aside each week whose load is off its place by more than 5 % and more than four times the usual scatter: the
 * residual of ln(load) after a median polish (Tukey 1977, Exploratory Data Analysis) by wave and step over three
 * waves on each side, compared with 1.4826 times the median of the residuals' sizes. Needs at least three waves; a
 * step that only two of them have, or a wave of one week, is not judged. */
void set_aside_off_place(struct wave_week *list, size_t first, const struct marked_wave *waves, size_t count);

#endif
