#include "reading/gym/gym_gear.h"

#include "base/text.h"

#include "reading/gym/gym_file.h"
#include "reading/gym/gym_reader.h"
#include "reading/gym/gym_values.h"

#include <math.h>
#include <string.h>
#include <strings.h>

/* "25x4 20 15": each plate, with the number of available pairs if it is limited. */
bool read_plates(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)target;
    for (const char *at = value; *(at += strspn(at, " \t,"));) {
        struct plate_draft plate = {.pairs = -1};
        const char *start = at;
        if (!gym_take_number(reader, key, &at, false, &plate.value))
            return false;
        size_t unit = strcspn(at, " \t,x0123456789.");
        const char *word = unit ? at : gym_skip_blanks(at);
        unit = unit ? unit : strcspn(word, " \t,x0123456789.");
        plate.unit_said = unit && mass_unit_read(word, unit, &plate.unit);
        at = plate.unit_said ? word + unit : at;
        double pairs = -1;
        if (*at == 'x' || *at == 'X') {
            at++;
            if (!gym_take_number(reader, key, &at, false, &pairs))
                return false;
        }
        size_t written = (size_t)(at - start);
        if (*at && !strchr(" \t,", *at))
            return gym_bad(reader, DIAG_GYM_VALUE, start, 0,
                           "write 25x4 20 15: four pairs of 25, any number of 20 and 15", "%s: '%s' is not a plate",
                           key->name, start);
        if (plate.value <= 0 || plate.value > key->most ||
            (pairs >= 0 && (pairs < 1 || pairs > 99 || pairs != floor(pairs))))
            return gym_bad(reader, DIAG_GYM_VALUE, start, written, NULL, "%s: '%.*s' is out of range", key->name,
                           (int)written, start);
        plate.pairs = (int)pairs;
        plate.at = gym_here(reader, start, written);
        *LIST_ADD(reader->own, &reader->plates) = plate;
    }
    return true;
}

bool read_default(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct chain_draft *draft = target;
    draft->default_at = gym_here(reader, value, 0);
    return read_yes_no(reader, key, value, &draft->chain.is_default);
}

/* "0.40 m, 0.3 kg"; for a leader of negligible weight, the length is enough. */
bool read_leader(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct chain *chain = &((struct chain_draft *)target)->chain;
    double length, mass = 0;
    const char *text = value;
    if (!gym_take_quantity(reader, key, &text, LENGTH, false, &length))
        return false;
    text = gym_skip_blanks(text);
    text += *text == ',';
    if (*gym_skip_blanks(text) && !gym_take_quantity(reader, key, &text, MASS, false, &mass))
        return false;
    if (!gym_at_end(reader, key, text))
        return false;
    chain->leader_m = length;
    chain->leader_kg = mass;
    return true;
}

/* "1.10 m, 0.70 m" */
static bool take_two_lengths(struct gym_reader *reader, const struct gym_key *key, const char **at, double metres[2])
{
    if (!gym_take_quantity(reader, key, at, LENGTH, false, &metres[0]))
        return false;
    *at = gym_skip_blanks(*at);
    *at += **at == ',';
    return gym_take_quantity(reader, key, at, LENGTH, false, &metres[1]) && gym_at_end(reader, key, *at);
}

bool read_strands(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct chain_draft *draft = target;
    const char *text = value;
    double strands[2];
    if (!take_two_lengths(reader, key, &text, strands))
        return false;
    memcpy(draft->strands_m, strands, sizeof strands);
    draft->strands_at = gym_here(reader, value, 0);
    return true;
}

/* "1.20 m, 0.60 m": height, and to the side */
bool read_pin(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct chain_draft *draft = target;
    const char *text = value;
    double pin[2];
    if (!take_two_lengths(reader, key, &text, pin))
        return false;
    draft->chain.pinned = true;
    draft->chain.pin_m = pin[0];
    draft->chain.pin_aside_m = pin[1];
    draft->pin_at = gym_here(reader, value, 0);
    return true;
}

bool read_pair(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    (void)key;
    struct band_draft *draft = target;
    draft->pair_said = true;
    draft->pair = !strcasecmp(value, "yes");
    if (!draft->pair && strcasecmp(value, "no"))
        draft->partner = gym_here(reader, value, 0);
    return true;
}

