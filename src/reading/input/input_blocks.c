#include "reading/input/input_blocks.h"

#include "base/system.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>
#include <utf8proc.h>

void input_fail(struct input *input, enum diag_id id, const char *what)
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

void input_fill_raw(struct input *input)
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
            input_fail(input, DIAG_CANNOT_READ, strerror(errno));
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

void input_find_encoding(struct input *input)
{
    size_t mark;
    input->encoding = wide_encoding((const unsigned char *)input->raw, input->raw_end, &mark);
    input->raw_at = mark;
    if (!strcmp(input->encoding, "UTF-8"))
        return;
    input->decoder = DECODE_STRICT;
    input->converter = iconv_open("UTF-8", input->encoding);
    if (input->converter == (iconv_t)-1)
        input_fail(input, DIAG_BAD_ENCODING, "this system cannot convert the file's encoding");
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
        input_fail(input, DIAG_BAD_ENCODING, "the file's encoding is broken here: nothing in the file was used");
    }
}

/* The byte at raw_at is not UTF-8. */
static void guess_latin(struct input *input)
{
    unsigned char byte = (unsigned char)input->raw[input->raw_at];
    if (input->converter == (iconv_t)-1)
        input->converter = iconv_open("UTF-8", "WINDOWS-1252");
    if (input->converter == (iconv_t)-1) {
        input_fail(input, DIAG_BAD_ENCODING, "the file is not UTF-8, and this system cannot convert Windows-1252");
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
        input_fill_raw(input);
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
        input_fail(input, DIAG_LIMIT_REACHED, "a line of more than 256 MiB: this is not a log");
    } else if (input->empty_bytes > INPUT_EMPTY_LIMIT) {
        input_fail(input, DIAG_LIMIT_REACHED, "more than 16 MiB of empty lines: this is not a log");
    } else if (too_many) {
        input_fail(input, DIAG_LIMIT_REACHED,
                   "more than 4294967295 lines, whose numbers would not fit: split the file");
    }
    if (input->failed)
        block->length = 0;
    else if (reached > INPUT_LINE_LIMIT)
        cut_long_line(block, before, line_end);
}

void input_next_block(struct input *input)
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
