#include "reading/measurements/measurement_columns.h"

#include "base/text.h"
#include "base/unit.h"
#include "reading/csv/csv_rows.h"

#include <math.h>
#include <string.h>

static const struct
{
    const char *header;
    enum measurement_field field;
} synonyms[] = {
    {"length", MEASURED_LENGTH},
    {"lengths", MEASURED_LENGTH},
    {"band length", MEASURED_LENGTH},
    {"stretch", MEASURED_LENGTH},
    {"stretched", MEASURED_LENGTH},
    {"stretched length", MEASURED_LENGTH},
    {"stretched to", MEASURED_LENGTH},
    {"end to end", MEASURED_LENGTH},
    {"end to end length", MEASURED_LENGTH},
    {"distance", MEASURED_LENGTH},
    {"extension", MEASURED_EXTENSION},
    {"elongation", MEASURED_EXTENSION},
    {"stretched by", MEASURED_EXTENSION},
    {"flat", MEASURED_FLAT},
    {"flat length", MEASURED_FLAT},
    {"rest length", MEASURED_FLAT},
    {"resting length", MEASURED_FLAT},
    {"unstretched", MEASURED_FLAT},
    {"unstretched length", MEASURED_FLAT},
    {"pull", MEASURED_PULL},
    {"force", MEASURED_PULL},
    {"tension", MEASURED_PULL},
    {"load", MEASURED_PULL},
    {"weight", MEASURED_PULL},
    {"mass", MEASURED_PULL},
    {"resistance", MEASURED_PULL},
    {"reading", MEASURED_PULL},
    {"scale", MEASURED_PULL},
    {"band", MEASURED_BAND},
    {"bands", MEASURED_BAND},
    {"label", MEASURED_BAND},
    {"band label", MEASURED_BAND},
    {"name", MEASURED_BAND},
    {"band name", MEASURED_BAND},
    {"side", MEASURED_SIDE},
    {"way", MEASURED_WAY},
    {"date", MEASURED_DATE},
    {"day", MEASURED_DATE},
    {"measured", MEASURED_DATE},
    {"measured on", MEASURED_DATE},
    {"date measured", MEASURED_DATE},
    {"note", MEASURED_NOTE},
    {"notes", MEASURED_NOTE},
    {"comment", MEASURED_NOTE},
    {"comments", MEASURED_NOTE},
    {"remark", MEASURED_NOTE},
    {"remarks", MEASURED_NOTE},
};

enum unit_kind measurement_unit(const char *word, size_t length, double *size)
{
    if (length_unit_read(word, length, size))
        return UNIT_OF_LENGTH;
    return pull_unit_read(word, length, size) ? UNIT_OF_PULL : UNIT_OF_NOTHING;
}

enum unit_kind measurement_kind(enum measurement_field field)
{
    switch (field) {
    case MEASURED_LENGTH:
    case MEASURED_EXTENSION:
    case MEASURED_FLAT:
        return UNIT_OF_LENGTH;
    case MEASURED_PULL:
        return UNIT_OF_PULL;
    default:
        return UNIT_OF_NOTHING;
    }
}

bool band_side_read(const char *text, enum band_side *side)
{
    static const char *const words[] = {"", "left", "right", "", "l", "r"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (text_same_name(words[i], text)) {
            *side = (enum band_side)(i % 3);
            return true;
        }
    }
    return false;
}

bool band_way_read(const char *text, enum band_way *way)
{
    static const char *const words[] = {[WAY_UNSAID] = "", [WAY_UP] = "up", [WAY_DOWN] = "down"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (text_same_name(words[i], text)) {
            *way = (enum band_way)i;
            return true;
        }
    }
    return false;
}

/* --- headers as words -------------------------------------------------------------------------------------------- */

#define MOST_WORDS 12

struct words
{
    const char *word[MOST_WORDS];
    size_t count;
};

static struct words split_header(struct arena *scratch, const char *header)
{
    struct words words = {0};
    char *text = text_fold(scratch, header);
    for (char *c = text; *c; c++)
        if (strchr("_-()[]{},;:./|", *c))
            *c = ' ';
    for (; *(text += strspn(text, " ")) && words.count < MOST_WORDS; words.count++) {
        size_t length = strcspn(text, " ");
        words.word[words.count] = arena_text(scratch, text, length);
        text += length;
    }
    return words;
}

static const char *last_word(const struct words *words)
{
    return words->count ? words->word[words->count - 1] : "";
}

static void drop_number(struct words *words)
{
    const char *last = last_word(words);
    if (words->count > 1 && strspn(last, "0123456789") == strlen(last))
        words->count--;
}

/* "length in cm" also loses its "in"; in "length in" that is the unit. */
static enum unit_kind drop_unit(struct words *words, double *size)
{
    const char *last = last_word(words);
    enum unit_kind kind = measurement_unit(last, strlen(last), size);
    if (kind == UNIT_OF_NOTHING)
        return kind;
    words->count--;
    if (words->count > 1 && !strcmp(last_word(words), "in"))
        words->count--;
    return kind;
}

