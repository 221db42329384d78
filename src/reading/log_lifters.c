#include "reading/log_lifters.h"

#include "base/system.h"
#include "reading/log_queue.h"

#include "base/text.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static uint32_t number_of_spelling(struct reading *reading, const char *written, bool say_unknown)
{
    struct arena *scratch = arena_new();
    char *folded = text_fold(scratch, written);
    uintptr_t known = (uintptr_t)map_get(reading->seen->lifters, folded, strlen(folded));
    if (!known) {
        const struct lifter *lifter = gym_lifter(reading->gym, written);
        const char *name = lifter ? lifter->name : text_squeeze(scratch, written);
        known = (uintptr_t)names_add(reading->log->lifters, name, strlen(name)) + 1;
        map_put(reading->seen->lifters, folded, strlen(folded), (void *)known);
    }
    const char *name = names_text(reading->log->lifters, (uint32_t)(known - 1));
    if (say_unknown && *name && reading->gym->lifter_count && !gym_lifter(reading->gym, name))
        diag_add_once(reading->diags, arena_printf(scratch, "lifter %s", folded), DIAG_UNKNOWN_LIFTER,
                      (struct place){.file = reading->gym->path}, NULL,
                      "without a [lifter] block tautline knows no heights and no tested maxes",
                      "a log names '%s', but the gym file has no [lifter] of that name", name);
    arena_free(scratch);
    return (uint32_t)(known - 1);
}

uint32_t lifter_adopt(struct reading *reading, const char *name)
{
    return number_of_spelling(reading, name, false);
}

uint32_t lifter_number(struct reading *reading, const char *written)
{
    size_t length = strlen(written);
    uintptr_t known = (uintptr_t)map_get(reading->seen->spellings, written, length);
    if (known)
        return (uint32_t)(known - 1);
    uint32_t number = number_of_spelling(reading, written, true);
    map_put(reading->seen->spellings, written, length, (void *)((uintptr_t)number + 1));
    return number;
}

void lifters_forget_spellings(struct reading *reading)
{
    reading->seen->spellings = map_new(reading->arena);
}

/* The path from the root, without "." and ".." and doubled slashes; links are not resolved. */
static char *plain_path(struct arena *scratch, const char *folder, const char *path)
{
    const char *whole = *path == '/' ? path : arena_printf(scratch, "%s/%s", folder, path);
    char *plain = arena_alloc(scratch, strlen(whole) + 2), *end = plain;
    for (const char *part = whole; *part; part += strcspn(part, "/")) {
        part += strspn(part, "/");
        size_t length = strcspn(part, "/");
        if (!length || (length == 1 && *part == '.'))
            continue;
        if (length == 2 && part[0] == '.' && part[1] == '.') {
            while (end > plain && *--end != '/')
                continue;
            continue;
        }
        *end++ = '/';
        memcpy(end, part, length);
        end += length;
    }
    *end = 0;
    return plain;
}

/* A folder's name, escaped so that fnmatch takes it literally. */
static char *escaped(struct arena *scratch, const char *path)
{
    char *text = arena_alloc(scratch, 2 * strlen(path) + 1), *to = text;
    for (; *path; *to++ = *path++)
        if (strchr("*?[\\", *path))
            *to++ = '\\';
    return text;
}

/* A pattern names a file, or a folder that holds it. */
static bool matches(struct arena *scratch, const char *folder, const char *pattern, const char *path)
{
    const char *whole = plain_path(scratch, escaped(scratch, folder), pattern);
    return system_matches_within(whole, path);
}

static const struct lifter *by_file(struct arena *scratch, const struct gym *gym, const char *path)
{
    char here[PATH_MAX], real_path[PATH_MAX], real_folder[PATH_MAX];
    if (!strcmp(path, "-") || !gym->folder || !getcwd(here, sizeof here))
        return NULL;
    const char *plain = plain_path(scratch, here, path), *folder = plain_path(scratch, here, gym->folder);
    bool real = realpath(path, real_path) && realpath(gym->folder, real_folder);
    for (size_t i = 0; i < gym->lifter_count; i++)
        for (size_t k = 0; k < gym->lifters[i].log_count; k++) {
            const char *pattern = gym->lifters[i].logs[k];
            if (matches(scratch, folder, pattern, plain) || (real && matches(scratch, real_folder, pattern, real_path)))
                return &gym->lifters[i];
        }
    return NULL;
}

/* A pattern may name a sheet of a workbook (year.xlsx:March), or the workbook and thereby all its sheets. */
const struct lifter *lifter_by_pattern(struct arena *scratch, const struct gym *gym, const char *path)
{
    const struct lifter *lifter = by_file(scratch, gym, path);
    const char *colon = strrchr(path, ':');
    if (lifter || !colon || strchr(colon, '/'))
        return lifter;
    return by_file(scratch, gym, arena_text(scratch, path, (size_t)(colon - path)));
}

const char *lifter_of_log(const struct reading *reading, const char *path)
{
    const struct gym *gym = reading->gym;
    const struct lifter *told = reading->options.as ? gym_lifter(gym, reading->options.as) : NULL;
    if (reading->options.as)
        return told ? told->name : reading->options.as;
    struct arena *scratch = arena_new();
    const struct lifter *lifter = lifter_by_pattern(scratch, gym, path);
    arena_free(scratch);
    if (!lifter && gym->lifter_count == 1)
        lifter = &gym->lifters[0];
    return lifter ? lifter->name : "";
}
