#include "base/unit.h"

#include "base/number.h"

#include <string.h>
#include <strings.h>

const char *mass_unit_name(enum mass_unit unit)
{
    return unit == UNIT_LB ? "lb" : "kg";
}

double kg_from(double value, enum mass_unit unit)
{
    return unit == UNIT_LB ? value * KG_PER_LB : value;
}

double kg_to(double kg, enum mass_unit unit)
{
    return unit == UNIT_LB ? kg / KG_PER_LB : kg;
}

struct spelling
{
    const char *word;
    double factor;
};

static const struct spelling masses[] = {
    {"kg", UNIT_KG},       {"kgs", UNIT_KG},       {"kilo", UNIT_KG},       {"kilos", UNIT_KG},
    {"kilogram", UNIT_KG}, {"kilograms", UNIT_KG}, {"kilogramme", UNIT_KG}, {"kilogrammes", UNIT_KG},
    {"lb", UNIT_LB},       {"lbs", UNIT_LB},       {"pound", UNIT_LB},      {"pounds", UNIT_LB},
    {"#", UNIT_LB},
};

static const struct spelling lengths[] = {
    {"m", 1},         {"metre", 1},     {"meter", 1},       {"metres", 1},      {"meters", 1},
    {"cm", 0.01},     {"mm", 0.001},    {"in", M_PER_IN},   {"inch", M_PER_IN}, {"inches", M_PER_IN},
    {"\"", M_PER_IN}, {"ft", M_PER_FT}, {"foot", M_PER_FT}, {"feet", M_PER_FT}, {"'", M_PER_FT},
};

static const struct spelling forces[] = {
    {"kgf", 1},
    {"kp", 1},
    {"lbf", KG_PER_LB},
    {"n", 1 / STANDARD_GRAVITY_MS2},
    {"newton", 1 / STANDARD_GRAVITY_MS2},
    {"newtons", 1 / STANDARD_GRAVITY_MS2},
};

static const struct spelling *find(const struct spelling *list, size_t count, const char *word, size_t length)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(list[i].word) == length && !strncasecmp(list[i].word, word, length))
            return &list[i];
    return NULL;
}

bool mass_unit_read(const char *word, size_t length, enum mass_unit *unit)
{
    const struct spelling *found = find(masses, sizeof masses / sizeof *masses, word, length);
    if (found)
        *unit = found->factor > 0 ? UNIT_LB : UNIT_KG;
    return found;
}

bool length_unit_read(const char *word, size_t length, double *metres)
{
    const struct spelling *found = find(lengths, sizeof lengths / sizeof *lengths, word, length);
    if (found)
        *metres = found->factor;
    return found;
}

bool pull_unit_read(const char *word, size_t length, double *kg)
{
    enum mass_unit unit;
    const struct spelling *found = find(forces, sizeof forces / sizeof *forces, word, length);
    if (found)
        *kg = found->factor;
    else if (mass_unit_read(word, length, &unit))
        *kg = kg_from(1, unit);
    else
        return false;
    return true;
}

/* Splits "7.0 kg" into the number and the word after it; false where there is no number. */
static bool number_and_word(const char *text, double *value, const char **word, size_t *length)
{
    text += strspn(text, " \t");
    size_t used = number_prefix(text, strlen(text), '.', value);
    if (!used)
        return false;
    text += used;
    text += strspn(text, " \t");
    *word = text;
    *length = strlen(text);
    while (*length && strchr(" \t", text[*length - 1]))
        --*length;
    return true;
}

bool mass_read(const char *text, double *kg, bool *missing_unit)
{
    const char *word;
    size_t length;
    enum mass_unit unit;
    *missing_unit = false;
    if (!number_and_word(text, kg, &word, &length))
        return false;
    if (!length)
        return *missing_unit = true, false;
    if (!mass_unit_read(word, length, &unit))
        return false;
    *kg = kg_from(*kg, unit);
    return true;
}

bool length_read(const char *text, double *metres, bool *missing_unit)
{
    const char *word;
    size_t length;
    double factor;
    *missing_unit = false;
    if (!number_and_word(text, metres, &word, &length))
        return false;
    if (!length)
        return *missing_unit = true, false;
    if (!length_unit_read(word, length, &factor))
        return false;
    *metres *= factor;
    return true;
}
