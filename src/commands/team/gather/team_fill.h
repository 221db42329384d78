/* Fills the store from one lifter's tables. Columns of the CSV are matched by name; those that the store's tables do
 * not have are left out. False: an error of the store, or a file that cannot be read. */
#ifndef TAUTLINE_COMMANDS_TEAM_FILL_H
#define TAUTLINE_COMMANDS_TEAM_FILL_H

#include "commands/team/gather/team_gather.h"

bool fill_lifter(struct gathering *gathering, const struct team_lifter *lifter); /* replaces all that was there */
void fill_files(struct gathering *gathering, const struct team_lifter *lifter);  /* the digests of the lifter's logs */
bool fill_recalled(struct gathering *gathering); /* fills in the findings of DIR/findings.csv */
void fill_end(struct gathering *gathering);
/* Which one this is, from 1, among findings with the same id, lift and day; `numbers` counts them. */
size_t finding_number(struct arena *arena, struct map *numbers, const char *lifter, const struct csv_row *row);

#endif
