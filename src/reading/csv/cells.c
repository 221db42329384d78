#include "reading/csv/cells.h"

#include <string.h>
#include <strings.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static const char *skip_blanks(const char *text)
{
    for (;;)
        if (*text == ' ' || *text == '\t' || *text == '\n')
            text++;
        else if (!strncmp(text, "\xC2\xA0", 2))
            text += 2;
        else
            return text;
}

static bool add_sets(struct reps_cell *cell, unsigned sets, unsigned reps, bool to_failure)
{
    size_t last = cell->count - 1;
    if (cell->count && cell->groups[last].reps == reps && cell->groups[last].to_failure == to_failure &&
        cell->groups[last].sets + sets <= SETS_LIMIT) {
        cell->groups[last].sets = (uint16_t)(cell->groups[last].sets + sets);
        return true;
    }
    if (cell->count == sizeof cell->groups / sizeof *cell->groups)
        return false;
    cell->groups[cell->count].sets = (uint16_t)sets;
    cell->groups[cell->count].reps = (uint16_t)reps;
    cell->groups[cell->count++].to_failure = to_failure;
    return true;
}

static bool whole_read(const char **text, unsigned limit, unsigned *value)
{
    *value = 0;
    if (!is_digit(**text))
        return false;
    for (; is_digit(**text); ++*text) {
        *value = *value * 10 + (unsigned)(**text - '0');
        if (*value > limit)
            return false;
    }
    return true;
}

/* x, X, × or *; returns its length in bytes. */
static size_t times_sign(const char *text)
{
    if (*text == 'x' || *text == 'X' || *text == '*')
        return 1;
    return strncmp(text, "\xC3\x97", 2) ? 0 : 2;
}

static bool amrap_word(const char **text)
{
    if (strncasecmp(*text, "amrap", 5))
        return false;
    *text = skip_blanks(*text + 5);
    return true;
}

/* "sets of", "sets x", "sets"; returns its length in bytes. */
static size_t sets_word(const char *text)
{
    if (strncasecmp(text, "set", 3))
        return 0;
    const char *rest = skip_blanks(text + 3 + ((text[3] | 0x20) == 's'));
    size_t times = strncasecmp(rest, "of", 2) ? times_sign(rest) : 2;
    return (size_t)(rest - text) + times;
}

static void skip_reps_word(const char **text)
{
    static const char *const words[] = {"repetitions", "repetition", "reps", "rep"};
    const char *after = skip_blanks(*text);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (!strncasecmp(after, words[i], strlen(words[i]))) {
            *text = after + strlen(words[i]);
            return;
        }
}

/* 5, 10+, 3x5, 3 sets of 5, 3x10+, AMRAP 10, 10 AMRAP. "To failure" applies only to the last set. */
static bool item_read(const char **text, struct reps_cell *cell)
{
    unsigned sets = 1, reps;
    bool amrap = amrap_word(text);
    if (!whole_read(text, REPS_LIMIT, &reps))
        return false;
    const char *after = skip_blanks(*text);
    size_t times = times_sign(after);
    if (!times)
        times = sets_word(after);
    if (times) {
        sets = reps;
        *text = skip_blanks(after + times);
        if (!sets || sets > SETS_LIMIT || !whole_read(text, REPS_LIMIT, &reps))
            return false;
        cell->sets_said = true;
    }
    if (**text == '+') {
        amrap = true;
        ++*text;
    }
    after = skip_blanks(*text);
    if (!amrap && amrap_word(&after)) {
        amrap = true;
        *text = after;
    }
    skip_reps_word(text);
    if (!amrap)
        return add_sets(cell, sets, reps, false);
    return (sets == 1 || add_sets(cell, sets - 1, reps, false)) && add_sets(cell, 1, reps, true);
}

/* "5.0", or "5,0" with a decimal comma: spreadsheets write 5 in this way. */
static bool whole_with_zeros(const char *text, char decimal, struct reps_cell *cell)
{
    unsigned reps;
    if (!whole_read(&text, REPS_LIMIT, &reps) || *text != decimal || text[1] != '0')
        return false;
    text++;
    text += strspn(text, "0");
    return !*skip_blanks(text) && add_sets(cell, 1, reps, false);
}

bool reps_read(const char *text, char decimal, struct reps_cell *reps)
{
    reps->count = 0;
    reps->sets_said = false;
    text = skip_blanks(text);
    if (!*text || whole_with_zeros(text, '.', reps) || (decimal == ',' && whole_with_zeros(text, ',', reps)))
        return true;
    for (;;) {
        if (!item_read(&text, reps))
            return false;
        const char *gap = text;
        text = skip_blanks(text);
        if (!*text)
            return true;
        reps->sets_said = true;
        if (strchr(",/;", *text))
            text = skip_blanks(text + 1);
        else if (text == gap)
            return false;
    }
}

