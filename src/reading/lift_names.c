#include "reading/lift_names.h"

#include "base/names.h"
#include "base/text.h"

#include <string.h>

/* Usual synonyms for exactly the same lift; common practice, no source. A different rack position, stance or grip
 * (front squat, sumo deadlift, low-bar squat, close-grip bench press) makes a different lift. Spelt as name_key()
 * returns them. */
static const struct synonym
{
    const char *spelling, *main_name;
} synonyms[] = {
    {"squat", "squat"},
    {"squats", "squat"},
    {"sq", "squat"},
    {"sqt", "squat"},
    {"back squat", "squat"},
    {"back squats", "squat"},
    {"barbell squat", "squat"},
    {"barbell back squat", "squat"},
    {"bench press", "bench press"},
    {"bench", "bench press"},
    {"bp", "bench press"},
    {"benchpress", "bench press"},
    {"flat bench", "bench press"},
    {"flat bench press", "bench press"},
    {"barbell bench", "bench press"},
    {"barbell bench press", "bench press"},
    {"flat barbell bench press", "bench press"},
    {"barbell flat bench press", "bench press"},
    {"deadlift", "deadlift"},
    {"deadlifts", "deadlift"},
    {"dead lift", "deadlift"},
    {"dead lifts", "deadlift"},
    {"dl", "deadlift"},
    {"dead", "deadlift"},
    {"deads", "deadlift"},
    {"barbell deadlift", "deadlift"},
    {"conventional deadlift", "deadlift"},
    {"overhead press", "overhead press"},
    {"ohp", "overhead press"},
    {"barbell overhead press", "overhead press"},
    {"standing overhead press", "overhead press"},
    {"military press", "overhead press"},
    {"strict press", "overhead press"},
    {"shoulder press", "overhead press"},
    {"barbell shoulder press", "overhead press"},
    {"romanian deadlift", "romanian deadlift"},
    {"romanian deadlifts", "romanian deadlift"},
    {"barbell romanian deadlift", "romanian deadlift"},
    {"rdl", "romanian deadlift"},
    {"rdls", "romanian deadlift"},
    {"front squat", "front squat"},
    {"front squats", "front squat"},
    {"fsq", "front squat"},
    {"barbell front squat", "front squat"},
    {"box squat", "box squat"},
    {"box squats", "box squat"},
    {"sumo deadlift", "sumo deadlift"},
    {"sumo deadlifts", "sumo deadlift"},
    {"sumo dl", "sumo deadlift"},
    {"sumo deads", "sumo deadlift"},
    {"barbell sumo deadlift", "sumo deadlift"},
    {"incline bench press", "incline bench press"},
    {"incline bench", "incline bench press"},
    {"incline barbell bench press", "incline bench press"},
    {"close grip bench press", "close-grip bench press"},
    {"close grip bench", "close-grip bench press"},
    {"cgbp", "close-grip bench press"},
    {"good morning", "good morning"},
    {"good mornings", "good morning"},
    {"barbell good morning", "good morning"},
    {"pull up", "pull-up"},
    {"pull ups", "pull-up"},
    {"pullup", "pull-up"},
    {"pullups", "pull-up"},
    {"chin up", "chin-up"},
    {"chin ups", "chin-up"},
    {"chinup", "chin-up"},
    {"chinups", "chin-up"},
    {"push up", "push-up"},
    {"push ups", "push-up"},
    {"pushup", "push-up"},
    {"pushups", "push-up"},
    {"press up", "push-up"},
    {"press ups", "push-up"},
    {"muscle up", "muscle-up"},
    {"muscle ups", "muscle-up"},
    {"dip", "dip"},
    {"dips", "dip"},
    {"parallel bar dip", "dip"},
    {"parallel bar dips", "dip"},
};
#define SYNONYM_COUNT (sizeof synonyms / sizeof *synonyms)

struct lift_names
{
    struct log *log;
    const struct gym *gym;
    struct map *spellings; /* as written; maps to number + 1 */
    struct map *keys;      /* by name_key; maps to number + 1 */
};

/* --- spellings --------------------------------------------------------------------------------------------------- */

/* The form that is compared: folded, with hyphens and underscores as blanks. */
static char *name_key(struct arena *arena, const char *name)
{
    char *key = text_fold(arena, name);
    for (char *c = key; *c; c++)
        if (*c == '-' || *c == '_')
            *c = ' ';
    return text_squeeze(arena, key);
}

