/* Remarks that can be made only after everything is read: gear and set-ups that the gym file does not define, loads
 * in % without a tested 1RM, sets without a weight. One remark per label, not per set. */
#ifndef TAUTLINE_COMMANDS_REMARKS_H
#define TAUTLINE_COMMANDS_REMARKS_H

#include "commands/session/session.h"

void remarks_add(struct session *session);

/* The same in parts, which may run in parallel: each part sees all training of some lifters; the parts are then
 * merged and finished as one. */
struct remarks;
struct remarks *remarks_new(struct arena *arena, struct session *session);
void remarks_see(struct remarks *remarks, const struct training *training); /* and the sets now in its log */
void remarks_join(struct remarks *remarks, const struct remarks *part);
void remarks_finish(struct remarks *remarks);

#endif
