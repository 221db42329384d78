#include "reading/csv/csv_cuts.h"

#include "reading/csv/csv_log.h"

#include "base/text.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

#define REACH_BYTES                                                                                                    \
    ((uint64_t)2 * 1024 *                                                                                              \
     1024) /* twice the longest cell: if no record begins within it, the file is not read in chunks */
#define LOOK_BYTES ((size_t)64 * 1024) /* read from the file, to find a line end and a record after it */

static size_t read_at(int file, char *to, size_t wanted, uint64_t at)
{
    size_t have = 0;
    while (have < wanted) {
        ssize_t got = pread(file, to + have, wanted - have, (off_t)(at + have));
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            break;
        have += (size_t)got;
    }
    return have;
}

static bool looks_like_record(const struct csv_log *log, const char *line, size_t length)
{
    struct arena *scratch = log->reading->scratch;
    const char *const *cells;
    if (*line == '\xEF') /* at the start of a chunk, it would be dropped as a byte order mark */
        return false;
    if (text_count(line, length, '"') % 2) /* a quoted note of several lines begins or ends here */
        return false;
    size_t count = csv_split_record(scratch, line, length, log->delimiter, &cells);
    size_t date = log->map.of[FIELD_DATE].items[0].index;
    bool looks = count >= log->needed_cells && date < count && day_read(cells[date]).kind != DAY_UNREADABLE;
    arena_reset(scratch);
    return looks;
}

uint64_t csv_cut_behind(const struct csv_log *log, int file, uint64_t bytes, uint64_t from)
{
    char look[LOOK_BYTES];
    for (uint64_t start = from; from < bytes && from < start + REACH_BYTES;) {
        size_t have = read_at(file, look, sizeof look, from);
        const char *line = memchr(look, '\n', have), *end;
        for (; line && (end = memchr(line + 1, '\n', have - (size_t)(line + 1 - look))); line = end)
            if (looks_like_record(log, line + 1, (size_t)(end - line)))
                return from + (uint64_t)(line + 1 - look);
        if (have < sizeof look)
            break;
        from += line ? (uint64_t)(line - look) + (line == look)
                     : have; /* a line that was cut off is looked at again as a whole, unless it fills the buffer */
    }
    return bytes;
}