static char *without_barbell(struct arena *arena, const char *name)
{
    static const char tail[] = "(barbell)";
    char *squeezed = text_squeeze(arena, name);
    size_t length = strlen(squeezed), cut = sizeof tail - 1;
    if (length > cut && text_same_name(squeezed + length - cut, tail))
        return text_squeeze(arena, arena_text(arena, squeezed, length - cut));
    return squeezed;
}

static const char *synonym_of(const char *key)
{
    for (size_t i = 0; i < SYNONYM_COUNT; i++)
        if (!strcmp(synonyms[i].spelling, key))
            return synonyms[i].main_name;
    return NULL;
}

const char *builtin_lift(const char *folded)
{
    struct arena *scratch = arena_new();
    const char *main_name = synonym_of(name_key(scratch, folded));
    arena_free(scratch);
    return main_name;
}

const char *const *builtin_lifts(size_t *count)
{
    static const char *names[SYNONYM_COUNT];
    *count = 0;
    for (size_t i = 0; i < SYNONYM_COUNT; i++)
        if (!*count || strcmp(names[*count - 1], synonyms[i].main_name))
            names[(*count)++] = synonyms[i].main_name; /* rows of one lift are adjacent */
    return names;
}

/* --- the gym file's lifts ---------------------------------------------------------------------------------------- */

static const char several; /* in place of a lift: the gym has more than one with this main name */

static void put_first(struct map *keys, const char *key, const void *value)
{
    if (!map_get(keys, key, strlen(key)))
        map_put(keys, key, strlen(key), (void *)value);
}

/* Of a main name that other lifts' own names stand for, among the keys, none of which has a line end. */
static const char *main_key(struct arena *arena, const char *main_name)
{
    return arena_printf(arena, "%s\n", main_name);
}

const struct map *lift_keys(struct arena *arena, const struct gym *gym)
{
    struct map *keys = map_new(arena);
    for (size_t i = 0; i < gym->lift_count; i++) {
        const struct lift *lift = &gym->lifts[i];
        const char *key = name_key(arena, lift->name), *main_name = synonym_of(key);
        put_first(keys, key, lift);
        for (size_t a = 0; a < lift->alias_count; a++)
            put_first(keys, name_key(arena, lift->aliases[a]), lift);
        if (!main_name)
            continue;
        const char *of_main = main_key(arena, main_name);
        const void *value = map_get(keys, of_main, strlen(of_main)) ? (const void *)&several : lift;
        map_put(keys, of_main, strlen(of_main), (void *)value);
    }
    return keys;
}

static const struct lift *lift_with_key(const struct map *keys, const char *key)
{
    return map_get(keys, key, strlen(key));
}

/* The gym's only lift whose own name is a synonym of the same main name: "back squat" where the log says squat. A gym
 * that has two of them tells them apart, and so do we. */
static const struct lift *only_synonym(struct arena *scratch, const struct map *keys, const char *main_name)
{
    const char *key = main_key(scratch, main_name);
    const void *found = map_get(keys, key, strlen(key));
    return found == &several ? NULL : found;
}

const char *lift_main_name(struct arena *arena, const struct gym *gym, const char *written)
{
    char *name = without_barbell(arena, written), *key = name_key(arena, name);
    const struct map *keys = gym->lift_keys ? gym->lift_keys : lift_keys(arena, gym);
    const struct lift *lift = lift_with_key(keys, name_key(arena, written));
    if (!lift)
        lift = lift_with_key(keys, key);
    const char *main_name = lift ? NULL : synonym_of(key);
    if (main_name)
        lift = lift_with_key(keys, name_key(arena, main_name));
    if (main_name && !lift)
        lift = only_synonym(arena, keys, main_name);
    return lift ? lift->name : main_name ? main_name : name;
}

/* --- AR in a lift's name ----------------------------------------------------------------------------------------- */

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c & 0x80);
}

/* Is one of the words (or word pairs) in the key, as a whole word? */
static bool has_any(const char *key, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        size_t length = strlen(words[i]);
        for (const char *at = strstr(key, words[i]); at; at = strstr(at + 1, words[i]))
            if ((at == key || !is_letter(at[-1])) && !is_letter(at[length]))
                return true;
    }
    return false;
}
#define HAS_ANY(key, words) has_any((key), (words), sizeof(words) / sizeof *(words))

