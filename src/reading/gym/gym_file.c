/* A gym file's lines, blocks and keys.
 *
 * inih parses KEY = VALUE lines. next_line() passes them on one at a time, so that the line is known when the handler
 * is called. On its own, inih would silently split a long line, append an indented line to the value before it and
 * shorten a long block name; so lines are passed on without leading blanks and no longer than it can hold, and blocks
 * are read here. */
#include "reading/gym/gym_file.h"

#include "base/text.h"
#include "reading/gym/gym_checks.h"
#include "reading/gym/gym_keys.h"
#include "reading/gym/gym_reader.h"
#include "reading/input/input.h"

#include <ini.h>
#include <stdarg.h>
#include <string.h>

#define LINE_LIMIT 190 /* INI_MAX_LINE is 200 in inih as Debian builds it */
#define FILE_LIMIT ((size_t)4 * 1024 * 1024)

/* --- messages ---------------------------------------------------------------------------------------------------- */

static void say(struct gym_reader *reader, enum diag_id id, const struct named_line *at, const char *hint,
                const char *format, va_list arguments)
{
    struct place place = {.file = reader->gym->path, .line = at->line, .column = at->column, .length = at->length};
    const char *excerpt = at->line && at->line <= reader->lines.count ? reader->lines.items[at->line - 1] : NULL;
    diag_add(reader->diags, id, place, excerpt, hint, "%s", arena_vprintf(reader->own, format, arguments));
}

bool gym_say(struct gym_reader *reader, enum diag_id id, const struct named_line *at, const char *hint,
             const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(reader, id, at, hint, format, arguments);
    va_end(arguments);
    return false;
}

struct named_line gym_here(const struct gym_reader *reader, const char *from, size_t bytes)
{
    size_t before = text_characters(reader->value, (size_t)(from - reader->value));
    size_t length = text_characters(from, bytes ? bytes : strlen(from));
    return (struct named_line){arena_text(reader->arena, from, bytes ? bytes : strlen(from)), reader->line,
                               reader->value_column + (uint32_t)before, (uint32_t)length};
}

bool gym_bad(struct gym_reader *reader, enum diag_id id, const char *from, size_t bytes, const char *hint,
             const char *format, ...)
{
    struct named_line at = gym_here(reader, from, bytes);
    va_list arguments;
    va_start(arguments, format);
    say(reader, id, &at, hint, format, arguments);
    va_end(arguments);
    return false;
}

/* A span of the current line, in bytes. */
static struct named_line on_line(const struct gym_reader *reader, size_t from, size_t bytes)
{
    const char *raw = reader->lines.items[reader->line - 1];
    return (struct named_line){NULL, reader->line, (uint32_t)text_characters(raw, from) + 1,
                               (uint32_t)text_characters(raw + from, bytes)};
}

static bool bad_line(struct gym_reader *reader, enum diag_id id, const char *hint, const char *message)
{
    const char *raw = reader->lines.items[reader->line - 1];
    size_t from = strspn(raw, " \t");
    struct named_line at = on_line(reader, from, strlen(raw + from));
    return gym_say(reader, id, &at, hint, "%s: the line is left out", message);
}

/* --- blocks ------------------------------------------------------------------------------------------------------ */

static void close_block(struct gym_reader *reader)
{
    const struct gym_block *block = reader->block;
    if (block && block->close && !block->close(reader, reader->object) && block->drop)
        block->drop(reader);
    reader->block = NULL;
}

/* The label, with or without quotes; only a comment may follow the bracket. False: reported. */
static bool read_label(struct gym_reader *reader, const char *after_name, const char **label)
{
    const char *text = after_name + strspn(after_name, " \t"), *end;
    *label = "";
    if (*text == '"') {
        text++;
        end = strchr(text, '"');
        if (!end)
            return bad_line(reader, DIAG_GYM_SYNTAX, "write [chain \"long\"]",
                            "a quote never closes, so the block is not read");
        *label = text_squeeze(reader->arena, arena_text(reader->own, text, (size_t)(end - text)));
        end += 1 + strspn(end + 1, " \t");
    } else {
        end = text + strcspn(text, "]");
        *label = text_squeeze(reader->arena, arena_text(reader->own, text, (size_t)(end - text)));
    }
    if (*end != ']')
        return bad_line(reader, DIAG_GYM_SYNTAX, "write [chain \"long\"]", "a [ has no ], so the block is not read");
    end += 1 + strspn(end + 1, " \t");
    if (*end && *end != ';' && *end != '#')
        return bad_line(reader, DIAG_GYM_SYNTAX, "put the key on a line of its own",
                        "there is text after the ], so the block is not read");
    return true;
}

