/* Corrections of a log: the input up to the first line "==" is the log, what follows the corrections. Whatever they
 * say, the log keeps its lines, and what is corrected is counted. */
#include "fuzz/target.h"

#include "base/text.h"
#include "reading/corrections/corrected_input.h"

#include <string.h>

const char target_name[] = "corrections";

static size_t line_ends(struct input *input)
{
    const char *text;
    size_t ends = 0;
    for (size_t length; (length = input_read(input, &text));)
        ends += text_count(text, length, '\n');
    return ends;
}

static size_t matched(const struct corrections *corrections)
{
    size_t count = 0;
    for (size_t i = 0; i < corrections->count; i++)
        count += corrections->rows[i].matched;
    return count;
}

static void try_log(struct arena *arena, const char *log, size_t length, struct corrections *corrections,
                    struct diags *diags)
{
    struct file_corrections *file = corrections_of_file(arena, NULL, corrections, "log.csv");
    struct input *plain = input_from_memory(arena, "log.csv", log, length, diags);
    struct input *raw = input_from_memory(arena, "log.csv", log, length, diags);
    if (file && plain && raw) {
        size_t ends = line_ends(plain), before = matched(corrections);
        struct corrected_input *corrected = corrected_input_new(arena, raw, file, diags);
        struct input *text = corrected_input_text(corrected);
        size_t kept = text ? line_ends(text) : 0;
        bool whole = text && !input_failed(text) && !input_failed(plain);
        MUST(!whole || kept == ends);
        MUST(!whole || matched(corrections) - before == corrected_input_count(corrected));
        corrected_input_close(corrected);
    }
    input_close(plain);
    input_close(raw);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    const char *text = (const char *)bytes, *cut = length ? memmem(text, length, "\n==\n", 4) : NULL;
    if (!cut)
        return 0;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    const char *table = cut + 4;
    struct input *input = input_from_memory(arena, "corrections.csv", table, length - (size_t)(table - text), diags);
    struct corrections *corrections = input ? corrections_of_input(arena, input, diags) : NULL;
    if (corrections) {
        try_log(arena, text, (size_t)(cut - text) + 1, corrections, diags);
        try_log(arena, text, (size_t)(cut - text), corrections, diags);
        corrections_say_unmatched(corrections, diags);
    }
    input_close(input);
    target_print(diags);
    arena_free(arena);
    return 0;
}
