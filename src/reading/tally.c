#include "reading/tally.h"

void tally_add(struct tally *tally, uint32_t more, uint32_t line)
{
    if (!tally->count)
        tally->line = line;
    tally->count += more;
}

static void add_aside(struct log *log, uint32_t lift, uint32_t count)
{
    for (size_t i = 0; i < log->asides.count; i++)
        if (log->asides.items[i].lift == lift) {
            log->asides.items[i].count += count;
            return;
        }
    *LIST_ADD(log->arena, &log->asides) = (struct aside){.lift = lift, .count = count};
}

void tally_say_lift(struct reading *reading, const char *path, uint32_t lift, const struct lift_tally *tally)
{
    if (!tally->unweighed.count && !tally->aside.count)
        return;
    if (reading->waiting) {
        *LIST_ADD(reading->arena, &reading->waiting->list) = (struct waiting_tally){path, lift, *tally};
        return;
    }
    const char *name = names_text(reading->log->lifts, lift);
    if (tally->unweighed.count)
        diag_add(reading->diags, DIAG_NO_WEIGHT, (struct place){.file = path, .line = tally->unweighed.line}, NULL,
                 NULL, "%s: %u %s without weight: the reps are counted and the loads left empty", name,
                 tally->unweighed.count, tally->unweighed.count == 1 ? "set" : "sets");
    if (!tally->aside.count)
        return;
    add_aside(reading->log, lift, tally->aside.count);
    diag_add(reading->diags, DIAG_SET_ASIDE, (struct place){.file = path, .line = tally->aside.line}, NULL, NULL,
             "%s: %u %s with a time or distance and no repetitions set aside", name, tally->aside.count,
             tally->aside.count == 1 ? "line" : "lines");
}

void tally_say_unit(struct reading *reading, const char *path, enum mass_unit unit, const struct tally *assumed)
{
    if (assumed->count)
        diag_add(reading->diags, DIAG_ASSUMED_UNIT, (struct place){.file = path, .line = assumed->line}, NULL, NULL,
                 "no unit in the file: %s assumed for %u %s", mass_unit_name(unit), assumed->count,
                 assumed->count == 1 ? "load" : "loads");
}

void tally_day(struct log_file *file, day_number day)
{
    file->first = file->first == NO_DAY || day < file->first ? day : file->first;
    file->last = file->last == NO_DAY || day > file->last ? day : file->last;
}

void tally_sets(const struct log *log, struct log_file *file, size_t first)
{
    file->sets += (uint32_t)(log->sets.count - first);
    for (size_t i = first; i < log->sets.count; i++)
        tally_day(file, log->sets.items[i].day);
}

bool tally_gives_up(struct reading *reading, const struct log_file *file, size_t sets, uint32_t line)
{
    if (file->refused < REFUSED_AT_MOST || sets > file->refused / 100)
        return false;
    diag_add(reading->diags, DIAG_LIMIT_REACHED, (struct place){.file = file->path, .line = line}, NULL, NULL,
             "%u lines were refused and almost none read: this is not a log, and the rest of it was not read",
             (unsigned)REFUSED_AT_MOST);
    return true;
}
