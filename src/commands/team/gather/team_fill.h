/* One lifter's tables into the store. Columns are those of the CSV by name, as far as the store's tables have them.
 * False: an error of the store's, or a file that cannot be read. */
#ifndef TAUTLINE_COMMANDS_TEAM_FILL_H
#define TAUTLINE_COMMANDS_TEAM_FILL_H

#include "commands/team/gather/team_gather.h"

bool fill_lifter(struct gathering *gathering,
                 const struct team_lifter *lifter); /* all of it, in place of what was there */
void fill_files(struct gathering *gathering, const struct team_lifter *lifter); /* its logs' digests */
bool fill_recalled(struct gathering *gathering);                                /* the findings of DIR/findings.csv */
void fill_end(struct gathering *gathering);
/* Which of those alike, of one id, lift and day, this one is, from 1; `numbers` counts them. */
size_t finding_number(struct arena *arena, struct map *numbers, const char *lifter, const struct csv_row *row);

#endif
