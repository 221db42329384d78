/* The way notebooks are kept: a lift alone on a line, and its sets on the lines below. */
#include "reading/text/text_headings.h"

#include "reading/text/text_patterns.h"

#include "base/text.h"

#include <string.h>

#define NAME_BYTES 60
#define NAME_WORDS 6

static size_t words_in(const char *text)
{
    size_t words = 0;
    for (text += strspn(text, " \t"); *text; text += strcspn(text, " \t"), text += strspn(text, " \t"))
        words++;
    return words;
}

static bool is_known_lift(struct text_log *log, const char *name)
{
    return gym_lift(log->reading->gym, name) || builtin_lift(text_fold(log->reading->scratch, name));
}

static bool has_lift_word(struct text_log *log, const char *name)
{
    struct text_match match;
    return text_finds(log->patterns, PATTERN_LIFT_WORD, log->decimal, name, strlen(name), 0, &match);
}

/* Prose must not be taken for a lift: a name counts if it is known, contains a lift's word, or comes first after a
 * blank line or a date. */
static bool is_lift(struct text_log *log, const char *name)
{
    return is_known_lift(log, name) || has_lift_word(log, name) ||
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

/* The end of text[at .. end) without the marks that may follow a name. */
static size_t without_marks(const char *text, size_t at, size_t end)
{
    while (end > at && strchr(" \t:-", text[end - 1]))
        end--;
    return end;
}

/* Could the bytes from `at` to `end` be only a lift's name? */
static bool is_name(struct text_log *log, size_t at, size_t end)
{
    struct text_match match;
    const char *name = arena_text(log->reading->scratch, log->text + at, end - at);
    return end > at && end - at <= NAME_BYTES && words_in(name) <= NAME_WORDS && !strpbrk(name, ":;+&=~@") &&
           !text_fits(log->patterns, PATTERN_WARM_UP, log->decimal, log->text, end, at, &match) &&
           !text_finds(log->patterns, PATTERN_LOAD_START, log->decimal, log->text, end, at, &match) &&
           !text_finds(log->patterns, PATTERN_TIMED, log->decimal, log->text, end, at, &match);
}

/* Chains or bands after the name: Box squat w/ 2 chains per side; Squat (2 x 7 kg chain/side). NULL: there are none;
 * else *name_end is the end of the name. */
static const char *ar_behind(struct text_log *log, size_t at, size_t end, size_t *name_end)
{
    static const char *const joins[] = {" w/", " with ", " + ", " & ", " plus ",
                                        " (",  ", ",     ": ",  " - ", " \xE2\x80\x93 "}; /* dash */
    struct load_fault fault;
    struct load_style style = {log->unit, log->decimal};
    size_t first = end, length = 0;
    for (size_t i = 0; i < sizeof joins / sizeof *joins; i++) {
        const char *found = strcasestr(log->text + at, joins[i]);
        if (found && (size_t)(found - log->text) < first) {
            first = (size_t)(found - log->text);
            length = strlen(joins[i]);
        }
    }
    if (first == end)
        return NULL;
    *name_end = without_marks(log->text, at, first);
    if (!is_name(log, at, *name_end)) /* a line of work, as most are: its load is not read here, too */
        return NULL;
    size_t from = first + length, to = end - (log->text[first + 1] == '(' && log->text[end - 1] == ')');
    const char *text = arena_text(log->reading->scratch, log->text + from, to > from ? to - from : 0);
    const struct load *load = ar_cell_read(log->reading->loads, text, AR_COLUMN_ANY, 0, style, &fault);
    return load && load->piece_count ? text : NULL;
}

bool text_take_heading(struct text_log *log)
{
    size_t at = text_line_start(log), end = without_marks(log->text, at, log->length), name_end;
    const char *ar = NULL;
    if (!is_name(log, at, end)) {
        ar = ar_behind(log, at, end, &name_end);
        if (!ar)
            return false;
        end = name_end;
    }
    const char *name = arena_text(log->reading->scratch, log->text + at, end - at);
    if (!is_lift(log, name))
        return false;
    text_end_heading(log);
    log->heading = (struct heading){.has_lift = true,
                                    .waiting = arena_copy(log->own, log->line_text),
                                    .name = arena_copy(log->own, name),
                                    .ar = ar ? arena_copy(log->own, ar) : NULL};
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
    *heading = (struct heading){.after_blank = heading->after_blank};
}

bool text_names_lift(struct text_log *log, const char *words)
{
    struct text_match match;
    if (!text_finds(log->patterns, PATTERN_LOAD_START, log->decimal, words, strlen(words), 1, &match))
        return false;
    const char *name = arena_text(log->reading->scratch, words, without_marks(words, 0, match.all.at));
    return is_known_lift(log, name) || (words_in(name) <= NAME_WORDS / 2 && has_lift_word(log, name));
}

void text_head_with(struct text_log *log, const char *words)
{
    if (is_known_lift(log, words))
        log->heading = (struct heading){.has_lift = true, .name = arena_copy(log->own, words), .after_blank = true};
}

uint32_t text_lift_above(struct text_log *log)
{
    struct heading *heading = &log->heading;
    if (heading->name)
        heading->number = lift_number(log->reading->lifts, heading->name, strlen(heading->name));
    heading->waiting = heading->name = NULL;
    return heading->number;
}