/* A kind is listed without the word "set" after it; those with a letter may be abbreviated to it. */
static const struct
{
    const char *word;
    char letter;
    struct kind_cell kind;
} kinds[] = {
    {"", 0, {.kind = SET_WORK, .known = true}},
    {"work", 0, {.kind = SET_WORK, .known = true}},
    {"working", 0, {.kind = SET_WORK, .known = true}},
    {"normal", 'n', {.kind = SET_WORK, .known = true}},
    {"regular", 0, {.kind = SET_WORK, .known = true}},
    {"standard", 0, {.kind = SET_WORK, .known = true}},
    {"top", 0, {.kind = SET_WORK, .known = true}},
    {"back off", 0, {.kind = SET_WORK, .known = true}},
    {"backoff", 0, {.kind = SET_WORK, .known = true}},
    {"cluster", 0, {.kind = SET_WORK, .known = true}},
    {"rest pause", 0, {.kind = SET_WORK, .known = true}},
    {"left", 'l', {.kind = SET_WORK, .known = true}},
    {"right", 'r', {.kind = SET_WORK, .known = true}},
    {"warm", 'w', {.kind = SET_WARM_UP, .known = true}},
    {"warm up", 0, {.kind = SET_WARM_UP, .known = true}},
    {"warmup", 0, {.kind = SET_WARM_UP, .known = true}},
    {"w up", 0, {.kind = SET_WARM_UP, .known = true}},
    {"wu", 0, {.kind = SET_WARM_UP, .known = true}},
    {"w/u", 0, {.kind = SET_WARM_UP, .known = true}},
    {"failure", 'f', {.kind = SET_WORK, .to_failure = true, .known = true}},
    {"to failure", 0, {.kind = SET_WORK, .to_failure = true, .known = true}},
    {"amrap", 0, {.kind = SET_WORK, .to_failure = true, .known = true}},
    {"drop", 'd', {.kind = SET_WORK, .drop = true, .known = true}},
    {"dropset", 0, {.kind = SET_WORK, .drop = true, .known = true}},
    {"miss", 0, {.kind = SET_MISSED, .known = true}},
    {"missed", 0, {.kind = SET_MISSED, .known = true}},
    {"missed lift", 0, {.kind = SET_MISSED, .known = true}},
    {"no lift", 0, {.kind = SET_MISSED, .known = true}},
    {"fail", 0, {.kind = SET_MISSED, .known = true}},
};

/* Lower case, with each run of blanks, hyphens and underscores as one blank; false: longer than any known word. */
static bool fold_word(const char *text, char *folded, size_t size)
{
    size_t used = 0;
    bool gap = false;
    for (; *text; text++) {
        char c = *text;
        if (strchr(" \t\n-_", c)) {
            gap = used > 0;
            continue;
        }
        if (used + 3 > size)
            return false;
        if (gap)
            folded[used++] = ' ';
        gap = false;
        folded[used++] = c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
    }
    folded[used] = 0;
    return true;
}

static bool is_kind(size_t row, const char *folded)
{
    return !strcmp(kinds[row].word, folded) || (kinds[row].letter && folded[0] == kinds[row].letter && !folded[1]);
}

struct kind_cell kind_read(const char *text)
{
    char folded[24];
    if (!fold_word(text, folded, sizeof folded))
        return (struct kind_cell){.kind = SET_WORK};
    size_t length = strlen(folded);
    if (length > 4 && !strcmp(folded + length - 4, " set"))
        folded[length - 4] = 0;
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (is_kind(i, folded))
            return kinds[i].kind;
    return (struct kind_cell){.kind = SET_WORK};
}

struct kind_cell warm_up_read(const char *text)
{
    static const char *const yes[] = {"yes", "y", "true", "t", "1", "x", "\xE2\x9C\x93"}; /* check mark */
    static const char *const no[] = {"no", "n", "false", "f", "0", "-"};
    char folded[24];
    if (!fold_word(text, folded, sizeof folded))
        return (struct kind_cell){.kind = SET_WORK};
    for (size_t i = 0; i < sizeof yes / sizeof *yes; i++)
        if (!strcmp(yes[i], folded))
            return (struct kind_cell){.kind = SET_WARM_UP, .known = true};
    for (size_t i = 0; i < sizeof no / sizeof *no; i++)
        if (!strcmp(no[i], text) || !strcmp(no[i], folded))
            return (struct kind_cell){.kind = SET_WORK, .known = true};
    return kind_read(text);
}
