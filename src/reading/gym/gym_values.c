#include "reading/gym/gym_values.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/columns.h"
#include "reading/day.h"
#include "reading/gym/gym_file.h"
#include "reading/gym/gym_keys.h"
#include "reading/gym/gym_reader.h"

#include <math.h>
#include <string.h>
#include <strings.h>

/* --- numbers with units ------------------------------------------------------------------------------------------ */

static const char *const quantity_names[] = {"mass", "length"};

const char *gym_skip_blanks(const char *text)
{
    return text + strspn(text, " \t");
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool gym_take_number(struct gym_reader *reader, const struct gym_key *key, const char **at, bool sign, double *number)
{
    const char *text = gym_skip_blanks(*at);
    bool minus = sign && *text == '-';
    text += minus || (sign && *text == '+');
    size_t used = number_prefix(text, strlen(text), '.', number);
    if (!used)
        return gym_bad(reader, DIAG_GYM_VALUE, text, 0, NULL,
                       *text ? "%s: '%s' is not a number" : "%s: a number is missing", key->name, text);
    if (text[used] == ',' && is_digit(text[used + 1]))
        return gym_bad(reader, DIAG_GYM_VALUE, text, 0, "write a decimal point", "%s: '%s' has a decimal comma",
                       key->name, text);
    *number = minus ? -*number : *number;
    *at = text + used;
    return true;
}

static bool unit_factor(const char *word, size_t length, enum quantity quantity, double *factor)
{
    enum mass_unit unit;
    if (quantity == LENGTH)
        return length_unit_read(word, length, factor);
    bool found = mass_unit_read(word, length, &unit);
    if (found)
        *factor = kg_from(1, unit);
    return found;
}

static size_t unit_length(const char *text)
{
    size_t length = strcspn(text, " \t,:;+-=0123456789.");
    return length;
}

bool gym_take_quantity(struct gym_reader *reader, const struct gym_key *key, const char **at, enum quantity quantity,
                       bool sign, double *value)
{
    const char *start = gym_skip_blanks(*at), *text = start;
    double number, factor, other;
    if (!gym_take_number(reader, key, &text, sign, &number))
        return false;
    size_t written = (size_t)(text - start);
    text = gym_skip_blanks(text);
    size_t length = unit_length(text);
    if (!length)
        return gym_bad(reader, DIAG_GYM_UNIT, start, written, NULL, "%s: %.*s has no unit", key->name, (int)written,
                       start);
    written = (size_t)(text + length - start);
    if (!unit_factor(text, length, quantity, &factor))
        return unit_factor(text, length, quantity == MASS ? LENGTH : MASS, &other)
                   ? gym_bad(reader, DIAG_GYM_UNIT, start, written, NULL, "%s: %.*s is a %s, but a %s is needed",
                             key->name, (int)written, start, quantity_names[quantity == MASS ? LENGTH : MASS],
                             quantity_names[quantity])
                   : gym_bad(reader, DIAG_GYM_UNIT, text, length, NULL, "%s: '%.*s' is not a unit of %s", key->name,
                             (int)length, text, quantity_names[quantity]);
    number *= factor;
    if (key->least < key->most && (number < key->least || number > key->most))
        return gym_bad(reader, DIAG_GYM_VALUE, start, written, NULL, "%s: %.*s is out of range (%g to %g %s)",
                       key->name, (int)written, start, key->least, key->most, quantity == MASS ? "kg" : "m");
    *value = number;
    *at = text + length;
    return true;
}

bool gym_at_end(struct gym_reader *reader, const struct gym_key *key, const char *text)
{
    text = gym_skip_blanks(text);
    return !*text ||
           gym_bad(reader, DIAG_GYM_VALUE, text, 0, NULL, "%s: there is '%s' after the value", key->name, text);
}

static bool read_one(struct gym_reader *reader, const struct gym_key *key, const char *text, enum quantity quantity,
                     bool sign, double *target)
{
    double value = NAN;
    if (!gym_take_quantity(reader, key, &text, quantity, sign, &value) || !gym_at_end(reader, key, text))
        return false;
    *target = value;
    return true;
}

bool read_mass(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    return read_one(reader, key, value, MASS, false, target);
}

bool read_length(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    return read_one(reader, key, value, LENGTH, false, target);
}

bool read_signed_length(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    return read_one(reader, key, value, LENGTH, true, target);
}

/* "1 %" to 0.01. */
bool read_percent(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    const char *text = value;
    double percent;
    if (!gym_take_number(reader, key, &text, false, &percent))
        return false;
    text = gym_skip_blanks(text);
    if (*text != '%')
        return gym_bad(reader, DIAG_GYM_UNIT, value, 0, "write a percentage: 1 %", "%s: '%s' is not a percentage",
                       key->name, value);
    if (!gym_at_end(reader, key, text + 1))
        return false;
    if (percent > key->most)
        return gym_bad(reader, DIAG_GYM_VALUE, value, 0, NULL, "%s: '%s' is out of range (0 to %g %%)", key->name,
                       value, key->most);
    *(double *)target = percent / 100;
    return true;
}

/* A date, up to the next blank; moves past it. */
bool gym_take_day(struct gym_reader *reader, const struct gym_key *key, const char **at, day_number *day)
{
    const char *text = gym_skip_blanks(*at);
    size_t length = strcspn(text, " \t");
    struct written_day written = day_read(arena_text(reader->own, text, length));
    if (written.kind == DAY_FAR)
        return gym_bad(reader, DIAG_GYM_VALUE, text, length, NULL, "%s: '%.*s' is not in the years %d to %d", key->name,
                       (int)length, text, FIRST_YEAR, LAST_YEAR);
    if (written.kind != DAY_SURE)
        return gym_bad(reader, DIAG_GYM_VALUE, text, length, "write the date as YYYY-MM-DD",
                       *text ? "%s: '%.*s' is not a date" : "%s: a date is missing%.*s", key->name, (int)length, text);
    *day = written.day;
    *at = text + length;
    return true;
}

/* --- words ------------------------------------------------------------------------------------------------------- */

int gym_take_word(struct gym_reader *reader, const struct gym_key *key, const char *value, size_t length,
                  const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(words[i]) == length && !strncasecmp(words[i], value, length))
            return (int)i;
    const char *word = arena_text(reader->own, value, length);
    gym_bad(reader, DIAG_GYM_VALUE, value, length, gym_nearest_hint(reader->own, "it takes", word, words, count),
            "%s: '%s' is not known", key->name, word);
    return -1;
}

