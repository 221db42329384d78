#include "reading/csv/header_words.h"

#include "base/text.h"

#include <string.h>

static const struct synonym
{
    const char *header; /* as returned by header_words(), before or after filler words are dropped */
    enum log_field field;
} synonyms[] = {
    {"date", FIELD_DATE},
    {"day", FIELD_DATE},
    {"performed", FIELD_DATE},
    {"performed on", FIELD_DATE},
    {"datum", FIELD_DATE},
    {"date time", FIELD_DATE},
    {"datetime", FIELD_DATE},
    {"lifter", FIELD_LIFTER},
    {"athlete", FIELD_LIFTER},
    {"name", FIELD_LIFTER},
    {"client", FIELD_LIFTER},
    {"exercise", FIELD_LIFT},
    {"lift", FIELD_LIFT},
    {"movement", FIELD_LIFT},
    {"weight", FIELD_WEIGHT},
    {"load", FIELD_WEIGHT},
    {"straight", FIELD_WEIGHT},
    {"straight weight", FIELD_WEIGHT},
    {"bar weight", FIELD_WEIGHT},
    {"unit", FIELD_UNIT},
    {"units", FIELD_UNIT},
    {"weight unit", FIELD_UNIT},
    {"weight units", FIELD_UNIT},
    {"reps", FIELD_REPS},
    {"rep", FIELD_REPS},
    {"repetitions", FIELD_REPS},
    {"repetition", FIELD_REPS},
    {"sets", FIELD_SETS},
    {"set", FIELD_SET_INDEX},
    {"set index", FIELD_SET_INDEX},
    {"set order", FIELD_SET_INDEX},
    {"rpe", FIELD_RPE},
    {"rir", FIELD_RIR},
    {"reps in reserve", FIELD_RIR},
    {"repetitions in reserve", FIELD_RIR},
    {"velocity", FIELD_VELOCITY},
    {"mean velocity", FIELD_VELOCITY},
    {"chain", FIELD_CHAIN},
    {"chains", FIELD_CHAIN},
    {"chain weight", FIELD_CHAIN},
    {"band", FIELD_BAND},
    {"bands", FIELD_BAND},
    {"band tension", FIELD_BAND},
    {"accommodating", FIELD_AR},
    {"accommodating resistance", FIELD_AR},
    {"ar", FIELD_AR},
    {"note", FIELD_NOTE},
    {"notes", FIELD_NOTE},
    {"comment", FIELD_NOTE},
    {"comments", FIELD_NOTE},
    {"remark", FIELD_NOTE},
    {"remarks", FIELD_NOTE},
    {"set notes", FIELD_NOTE},
    {"exercise notes", FIELD_NOTE},
    {"focus", FIELD_FOCUS},
    {"day type", FIELD_FOCUS},
    {"session type", FIELD_FOCUS},
    {"workout type", FIELD_FOCUS},
    {"workout", FIELD_WORKOUT},
    {"workout name", FIELD_WORKOUT},
    {"workout title", FIELD_WORKOUT},
    {"session", FIELD_WORKOUT},
    {"session name", FIELD_WORKOUT},
    {"type", FIELD_KIND},
    {"set type", FIELD_KIND},
    {"bodyweight", FIELD_BODYWEIGHT},
    {"body weight", FIELD_BODYWEIGHT},
    {"bw", FIELD_BODYWEIGHT},
    {"duration", FIELD_DURATION},
    {"time", FIELD_DURATION},
    {"seconds", FIELD_DURATION},
    {"distance", FIELD_DISTANCE},
    {"side", FIELD_SIDE},
    {"superset", FIELD_SUPERSET},
    {"super set", FIELD_SUPERSET},
    {"superset id", FIELD_SUPERSET},
    {"week", FIELD_WEEK},
    {"wk", FIELD_WEEK},
    {"weekday", FIELD_WEEKDAY},
    {"day of week", FIELD_WEEKDAY},
    {"day of the week", FIELD_WEEKDAY},
};

