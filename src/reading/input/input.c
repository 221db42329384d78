#include "reading/input/input.h"

#include "base/system.h"

#include <errno.h>
#include <fcntl.h>
#include <iconv.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utf8proc.h>

#define RAW_BYTES ((size_t)32 * 1024) /* read at once: few enough to stay near the processor until they are decoded */

enum decoder
{
    DECODE_UTF8,  /* checked and copied */
    DECODE_LATIN, /* single bytes, by iconv; none is refused */
    DECODE_STRICT /* UTF-16 and UTF-32, by iconv; what it refuses ends the reading */
};

struct block
{
    char *text;
    size_t length;
    uint32_t first_line; /* the line that its first byte belongs to */
};

struct input
{
    struct arena *own; /* the blocks; freed by input_close */
    const char *name, *encoding;
    struct diags *diags;
    int file; /* -1: memory */
    const char *memory;
    size_t memory_left;
    struct input_source source; /* read is NULL: it is a file or memory */
    bool is_sheet;
    int64_t modified_ns;
    uint64_t file_bytes; /* of a regular file; 0: none */
    bool is_part;        /* the file is another input's: bytes from part_at to part_end */
    uint64_t part_at, part_end;

    char *raw; /* bytes as read, not yet decoded: from raw_at to raw_end */
    size_t raw_at, raw_end;
    bool raw_done; /* the source has no more */

    enum decoder decoder;
    iconv_t converter; /* (iconv_t)-1: none open */
    bool letters_seen, guess_said, had_nul, failed;
    bool after_cr; /* the last byte decoded was a CR, given as LF: an LF that follows belongs to it */

    struct block current, previous; /* the window */
    bool current_waits;             /* decoded at opening for the head, not yet delivered */
    uint32_t line;                  /* the line that the next block begins in */
    size_t line_bytes;              /* bytes of that line so far */
    size_t empty_bytes;             /* of empty lines, block upon block */
    char *head;
    size_t head_length;

    uint32_t sought_line; /* where input_line() stopped last: a line start within the window */
    size_t sought_at;     /* bytes from the window's start */
};

static void fail(struct input *input, enum diag_id id, const char *what)
{
    input->failed = true;
    struct place at = {.file = input->name, .line = id == DIAG_CANNOT_READ ? 0 : input->line};
    diag_add(input->diags, id, at, NULL, NULL, "%s", what);
}

static ssize_t read_part(struct input *input, char *to, size_t room)
{
    uint64_t left = input->part_end - input->part_at;
    ssize_t got = left ? pread(input->file, to, left < room ? (size_t)left : room, (off_t)input->part_at) : 0;
    input->part_at += got > 0 ? (uint64_t)got : 0;
    return got;
}

static ssize_t read_memory(struct input *input, char *to, size_t room)
{
    size_t got = input->memory_left < room ? input->memory_left : room;
    if (got)
        memcpy(to, input->memory, got);
    input->memory += got;
    input->memory_left -= got;
    return (ssize_t)got;
}

static ssize_t read_raw(struct input *input, char *to, size_t room)
{
    if (input->source.read)
        return input->source.read(input->source.context, to, room);
    if (input->is_part)
        return read_part(input, to, room);
    return input->file < 0 ? read_memory(input, to, room) : read(input->file, to, room);
}

/* More raw bytes after those that were left over. */
static void fill_raw(struct input *input)
{
    memmove(input->raw, input->raw + input->raw_at, input->raw_end - input->raw_at);
    input->raw_end -= input->raw_at;
    input->raw_at = 0;
    while (!input->raw_done && input->raw_end < RAW_BYTES) {
        ssize_t got = read_raw(input, input->raw + input->raw_end, RAW_BYTES - input->raw_end);
        if (got < 0 && input->source.read)
            input->failed = true; /* said by the source */
        else if (got < 0 && errno == EINTR)
            continue;
        else if (got < 0)
            fail(input, DIAG_CANNOT_READ, strerror(errno));
        if (got <= 0)
            input->raw_done = true;
        else
            input->raw_end += (size_t)got;
    }
}

