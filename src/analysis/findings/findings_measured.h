/* Findings about gear itself, whoever lifts it and how it hangs: what was never measured, or measured long ago. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_MEASURED_H
#define TAUTLINE_ANALYSIS_FINDINGS_MEASURED_H

#include "analysis/findings/findings_maker.h"

/* What is about gear itself and is under the first lift that used it: the sets of one lifter, by day and place. */
void find_of_gear(struct findings_maker *maker, const struct evaluated_set *sets, size_t count);

#endif
