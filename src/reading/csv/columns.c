#include "reading/csv/columns.h"

#include "base/text.h"
#include "reading/csv/header_words.h"
#include "reading/load/load_lexemes.h"

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

static bool is_letter(char c)
{
    return (c | 0x20) >= 'a' && (c | 0x20) <= 'z';
}

/* Called for every header that is not recognised, so it makes no folded copy. */
struct column_gear column_gear(const char *header)
{
    struct column_gear gear = {.field = FIELD_COUNT};
    for (size_t length; *header && gear.field == FIELD_COUNT; header += length) {
        while (*header && !is_letter(*header))
            header++;
        for (length = 0; is_letter(header[length]);)
            length++;
        enum word_kind kind = length ? word_as_gear(header, length) : WORD_UNKNOWN;
        gear.field = kind == WORD_CHAIN      ? FIELD_CHAIN
                     : kind == WORD_BAND     ? FIELD_BAND
                     : kind == WORD_RELEASER ? FIELD_AR
                                             : FIELD_COUNT;
        gear.plural = gear.field != FIELD_COUNT && (header[length - 1] | 0x20) == 's';
    }
    return gear;
}

/* `folded`: the header, or what is left of it, after case folding. */
static enum log_field field_of(struct arena *scratch, const char *header, char *folded, const struct gym *gym,
                               struct column_use *use)
{
    bool metres_a_second = header_take_bracket(folded, use);
    char *bare = text_squeeze(scratch, folded);
    enum log_field field = gym ? gym_field(scratch, header, gym) : FIELD_COUNT;
    if (gym && field == FIELD_COUNT)
        field = gym_field(scratch, bare, gym);
    char *words = header_words(scratch, folded);
    use->rank = field != FIELD_COUNT ? COLUMN_TOLD : COLUMN_EXACT;
    if (field != FIELD_COUNT)
        return field;
    enum mass_unit unit;
    if (mass_unit_read(words, strlen(words), &unit)) /* a column headed "kg" is the weight */
        return column_says_unit(use, unit), FIELD_WEIGHT;
    header_take_trailing_unit(words, use);
    if (!strcmp(words, "speed") || !strcmp(words, "mean speed"))
        return metres_a_second ? FIELD_VELOCITY : FIELD_COUNT; /* without its unit it may be the day's focus */
    if (!strcmp(words, "speed m s"))
        return FIELD_VELOCITY;
    field = header_known_field(words);
    if (field == FIELD_COUNT)
        field = header_known_field(header_without_fillers(scratch, words));
    if (field == FIELD_COUNT)
        return header_field_by_words(words, use);
    if (field == FIELD_DATE && !strcmp(header_without_fillers(scratch, words), "day"))
        use->rank = COLUMN_BY_WORDS; /* next to a date column, it is the day of the week */
    return field;
}

/* Only headers of weights, chains or bands lose their "per side"; any other header keeps it. */
static enum log_field field_per_side(struct arena *scratch, const char *header, const struct gym *gym,
                                     struct column_use *use)
{
    char *folded = strcasestr(header, "side") || strcasestr(header, "end") ? text_fold(scratch, header) : NULL;
    if (!folded || !header_take_side(folded))
        return FIELD_COUNT;
    *use = (struct column_use){.index = use->index, .unit = UNIT_KG, .per_side = true};
    use->plural = column_gear(header).plural;
    enum log_field field = field_of(scratch, header, folded, gym, use);
    bool of_load = field == FIELD_CHAIN || field == FIELD_BAND || field == FIELD_AR || field == FIELD_WEIGHT;
    return of_load ? field : FIELD_COUNT;
}

