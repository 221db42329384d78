#include "reading/input/input.h"

#include "base/system.h"
#include "reading/input/input_blocks.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct input *input_begin(struct arena *arena, const char *name, struct diags *diags)
{
    struct input *input = ARENA_NEW(arena, struct input);
    input->own = arena_new();
    input->name = name;
    input->diags = diags;
    input->file = -1;
    input->line = 1;
    input->converter = (iconv_t)-1;
    input->raw = arena_room(input->own, RAW_BYTES);
    return input;
}

/* Decodes the head at once, which shows whether the source can be read at all. `refused` may be NULL. */
static struct input *input_begun(struct input *input, input_refused *refused, void *context)
{
    input_fill_raw(input);
    if (!input->failed && refused && refused(context, (const unsigned char *)input->raw, input->raw_end)) {
        input_close(input);
        return NULL;
    }
    if (!input->failed)
        input_find_encoding(input);
    if (!input->failed)
        input_next_block(input);
    if (input->failed) {
        input_close(input);
        return NULL;
    }
    input->current_waits = true;
    input->head_length = input->current.length < INPUT_HEAD_BYTES ? input->current.length : INPUT_HEAD_BYTES;
    input->head = arena_room(input->own, input->head_length + 1);
    memcpy(input->head, input->current.text, input->head_length);
    return input;
}

struct input *input_open(struct arena *arena, const char *name, struct diags *diags)
{
    return input_open_unless(arena, name, diags, NULL, NULL);
}

struct input *input_open_unless(struct arena *arena, const char *name, struct diags *diags, input_refused *refused,
                                void *context)
{
    struct input *input = input_begin(arena, name, diags);
    bool standard = !strcmp(name, "-");
    struct stat status;
    input->file = standard ? STDIN_FILENO : open(name, O_RDONLY | O_CLOEXEC);
    if (input->file < 0 || fstat(input->file, &status)) {
        input_fail(input, DIAG_CANNOT_READ, strerror(errno));
        input_close(input);
        return NULL;
    }
    if (!standard && S_ISREG(status.st_mode))
        input->file_bytes = (uint64_t)status.st_size;
    if (!standard)
        input->modified_ns = system_modified_ns(&status);
    return input_begun(input, refused, context);
}

struct input *input_from_memory(struct arena *arena, const char *name, const char *bytes, size_t length,
                                struct diags *diags)
{
    struct input *input = input_begin(arena, name, diags);
    input->memory = bytes;
    input->memory_left = length;
    return input_begun(input, NULL, NULL);
}

struct input *input_from_source(struct arena *arena, const char *name, const struct input_source *source,
                                struct diags *diags)
{
    struct input *input = input_begin(arena, name, diags);
    input->source = *source;
    input->modified_ns = source->like->modified_ns;
    input->is_sheet = source->like->is_sheet;
    return input_begun(input, NULL, NULL);
}

struct input *input_open_part(struct arena *arena, const struct input *whole, uint64_t first, uint64_t end,
                              struct diags *diags)
{
    struct input *input = input_begin(arena, whole->name, diags);
    input->is_part = true;
    input->file = whole->file;
    input->part_at = first;
    input->part_end = end < whole->file_bytes ? end : UINT64_MAX;
    return input_begun(input, NULL, NULL);
}

struct input *input_of_sheet(struct arena *arena, const char *name, const struct input_source *source,
                             int64_t modified_ns, struct diags *diags)
{
    struct input *input = input_begin(arena, name, diags);
    input->source = *source;
    input->modified_ns = modified_ns;
    input->is_sheet = true;
    return input_begun(input, NULL, NULL);
}

bool input_is_sheet(const struct input *input)
{
    return input->is_sheet;
}

void input_close(struct input *input)
{
    if (!input)
        return;
    if (input->file > STDIN_FILENO && !input->is_part)
        close(input->file);
    if (input->converter != (iconv_t)-1)
        iconv_close(input->converter);
    arena_free(input->own);
}

const char *input_head(struct input *input, size_t *length)
{
    *length = input->head_length;
    return input->head;
}

size_t input_read(struct input *input, const char **text)
{
    if (input->current_waits)
        input->current_waits = false;
    else if (!input->failed && (input->current.length || input->raw_at < input->raw_end))
        input_next_block(input);
    *text = input->current.text;
    return input->failed ? 0 : input->current.length;
}

bool input_failed(const struct input *input)
{
    return input->failed;
}

const char *input_name(const struct input *input)
{
    return input->name;
}

const char *input_encoding(const struct input *input)
{
    return input->source.like ? input_encoding(input->source.like) : input->encoding;
}

bool input_file(const struct input *input, int *file, uint64_t *bytes)
{
    *file = input->file;
    *bytes = input->file_bytes;
    return input->file_bytes && input->decoder == DECODE_UTF8 && !input->guess_said;
}

bool input_ended_early(const struct input *input)
{
    return input->is_part && input->part_end != UINT64_MAX && input->part_at < input->part_end;
}

bool input_guessed(const struct input *input)
{
    return input->guess_said;
}

void input_count_from(struct input *input, uint32_t line)
{
    input->line = line;
}

uint32_t input_lines(const struct input *input)
{
    return input->line - 1;
}

int64_t input_modified_ns(const struct input *input)
{
    return input->modified_ns;
}

bool input_had_nul(const struct input *input)
{
    return input->had_nul;
}

/* The part of the window that begins `at` bytes after its start, up to the end of its block. */
static const char *window_part(const struct input *input, size_t at, size_t *length)
{
    const struct block *block = &input->previous;
    if (at >= block->length) {
        at -= block->length;
        block = &input->current;
    }
    *length = block->length > at ? block->length - at : 0;
    return block->text + at;
}

/* Moves to the start of the next line; false: the window ends first. */
static bool next_line(const struct input *input, size_t *at)
{
    size_t length;
    for (const char *part; part = window_part(input, *at, &length), length; *at += length) {
        const char *end = memchr(part, '\n', length);
        if (end) {
            *at += (size_t)(end - part) + 1;
            return true;
        }
    }
    return false;
}

/* A NUL would end the text, so its picture replaces it, and the rest of the line is not lost. */
static char *show_nuls(struct arena *arena, const char *text, size_t length)
{
    char *shown = arena_alloc(arena, 3 * length + 1), *to = shown;
    for (size_t i = 0; i < length; i++) {
        if (text[i])
            *to++ = text[i];
        else
            to = (char *)memcpy(to, "\xE2\x90\x80", 3) + 3;
    }
    *to = 0;
    return shown;
}

char *input_line(struct input *input, struct arena *arena, uint32_t line)
{
    const struct block *first = input->previous.length ? &input->previous : &input->current;
    uint32_t at_line = input->sought_line;
    size_t at = input->sought_at, length;
    if (!at_line || at_line > line) {
        at_line = first->first_line;
        at = 0;
        if (line == at_line && line > 1)
            return NULL; /* its beginning may be out of the window */
    }
    for (; at_line < line; at_line++)
        if (!next_line(input, &at))
            return NULL;
    if (at_line != line)
        return NULL;
    input->sought_line = line;
    input->sought_at = at;
    size_t end = at;
    bool ended = next_line(input, &end);
    char *text = arena_alloc(arena, end - at + 1), *to = text;
    for (const char *part; at < end && (part = window_part(input, at, &length), length); at += length, to += length) {
        if (length > end - at)
            length = end - at;
        memcpy(to, part, length);
    }
    if (ended)
        *--to = 0;
    return input->had_nul ? show_nuls(arena, text, (size_t)(to - text)) : text;
}
