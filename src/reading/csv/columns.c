#include "reading/csv/columns.h"

#include "base/text.h"

#include <string.h>

static const char *const field_names[] = {
#define X(id, name) name,
    LOG_FIELDS(X)
#undef X
};

const char *log_field_name(enum log_field field)
{
    return field_names[field];
}

const char *log_field_names(struct arena *arena)
{
    const char *names = field_names[0];
    for (size_t i = 1; i < FIELD_COUNT; i++)
        names = arena_printf(arena, "%s, %s", names, field_names[i]);
    return names;
}

static const struct synonym
{
    const char *header; /* as header_words() leaves it, before or after filler words are dropped */
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
};

static const char *const fillers[] = {"session", "workout", "name", "no", "number", "of"};

static bool is_filler(const char *word, size_t length)
{
    for (size_t i = 0; i < sizeof fillers / sizeof *fillers; i++)
        if (strlen(fillers[i]) == length && !memcmp(word, fillers[i], length))
            return true;
    return false;
}

static void unit_said(struct column_use *use, enum mass_unit unit)
{
    use->unit_said = true;
    use->unit = unit;
}

/* Takes off the first bracket with what stands in it: "(lb)", "[kg]". True: it named metres a second. */
static bool take_bracket(char *header, struct column_use *use)
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
        unit_said(use, unit);
    memset(open, ' ', (size_t)(close - open) + 1);
    return metres_a_second;
}

/* Case folded, punctuation to single blanks. */
static char *header_words(struct arena *scratch, char *header)
{
    for (char *c = header; *c; c++)
        if (strchr("._-:;,/\\#*()[]{}'\"", *c))
            *c = ' ';
    return text_squeeze(scratch, header);
}

/* "weight lb", "weight in kg": the unit comes off where another word remains. */
static void take_trailing_unit(char *words, struct column_use *use)
{
    char *last = strrchr(words, ' ');
    enum mass_unit unit;
    if (!last || !mass_unit_read(last + 1, strlen(last + 1), &unit))
        return;
    unit_said(use, unit);
    *last = 0;
    size_t length = strlen(words);
    if (length > 3 && !strcmp(words + length - 3, " in"))
        words[length - 3] = 0;
}

/* Filler words dropped; nothing remains where all are fillers: "workout name" names no lifter. */
static char *without_fillers(struct arena *scratch, const char *words)
{
    char *kept = arena_alloc(scratch, strlen(words) + 1), *to = kept;
    for (size_t length; *words; words += length, words += *words == ' ') {
        length = strcspn(words, " ");
        if (is_filler(words, length))
            continue;
        if (to > kept)
            *to++ = ' ';
        memcpy(to, words, length);
        to += length;
    }
    return kept;
}

static enum log_field known_field(const char *words)
{
    for (size_t i = 0; i < sizeof synonyms / sizeof *synonyms; i++)
        if (!strcmp(synonyms[i].header, words))
            return synonyms[i].field;
    return FIELD_COUNT;
}

static enum log_field gym_field(struct arena *scratch, const char *header, const struct gym *gym)
{
    const char *folded = text_fold(scratch, header);
    for (size_t i = 0; i < gym->column_count; i++)
        for (size_t k = 0; k < gym->columns[i].header_count; k++) {
            if (strcmp(text_fold(scratch, gym->columns[i].headers[k]), folded))
                continue;
            for (size_t field = 0; field < FIELD_COUNT; field++)
                if (!strcmp(field_names[field], gym->columns[i].field))
                    return (enum log_field)field;
        }
    return FIELD_COUNT;
}