enum log_field column_field(const char *header, const struct gym *gym, struct column_use *use)
{
    struct arena *scratch = arena_new();
    enum log_field field = field_per_side(scratch, header, gym, use);
    if (field == FIELD_COUNT) {
        *use = (struct column_use){.index = use->index, .unit = UNIT_KG};
        field = field_of(scratch, header, text_fold(scratch, header), gym, use);
        use->warm_up = field == FIELD_KIND && strcasestr(header, "warm");
        use->plural = (field == FIELD_CHAIN || field == FIELD_BAND) && column_gear(header).plural;
    }
    arena_free(scratch);
    return field;
}

/* Does a column of rank `rank` count in addition to one of rank `other`? */
static bool counts_beside(enum column_rank rank, enum column_rank other)
{
    return rank >= other || (rank == COLUMN_EXACT && other == COLUMN_TOLD);
}

/* `meant`: neither the user nor another column makes this one irrelevant. */
static void ignore(struct arena *arena, struct column_map *map, const char *header, const struct column_use *use,
                   bool meant)
{
    *LIST_ADD(arena, &map->ignored) = arena_copy(arena, header);
    if (meant && !use->planned && column_gear(header).field != FIELD_COUNT)
        *LIST_ADD(arena, &map->unread) = use->index;
}

/* Keeps the columns of one field that count, those named by the user first. The others are ignored. */
static void keep_best(struct arena *arena, struct column_map *map, enum log_field field, const char *const *headers)
{
    size_t count = map->of[field].count, kept = 0;
    struct column_use *uses = map->of[field].items;
    if (count < 2)
        return;
    struct column_use *sorted = ARENA_ARRAY(arena, struct column_use, count);
    for (int rank = COLUMN_TOLD; rank >= COLUMN_BY_WORDS; rank--)
        for (size_t i = 0; i < count; i++) {
            if ((int)uses[i].rank != rank)
                continue;
            bool counts = true;
            for (size_t k = 0; k < kept; k++)
                counts = counts && counts_beside(uses[i].rank, sorted[k].rank);
            if (counts)
                sorted[kept++] = uses[i];
            else
                ignore(arena, map, headers[uses[i].index], &uses[i], rank == COLUMN_BY_WORDS);
        }
    map->of[field].items = sorted;
    map->of[field].count = map->of[field].capacity = kept;
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
        else if (use.effort)
            *LIST_ADD(arena, &map->effort) = use;
        else if (*headers[i])
            ignore(arena, map, headers[i], &use, true);
    }
    for (int field = 0; field < FIELD_COUNT; field++)
        keep_best(arena, map, (enum log_field)field, headers);
    if (map->of[FIELD_RPE].count || map->of[FIELD_RIR].count)
        map->effort.count = 0;
}

void columns_take_effort(struct arena *arena, struct column_map *map)
{
    *LIST_ADD(arena, &map->of[FIELD_RPE]) = map->effort.items[0];
    map->effort.count = 0;
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

/* In a table with one row per set. */
static bool has_no_use(enum log_field field)
{
    return field == FIELD_SIDE || field == FIELD_SUPERSET || field == FIELD_WEEK || field == FIELD_WEEKDAY;
}

static const char *append_meaning(struct arena *arena, const char *said, const char *header, const char *meaning)
{
    return arena_printf(arena, "%s%s%s = %s", said, *said ? "; " : "", header, meaning);
}

const char *column_meaning(struct arena *arena, enum log_field field, const struct column_use *use)
{
    return use->per_side ? arena_printf(arena, "%s per side", field_names[field]) : field_names[field];
}

const char *columns_describe(struct arena *arena, const struct column_map *map, const char *const *headers,
                             size_t count)
{
    const char *said = "";
    for (size_t i = 0; i < count; i++) {
        const char *meaning = "ignored";
        for (size_t field = 0; field < FIELD_COUNT; field++)
            for (size_t k = 0; k < map->of[field].count; k++)
                if (map->of[field].items[k].index == i && !has_no_use((enum log_field)field))
                    meaning = column_meaning(arena, (enum log_field)field, &map->of[field].items[k]);
        if (*headers[i])
            said = append_meaning(arena, said, headers[i], meaning);
    }
    return said;
}
