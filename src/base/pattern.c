#include "base/pattern.h"

#include "base/arena.h"

#define FEW_BYTES 1024u /* that are matched before machine code pays: compiling costs as much as interpreting these */

struct pattern pattern_make(const char *text)
{
    int error;
    PCRE2_SIZE offset;
    struct pattern pattern = {0};
    uint32_t flags = PCRE2_UTF | PCRE2_UCP | PCRE2_CASELESS | PCRE2_DOTALL | PCRE2_MATCH_INVALID_UTF;
    pattern.code = pcre2_compile((PCRE2_SPTR)text, PCRE2_ZERO_TERMINATED, flags, &error, &offset, NULL);
    if (pattern.code)
        pattern.match = pcre2_match_data_create_from_pattern(pattern.code, NULL);
    if (pattern.code ? !pattern.match : error == PCRE2_ERROR_HEAP_FAILED)
        arena_out_of_memory(0); /* a pattern that matches nothing would be another reading */
    return pattern;
}

void pattern_free(struct pattern *pattern)
{
    pcre2_match_data_free(pattern->match);
    pcre2_code_free(pattern->code);
}

static void count_bytes(struct pattern *pattern, size_t bytes)
{
    if (pattern->bytes > FEW_BYTES)
        return;
    pattern->bytes += bytes;
    if (pattern->bytes > FEW_BYTES)
        pcre2_jit_compile(pattern->code, PCRE2_JIT_COMPLETE); /* without JIT the interpreter serves */
}

int pattern_match(struct pattern *pattern, const char *text, size_t length, size_t at, uint32_t flags)
{
    if (!pattern->match)
        return PCRE2_ERROR_NOMATCH;
    count_bytes(pattern, length - at);
    int found = pcre2_match(pattern->code, (PCRE2_SPTR)text, length, at, flags, pattern->match, NULL);
    if (found == PCRE2_ERROR_NOMEMORY)
        arena_out_of_memory(0);
    return found;
}