static enum log_field field_of(struct arena *scratch, const char *header, const struct gym *gym, struct column_use *use)
{
    char *folded = text_fold(scratch, header);
    bool metres_a_second = take_bracket(folded, use);
    char *bare = text_squeeze(scratch, folded);
    enum log_field field = gym ? gym_field(scratch, header, gym) : FIELD_COUNT;
    if (gym && field == FIELD_COUNT)
        field = gym_field(scratch, bare, gym);
    char *words = header_words(scratch, folded);
    if (field != FIELD_COUNT)
        return field;
    enum mass_unit unit;
    if (mass_unit_read(words, strlen(words), &unit)) /* a column headed "kg" is the weight */
        return unit_said(use, unit), FIELD_WEIGHT;
    take_trailing_unit(words, use);
    if (!strcmp(words, "speed") || !strcmp(words, "mean speed"))
        return metres_a_second ? FIELD_VELOCITY : FIELD_COUNT; /* without its unit it may be the day's focus */
    if (!strcmp(words, "speed m s"))
        return FIELD_VELOCITY;
    field = known_field(words);
    return field != FIELD_COUNT ? field : known_field(without_fillers(scratch, words));
}

enum log_field column_field(const char *header, const struct gym *gym, struct column_use *use)
{
    struct arena *scratch = arena_new();
    use->unit_said = false;
    use->unit = UNIT_KG;
    enum log_field field = field_of(scratch, header, gym, use);
    arena_free(scratch);
    return field;
}

void columns_map(struct arena *arena, struct column_map *map, const char *const *headers, size_t count,
                 const struct gym *gym)
{
    *map = (struct column_map){0};
    for (size_t i = 0; i < count; i++) {
        struct column_use use = {.index = i};
        enum log_field field = column_field(headers[i], gym, &use);
        if (*headers[i])
            map->header_cells = i + 1;
        if (field != FIELD_COUNT)
            *LIST_ADD(arena, &map->of[field]) = use;
        else if (*headers[i])
            *LIST_ADD(arena, &map->ignored) = arena_copy(arena, headers[i]);
    }
}

bool columns_look_like_log(const struct column_map *map)
{
    return map->of[FIELD_DATE].count && map->of[FIELD_LIFT].count;
}

static const enum log_field needed[] = {FIELD_DATE, FIELD_LIFT, FIELD_WEIGHT, FIELD_REPS};
#define NEEDED_COUNT (sizeof needed / sizeof *needed)

bool columns_nearly_log(const struct column_map *map)
{
    size_t found = 0;
    for (size_t i = 0; i < NEEDED_COUNT; i++)
        found += map->of[needed[i]].count > 0;
    return found + 1 >= NEEDED_COUNT;
}

const char *columns_missing(struct arena *arena, const struct column_map *map)
{
    const char *missing = NULL;
    for (size_t i = 0; i < NEEDED_COUNT; i++)
        if (!map->of[needed[i]].count)
            missing = missing ? arena_printf(arena, "%s, %s", missing, field_names[needed[i]]) : field_names[needed[i]];
    return missing;
}

size_t columns_needed_cells(const struct column_map *map)
{
    size_t cells = 0;
    for (size_t i = 0; i < NEEDED_COUNT; i++)
        if (map->of[needed[i]].count && map->of[needed[i]].items[0].index + 1 > cells)
            cells = map->of[needed[i]].items[0].index + 1;
    return cells;
}

static const char *append_meaning(struct arena *arena, const char *said, const char *header, const char *meaning)
{
    return arena_printf(arena, "%s%s%s = %s", said, *said ? "; " : "", header, meaning);
}

const char *columns_describe(struct arena *arena, const struct column_map *map, const char *const *headers,
                             size_t count)
{
    const char *said = "";
    for (size_t i = 0; i < count; i++) {
        const char *meaning = "ignored";
        for (size_t field = 0; field < FIELD_COUNT; field++)
            for (size_t k = 0; k < map->of[field].count; k++)
                if (map->of[field].items[k].index == i && field != FIELD_SIDE && field != FIELD_SUPERSET)
                    meaning = field_names[field];
        if (*headers[i])
            said = append_meaning(arena, said, headers[i], meaning);
    }
    return said;
}