/* A barbell lift takes chains and bands; a bodyweight exercise with a band does not. */
static bool is_barbell_lift(const char *key)
{
    static const char *const lifts[] = {"squat", "squats", "bench", "press", "deadlift",     "deadlifts",     "rdl",
                                        "pull",  "pulls",  "row",   "rows",  "good morning", "good mornings", "ohp"};
    static const char *const others[] = {
        "apart",    "aparts",     "walk",     "walks",     "side step", "side steps", "face pull", "face pulls",
        "pushdown", "pushdowns",  "pulldown", "pulldowns", "down",      "downs",      "curl",      "curls",
        "up",       "ups",        "through",  "throughs",  "air",       "bodyweight", "bw",        "dumbbell",
        "db",       "kettlebell", "kb",       "goblet",    "cable",     "machine",    "pallof"};
    return HAS_ANY(key, lifts) && !HAS_ANY(key, others);
}

static void find_gear(struct arena *scratch, struct lift_name *lift)
{
    static const char *const reverse[] = {"reverse band", "reverse bands", "reverse banded",
                                          "rev band",     "rev bands",     "reversed band"};
    static const char *const bands[] = {"band", "bands", "banded"};
    static const char *const chains[] = {"chain", "chains"};
    static const char *const no_gear[] = {"no", "without", "not", "w/o", "posterior", "kinetic"};
    const char *key = name_key(scratch, lift->name);
    if (!is_barbell_lift(key) || HAS_ANY(key, no_gear))
        return;
    lift->names_chain = HAS_ANY(key, chains);
    lift->names_reverse_band = HAS_ANY(key, reverse);
    lift->names_band = !lift->names_reverse_band && HAS_ANY(key, bands);
}

/* --- numbers ----------------------------------------------------------------------------------------------------- */

struct lift_names *lift_names_new(struct arena *arena, struct log *log, const struct gym *gym)
{
    struct lift_names *names = ARENA_NEW(arena, struct lift_names);
    names->log = log;
    names->gym = gym;
    names->spellings = map_new(arena);
    names->keys = map_new(arena);
    return names;
}

static uint32_t number_of_name(struct lift_names *names, struct arena *scratch, const char *name)
{
    const char *key = name_key(scratch, name);
    uintptr_t known = (uintptr_t)map_get(names->keys, key, strlen(key));
    if (known)
        return (uint32_t)(known - 1);
    uint32_t number = names_add(names->log->lifts, name, strlen(name));
    struct lift_name *lift = LIST_ADD(names->log->arena, &names->log->lift_names);
    lift->name = names_text(names->log->lifts, number);
    find_gear(scratch, lift);
    map_put(names->keys, key, strlen(key), (void *)((uintptr_t)number + 1));
    return number;
}

uint32_t lift_adopt(struct lift_names *names, const char *name)
{
    struct arena *scratch = arena_new();
    uint32_t number = number_of_name(names, scratch, name);
    arena_free(scratch);
    return number;
}

uint32_t lift_number(struct lift_names *names, const char *written, size_t length)
{
    uintptr_t known = (uintptr_t)map_get(names->spellings, written, length);
    if (known)
        return (uint32_t)(known - 1);
    struct arena *scratch = arena_new();
    const char *name = lift_main_name(scratch, names->gym, arena_text(scratch, written, length));
    uint32_t number = number_of_name(names, scratch, name);
    arena_free(scratch);
    map_put(names->spellings, written, length, (void *)((uintptr_t)number + 1));
    return number;
}

/* --- bodyweight lifts -------------------------------------------------------------------------------------------- */

bool lift_is_bodyweight(const char *name, const struct gym *gym)
{
    static const char *const body[] = {
        "pull up",  "pull ups",  "pullup",    "pullups",    "chin up",      "chin ups",      "chinup",
        "chinups",  "dip",       "dips",      "push up",    "push ups",     "pushup",        "pushups",
        "press up", "press ups", "muscle up", "muscle ups", "inverted row", "inverted rows", "bodyweight"};
    static const char *const helped[] = {"assisted", "machine",
                                         "cable"}; /* their weight reduces the load, or is a stack's */
    const struct lift *lift = gym_lift(gym, name);
    if (lift && lift->bodyweight)
        return true;
    struct arena *scratch = arena_new();
    const char *key = name_key(scratch, name);
    bool is_body = HAS_ANY(key, body) && !HAS_ANY(key, helped);
    arena_free(scratch);
    return is_body;
}
