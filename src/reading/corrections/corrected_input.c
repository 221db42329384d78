#include "reading/corrections/corrected_input.h"

#include <string.h>

#define PASSED_ON                                                                                                      \
    ((size_t)2 * INPUT_LINE_LIMIT) /* more bytes than this are not a record of a log: the log reader rejects them */

struct bytes
{
    char *text;
    size_t at, end, room; /* the text held: from `at` to `end` */
};

struct corrected_input
{
    struct arena *own;
    struct input *raw, *text;
    const struct file_corrections *corrections;
    struct bytes held; /* of the raw text: whole lines, unless it ends within one */
    struct bytes ready;
    uint32_t count;
    bool raw_done;
};

#define FIRST_ROOM ((size_t)4096)

static struct bytes bytes_new(struct arena *arena)
{
    return (struct bytes){.text = arena_alloc(arena, FIRST_ROOM), .room = FIRST_ROOM};
}

static void put(struct arena *arena, struct bytes *to, const char *text, size_t length)
{
    if (to->at) {
        memmove(to->text, to->text + to->at, to->end - to->at);
        to->end -= to->at;
        to->at = 0;
    }
    if (to->end + length > to->room) {
        size_t room = 2 * (to->end + length) + 1024;
        to->text = arena_grow(arena, to->text, to->room, room);
        to->room = room;
    }
    memcpy(to->text + to->end, text, length);
    to->end += length;
}

/* The end of the `lines`-th line of the text held, before its line end; NULL: it does not end there. */
static const char *line_end(const struct corrected_input *corrected, size_t lines)
{
    const struct bytes *held = &corrected->held;
    const char *at = held->text + held->at, *end = held->text + held->end;
    for (; lines; lines--) {
        const char *found = memchr(at, '\n', (size_t)(end - at));
        if (!found)
            return corrected->raw_done && lines == 1 ? end : NULL;
        if (lines == 1)
            return found;
        at = found + 1;
    }
    return NULL;
}

/* Holds enough whole lines for the longest record to be corrected, if it begins with the first line. */
static void hold_lines(struct corrected_input *corrected)
{
    const char *block;
    while (!corrected->raw_done && !line_end(corrected, corrected->corrections->most_lines) &&
           corrected->held.end - corrected->held.at < PASSED_ON) {
        size_t length = input_read(corrected->raw, &block);
        if (length)
            put(corrected->own, &corrected->held, block, length);
        else
            corrected->raw_done = true;
    }
}

static void put_lines(struct corrected_input *corrected, size_t count)
{
    for (size_t i = 0; i < count; i++)
        put(corrected->own, &corrected->ready, "\n", 1);
}

/* Puts out the correction of the record of that many lines at the start of the text held. False: there is no
 * correction. */
static bool put_corrected(struct corrected_input *corrected, size_t lines)
{
    struct bytes *held = &corrected->held;
    const char *end = line_end(corrected, lines), *start = held->text + held->at;
    const char *correction = end ? correction_of(corrected->corrections, start, (size_t)(end - start)) : NULL;
    if (!correction)
        return false;
    size_t left = lines - 1, used = 0;
    if (strcmp(correction, CORRECTION_DROPS) != 0) {
        put(corrected->own, &corrected->ready, correction, strlen(correction));
        for (const char *at = correction; (at = strchr(at, '\n')); at++)
            used++;
    }
    bool ended = end < held->text + held->end; /* by a line end, which is not part of the record */
    put_lines(corrected, left - used + ended);
    held->at = (size_t)(end - held->text) + ended;
    corrected->count++;
    return true;
}

/* Passes on one line unchanged, or the part at hand of one that is too long. */
static void pass_on(struct corrected_input *corrected)
{
    struct bytes *held = &corrected->held;
    const char *end = line_end(corrected, 1);
    size_t length = end ? (size_t)(end - (held->text + held->at)) : held->end - held->at;
    length += held->at + length < held->end;
    put(corrected->own, &corrected->ready, held->text + held->at, length);
    held->at += length;
}

static ssize_t read_corrected(void *context, char *to, size_t room)
{
    struct corrected_input *corrected = context;
    struct bytes *ready = &corrected->ready;
    while (ready->end - ready->at < room) {
        hold_lines(corrected);
        if (corrected->held.at == corrected->held.end)
            break;
        bool done = false;
        for (size_t lines = corrected->corrections->most_lines; lines && !done; lines--)
            done = put_corrected(corrected, lines);
        if (!done)
            pass_on(corrected);
    }
    if (input_failed(corrected->raw))
        return -1;
    size_t length = ready->end - ready->at < room ? ready->end - ready->at : room;
    memcpy(to, ready->text + ready->at, length);
    ready->at += length;
    return (ssize_t)length;
}

struct corrected_input *corrected_input_new(struct arena *arena, struct input *raw,
                                            const struct file_corrections *corrections, struct diags *diags)
{
    struct arena *own = arena_new();
    struct corrected_input *corrected = ARENA_NEW(own, struct corrected_input);
    *corrected = (struct corrected_input){
        .own = own, .raw = raw, .corrections = corrections, .held = bytes_new(own), .ready = bytes_new(own)};
    struct input_source source = {.read = read_corrected, .context = corrected, .like = raw};
    corrected->text = input_from_source(arena, input_name(raw), &source, diags);
    return corrected;
}

struct input *corrected_input_text(struct corrected_input *corrected)
{
    return corrected->text;
}

uint32_t corrected_input_count(const struct corrected_input *corrected)
{
    return corrected->count;
}

void corrected_input_close(struct corrected_input *corrected)
{
    input_close(corrected->text);
    arena_free(corrected->own);
}
