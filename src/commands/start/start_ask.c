#include "commands/start/start_ask.h"

#include "commands/start/start.h"

#include "base/text.h"
#include "commands/start/start_blocks.h"
#include "commands/start/start_units.h"

#include <stdio.h>
#include <string.h>

#define LONGEST_ANSWER 512
#define TRIES 3

enum answer
{
    ANSWER_GIVEN,
    ANSWER_NONE, /* an empty line */
    ANSWER_END   /* a dot alone, or the end of the input: ends the questions */
};

/* A line without its end. A line that is too long, or holds a NUL, is returned as a value that is not allowed. */
static enum answer read_answer(struct start *start, const char **answer)
{
    char line[LONGEST_ANSWER];
    size_t used = 0;
    bool fits = true;
    int byte;
    while ((byte = getc(stdin)) != EOF && byte != '\n') {
        fits &= used < sizeof line - 1 && byte;
        if (fits)
            line[used++] = (char)byte;
    }
    line[used] = 0;
    if (byte == EOF && !used) {
        fputs("\n", stderr);
        return ANSWER_END;
    }
    *answer = !fits                      ? "\""
              : text_is_utf8(line, used) ? text_squeeze(start->arena, line)
                                         : arena_copy(start->arena, line);
    return !strcmp(*answer, ".") ? ANSWER_END : **answer ? ANSWER_GIVEN : ANSWER_NONE;
}

static enum answer ask(struct start *start, const char *question, const char **answer)
{
    fprintf(stderr, "%s: ", text_visible(start->arena, question));
    fflush(stderr);
    enum answer got = read_answer(start, answer);
    start->asking = got != ANSWER_END;
    return got;
}

static void say_fault(struct start *start, const char *fault, int try)
{
    fprintf(stderr, "  %s\n", text_visible(start->arena, fault));
    if (try == TRIES)
        fputs("  Left open: you can fill it in later.\n", stderr);
}

static void ask_line(struct start *start, const char *head, struct start_line *line)
{
    for (int try = 1; try <= TRIES; try++) {
        const char *answer;
        if (ask(start, start_question(start, line->question), &answer) != ANSWER_GIVEN)
            return;
        const char *whole = line->prefix ? arena_printf(start->arena, "%s%s", line->prefix, answer) : answer;
        const char *fault = start_fault(start, head, line->key, whole);
        if (!fault) {
            line->value = answer;
            return;
        }
        say_fault(start, fault, try);
    }
}

/* Once a line is left open, the following lines with the same key are not asked for. */
static bool is_left_open(const struct start_block *block, size_t line)
{
    const struct start_line *this = &block->lines.items[line], *before = line ? this - 1 : NULL;
    return before && !strcmp(before->key, this->key) && !before->prefix && before->question && !before->value;
}

void start_ask_blocks(struct start *start, size_t first)
{
    for (size_t i = first; i < start->blocks.count; i++) {
        struct start_block *block = &start->blocks.items[i];
        for (size_t j = 0; j < block->lines.count && start->asking; j++) {
            struct start_line *line = &block->lines.items[j];
            if (line->question && !line->value && !is_left_open(block, j))
                ask_line(start, block->head, line);
        }
    }
}

const char *start_ask_text(struct start *start, const char *question)
{
    for (int try = 1; try <= TRIES && start->asking; try++) {
        const char *answer;
        if (ask(start, question, &answer) != ANSWER_GIVEN)
            return NULL;
        if (start_can_stand(start->arena, answer))
            return answer;
        say_fault(start, "a gym file cannot hold that: no \", no ;, no control characters, at most 140 bytes", try);
    }
    return NULL;
}
