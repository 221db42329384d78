/* Findings about the gear itself, whoever uses it and however it hangs: gear that was never measured, or measured
 * long ago. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_MEASURED_H
#define TAUTLINE_ANALYSIS_FINDINGS_MEASURED_H

#include "analysis/findings/findings_maker.h"

/* Findings about the gear itself, listed under the first lift that used it: from the sets of one lifter, by day and
 * place. */
void find_of_gear(struct findings_maker *maker, const struct evaluated_set *sets, size_t count);

#endif
