/* The focus of sessions for which the log gives none, from the lift's own pattern over weeks. Pure. */
#ifndef TAUTLINE_ANALYSIS_FOCUS_H
#define TAUTLINE_ANALYSIS_FOCUS_H

#include "analysis/evaluated_set.h"
#include "analysis/training.h"

/* Gives all sets of a lifter's lift and day that have no logged focus the same one, that of the session's main work:
 * work-up sets belong to what they lead up to. The main work is the load with the most repetitions among those of at
 * least 80 % of the session's heaviest.
 *
 * - speed: three repetitions or fewer, in six sets or more, with at most 65 % of the current 1RM, or at most 78 % of
 *   the heaviest main work of the 28 days on each side: in a log without a tested 1RM, its own heavy days decide;
 * - volume: six repetitions or more; or up to five on the lighter of two such days within three days of each other, if
 *   the heavier one is at least 12 % heavier and the lift has such pairs in half of its weeks;
 * - strength: the rest.
 *
 * A session that is lighter than the heavy days near it and fits none of these rules (an easy week, a speed wave's
 * last) continues a series: of the sessions with another focus within 28 days, it takes the focus of the most similar
 * one. The distance is |ln(load ratio)| + 0.05 per weekday between them + 0.3 |ln(ratio of the repetitions)| + 0.3 if
 * only one of them has chains or bands. A session without them never continues speed work with them. */
void focus_by_pattern(struct training *training);

#endif