/* A mark, or NUL in every other byte: the low half of Latin letters, digits and separators in UTF-16. */
static const char *wide_encoding(const unsigned char *bytes, size_t length, size_t *mark)
{
    static const struct
    {
        const char *name, *mark;
        size_t length;
    } marks[] = {
        {"UTF-32LE", "\xFF\xFE\0\0", 4}, {"UTF-32BE", "\0\0\xFE\xFF", 4}, {"UTF-16LE", "\xFF\xFE", 2},
        {"UTF-16BE", "\xFE\xFF", 2},     {"UTF-8", "\xEF\xBB\xBF", 3},
    };
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (length >= marks[i].length && !memcmp(bytes, marks[i].mark, marks[i].length))
            return *mark = marks[i].length, marks[i].name;
    *mark = 0;
    size_t pairs = (length < 4096 ? length : 4096) / 2, even = 0, odd = 0;
    for (size_t i = 0; i < pairs; i++) {
        even += !bytes[2 * i];
        odd += !bytes[2 * i + 1];
    }
    if (pairs >= 4 && odd > pairs * 3 / 4 && even < pairs / 16 + 1)
        return "UTF-16LE";
    return pairs >= 4 && even > pairs * 3 / 4 && odd < pairs / 16 + 1 ? "UTF-16BE" : "UTF-8";
}

static void find_encoding(struct input *input)
{
    size_t mark;
    input->encoding = wide_encoding((const unsigned char *)input->raw, input->raw_end, &mark);
    input->raw_at = mark;
    if (!strcmp(input->encoding, "UTF-8"))
        return;
    input->decoder = DECODE_STRICT;
    input->converter = iconv_open("UTF-8", input->encoding);
    if (input->converter == (iconv_t)-1)
        fail(input, DIAG_BAD_ENCODING, "this system cannot convert the file's encoding");
}

/* Bytes of the UTF-8 letter at `text`; 0: not valid; `*cut`: it may be, but the bytes end within it. */
static size_t letter_bytes(const unsigned char *text, size_t left, bool *cut)
{
    size_t wanted = *text >= 0xF0 ? 4 : *text >= 0xE0 ? 3 : 2;
    utf8proc_int32_t point;
    *cut = false;
    if (*text < 0xC2 || *text > 0xF4)
        return 0;
    if (left >= wanted)
        return utf8proc_iterate(text, (utf8proc_ssize_t)left, &point) > 0 ? wanted : 0;
    for (size_t i = 1; i < left; i++)
        if ((text[i] & 0xC0) != 0x80)
            return 0;
    *cut = true;
    return 0;
}

#define SURVEY_BYTES 64 /* a fixed step, so that compilers make vectors of what is below */

static bool is_ascii(const char *text)
{
    uint64_t words[SURVEY_BYTES / sizeof(uint64_t)];
    memcpy(words, text, SURVEY_BYTES);
    uint64_t all = words[0] | words[1] | words[2] | words[3] | words[4] | words[5] | words[6] | words[7];
    return !(all & UINT64_C(0x8080808080808080));
}

static uint32_t line_ends(const char *text, size_t length)
{
    uint32_t count = 0;
    size_t at = 0;
    for (; at + SURVEY_BYTES <= length; at += SURVEY_BYTES) {
        unsigned char ends = 0;
        for (size_t i = 0; i < SURVEY_BYTES; i++)
            ends = (unsigned char)(ends + (text[at + i] == '\n'));
        count += ends;
    }
    for (; at < length; at++)
        count += text[at] == '\n';
    return count;
}

/* Bytes from the start of `text` that are whole valid UTF-8. */
static size_t valid_prefix(struct input *input, const char *text, size_t length, bool *cut)
{
    size_t at = 0;
    *cut = false;
    while (at < length) {
        if (length - at >= SURVEY_BYTES && is_ascii(text + at)) {
            at += SURVEY_BYTES;
        } else if (!(text[at] & 0x80)) {
            at++;
        } else {
            size_t step = letter_bytes((const unsigned char *)text + at, length - at, cut);
            if (!step)
                return at;
            input->letters_seen = true;
            at += step;
        }
    }
    return at;
}

