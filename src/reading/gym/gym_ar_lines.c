/* The gym file's lines about chains and bands that logs leave out. */
#include "reading/gym/gym_ar_lines.h"

#include "base/text.h"
#include "model/set.h"
#include "reading/gym/gym_file.h"
#include "reading/gym/gym_values.h"

#include <string.h>

bool read_carry_ar(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    bool carries;
    if (!read_yes_no(reader, key, value, &carries))
        return false;
    *(bool *)target = !carries;
    return true;
}

/* 2026-03-02..2026-03-20, or a single day. */
static bool take_days(struct gym_reader *reader, const struct gym_key *key, const char **at, struct ar_line *line)
{
    const char *days = gym_skip_blanks(*at);
    size_t length = strcspn(days, " \t:");
    const char *written = arena_text(reader->own, days, length), *dots = strstr(written, "..");
    const char *first = dots ? arena_text(reader->own, written, (size_t)(dots - written)) : written;
    if (!date_read_iso(first, &line->first) || !date_read_iso(dots ? dots + 2 : written, &line->last))
        return gym_bad(reader, DIAG_GYM_VALUE, days, length, "write 2026-03-02..2026-03-20, or one day",
                       "%s: '%s' is not a range of days", key->name, written);
    if (line->first > line->last)
        return gym_bad(reader, DIAG_GYM_VALUE, days, length, "write the first day, then the last",
                       "%s: the last day is before the first", key->name);
    *at = days + length;
    return true;
}

static bool take_focus(struct gym_reader *reader, const struct gym_key *key, const char **at, struct ar_line *line)
{
    const char *word = gym_skip_blanks(*at);
    size_t length = strcspn(word, ":");
    const char *name = text_squeeze(reader->own, arena_text(reader->own, word, length));
    enum focus focus = FOCUS_UNSAID;
    if (*name && !focus_read(name, &focus))
        return gym_bad(reader, DIAG_GYM_VALUE, word, length, "the words are speed, strength, volume, skill and test",
                       "%s: '%s' is not a focus", key->name, name);
    line->focus = (uint8_t)focus;
    *at = word + length;
    return true;
}

/* "squat 2026-03-02..2026-03-20 speed : 2 chains/side"; the text after the colon is parsed with the logs, because it
 * uses their notation. */
bool read_ar_line(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct lifter_draft *draft = target;
    struct ar_draft ar = {.line.at = {reader->line}};
    if (!gym_take_lift(reader, key, &value, &ar.lift) || !take_days(reader, key, &value, &ar.line) ||
        !take_focus(reader, key, &value, &ar.line))
        return false;
    if (*value != ':' || !*gym_skip_blanks(value + 1))
        return gym_bad(reader, DIAG_GYM_VALUE, value, 0, "write LIFT DAY..DAY : 2 chains/side",
                       "%s: no chains or bands after a colon", key->name);
    ar.line.expression = arena_copy(reader->arena, gym_skip_blanks(value + 1));
    *LIST_ADD(reader->own, &draft->ar_lines) = ar;
    return true;
}
