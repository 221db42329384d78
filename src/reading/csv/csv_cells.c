#include "reading/csv/csv_cells.h"

#include "reading/csv/csv_log.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_say.h"

#include <math.h>
#include <string.h>
#include <strings.h>

#define RIR_LIMIT 100
#define VELOCITY_LIMIT_MS 10 /* a faster velocity must have been logged in another unit */
#define BODYWEIGHT_LIMIT_KG 500

/* Like number_whole, with the file's decimal sign. As long as the sign is not known, a number that can only be read
 * with the other sign settles it. */
bool csv_number(struct csv_log *log, const char *text, double *value)
{
    if (number_whole(text, log->decimal, value))
        return true;
    if (!log->decimal_open || !number_whole(text, log->decimal == ',' ? '.' : ',', value))
        return false;
    log->decimal = log->decimal == ',' ? '.' : ',';
    log->decimal_open = false;
    return true;
}

bool csv_cell_number(struct csv_log *log, const struct csv_cell *cell, double *value)
{
    return number_prefix(cell->text, cell->length, log->decimal, value) == cell->length ||
           csv_number(log, cell->text, value);
}

/* "8", "@8", "RPE 8", "2+" */
static bool effort_number(struct csv_log *log, const struct csv_cell *cell, const char *word, double *value)
{
    const char *text = cell->text;
    char copy[32];
    size_t length = cell->length;
    if (csv_cell_number(log, cell, value))
        return true;
    if (length >= sizeof copy)
        return false;
    if (!strncasecmp(text, word, strlen(word)))
        text += strlen(word);
    text += strspn(text, " @:");
    length = strlen(text);
    memcpy(copy, text, length + 1);
    if (length && copy[length - 1] == '+')
        copy[length - 1] = 0;
    return csv_number(log, copy, value);
}

static void read_rpe(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    double value;
    entry->rpe = NAN;
    if (!csv_cell(log, FIELD_RPE, &cell))
        return;
    uint64_t text = csv_short_text(&cell);
    struct csv_effort *slot = &log->memory->efforts[csv_short_slot(text, CSV_EFFORT_BITS)];
    if (text && slot->text == text && slot->decimal == log->decimal)
        entry->rpe = slot->value;
    else if (!effort_number(log, &cell, "rpe", &value))
        csv_say(log, DIAG_EFFORT_IGNORED, cell.index, NULL, "'%s' is not an RPE: the set is kept without it",
                cell.text);
    else if (value < 0 || value > 10 || (value > 0 && value < 1))
        csv_say(log, DIAG_EFFORT_IGNORED, cell.index, NULL, "RPE goes from 1 to 10: the set is kept without '%s'",
                cell.text);
    else /* exports write 0 for none */
        *slot = (struct csv_effort){text, entry->rpe = value > 0 ? value : NAN, log->decimal};
}

static void read_rir(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    double value;
    entry->rir = NAN;
    if (!csv_cell(log, FIELD_RIR, &cell))
        return;
    if (!effort_number(log, &cell, "rir", &value) || value < 0 || value > RIR_LIMIT)
        csv_say(log, DIAG_EFFORT_IGNORED, cell.index, NULL,
                "'%s' is not a number of repetitions in reserve: the set is kept without it", cell.text);
    else
        entry->rir = value;
}

static void read_velocity(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    char copy[32];
    double value;
    entry->velocity_ms = NAN;
    if (!csv_cell(log, FIELD_VELOCITY, &cell))
        return;
    size_t length = cell.length;
    if (length >= 3 && length < sizeof copy && !strcmp(cell.text + length - 3, "m/s")) {
        memcpy(copy, cell.text, length - 3);
        copy[length - 3] = 0;
    } else {
        copy[0] = 0;
    }
    if (!csv_number(log, *copy ? copy : cell.text, &value) || value < 0 || value > VELOCITY_LIMIT_MS)
        csv_say(log, DIAG_VELOCITY_IGNORED, cell.index, "a mean velocity is written in m/s, as 0.62",
                "'%s' is not a velocity in m/s: the set is kept without it", cell.text);
    else if (value > 0)
        entry->velocity_ms = value;
}

void csv_read_effort(struct csv_log *log, struct csv_entry *entry)
{
    read_rpe(log, entry);
    read_rir(log, entry);
    read_velocity(log, entry);
}

/* A word in the set-number column is also a kind, if it is known: W, D, F. */
static bool kind_of_index(const struct csv_log *log, struct kind_cell *kind)
{
    struct csv_cell cell;
    if (!csv_cell(log, FIELD_SET_INDEX, &cell) || (*cell.text >= '0' && *cell.text <= '9'))
        return false;
    *kind = kind_read(cell.text);
    return kind->known;
}

bool csv_read_kind(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    if (!csv_cell(log, FIELD_KIND, &cell)) {
        if (!kind_of_index(log, &entry->kind))
            entry->kind = (struct kind_cell){.kind = SET_WORK, .known = true};
        return true;
    }
    entry->kind = cell.use->warm_up ? warm_up_read(cell.text) : kind_read(cell.text);
    size_t length = cell.length;
    if (!entry->kind.known && !map_get(log->kinds_said, cell.text, length)) {
        csv_say_once(log, cell.text, DIAG_UNKNOWN_KIND, cell.index,
                     "'%s' is not a kind of set that tautline knows: read as work", cell.text);
        map_put(log->kinds_said, cell.text, length, log);
    }
    return true;
}

