#include "reading/workbook/sheet_text.h"

struct sheet_text
{
    struct input *sheet;
    const char *block; /* of its CSV, not processed yet */
    size_t left;
    bool quoted, quote_seen; /* within a quoted cell; a quote there, which may be doubled */
    bool gap;                /* a cell ended: a blank must come before the next text in the row */
    bool any;                /* the row has text so far */
};

/* The byte if it is part of the text; 0: it is not. */
static char take(struct sheet_text *text, char byte)
{
    if (text->quoted && !text->quote_seen) {
        text->quote_seen = byte == '"';
        return text->quote_seen ? 0 : byte;
    }
    if (text->quoted && byte == '"') { /* a doubled quote */
        text->quote_seen = false;
        return byte;
    }
    text->quoted = byte == '"';
    text->quote_seen = false;
    if (byte == ',')
        text->gap = true;
    return byte == ',' || byte == '"' ? 0 : byte;
}

static ssize_t read_text(void *context, char *to, size_t room)
{
    struct sheet_text *text = context;
    size_t used = 0;
    while (used + 2 <= room) {
        if (!text->left && !(text->left = input_read(text->sheet, &text->block)))
            break;
        char byte = take(text, *text->block);
        text->block++;
        text->left--;
        if (!byte)
            continue;
        if (byte == '\n')
            text->any = text->gap = false;
        else if (text->gap && text->any)
            to[used++] = ' ';
        text->any |= byte != '\n';
        text->gap = false;
        to[used++] = byte;
    }
    return !used && input_failed(text->sheet) ? -1 : (ssize_t)used;
}

struct input *sheet_as_text(struct arena *arena, struct input *sheet, struct diags *diags)
{
    struct sheet_text *text = ARENA_NEW(arena, struct sheet_text);
    text->sheet = sheet;
    const struct input_source source = {.read = read_text, .context = text, .like = sheet};
    return input_from_source(arena, input_name(sheet), &source, diags);
}
