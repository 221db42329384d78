/* DIR/night.json: what the last finished night knew and reported, so that the next one can report what is new. */
#ifndef TAUTLINE_COMMANDS_TEAM_TOLD_H
#define TAUTLINE_COMMANDS_TEAM_TOLD_H

#include "commands/team/gather/team_gather.h"

struct told *told_read(struct arena *arena, int root);
bool told_write(const struct team *team, const struct told *told);
bool told_is_new(struct arena *arena, struct told *told, const char *sentence); /* also marks it as reported */
void told_note_left(const struct team *team, const struct told *told, struct team_page *page);

#endif