/* "1.20 m : 12.5 kg" */
static bool read_point(struct gym_reader *reader, const struct gym_key *key, const char *value,
                       struct point_drafts *points)
{
    struct point_draft point = {.at = gym_here(reader, value, 0)};
    const char *text = value;
    if (!gym_take_quantity(reader, key, &text, LENGTH, false, &point.point.length_m))
        return false;
    text = gym_skip_blanks(text);
    if (*text != ':')
        return gym_bad(reader, DIAG_GYM_VALUE, value, 0,
                       arena_printf(reader->own, "write %s = 1.20 m : 12.5 kg", key->name),
                       "%s: there is no : between length and pull", key->name);
    text++;
    if (!gym_take_quantity(reader, key, &text, MASS, false, &point.point.pull_kg) || !gym_at_end(reader, key, text))
        return false;
    *LIST_ADD(reader->own, &points->list) = point;
    return true;
}

bool read_tension(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    return read_point(reader, key, value, &((struct band_draft *)target)->points);
}

bool read_tension_down(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    return read_point(reader, key, value, &((struct band_draft *)target)->lowering);
}

bool read_measured(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    day_number day;
    if (!gym_take_day(reader, key, &value, &day) || !gym_at_end(reader, key, value))
        return false;
    *(day_number *)target = day;
    return true;
}

/* --- laws -------------------------------------------------------------------------------------------------------- */

static const struct
{
    const char *name;
    enum band_law law;
    int coefficients;
} laws[] = {
    {"measured", LAW_MEASURED, 0},
    {"neo-hookean", LAW_NEO_HOOKEAN, 1},
    {"mooney-rivlin", LAW_MOONEY_RIVLIN, 2},
    {"mooney", LAW_MOONEY_RIVLIN, 2}, /* abbreviation */
};

/* A coefficient of a law: a number of kg, with or without the unit. */
static bool take_coefficient(struct gym_reader *reader, const struct gym_key *key, const char **at, double *kg)
{
    enum mass_unit unit;
    if (!gym_take_number(reader, key, at, true, kg))
        return false;
    const char *word = gym_skip_blanks(*at);
    size_t length = strcspn(word, " \t");
    if (length && mass_unit_read(word, length, &unit)) {
        *kg = kg_from(*kg, unit);
        *at = word + length;
    }
    return fabs(*kg) <= key->most ||
           gym_bad(reader, DIAG_GYM_VALUE, word, length, NULL, "%s: a coefficient is out of range", key->name);
}

/* "range 1.10 m to 3.00 m" */
static bool take_range(struct gym_reader *reader, const struct gym_key *key, const char **at,
                       struct calibration *calibration)
{
    static const struct gym_key within = {.name = "law", .least = 0.05, .most = 30};
    double low, high;
    const char *text = gym_skip_blanks(*at) + strlen("range"), *start = text;
    if (!gym_take_quantity(reader, &within, &text, LENGTH, false, &low))
        return false;
    text = gym_skip_blanks(text);
    text += strncasecmp(text, "to", 2) ? *text == '-' : 2;
    if (!gym_take_quantity(reader, &within, &text, LENGTH, false, &high))
        return false;
    if (low >= high)
        return gym_bad(reader, DIAG_GYM_VALUE, start, (size_t)(text - start), NULL,
                       "%s: the range must go from the shorter to the longer length", key->name);
    calibration->range_low_m = low;
    calibration->range_high_m = high;
    *at = text;
    return true;
}

static bool begins_range(const char *text)
{
    return !strncasecmp(gym_skip_blanks(text), "range", 5);
}

/* "mooney-rivlin 12.1 kg 3.4 kg range 1.10 m to 3.00 m", or only the name: then its coefficients are fitted to the
 * points. */
bool read_law(struct gym_reader *reader, const struct gym_key *key, const char *value, void *target)
{
    struct band_draft *draft = target;
    struct calibration *to = &draft->calibration, law = *to;
    const char *names[] = {laws[0].name, laws[1].name, laws[2].name, laws[3].name}, *at = value + strcspn(value, " \t");
    int index = gym_take_word(reader, key, value, (size_t)(at - value), names, sizeof names / sizeof *names);
    if (index < 0)
        return false;
    law.law = laws[index].law;
    double coefficients[2] = {NAN, NAN};
    int count = 0;
    while (*gym_skip_blanks(at) && !begins_range(at) && count < laws[index].coefficients)
        if (!take_coefficient(reader, key, &at, &coefficients[count++]))
            return false;
    if (count && count < laws[index].coefficients)
        return gym_bad(reader, DIAG_GYM_VALUE, value, 0, "give both coefficients in kg, or none to have them fitted",
                       "%s: %s needs %d coefficients", key->name, laws[index].name, laws[index].coefficients);
    bool range = begins_range(at);
    if ((range && !take_range(reader, key, &at, &law)) || !gym_at_end(reader, key, at))
        return false;
    law.c1_kg = coefficients[0];
    law.c2_kg = count == 2 ? coefficients[1] : count ? 0 : NAN;
    *to = law;
    draft->law_said = true;
    draft->coefficients_said = count;
    draft->range_said = range;
    return true;
}
