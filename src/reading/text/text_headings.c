/* A notebook's manner: a lift alone on a line, and its sets on the lines below. */
#include "reading/text/text_headings.h"

#include "reading/text/text_patterns.h"

#include "base/text.h"

#include <string.h>

#define NAME_BYTES 60
#define NAME_WORDS 6

static bool finds(struct text_log *log, enum text_pattern pattern, size_t at)
{
    struct text_match match;
    return text_finds(log->patterns, pattern, log->decimal, log->text, log->length, at, &match);
}

static size_t words_in(const char *text)
{
    size_t words = 0;
    for (text += strspn(text, " \t"); *text; text += strcspn(text, " \t"), text += strspn(text, " \t"))
        words++;
    return words;
}

/* Prose is not taken for a lift: a name that is known, or holds a lift's word, or is first after a blank line or a
 * date. */
static bool is_lift(struct text_log *log, const char *name, size_t at)
{
    const char *folded = text_fold(log->reading->scratch, name);
    return builtin_lift(folded) || gym_lift(log->reading->gym, name) || finds(log, PATTERN_LIFT_WORD, at) ||
           (log->heading.after_blank && words_in(name) <= NAME_WORDS / 2);
}

size_t text_line_start(const struct text_log *log)
{
    static const char *const marks[] = {"- ", "* ", "\xE2\x80\xA2 ", "\xE2\x80\x93 "}; /* bullet, dash */
    size_t at = strspn(log->text, " \t");
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (text_starts(log->text + at, marks[i]))
            return at + strlen(marks[i]) + strspn(log->text + at + strlen(marks[i]), " \t");
    return at;
}

const char *text_hint_note(struct text_log *log, const char *written)
{
    return arena_printf(log->reading->scratch, "write 'note: %s', or LIFT LOAD: SETSxREPS, as in squat 100 kg: 3x5",
                        written);
}

bool text_take_heading(struct text_log *log)
{
    size_t at = text_line_start(log), end = log->length;
    struct text_match match;
    while (end > at && strchr(" \t:-", log->text[end - 1]))
        end--;
    const char *name = arena_text(log->reading->scratch, log->text + at, end - at);
    bool plain = end > at && end - at <= NAME_BYTES && words_in(name) <= NAME_WORDS && !strpbrk(name, ":;+&=~@");
    if (!plain || text_fits(log->patterns, PATTERN_WARM_UP, log->decimal, log->text, log->length, at, &match) ||
        finds(log, PATTERN_LOAD_START, at) || finds(log, PATTERN_TIMED, at) || !is_lift(log, name, at))
        return false;
    text_end_heading(log);
    log->heading = (struct heading){
        .has_lift = true, .waiting = arena_copy(log->own, log->line_text), .name = arena_copy(log->own, name)};
    log->heading.at = (struct place){.file = log->path,
                                     .line = log->line,
                                     .column = (uint32_t)text_characters(log->text, at) + 1,
                                     .length = (uint32_t)text_characters(log->text + at, end - at)};
    return true;
}

void text_end_heading(struct text_log *log)
{
    struct heading *heading = &log->heading;
    if (!heading->waiting)
        return;
    const char *hint = text_hint_note(log, heading->name);
    diag_add(log->reading->diags, DIAG_BAD_LINE, heading->at, heading->waiting, hint,
             "no load, no sets and repetitions");
    log->reading->log->files.items[log->file].refused++;
    heading->waiting = NULL;
    heading->has_lift = false;
}

uint32_t text_lift_above(struct text_log *log)
{
    struct heading *heading = &log->heading;
    if (heading->waiting)
        heading->number = lift_number(log->reading->lifts, heading->name, strlen(heading->name));
    heading->waiting = NULL;
    return heading->number;
}
