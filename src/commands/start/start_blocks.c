#include "commands/start/start_blocks.h"

#include "commands/start/start.h"

#include "base/text.h"
#include "commands/start/start_units.h"
#include "reading/gym/gym_file.h"
#include "writing/output.h"

#include <string.h>

struct start_block *start_block_add(struct start *start, const char *head, const char *about)
{
    struct start_block *block = LIST_ADD(start->arena, &start->blocks);
    block->head = head;
    block->about = about;
    return block;
}

void start_line_add(struct start *start, struct start_block *block, struct start_line line)
{
    *LIST_ADD(start->arena, &block->lines) = line;
}

#define LONGEST_VALUE 140 /* a line of a gym file holds 190 bytes */

bool start_can_stand(struct arena *arena, const char *text)
{
    size_t length = strlen(text);
    return length && length <= LONGEST_VALUE && text_is_utf8(text, length) && text_visible(arena, text) == text &&
           !strpbrk(text, "\";") && !strcmp(text, text_squeeze(arena, text));
}

/* What the reader of a gym file with these lines reports for line `line`; NULL: nothing. */
static const char *fault_on(struct start *start, const char *text, uint32_t line)
{
    struct diags *diags = diags_new(start->arena);
    gym_read_memory(start->arena, start->gym_path, text, strlen(text), diags);
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        if (diag->at.line == line && diag_severity(diag->id) >= SEVERITY_ERROR)
            return diag->hint ? arena_printf(start->arena, "%s; %s", diag->message, diag->hint) : diag->message;
    return NULL;
}

const char *start_fault(struct start *start, const char *head, const char *key, const char *value)
{
    if (!start_can_stand(start->arena, value))
        return "a gym file cannot hold that: no \", no ;, no control characters, at most 140 bytes";
    return fault_on(start, arena_printf(start->arena, "%s\n%s = %s\n", head, key, value), 2);
}

/* --- as text ---------------------------------------------------------------------------------------------------------- */

#define REMARK_COLUMN 44

struct text
{
    struct output *output;
    uint32_t lines;
};

static void put_line(struct text *text, const char *line)
{
    output_printf(text->output, "%s\n", line);
    text->lines++;
}

static void put_about(struct start *start, struct text *text, const char *about)
{
    for (const char *line = about; *line; line += strcspn(line, "\n"), line += *line == '\n') {
        const char *words = text_visible(start->arena, arena_text(start->arena, line, strcspn(line, "\n")));
        put_line(text, *words ? arena_printf(start->arena, "; %s", words) : "");
    }
}

static bool stands(const struct start_block *block)
{
    if (block->refused)
        return false;
    for (size_t i = 0; i < block->lines.count; i++)
        if (block->lines.items[i].needed && (!block->lines.items[i].value || block->lines.items[i].refused))
            return false;
    return true;
}

static void put_key(struct start *start, struct text *text, struct start_line *line, bool block_stands)
{
    const char *sign = block_stands && line->value && !line->refused ? "" : ";",
               *prefix = line->prefix ? line->prefix : "";
    const char *written = arena_printf(start->arena, "%s%s = %s%s", sign, line->key, prefix,
                                       line->value ? line->value : start_in_unit(start, line->blank));
    const char *remark = line->refused ? line->refused : start_in_unit(start, line->remark);
    size_t width = text_width(written), gap = width < REMARK_COLUMN ? REMARK_COLUMN - width : 1;
    put_line(text, remark ? arena_printf(start->arena, "%s%*s; %s", written, (int)gap, "", remark) : written);
    line->number = text->lines;
}

static void put_block(struct start *start, struct text *text, struct start_block *block)
{
    bool block_stands = stands(block);
    if (text->lines)
        put_line(text, "");
    if (block->about)
        put_about(start, text, block->about);
    if (!block->head)
        return;
    put_line(text, block_stands ? block->head : arena_printf(start->arena, ";%s", block->head));
    block->number = text->lines;
    for (size_t i = 0; i < block->lines.count; i++)
        put_key(start, text, &block->lines.items[i], block_stands);
}

static const char *text_of(struct start *start)
{
    struct text text = {output_to_memory(start->arena), 0};
    for (size_t i = 0; i < start->blocks.count; i++)
        put_block(start, &text, &start->blocks.items[i]);
    return output_memory(text.output, NULL);
}

/* Comments out what is on that line of the text. False: none of our lines is there. */
static bool refuse(struct start *start, uint32_t number, const char *why)
{
    const char **refused = NULL;
    for (size_t i = 0; i < start->blocks.count; i++) {
        struct start_block *block = &start->blocks.items[i];
        if (block->head && block->number == number)
            refused = &block->refused;
        for (size_t j = 0; j < block->lines.count; j++)
            if (block->lines.items[j].number == number)
                refused = &block->lines.items[j].refused;
    }
    if (!refused || *refused)
        return false;
    *refused = why;
    return true;
}

const char *start_gym_text(struct start *start)
{
    for (;;) {
        const char *text = text_of(start);
        struct diags *diags = diags_new(start->arena);
        bool changed = false;
        diags_show_all(diags);
        gym_read_memory(start->arena, start->gym_path, text, strlen(text), diags);
        for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
            if (diag_severity(diag->id) >= SEVERITY_ERROR)
                changed |= refuse(start, diag->at.line, text_visible(start->arena, diag->message));
        if (!changed)
            return text;
    }
}

const char *start_log_text(struct start *start)
{
    struct output *text = output_to_memory(start->arena);
    enum mass_unit unit = start->known->unit;
    output_text(
        text,
        "# A training log. A line that begins with # is a comment; tautline-log(5) explains everything it can hold.\n"
        "#\n"
        "# A day and what it was for; then one line per lift: what was on the bar, a colon, sets x reps, how hard it "
        "was.\n"
        "#\n"
        "#   2026-01-12  speed\n"
        "#   squat 80 + 2 chains/side: 7x2 @7\n"
        "#   bench press 60 + band b26 doubled: 6x3\n"
        "#   deadlift 140x3, 150x2, 160x1 @9\n"
        "#   note: slept badly\n\n");
    output_printf(text, "%slifter: %s\n", start->lifter ? "" : "# ", start->lifter ? start->lifter : "___");
    output_printf(text, "%sunit: %s\n\n", start->known->unit_said ? "" : "# ",
                  start->known->unit_said ? mass_unit_name(unit) : "___");
    return output_memory(text, NULL);
}