/* Removes "left" and "right" from a pull's header; a header with both is that of the column of sides. */
static enum measurement_field drop_side(struct words *words, enum band_side *side)
{
    size_t kept = 0;
    bool left = false, right = false;
    for (size_t i = 0; i < words->count; i++) {
        bool is_left = !strcmp(words->word[i], "left"), is_right = !strcmp(words->word[i], "right");
        left |= is_left;
        right |= is_right;
        if (!is_left && !is_right)
            words->word[kept++] = words->word[i];
    }
    words->count = kept;
    *side = left && !right ? SIDE_LEFT : right && !left ? SIDE_RIGHT : SIDE_UNSAID;
    return left && right ? MEASURED_SIDE : left || right ? MEASURED_PULL : MEASURED_NOTHING;
}

static enum measurement_field named_field(struct arena *scratch, const struct words *words)
{
    char *name = arena_copy(scratch, "");
    for (size_t i = 0; i < words->count; i++)
        name = arena_printf(scratch, "%s%s%s", name, i ? " " : "", words->word[i]);
    for (size_t i = 0; i < sizeof synonyms / sizeof *synonyms; i++)
        if (!strcmp(synonyms[i].header, name))
            return synonyms[i].field;
    return MEASURED_NOTHING;
}

struct measurement_column measurement_column(struct arena *scratch, const char *header)
{
    struct measurement_column column = {.field = MEASURED_NOTHING, .unit = NAN};
    struct words words = split_header(scratch, header);
    if (!words.count)
        return column;
    double size;
    drop_number(&words);
    enum unit_kind kind = drop_unit(&words, &size);
    drop_number(&words);
    enum measurement_field by_side = drop_side(&words, &column.side),
                           by_unit = kind == UNIT_OF_LENGTH ? MEASURED_LENGTH : MEASURED_PULL;
    if (words.count)
        column.field = named_field(scratch, &words);
    else
        column.field = by_side != MEASURED_NOTHING ? by_side : kind != UNIT_OF_NOTHING ? by_unit : MEASURED_NOTHING;
    if (column.field != MEASURED_PULL)
        column.side = SIDE_UNSAID;
    enum unit_kind due = measurement_kind(column.field);
    column.wrong_unit = due != UNIT_OF_NOTHING && kind != UNIT_OF_NOTHING && kind != due;
    if (kind != UNIT_OF_NOTHING && kind == due)
        column.unit = size;
    return column;
}

/* --- where the header is, and what parts the cells ------------------------------------------------------------ */

#define HEADER_LINES 20 /* the header must be on one of these lines */

static void try_delimiter(struct arena *scratch, const char *text, size_t length, char delimiter,
                          struct measurement_header *best)
{
    const char *const *cells;
    size_t count = csv_split_record(scratch, text, length, delimiter, &cells);
    struct measurement_header found = {.delimiter = delimiter};
    for (size_t i = 0; i < count; i++) {
        enum measurement_field field = measurement_column(scratch, cells[i]).field;
        found.columns += field != MEASURED_NOTHING;
        found.length |= field == MEASURED_LENGTH || field == MEASURED_EXTENSION;
        found.pull |= field == MEASURED_PULL;
    }
    found.whole = found.length && found.pull;
    if (found.whole > best->whole || (found.whole == best->whole && found.columns > best->columns))
        *best = found;
}

struct signs
{
    size_t comma, point;
};

static bool count_signs(void *context, const struct csv_row *row)
{
    struct signs *signs = context;
    for (size_t i = 0; i < row->count; i++) {
        const char *digits = row->cells[i] + strspn(row->cells[i], "0123456789");
        size_t after = strspn(digits + (*digits != 0), "0123456789");
        bool dated = *digits && digits[1 + after] == *digits; /* 3.1.2026 */
        signs->comma += *digits == ',' && after && !dated;
        signs->point += *digits == '.' && after && !dated;
    }
    return true;
}

/* A comma only if the cells are separated by another character, and most numbers at the start of the file have one. */
static char decimal_of(struct input *input, char delimiter, uint32_t header_line)
{
    struct signs signs = {0};
    size_t length;
    const char *text = input_head(input, &length);
    if (delimiter != ',')
        csv_rows_scan(text, length, delimiter, header_line, count_signs, &signs);
    return signs.comma > signs.point ? ',' : '.';
}

struct measurement_header measurement_header(struct input *input, struct arena *scratch)
{
    static const char delimiters[] = {',', ';', '\t', '|'};
    struct measurement_header best = {0};
    size_t length;
    const char *text = input_head(input, &length);
    for (uint32_t line = 1; line <= HEADER_LINES && length && !best.whole; line++) {
        struct measurement_header here = {0};
        const char *end = memchr(text, '\n', length);
        for (size_t i = 0; i < sizeof delimiters && *text != '#'; i++)
            try_delimiter(scratch, text, length, delimiters[i], &here);
        here.line = line;
        if (here.whole || here.columns > best.columns)
            best = here;
        arena_reset(scratch);
        if (!end)
            break;
        length -= (size_t)(end + 1 - text);
        text = end + 1;
    }
    if (best.whole)
        best.decimal = decimal_of(input, best.delimiter, best.line);
    return best;
}