/* Converts raw bytes up to `raw_limit` into the block's room. */
static void convert(struct input *input, struct block *block, size_t raw_limit)
{
    char *from = input->raw + input->raw_at, *to = block->text + block->length;
    size_t left = raw_limit - input->raw_at, room = INPUT_BLOCK_BYTES - block->length;
    size_t result = iconv(input->converter, &from, &left, &to, &room);
    int why = result == (size_t)-1 ? errno : 0;
    input->raw_at = raw_limit - left;
    block->length = INPUT_BLOCK_BYTES - room;
    if (why == EILSEQ && input->decoder != DECODE_STRICT) {
        /* Windows-1252 leaves five bytes undefined; Latin-1 has them as control characters. */
        if (room < 2)
            return;
        block->text[block->length++] = (char)0xC2;
        block->text[block->length++] = input->raw[input->raw_at++];
    } else if (why == EILSEQ || (why == EINVAL && input->raw_done && raw_limit == input->raw_end)) {
        input->line += line_ends(block->text, block->length);
        fail(input, DIAG_BAD_ENCODING, "the file's encoding is broken here: nothing in the file was used");
    }
}

/* The byte at raw_at is not UTF-8. */
static void guess_latin(struct input *input)
{
    unsigned char byte = (unsigned char)input->raw[input->raw_at];
    if (input->converter == (iconv_t)-1)
        input->converter = iconv_open("UTF-8", "WINDOWS-1252");
    if (input->converter == (iconv_t)-1) {
        fail(input, DIAG_BAD_ENCODING, "the file is not UTF-8, and this system cannot convert Windows-1252");
        return;
    }
    if (!input->letters_seen) {
        input->decoder = DECODE_LATIN;
        input->encoding = byte < 0xA0 ? "windows-1252" : "ISO-8859-1";
    }
    if (!input->guess_said)
        diag_add(input->diags, DIAG_ENCODING_GUESSED, (struct place){.file = input->name}, NULL, NULL,
                 input->letters_seen ? "not all of it is UTF-8: bytes that are not were read as Latin-1 (Windows-1252)"
                                     : "not UTF-8: read as Latin-1 (Windows-1252)");
    input->guess_said = true;
}

static void decode_utf8(struct input *input, struct block *block)
{
    size_t room = INPUT_BLOCK_BYTES - block->length, left = input->raw_end - input->raw_at,
           wanted = left < room ? left : room;
    bool cut;
    size_t valid = valid_prefix(input, input->raw + input->raw_at, wanted, &cut);
    memcpy(block->text + block->length, input->raw + input->raw_at, valid);
    input->raw_at += valid;
    block->length += valid;
    bool more_to_come = cut && (wanted < left || !input->raw_done);
    if (valid == wanted || more_to_come || input->failed)
        return;
    guess_latin(input);
    if (input->decoder == DECODE_UTF8 && !input->failed)
        convert(input, block, input->raw_at + 1);
}

static void note_latin_bytes(struct input *input)
{
    if (*input->encoding != 'w')
        for (size_t at = input->raw_at; at < input->raw_end; at++)
            if ((unsigned char)input->raw[at] >= 0x80 && (unsigned char)input->raw[at] < 0xA0) {
                input->encoding = "windows-1252";
                return;
            }
}

#define ROOM_FOR_ONE 8 /* bytes that one character may take: less room than this left is a full block */

/* Raw bytes to text until the block is full or the source at its end. */
static void decode(struct input *input, struct block *block)
{
    block->length = 0;
    while (!input->failed && INPUT_BLOCK_BYTES - block->length >= ROOM_FOR_ONE) {
        size_t before = input->raw_end - input->raw_at;
        if (input->decoder == DECODE_UTF8) {
            decode_utf8(input, block);
        } else {
            if (input->decoder == DECODE_LATIN)
                note_latin_bytes(input);
            convert(input, block, input->raw_end);
        }
        bool stuck = input->raw_end - input->raw_at == before && input->decoder != DECODE_LATIN;
        if (input->raw_at < input->raw_end && !stuck)
            continue;
        if (input->raw_done)
            break;
        fill_raw(input);
    }
    if (input->failed)
        block->length = 0;
}