static bool stood_before(struct gym_reader *reader, const struct gym_block *block, const char *label,
                         const struct named_line *at)
{
    char *key = arena_printf(reader->own, "%s %s", block->name, text_fold(reader->own, label));
    uintptr_t line = (uintptr_t)map_get(reader->blocks_seen, key, strlen(key));
    if (!line) {
        map_put(reader->blocks_seen, key, strlen(key), (void *)(uintptr_t)reader->line);
        return false;
    }
    return !gym_say(reader, DIAG_GYM_DOUBLED, at, "put all of it in one block",
                    "[%s%s%s] is already on line %u: this block is left out", block->name, *label ? " " : "", label,
                    (unsigned)line);
}

static void open_block(struct gym_reader *reader, const char *raw)
{
    const char *start = raw + strspn(raw, " \t"), *name = start + 1 + strspn(start + 1, " \t"), *label;
    size_t length = strcspn(name, " \t\"]");
    struct named_line at = on_line(reader, (size_t)(name - raw), length);
    const struct gym_block *block = gym_block_named(name, length);
    close_block(reader);
    reader->any_block = true;
    reader->seen = 0;
    reader->block_line = reader->line;
    if (!read_label(reader, name + length, &label))
        return;
    if (!block) {
        const char *written = arena_text(reader->own, name, length);
        gym_say(reader, DIAG_GYM_BLOCK, &at, gym_block_hint(reader->own, written),
                "no block is called [%s]: it is left out", written);
        return;
    }
    if (block->labelled != (*label != 0)) {
        const char *form = block->labelled ? "write [%s \"LABEL\"]" : "write [%s]";
        gym_say(reader, DIAG_GYM_BLOCK, &at, arena_printf(reader->own, form, block->name),
                block->labelled ? "a [%s] needs a label: it is left out" : "[%s] takes no label: it is left out",
                block->name);
        return;
    }
    if (!block->many && stood_before(reader, block, label, &at))
        return;
    reader->label = label;
    reader->object = block->open(reader, label);
    reader->block = reader->object ? block : NULL;
}

/* --- keys -------------------------------------------------------------------------------------------------------- */

static bool is_repeated(struct gym_reader *reader, const struct gym_key *key)
{
    uint64_t bit = UINT64_C(1) << (key - reader->block->keys);
    bool repeated = !key->many && (reader->seen & bit);
    reader->seen |= bit;
    return repeated;
}

/* inih's handler; always returns 1, since errors are reported here. */
static int see_pair(void *context, const char *section, const char *name, const char *value)
{
    struct gym_reader *reader = context;
    const char *raw = reader->lines.items[reader->line - 1];
    size_t name_at = strspn(raw, " \t"), value_at = strcspn(raw, "=") + 1;
    struct named_line at = on_line(reader, name_at, strlen(name));
    (void)section;
    if (!reader->block) {
        if (!reader->any_block)
            gym_say(reader, DIAG_GYM_SYNTAX, &at, NULL, "'%s' comes before the first [block]: it is left out", name);
        return 1;
    }
    reader->key_at = at;
    reader->value = arena_copy(reader->own, value);
    value_at += strspn(raw + value_at, " \t");
    reader->value_column = (uint32_t)text_characters(raw, value_at) + 1;
    const struct gym_key *key = gym_key_named(reader->block, name);
    if (!key)
        gym_say(reader, DIAG_GYM_KEY, &at, gym_key_hint(reader->own, reader->block, name),
                "[%s] has no key '%s': it is left out", reader->block->name, name);
    else if (is_repeated(reader, key))
        gym_say(reader, DIAG_GYM_DOUBLED, &at, NULL, "'%s' is given twice in this [%s]: the first counts", name,
                reader->block->name);
    else if (!*value)
        gym_say(reader, DIAG_GYM_VALUE, &at, NULL, "'%s' has no value: it is left out", name);
    else if (key->name)
        key->read(reader, key, reader->value, (char *)reader->object + key->offset);
    else
        key->read(reader, key, reader->value, arena_copy(reader->own, name));
    return 1;
}

/* --- lines ------------------------------------------------------------------------------------------------------- */