static const struct synonym word_synonyms[] = {
    /* these have lower precedence than the ones above */
    {"when", FIELD_DATE},          {"exercises", FIELD_LIFT},      {"movements", FIELD_LIFT},
    {"lifts", FIELD_LIFT},         {"weights", FIELD_WEIGHT},      {"loads", FIELD_WEIGHT},
    {"wt", FIELD_WEIGHT},          {"set weight", FIELD_WEIGHT},   {"set load", FIELD_WEIGHT},
    {"set reps", FIELD_REPS},      {"sets reps", FIELD_REPS}, /* 3x5 */
    {"sets x reps", FIELD_REPS},   {"who", FIELD_LIFTER},          {"timestamp", FIELD_DATE},
    {"time stamp", FIELD_DATE},    {"started at", FIELD_DATE},     {"started", FIELD_DATE},
    {"start time", FIELD_DATE},    {"exercise title", FIELD_LIFT}, {"set note", FIELD_NOTE},
    {"exercise note", FIELD_NOTE}, {"equipment note", FIELD_NOTE}, {"warm up", FIELD_KIND},
    {"warmup", FIELD_KIND},        {"is warm up", FIELD_KIND},     {"is warmup", FIELD_KIND},
};

static const char *const fillers[] = {"session", "workout", "name", "no", "number", "of"};
static const char *const more_fillers[] = {"session", "workout",  "name",    "no",   "number", "of",     "count",
                                           "counts",  "training", "working", "work", "per",    "the",    "my",
                                           "in",      "on",       "each",    "s",    "log",    "logged", "recorded",
                                           "amount",  "value",    "for",     "bar"};
static const char *const actual_words[] = {"actual",    "actually", "done",   "used", "performed",
                                           "completed", "achieved", "lifted", "real", "made"};
static const char *const planned_words[] = {"planned",    "plan",       "target",  "targets",   "goal",      "goals",
                                            "prescribed", "programmed", "program", "programme", "scheduled", "intended",
                                            "aim",        "proposed",   "next",    "suggested"};
#define IS_ONE_OF(words, word, length) is_one_of((words), sizeof(words) / sizeof *(words), (word), (length))

static bool is_one_of(const char *const *words, size_t count, const char *word, size_t length)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(words[i]) == length && !memcmp(word, words[i], length))
            return true;
    return false;
}

void column_says_unit(struct column_use *use, enum mass_unit unit)
{
    use->unit_said = true;
    use->unit = unit;
}

/* Removes the first bracket with its contents: "(lb)", "[kg]". True: it named metres per second. */
bool header_take_bracket(char *header, struct column_use *use)
{
    char *open = strpbrk(header, "([{");
    char *close = open ? strpbrk(open, ")]}") : NULL;
    if (!close)
        return false;
    char *inside = open + 1 + strspn(open + 1, " ");
    size_t length = (size_t)(close - inside);
    while (length && inside[length - 1] == ' ')
        length--;
    enum mass_unit unit;
    bool metres_a_second = length == 3 && !memcmp(inside, "m/s", 3);
    if (mass_unit_read(inside, length, &unit))
        column_says_unit(use, unit);
    memset(open, ' ', (size_t)(close - open) + 1);
    return metres_a_second;
}

/* --- sides ----------------------------------------------------------------------------------------------------- */

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c & 0x80);
}

/* The start of the word that ends at `end` of the header; `end` if there is none. */
static size_t word_before(const char *header, size_t end)
{
    while (end && is_letter(header[end - 1]))
        end--;
    return end;
}

/* Where the words begin that make the "side" at `at` mean one side: '/', per, each. `at`: there are none. */
static size_t side_begins(const char *header, size_t at)
{
    static const char *const words[] = {"per", "a", "an", "each", "every"};
    size_t end = at;
    while (end && strchr(" -_.", header[end - 1]))
        end--;
    if (end && header[end - 1] == '/')
        return end - 1;
    size_t begin = word_before(header, end);
    return IS_ONE_OF(words, header + begin, end - begin) ? begin : at;
}

/* The length of "side", "sides", "end" or "ends" at the start of the text, as a separate word; 0: it is another
 * word. */
static size_t side_word(const char *text)
{
    size_t length = text_starts(text, "side") ? 4 : text_starts(text, "end") ? 3 : 0;
    if (length && text[length] == 's')
        length++;
    return length && !is_letter(text[length]) ? length : 0;
}

bool header_take_side(char *header)
{
    for (size_t at = 0; header[at]; at++) {
        size_t length = at && is_letter(header[at - 1]) ? 0 : side_word(header + at);
        size_t begin = length ? side_begins(header, at) : at, end = at + length;
        if (begin == at)
            continue;
        while (begin && strchr(" ,;", header[begin - 1])) /* (kg, per side) */
            begin--;
        end += strspn(header + end, " ,;");
        memset(header + begin, ' ', end - begin);
        return true;
    }
    return false;
}

