/* What a log's words say of the focus of a session: the five words, and others that the trade has for them. */
#ifndef TAUTLINE_MODEL_FOCUS_H
#define TAUTLINE_MODEL_FOCUS_H

#include "model/set.h"

struct focus_said
{
    enum focus focus; /* FOCUS_UNSAID: of a deload */
    bool light;       /* a deload: an easy week, of no focus of its own */
};

/* Each is false where no word says any, or two words say different ones; *said is then left empty. */

bool focus_at_start(const char *text, struct focus_said *said, size_t *length); /* *length: of the words, in bytes */
bool focus_in_name(const char *text, struct focus_said *said); /* of a workout or session: anywhere in it */
bool focus_in_note(const char *text, struct focus_said *said); /* as a clause of its own: "deload week, felt fresh" */

#endif