/* The length in bytes up to a comment as inih defines it: a ; after a blank. */
static size_t without_comment(const char *line)
{
    size_t length = 0;
    while (line[length] && !(line[length] == ';' && length && strchr(" \t", line[length - 1])))
        length++;
    while (length && strchr(" \t", line[length - 1]))
        length--;
    return length;
}

/* Is it a KEY = VALUE line for inih? Opens blocks on the way, and reports lines that are neither. */
static bool is_pair(struct gym_reader *reader, const char *raw, size_t *from, size_t *length)
{
    *from = strspn(raw, " \t");
    const char *line = raw + *from;
    *length = without_comment(line);
    if (!*length || *line == '#' || *line == ';')
        return false;
    if (*line == '[') {
        open_block(reader, raw);
        return false;
    }
    const char *equals = memchr(line, '=', *length), *colon = memchr(line, ':', *length);
    if (!equals || equals == line)
        return bad_line(reader, DIAG_GYM_SYNTAX, NULL, equals ? "there is no key before the =" : "no = and no [block]");
    if (colon && colon < equals)
        return bad_line(reader, DIAG_GYM_SYNTAX, NULL, "there is a : before the =");
    if (*length > LINE_LIMIT)
        return bad_line(reader, DIAG_GYM_SYNTAX, "split it into several lines, or shorten it",
                        "a line of more than 190 bytes");
    return true;
}

/* inih's line reader. Lines that it must not see are passed on as empty lines. */
static char *next_line(char *buffer, int size, void *context)
{
    struct gym_reader *reader = context;
    size_t from, length;
    if (reader->next_line == reader->lines.count)
        return NULL;
    const char *raw = reader->lines.items[reader->next_line++];
    reader->line = (uint32_t)reader->next_line;
    if (!is_pair(reader, raw, &from, &length) || length + 2 > (size_t)size)
        length = 0;
    memcpy(buffer, raw + from, length);
    buffer[length] = '\n';
    buffer[length + 1] = 0;
    return buffer;
}

static void split_lines(struct gym_reader *reader, const char *text, size_t length)
{
    for (const char *end; length; length -= (size_t)(end - text), text = end) {
        end = memchr(text, '\n', length);
        size_t bytes = end ? (size_t)(end - text) : length;
        end = end ? end + 1 : text + length;
        *LIST_ADD(reader->own, &reader->lines) = arena_text(reader->own, text, bytes);
        if (memchr(text, 0, bytes)) {
            reader->line = (uint32_t)reader->lines.count;
            bad_line(reader, DIAG_GYM_SYNTAX, NULL, "a NUL byte");
            reader->lines.items[reader->lines.count - 1] = "";
        }
    }
}

static bool read_all(struct gym_reader *reader, struct input *input)
{
    const char *block;
    char *text = NULL;
    size_t length = 0, more;
    while ((more = input_read(input, &block))) {
        if (length + more > FILE_LIMIT) {
            diag_add(reader->diags, DIAG_LIMIT_REACHED, (struct place){.file = reader->gym->path}, NULL, NULL,
                     "more than 4 MiB: this is not a gym file");
            return false;
        }
        text = arena_grow(reader->own, text, length, length + more);
        memcpy(text + length, block, more);
        length += more;
    }
    if (!input_failed(input))
        split_lines(reader, text, length);
    return !input_failed(input);
}

static const char *folder_of(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? arena_text(arena, path, slash == path ? 1 : (size_t)(slash - path)) : ".";
}

static struct gym *read_input(struct arena *arena, struct input *input, struct diags *diags)
{
    if (!input)
        return NULL;
    struct arena *own = arena_new();
    struct gym_reader reader = {.arena = arena, .own = own, .diags = diags, .gym = gym_new(arena)};
    reader.blocks_seen = map_new(own);
    reader.gym->path = arena_copy(arena, input_name(input));
    reader.gym->folder = folder_of(arena, reader.gym->path);
    bool good = read_all(&reader, input);
    if (good) {
        ini_parse_stream(next_line, &reader, see_pair, &reader);
        close_block(&reader);
        gym_checks(&reader);
    }
    input_close(input);
    arena_free(own);
    return good ? reader.gym : NULL;
}

struct gym *gym_read(struct arena *arena, const char *path, struct diags *diags)
{
    return read_input(arena, input_open(arena, path, diags), diags);
}

struct gym *gym_read_memory(struct arena *arena, const char *path, const char *text, size_t length, struct diags *diags)
{
    return read_input(arena, input_from_memory(arena, path, text, length, diags), diags);
}
