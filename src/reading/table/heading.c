#include "reading/table/heading.h"

#include "base/text.h"
#include "reading/lift_names.h"

#include <string.h>
#include <strings.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c & 0x80);
}

/* --- numbers of sets ----------------------------------------------------------------------------------------------- */

struct numbered
{
    unsigned number;
    const char *rest; /* the header without it, and without the word "set" if another word remains */
    bool is_set;
};

/* "2", "2nd", "#2", "S2", "set2", "kg.2": a word that ends in a number. Brackets are ignored: RPE (1-10). */
static bool number_of_word(const char *word, size_t length, unsigned *number, size_t *letters)
{
    size_t digits = 0, end = length;
    if (length > 2 && is_digit(*word) &&
        (!strncasecmp(word + length - 2, "st", 2) || !strncasecmp(word + length - 2, "nd", 2) ||
         !strncasecmp(word + length - 2, "rd", 2) || !strncasecmp(word + length - 2, "th", 2)))
        end = length - 2;
    while (digits < end && is_digit(word[end - 1 - digits]))
        digits++;
    if (!digits || digits > 2)
        return false;
    for (size_t i = 0; i < end - digits; i++)
        if (!is_letter(word[i]))
            return false;
    *letters = end - digits;
    *number = 0;
    for (size_t i = end - digits; i < end; i++)
        *number = *number * 10 + (unsigned)(word[i] - '0');
    return *number >= 1 && *number <= HEADING_MOST_SETS && (!*letters || end == length);
}

static bool is_set_word(const char *word, size_t length)
{
    static const char *const words[] = {"set", "sets", "s", "no", "of", "number", "working", "work"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i]) == length && !strncasecmp(words[i], word, length))
            return true;
    return false;
}

/* The letters of "W2" and "R2" mean words that they are not a synonym of elsewhere. */
static const char *letters_meant(struct arena *arena, const char *word, size_t length)
{
    if (length == 1 && (*word | 0x20) == 'w')
        return "weight";
    if (length == 1 && (*word | 0x20) == 'r')
        return "reps";
    return arena_text(arena, word, length);
}

static bool take_number(struct arena *arena, const char *text, struct numbered *numbered)
{
    static const char marks[] = " \t\n._-:;,/\\#*'\"";
    char *rest = arena_copy(arena, "");
    *numbered = (struct numbered){0};
    for (size_t length; *text; text += length) {
        size_t gap = strspn(text, marks), letters;
        const char *between = memchr(text, '/', gap) ? "/" : " "; /* chain/side */
        unsigned number;
        text += gap;
        length = *text && strchr("([{", *text) ? strcspn(text, ")]}") + 1 : strcspn(text, marks);
        if (length > strlen(text))
            length = strlen(text);
        if (!numbered->number && number_of_word(text, length, &number, &letters)) {
            numbered->number = number;
            if (letters && !is_set_word(text, letters))
                rest = arena_printf(arena, "%s %s", rest, letters_meant(arena, text, letters));
        } else if (!is_set_word(text, length)) {
            rest = arena_printf(arena, "%s%s%.*s", rest, between, (int)length, text);
        }
    }
    numbered->rest = text_squeeze(arena, rest);
    return numbered->number;
}

/* The number of a set and what it belongs to. With only a unit in brackets next to the number, it is the set: Set 2
 * (kg). */
static void read_number(struct arena *arena, const struct gym *gym, struct column_heading *heading)
{
    struct numbered numbered;
    if (!take_number(arena, heading->text, &numbered))
        return;
    struct column_use use = {.index = heading->use.index};
    enum log_field field = *numbered.rest ? column_field(numbered.rest, gym, &use) : FIELD_COUNT;
    bool only_bracket = strchr("([{", *numbered.rest) && use.unit_said && !strpbrk(numbered.rest + 1, "([{");
    if (!*numbered.rest || only_bracket) {
        heading->number = numbered.number;
        heading->is_set = true;
        heading->use = use;
    } else if (field != FIELD_COUNT && field != FIELD_DATE && field != FIELD_LIFT && field != FIELD_LIFTER &&
               field != FIELD_WEEK) {
        heading->number = numbered.number;
        heading->field = field;
        heading->use = use;
    } else if (use.planned) {
        heading->use.planned = true;
    }
}

/* --- weeks, dates, lifts ------------------------------------------------------------------------------------------- */

static unsigned week_of_text(struct arena *arena, const char *text)
{
    const char *folded = text_fold(arena, text);
    size_t word = text_starts(folded, "week") ? 4 : text_starts(folded, "wk") ? 2 : 0;
    unsigned week = 0;
    if (!word)
        return 0;
    folded += word + strspn(folded + word, " .#-:");
    size_t digits = strspn(folded, "0123456789");
    if (!digits || digits > 3 || folded[digits])
        return 0;
    for (size_t i = 0; i < digits; i++)
        week = week * 10 + (unsigned)(folded[i] - '0');
    return week <= HEADING_MOST_WEEKS ? week : 0;
}

bool heading_is_yearless(const char *text)
{
    return day_read_in_year(text, 2024).kind != DAY_UNREADABLE && day_read(text).kind == DAY_UNREADABLE;
}

static bool is_day(const char *text)
{
    enum written_day_kind kind = day_read(text).kind;
    return (kind != DAY_UNREADABLE && kind != DAY_IMPOSSIBLE && kind != DAY_FAR) || heading_is_yearless(text);
}

/* A lift of the gym file or a built-in one; "Squat (kg)" includes its unit, "Squat (2 chains/side)" its chains. */
static const char *known_lift(struct arena *arena, const struct gym *gym, const char *text,
                              struct column_heading *heading)
{
    size_t length = strcspn(text, "([{");
    const char *bare = text_squeeze(arena, arena_text(arena, text, length));
    if (gym_lift(gym, text) || builtin_lift(text_fold(arena, text)))
        return text;
    if (!*bare || !text[length] || (!gym_lift(gym, bare) && !builtin_lift(text_fold(arena, bare))))
        return NULL;
    size_t unit = strcspn(text + length + 1, ")]}");
    const char *word = text_squeeze(arena, arena_text(arena, text + length + 1, unit));
    heading->use.unit_said = mass_unit_read(word, strlen(word), &heading->use.unit);
    if (!heading->use.unit_said && column_gear(word).field != FIELD_COUNT)
        heading->ar = word;
    return heading->use.unit_said || heading->ar ? bare : NULL;
}

struct column_heading heading_read(struct arena *arena, const struct gym *gym, const char *text, size_t index)
{
    struct column_heading heading = {.text = text, .field = FIELD_COUNT, .use = {.index = index}};
    if (!*text)
        return heading;
    heading.field = column_field(text, gym, &heading.use);
    if (heading.field != FIELD_COUNT || heading.use.planned)
        return heading;
    heading.week = week_of_text(arena, text);
    heading.is_day = !heading.week && is_day(text);
    if (!heading.week && !heading.is_day)
        heading.lift = known_lift(arena, gym, text, &heading);
    if (!heading.week && !heading.is_day && !heading.lift)
        read_number(arena, gym, &heading);
    return heading;
}
