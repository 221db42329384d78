/* What can be said only once everything is read: gear and set-ups that the gym file does not know, loads in % without a tested 1RM, sets
 * without a weight. One remark for each label, not for each set. */
#ifndef TAUTLINE_COMMANDS_REMARKS_H
#define TAUTLINE_COMMANDS_REMARKS_H

#include "commands/session.h"

void remarks_add(struct session *session);

/* The same a lifter at a time, where the sets of the log come and go. */
struct remarks;
struct remarks *remarks_new(struct session *session);
void remarks_see(struct remarks *remarks, const struct training *training); /* and the sets now in the log */
void remarks_finish(struct remarks *remarks);

#endif