/* Case is folded, and punctuation becomes single blanks. */
char *header_words(struct arena *scratch, char *header)
{
    for (char *c = header; *c; c++)
        if (strchr("._-:;,/\\#*?()[]{}'\"", *c))
            *c = ' ';
    return text_squeeze(scratch, header);
}

/* "weight lb", "weight in kg": removes the unit if another word remains. */
void header_take_trailing_unit(char *words, struct column_use *use)
{
    char *last = strrchr(words, ' ');
    enum mass_unit unit;
    if (!last || !mass_unit_read(last + 1, strlen(last + 1), &unit))
        return;
    column_says_unit(use, unit);
    *last = 0;
    size_t length = strlen(words);
    if (length > 3 && !strcmp(words + length - 3, " in"))
        words[length - 3] = 0;
}

/* Drops filler words; the result is empty if all are fillers: "workout name" does not name a lifter. */
char *header_without_fillers(struct arena *scratch, const char *words)
{
    char *kept = arena_alloc(scratch, strlen(words) + 1), *to = kept;
    for (size_t length; *words; words += length, words += *words == ' ') {
        length = strcspn(words, " ");
        if (IS_ONE_OF(fillers, words, length))
            continue;
        if (to > kept)
            *to++ = ' ';
        memcpy(to, words, length);
        to += length;
    }
    return kept;
}

enum log_field header_known_field(const char *words)
{
    for (size_t i = 0; i < sizeof synonyms / sizeof *synonyms; i++)
        if (!strcmp(synonyms[i].header, words))
            return synonyms[i].field;
    return FIELD_COUNT;
}

#define MOST_WORDS 8

struct words /* of a header, in alphabetical order; each ends at a blank or a NUL */
{
    const char *items[MOST_WORDS];
    size_t lengths[MOST_WORDS];
    size_t count;
    bool too_many;
};

static int compare_words(const char *a, size_t a_length, const char *b, size_t b_length)
{
    int order = memcmp(a, b, a_length < b_length ? a_length : b_length);
    return order ? order : (int)a_length - (int)b_length;
}

static void add_word(struct words *words, const char *word, size_t length)
{
    if (words->count == MOST_WORDS) {
        words->too_many = true;
        return;
    }
    size_t at = words->count++;
    for (; at && compare_words(word, length, words->items[at - 1], words->lengths[at - 1]) < 0; at--) {
        words->items[at] = words->items[at - 1];
        words->lengths[at] = words->lengths[at - 1];
    }
    words->items[at] = word;
    words->lengths[at] = length;
}

static bool same_words(const struct words *words, const char *synonym)
{
    struct words others = {.count = 0};
    for (size_t length; *synonym; synonym += length, synonym += *synonym == ' ') {
        length = strcspn(synonym, " ");
        add_word(&others, synonym, length);
    }
    bool same = !words->too_many && words->count == others.count;
    for (size_t i = 0; same && i < words->count; i++)
        same = !compare_words(words->items[i], words->lengths[i], others.items[i], others.lengths[i]);
    return same;
}

static enum log_field field_of_words(const struct words *words)
{
    for (size_t i = 0; i < sizeof word_synonyms / sizeof *word_synonyms; i++)
        if (same_words(words, word_synonyms[i].header))
            return word_synonyms[i].field;
    for (size_t i = 0; i < sizeof synonyms / sizeof *synonyms; i++)
        if (same_words(words, synonyms[i].header))
            return synonyms[i].field;
    return FIELD_COUNT;
}

/* Matches words only, in any order, without fillers and units. If several words fit, those that mean done or planned
 * decide. */
enum log_field header_field_by_words(const char *text, struct column_use *use)
{
    struct words words = {.count = 0};
    bool actual = false;
    enum mass_unit unit;
    for (size_t length; *text; text += length, text += *text == ' ') {
        length = strcspn(text, " ");
        if (IS_ONE_OF(actual_words, text, length))
            actual = true;
        else if (IS_ONE_OF(planned_words, text, length))
            use->planned = true;
        else if (mass_unit_read(text, length, &unit))
            column_says_unit(use, unit);
        else if (!IS_ONE_OF(more_fillers, text, length))
            add_word(&words, text, length);
    }
    use->rank = actual ? COLUMN_ACTUAL : COLUMN_BY_WORDS;
    use->effort = !use->planned && same_words(&words, "effort");
    if (!words.count && use->unit_said && !use->planned)
        return FIELD_WEIGHT; /* "kilos lifted" */
    return words.count && !use->planned ? field_of_words(&words) : FIELD_COUNT;
}
