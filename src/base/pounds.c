#include "base/pounds.h"

#include "base/number.h"

#include <string.h>

static const struct
{
    const char *metric, *pounds;
} wordings[] = {
    {"___ kg", "___ lb"},
    {"___ mm", "___ in"},
    {"___ m", "___ in"},
    {"'0.78 m 1.42 m'", "'31 in 56 in'"},
    {"write a load as 100 kg, 60%", "write a load as 225 lb, 60%"},
    {"as in squat 100 kg: 3x5", "as in squat 225 lb: 3x5"},
    {"write a set as 100x5, or 100 kg x 5", "write a set as 225x5, or 225 lb x 5"},
    {"as in releasers 20 kg", "as in releasers 45 lb"},
    {"as in bands 12-40 kg", "as in bands 25-90 lb"},
    {"lose 10 cm in its hitch", "lose 4 in in its hitch"},
    {"as in: tautline setup '100 kg + 2 chains/side'", "as in: tautline setup '225 lb + 2 chains/side'"},
};

const char *advice_in_unit(struct arena *arena, const char *text, enum mass_unit unit)
{
    for (size_t i = 0; text && unit == UNIT_LB && i < sizeof wordings / sizeof *wordings; i++) {
        size_t before = 0;
        for (const char *at; (at = strstr(text + before, wordings[i].metric));) {
            size_t lead = (size_t)(at - text);
            before = lead + strlen(wordings[i].pounds);
            text = arena_printf(arena, "%.*s%s%s", (int)lead, text, wordings[i].pounds,
                                at + strlen(wordings[i].metric));
        }
    }
    return text;
}

/* "102.05 kg": the length of the number and its unit, and what it is in the other one; 0: it is something else. */
static size_t quantity_at(struct arena *arena, const char *at, const char **words)
{
    double value;
    size_t used = number_prefix(at, strlen(at), '.', &value);
    if (!used || at[used] != ' ')
        return 0;
    size_t unit = strspn(at + used + 1, "kgm");
    bool mass = unit == 2 && !strncmp(at + used + 1, "kg", 2), length = unit == 1 && at[used + 1] == 'm';
    if ((!mass && !length) || (at[used + 1 + unit] && at[used + 1 + unit] != ' '))
        return 0;
    char number[32];
    int digits = number_fixed(number, sizeof number, mass ? kg_to(value, UNIT_LB) : value / M_PER_IN, 1);
    if (digits > 2 && !strcmp(number + digits - 2, ".0"))
        number[digits - 2] = 0;
    *words = arena_printf(arena, "%s %s", number, mass ? "lb" : "in");
    return used + 1 + unit;
}

const char *load_in_unit(struct arena *arena, const char *text, enum mass_unit unit)
{
    const char *result = "", *from = text, *words = "";
    bool quoted = false;
    if (unit != UNIT_LB)
        return text;
    for (const char *at = text; *at;) {
        bool begins = *at >= '0' && *at <= '9' && (at == text || strchr(" +", at[-1]));
        quoted = quoted != (*at == '"');
        size_t used = begins && !quoted ? quantity_at(arena, at, &words) : 0;
        if (used) {
            result = arena_printf(arena, "%s%.*s%s", result, (int)(at - from), from, words);
            from = at + used;
        }
        at += used ? used : 1;
    }
    return arena_printf(arena, "%s%s", result, from);
}

const char *length_in_unit(struct arena *arena, double metres, enum mass_unit unit)
{
    char number[32];
    bool inches = unit == UNIT_LB;
    int length = number_fixed(number, sizeof number, inches ? metres / M_PER_IN : metres, inches ? 1 : 3);
    if (!inches && number[length - 1] == '0')
        number[length - 1] = 0;
    return arena_printf(arena, "%s %s", number, inches ? "in" : "m");
}