bool read_yes_no(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    static const char *const words[] = {"no", "yes"};
    int word = TAKE_WORD(reader, key, value, words);
    if (word >= 0)
        *(bool *)target = word;
    return word >= 0;
}

bool read_unit(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    enum mass_unit *unit = target;
    if (!mass_unit_read(value, strlen(value), unit))
        return gym_bad(reader, DIAG_GYM_VALUE, value, 0, "write kg or lb", "%s: '%s' is not a unit of mass", key->name,
                       value);
    return reader->gym->unit_said = true;
}

bool read_dates(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    static const char *const words[] = {"iso", "dmy", "mdy"};
    int word = TAKE_WORD(reader, key, value, words);
    if (word >= 0)
        *(enum date_order *)target = (enum date_order)(DATES_ISO + word);
    return word >= 0;
}

bool read_experience(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    static const char *const words[] = {"new", "some", "seasoned"};
    int word = TAKE_WORD(reader, key, value, words);
    if (word >= 0)
        *(enum experience *)target = (enum experience)(EXPERIENCE_NEW + word);
    return word >= 0;
}

bool read_per(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    static const char *const words[] = {"bar", "hand"};
    int word = TAKE_WORD(reader, key, value, words);
    if (word >= 0)
        *(bool *)target = word;
    return word >= 0;
}

/* Names of published formulas; their meaning is defined in analysis/one_rm.h, and a test compares the lists. */
bool read_formula(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    static const char *const words[] = {"epley", "brzycki", "lombardi", "mayhew", "wathan", "oconner", "lander"};
    int word = TAKE_WORD(reader, key, value, words);
    if (word >= 0)
        *(const char **)target = words[word];
    return word >= 0;
}

bool read_text(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)key;
    *(const char **)target = text_squeeze(reader->arena, value);
    return true;
}

static bool add_name(struct gym_reader *reader, struct named_line *name, const char *value)
{
    *name = gym_here(reader, value, 0);
    name->text = text_squeeze(reader->arena, value);
    return true;
}

bool read_alias(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)key;
    struct lift_draft *draft = target;
    return add_name(reader, LIST_ADD(reader->own, &draft->aliases), value);
}

bool read_setup_name(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)key;
    return add_name(reader, &((struct lift_draft *)target)->setup, value);
}

bool read_log_pattern(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)key;
    struct lifter_draft *draft = target;
    *LIST_ADD(reader->arena, &draft->logs) = arena_copy(reader->arena, value);
    return true;
}

/* --- lifters ----------------------------------------------------------------------------------------------------- */

bool gym_take_lift(struct gym_reader *reader, const struct gym_key *key, const char **at, struct named_line *lift)
{
    size_t length = strcspn(*at, "0123456789");
    const char *end = *at + length;
    while (length && strchr(" \t.", (*at)[length - 1]))
        length--;
    if (!length)
        return gym_bad(reader, DIAG_GYM_VALUE, *at, 0, NULL, "%s: no lift is named", key->name);
    *lift = gym_here(reader, *at, length);
    *at = end;
    return true;
}

/* "squat 130 kg 2025-12-20" */
bool read_max(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct lifter_draft *draft = target;
    struct max_draft max = {0};
    if (!gym_take_lift(reader, key, &value, &max.lift) ||
        !gym_take_quantity(reader, key, &value, MASS, false, &max.max.kg) ||
        !gym_take_day(reader, key, &value, &max.max.day) || !gym_at_end(reader, key, value))
        return false;
    *LIST_ADD(reader->own, &draft->maxes) = max;
    return true;
}

