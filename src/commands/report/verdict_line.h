/* A verdict in one line, for the first screen and for one printed page. The strings are owned by the arena. */
#ifndef TAUTLINE_COMMANDS_REPORT_VERDICT_LINE_H
#define TAUTLINE_COMMANDS_REPORT_VERDICT_LINE_H

#include "analysis/verdict.h"
#include "base/unit.h"

#define STALLED_WAVES 6 /* waves without change that call for a decision */

enum verdict_rank /* what needs a decision comes first */
{
    RANK_FALLING,
    RANK_STALLED,
    RANK_NEW_SETUP,
    RANK_STALE,
    RANK_RISING,
    RANK_REST /* shown if there is room, otherwise counted */
};

enum verdict_rank verdict_rank(const struct verdict *verdict);
/* "falling", "stalled", "new set-up", ...: in a word or two, used in counts and on a card. */
const char *verdict_short(const struct verdict *verdict);
/* "rising: +2.4 kg a wave at bottom and top since 12 Jan 2026" */
const char *verdict_line(struct arena *arena, const struct verdict *verdict, enum mass_unit unit);
/* The same as a sentence with its day: "Rising: +2.4 kg a wave at bottom and top since 12 Jan 2026 (as of 1 Nov 2026)."
 */
const char *verdict_line_dated(struct arena *arena, const struct verdict *verdict, enum mass_unit unit);
/* The same for so many columns: what says least (since when, what came before) is left out first, then it is cut. */
const char *verdict_line_within(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, size_t width);

/* "+2.4 kg", "-1 kg", "0 kg"; one decimal, or none if that decimal is 0. */
const char *signed_load_words(struct arena *arena, double kg, enum mass_unit unit);
const char *load_number(struct arena *arena, double kg,
                        enum mass_unit unit); /* the same without sign and unit: "57.5" */

/* All verdicts of one lifter, by rank, those with chains and bands first; NULL-terminated. */
const struct verdict *const *verdicts_ranked(struct arena *arena, const struct verdict *verdicts, size_t count,
                                             const char *lifter);

#endif