/* A number with or without its unit, in kg. */
static bool mass_cell(struct csv_log *log, const struct csv_cell *cell, enum mass_unit unit, double *kg)
{
    char copy[48];
    size_t length = cell->length, word = length;
    if (cell->use->unit_said)
        unit = cell->use->unit;
    while (word && !(cell->text[word - 1] >= '0' && cell->text[word - 1] <= '9'))
        word--;
    if (!word || word >= sizeof copy)
        return false;
    memcpy(copy, cell->text, word);
    copy[word] = 0;
    word += strspn(cell->text + word, " ");
    if ((word < length && !mass_unit_read(cell->text + word, length - word, &unit)) || !csv_number(log, copy, kg))
        return false;
    *kg = kg_from(*kg, unit);
    return true;
}

bool csv_read_unit(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    entry->unit = log->unit;
    entry->unit_said = log->unit_said;
    if (!csv_cell(log, FIELD_UNIT, &cell))
        return true;
    if (!csv_memo_holds(&log->unit_memo, &cell)) {
        if (!mass_unit_read(cell.text, cell.length, &log->unit_value))
            return csv_refuse(log, DIAG_BAD_LOAD, cell.index, "write kg or lb",
                              "'%s' is not a unit of mass that tautline knows", cell.text);
        csv_memo_fill(&log->unit_memo, &cell);
    }
    entry->unit = log->unit_value;
    entry->unit_said = true;
    return true;
}

bool csv_read_bodyweight(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    double kg;
    if (!csv_cell(log, FIELD_BODYWEIGHT, &cell))
        return true;
    if (!mass_cell(log, &cell, entry->unit, &kg))
        return csv_refuse(log, DIAG_BAD_LOAD, cell.index, "write a bodyweight as 78.5 or 78.5 kg",
                          "'%s' is not a bodyweight", cell.text);
    if (kg < 0 || kg > BODYWEIGHT_LIMIT_KG)
        return csv_refuse(log, DIAG_ABSURD_NUMBER, cell.index, NULL, "a bodyweight of '%s' looks mistyped", cell.text);
    if (kg > 0) { /* exports write 0 for none */
        entry->bodyweight_kg = kg;
        csv_lifter(log, entry->lifter)->bodyweight_known = true;
    }
    return true;
}

/* True if it has any digit but 0: 0, 0.0 and 00:00 mean none. */
static bool says_something(const struct csv_log *log, enum log_field field)
{
    struct csv_cell cell;
    return csv_cell(log, field, &cell) && strpbrk(cell.text, "123456789");
}

static bool read_sets(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    double sets;
    entry->sets = 1;
    if (!csv_cell(log, FIELD_SETS, &cell))
        return true;
    if (!csv_cell_number(log, &cell, &sets) || sets != floor(sets) || sets < 0)
        return csv_refuse(log, DIAG_BAD_SETS, cell.index, "write the number of sets as a whole number",
                          "'%s' is not a number of sets", cell.text);
    if (sets == 0 || sets > SETS_LIMIT)
        return csv_refuse(log, DIAG_BAD_SETS, cell.index, NULL, "'%s' sets on one line look mistyped", cell.text);
    entry->sets = (unsigned)sets;
    return true;
}

/* If the repetitions cell gives a number of sets, the sets column must agree. */
static bool agree_on_sets(struct csv_log *log, struct csv_entry *entry, const struct csv_cell *reps)
{
    unsigned said = 0;
    struct csv_cell cell;
    for (size_t i = 0; i < log->reps.count; i++)
        said += log->reps.groups[i].sets;
    if (said > SETS_LIMIT)
        return csv_refuse(log, DIAG_BAD_REPS, reps->index, NULL, "%u sets on one line look mistyped", said);
    if (!log->reps.sets_said || !csv_cell(log, FIELD_SETS, &cell))
        return true;
    if (said != entry->sets)
        return csv_refuse(log, DIAG_BAD_SETS, cell.index, "make the two cells agree",
                          "'%s' sets, but the repetitions '%s' are for %u", cell.text, reps->text, said);
    entry->sets = 1;
    return true;
}

/* Fast path: nearly all repetitions are one short number. reps_read() handles the rest. */
static bool plain_reps(const char *text, struct reps_cell *reps)
{
    unsigned number = 0;
    size_t digits = 0;
    for (; digits < 3 && text[digits] >= '0' && text[digits] <= '9'; digits++)
        number = number * 10 + (unsigned)(text[digits] - '0');
    if (!digits || text[digits])
        return false;
    reps->groups[0] = (struct reps_group){1, (uint16_t)number, false};
    reps->count = 1;
    reps->sets_said = false;
    return true;
}

bool csv_read_reps(struct csv_log *log, struct csv_entry *entry, bool *aside)
{
    struct csv_cell cell;
    bool written = csv_cell(log, FIELD_REPS, &cell);
    *aside = false;
    log->reps.count = 0;
    bool plain = written && plain_reps(cell.text, &log->reps);
    if (plain && log->reps.groups[0].reps && !log->map.of[FIELD_SETS].count) { /* the usual case */
        entry->sets = 1;
        return true;
    }
    if (written && !plain && !reps_read(cell.text, log->decimal, &log->reps))
        return csv_refuse(log, DIAG_BAD_REPS, cell.index, NULL, "'%s' is not a number of repetitions", cell.text);
    bool none = !log->reps.count || (log->reps.count == 1 && !log->reps.groups[0].reps);
    if (none && entry->kind.kind != SET_MISSED &&
        (says_something(log, FIELD_DURATION) || says_something(log, FIELD_DISTANCE)))
        return *aside = true;
    if (!written && entry->kind.kind != SET_MISSED)
        return csv_refuse(log, DIAG_BAD_REPS, log->map.of[FIELD_REPS].items[0].index, NULL, "no repetitions");
    if (!log->reps.count)
        reps_read("0", log->decimal, &log->reps);
    return read_sets(log, entry) && agree_on_sets(log, entry, &cell);
}