/* "squat 0.78 m 1.40 m" */
bool read_heights(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct lifter_draft *draft = target;
    struct heights_draft heights = {0};
    const char *text = value;
    if (!gym_take_lift(reader, key, &text, &heights.lift))
        return false;
    const char *lengths = text;
    if (!gym_take_quantity(reader, key, &text, LENGTH, false, &heights.heights.bottom_m) ||
        !gym_take_quantity(reader, key, &text, LENGTH, false, &heights.heights.top_m) || !gym_at_end(reader, key, text))
        return false;
    if (heights.heights.bottom_m >= heights.heights.top_m)
        return gym_bad(reader, DIAG_GYM_VALUE, lengths, (size_t)(text - lengths), "write the bottom, then the top",
                       "%s: the bottom is not below the top", key->name);
    *LIST_ADD(reader->own, &draft->heights) = heights;
    return true;
}

/* --- limits and columns: here the key is a name of its own ------------------------------------------------------- */

/* The names allowed in [limits]: the findings of `audit`, and the further limits of those that have several. */
static const char *const limits[] = {
#define FINDING(id, name, ...) name,
#define LIMIT(id, name, ...) name,
#include "findings.def"
};
#define LIMIT_COUNT (sizeof limits / sizeof *limits)

static bool is_limit(const char *id)
{
    for (size_t i = 0; i < LIMIT_COUNT; i++)
        if (!strcmp(id, limits[i]))
            return true;
    return false;
}

/* A number, in per cent if it has the sign. */
static bool take_limit(struct gym_reader *reader, const char *value, double *limit)
{
    static const struct gym_key shown = {.name = "limit"};
    const char *text = value;
    if (!gym_take_number(reader, &shown, &text, false, limit))
        return false;
    text = gym_skip_blanks(text);
    if (*text == '%')
        *limit /= 100;
    return gym_at_end(reader, &shown, text + (*text == '%'));
}

bool read_limit(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct finding_limit limit = {.id = text_fold(reader->arena, target), .value = NAN};
    (void)key;
    limit.off = !strcasecmp(value, "off");
    if (!limit.off && !take_limit(reader, value, &limit.value))
        return false;
    for (size_t i = 0; i < reader->limits.count; i++)
        if (!strcmp(reader->limits.items[i].id, limit.id))
            return gym_say(reader, DIAG_GYM_DOUBLED, &reader->key_at, NULL, "%s already has a limit: the first counts",
                           limit.id);
    if (!is_limit(limit.id))
        gym_say(reader, DIAG_GYM_REMARK, &reader->key_at,
                gym_nearest_hint(reader->own, "the limits are", limit.id, limits, LIMIT_COUNT),
                "no finding has the limit '%s': it is ignored", limit.id);
    *LIST_ADD(reader->arena, &reader->limits) = limit;
    return true;
}

static struct column_synonyms *field_synonyms(struct gym_reader *reader, const char *field)
{
    for (size_t i = 0; i < reader->columns.count; i++)
        if (!strcmp(reader->columns.items[i].field, field))
            return &reader->columns.items[i];
    struct column_synonyms *synonyms = LIST_ADD(reader->arena, &reader->columns);
    *synonyms = (struct column_synonyms){.field = field, .at = {reader->line}};
    return synonyms;
}

/* start = DATE: the Monday of week 1. */
static bool read_first_monday(struct gym_reader *reader, const char *value)
{
    day_number day;
    if (!date_read_iso(value, &day) || day_of_week(day) != 1)
        return gym_say(reader, DIAG_GYM_VALUE, &reader->key_at, "write the Monday of week 1 as YYYY-MM-DD",
                       "start: '%s' is not a Monday", value);
    reader->gym->start_said = true;
    reader->gym->start = day;
    return true;
}

bool read_column(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    const char *fields[FIELD_COUNT], *field = NULL;
    (void)key;
    if (!strcasecmp(target, "start"))
        return read_first_monday(reader, value);
    for (int i = 0; i < FIELD_COUNT; i++) {
        fields[i] = log_field_name((enum log_field)i);
        if (!strcasecmp(fields[i], target))
            field = fields[i];
    }
    if (!field)
        return gym_say(reader, DIAG_GYM_KEY, &reader->key_at,
                       gym_nearest_hint(reader->own, "the fields are", target, fields, FIELD_COUNT),
                       "no field is called '%s': it is left out", (const char *)target);
    struct column_synonyms *synonyms = field_synonyms(reader, field);
    for (size_t length; *value; value += length + (value[length] == ',')) {
        length = strcspn(value, ",");
        const char *header = text_squeeze(reader->arena, arena_text(reader->own, value, length));
        size_t bytes = sizeof *synonyms->headers;
        if (!*header)
            continue;
        synonyms->headers = arena_grow(reader->arena, synonyms->headers, synonyms->header_count * bytes,
                                       (synonyms->header_count + 1) * bytes);
        synonyms->headers[synonyms->header_count++] = header;
    }
    return true;
}