/* CR LF and CR alone become LF, in place. */
static void fold_line_ends(struct input *input, struct block *block)
{
    char *to = block->text, *from = block->text, *end = block->text + block->length;
    if (input->after_cr && from < end && *from == '\n')
        from++;
    input->after_cr = false;
    while (from < end) {
        char *cr = memchr(from, '\r', (size_t)(end - from));
        size_t run = (size_t)((cr ? cr : end) - from);
        if (to != from)
            memmove(to, from, run);
        to += run;
        from += run;
        if (!cr)
            break;
        *to++ = '\n';
        from++;
        if (from == end)
            input->after_cr = true;
        else if (*from == '\n')
            from++;
    }
    block->length = (size_t)(to - block->text);
}

/* Only the block's first line can be too long: a block is far shorter than the limit. Takes out what is beyond it. */
static void cut_long_line(struct block *block, size_t before, size_t line_end)
{
    size_t keep = before > INPUT_LINE_LIMIT ? 0 : INPUT_LINE_LIMIT + 1 - before;
    while (keep < line_end && (block->text[keep] & 0xC0) == 0x80)
        keep++; /* a block begins with a whole character, and so does what is left out */
    if (keep >= line_end)
        return;
    memmove(block->text + keep, block->text + line_end, block->length - line_end);
    block->length -= line_end - keep;
}

static void number_lines(struct input *input, struct block *block)
{
    const char *end = block->text + block->length, *first = memchr(block->text, '\n', block->length);
    const char *last = system_last_byte(block->text, '\n', block->length);
    size_t before = input->line_bytes, line_end = (size_t)((first ? first : end) - block->text),
           reached = before + line_end;
    block->first_line = input->line;
    size_t ends = line_ends(block->text, block->length);
    bool too_many = ends > UINT32_MAX - input->line;
    input->line += too_many ? 0 : (uint32_t)ends;
    input->line_bytes = last ? (size_t)(end - last - 1) : reached;
    input->had_nul = input->had_nul || memchr(block->text, 0, block->length);
    bool empty_lines = *block->text == '\n' && !memcmp(block->text, block->text + 1, block->length - 1);
    input->empty_bytes = empty_lines ? input->empty_bytes + block->length : 0;
    if (reached > INPUT_LINE_END) {
        input->line = block->first_line;
        fail(input, DIAG_LIMIT_REACHED, "a line of more than 256 MiB: this is not a log");
    } else if (input->empty_bytes > INPUT_EMPTY_LIMIT) {
        fail(input, DIAG_LIMIT_REACHED, "more than 16 MiB of empty lines: this is not a log");
    } else if (too_many) {
        fail(input, DIAG_LIMIT_REACHED, "more than 4294967295 lines, whose numbers would not fit: split the file");
    }
    if (input->failed)
        block->length = 0;
    else if (reached > INPUT_LINE_LIMIT)
        cut_long_line(block, before, line_end);
}

static void next_block(struct input *input)
{
    struct block spare = input->previous;
    input->previous = input->current;
    input->current = spare;
    input->sought_line = 0;
    if (!input->current.text)
        input->current.text = arena_room(input->own, INPUT_BLOCK_BYTES);
    do { /* a block may come to nothing: the LF of a CR LF, a part of a line that is too long */
        decode(input, &input->current);
        if (!input->current.length)
            return;
        fold_line_ends(input, &input->current);
        if (input->current.length)
            number_lines(input, &input->current);
    } while (!input->current.length && !input->failed);
}

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

/* The head is decoded at once: it shows whether the source can be read at all. `refused` may be NULL. */
static struct input *input_begun(struct input *input, input_refused *refused, void *context)
{
    fill_raw(input);
    if (!input->failed && refused && refused(context, (const unsigned char *)input->raw, input->raw_end)) {
        input_close(input);
        return NULL;
    }
    if (!input->failed)
        find_encoding(input);
    if (!input->failed)
        next_block(input);
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
        fail(input, DIAG_CANNOT_READ, strerror(errno));
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
        next_block(input);
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

/* The part of the window that begins `at` bytes from its start, up to the end of its block. */
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

/* Goes on to the start of the next line; false: the window ends first. */
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

/* A NUL would end the text: its picture stands for it, so that the rest of the line is not lost. */
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
            return NULL; /* its beginning may be gone */
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
