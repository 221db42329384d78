#include "base/diag.h"

#include "base/names.h"
#include "base/pounds.h"
#include "base/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct
{
    enum severity severity;
    const char *name, *hint;
} list[] = {
#define DIAG(id, severity, name, hint) {SEVERITY_##severity, name, hint},
#include "diagnostics.def"
#undef DIAG
};

struct count /* of one id and file */
{
    enum diag_id id;
    const char *file; /* NULL: none */
    size_t kept, hidden;
    struct count *next;
};

struct diags
{
    struct arena *arena;
    struct diag *first, **last;
    size_t totals[SEVERITY_FAILURE + 1], kept;
    struct names *files;
    struct map *counts;
    struct count *first_count, **last_count;
    struct map *said;    /* keys of what is said once */
    struct map *sheets;  /* names of files that are one; NULL: none is */
    bool is_part;        /* keeps all that is said once: the whole may have said it */
    enum mass_unit unit; /* of hints */
    bool show_all, left_out[DIAG_COUNT];
};

struct diags *diags_new(struct arena *arena)
{
    struct diags *diags = ARENA_NEW(arena, struct diags);
    diags->arena = arena;
    diags->last = &diags->first;
    diags->files = names_new(arena);
    diags->counts = map_new(arena);
    diags->last_count = &diags->first_count;
    diags->said = map_new(arena);
    return diags;
}

void diags_show_all(struct diags *diags)
{
    diags->show_all = true;
}

void diags_name_sheet(struct diags *diags, const char *file)
{
    if (!diags->sheets)
        diags->sheets = map_new(diags->arena);
    map_put(diags->sheets, file, strlen(file), diags);
}

void diags_leave_out(struct diags *diags, enum diag_id id)
{
    diags->left_out[id] = true;
}

void diags_advise_in(struct diags *diags, enum mass_unit unit)
{
    diags->unit = unit;
}

bool diags_takes(const struct diags *diags, enum diag_id id)
{
    return !diags->left_out[id];
}

#define KEY_BYTES 4096

static size_t count_key(char key[KEY_BYTES], enum diag_id id, const char *file)
{
    int length = snprintf(key, KEY_BYTES, "%d %s", (int)id, file ? file : "");
    return length < KEY_BYTES ? (size_t)length : KEY_BYTES - 1;
}

static struct count *count_of(struct diags *diags, enum diag_id id, const char *file)
{
    char key[KEY_BYTES];
    size_t length = count_key(key, id, file);
    struct count *count = map_get(diags->counts, key, length);
    if (!count) {
        count = ARENA_NEW(diags->arena, struct count);
        count->id = id;
        count->file = arena_copy(diags->arena, file);
        map_put(diags->counts, key, length, count);
        *diags->last_count = count;
        diags->last_count = &count->next;
    }
    return count;
}

/* Counts it; false: it is counted and not kept. */
static bool is_kept(struct diags *diags, enum diag_id id, const char *file, bool once)
{
    struct count *count = count_of(diags, id, file);
    diags->totals[list[id].severity]++;
    if (count->kept >= DIAGS_SHOWN && !diags->show_all && !(once && diags->is_part)) {
        count->hidden++;
        return false;
    }
    count->kept++;
    diags->kept++;
    return true;
}

static struct diag *append(struct diags *diags, const struct diag *like)
{
    struct diag *diag = ARENA_NEW(diags->arena, struct diag);
    *diag = *like;
    if (diag->at.file)
        diag->at.file = names_text(diags->files, names_add(diags->files, diag->at.file, strlen(diag->at.file)));
    if (diags->sheets && diag->at.file && !diag->at.sheet &&
        map_get(diags->sheets, diag->at.file, strlen(diag->at.file))) {
        diag->at.sheet = true;
        diag->at.column = 0; /* of characters, which a row does not have */
    }
    diag->hint = like->hint && like->hint != list[like->id].hint ? arena_copy(diags->arena, like->hint)
                                                                 : list[like->id].hint;
    diag->excerpt = arena_copy(diags->arena, like->excerpt);
    diag->once = arena_copy(diags->arena, like->once);
    diag->next = NULL;
    *diags->last = diag;
    diags->last = &diag->next;
    return diag;
}

/* True the first time. NULL is no key. */
static bool first_time(struct diags *diags, const char *key)
{
    if (!key)
        return true;
    size_t length = strlen(key);
    if (map_get(diags->said, key, length))
        return false;
    map_put(diags->said, key, length, diags);
    return true;
}

static void add(struct diags *diags, const struct diag *diag, const char *format, va_list arguments)
{
    if (!diags->left_out[diag->id] && first_time(diags, diag->once) &&
        is_kept(diags, diag->id, diag->at.file, diag->once))
        append(diags, diag)->message = arena_vprintf(diags->arena, format, arguments);
}

void diag_add(struct diags *diags, enum diag_id id, struct place at, const char *excerpt, const char *hint,
              const char *format, ...)
{
    const struct diag diag = {.id = id, .at = at, .excerpt = excerpt, .hint = hint};
    va_list arguments;
    va_start(arguments, format);
    add(diags, &diag, format, arguments);
    va_end(arguments);
}

void diag_add_once(struct diags *diags, const char *key, enum diag_id id, struct place at, const char *excerpt,
                   const char *hint, const char *format, ...)
{
    const struct diag diag = {.id = id, .at = at, .excerpt = excerpt, .hint = hint, .once = key};
    va_list arguments;
    va_start(arguments, format);
    add(diags, &diag, format, arguments);
    va_end(arguments);
}

struct diags *diags_part(struct arena *arena, const struct diags *whole)
{
    struct diags *part = diags_new(arena);
    part->is_part = true;
    part->show_all = whole->show_all;
    memcpy(part->left_out, whole->left_out, sizeof part->left_out);
    return part;
}

void diags_join(struct diags *whole, const struct diags *part, uint32_t lines)
{
    for (const struct diag *diag = part->first; diag; diag = diag->next)
        if (first_time(whole, diag->once) && is_kept(whole, diag->id, diag->at.file, diag->once)) {
            struct diag *joined = append(whole, diag);
            joined->message = arena_copy(whole->arena, diag->message);
            joined->at.line += joined->at.line ? lines : 0;
        }
    for (const struct count *count = part->first_count; count; count = count->next)
        if (count->hidden) {
            count_of(whole, count->id, count->file)->hidden += count->hidden;
            whole->totals[list[count->id].severity] += count->hidden;
        }
}

const struct diag *diags_first(const struct diags *diags)
{
    return diags->first;
}

size_t diags_total(const struct diags *diags, enum severity severity)
{
    return diags->totals[severity];
}

size_t diags_hidden(const struct diags *diags, enum diag_id id, const char *file)
{
    char key[KEY_BYTES];
    const struct count *count = map_get(diags->counts, key, count_key(key, id, file));
    return count ? count->hidden : 0;
}

struct placed
{
    struct diag *diag;
    uint32_t file;
    size_t order;
};

static int by_place(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    if (a->file != b->file)
        return a->file < b->file ? -1 : 1;
    if (a->diag->at.line != b->diag->at.line)
        return a->diag->at.line < b->diag->at.line ? -1 : 1;
    if (a->diag->at.column != b->diag->at.column)
        return a->diag->at.column < b->diag->at.column ? -1 : 1;
    return a->order < b->order ? -1 : 1;
}

void diags_sort(struct diags *diags)
{
    if (!diags->kept)
        return;
    struct placed *all = ARENA_ARRAY(diags->arena, struct placed, diags->kept);
    size_t count = 0;
    for (struct diag *diag = diags->first; diag; diag = diag->next, count++) {
        all[count].diag = diag;
        all[count].order = count;
        if (diag->at.file)
            all[count].file = names_add(diags->files, diag->at.file, strlen(diag->at.file)) + 1;
    }
    qsort(all, count, sizeof *all, by_place);
    diags->last = &diags->first;
    for (size_t i = 0; i < count; i++) {
        *diags->last = all[i].diag;
        diags->last = &all[i].diag->next;
    }
    *diags->last = NULL;
}

#define EXCERPT_COLUMNS 100 /* a longer line is shown from a little before the place */

/* The line as written and a mark under the place. */
static void print_excerpt(const struct diag *diag, struct arena *scratch, diag_put *put, void *context)
{
    if (!diag->excerpt || !*diag->excerpt)
        return;
    uint32_t column = diag->at.sheet ? 0 : diag->at.column; /* a cell's column is no place in the line */
    size_t before = column ? column - 1 : 0, skipped = 0;
    const char *from = diag->excerpt;
    while (before - skipped > EXCERPT_COLUMNS / 2 && *from) {
        from++;
        while ((*from & 0xC0) == 0x80)
            from++;
        skipped++;
    }
    char *spaced = arena_text(scratch, from, strcspn(from, "\n")); /* tabs would move the mark */
    for (char *tab = spaced; (tab = strchr(tab, '\t'));)
        *tab = ' ';
    from = spaced;
    const char *line = text_cut(scratch, from, EXCERPT_COLUMNS);
    put(context, arena_printf(scratch, "  %s%s\n", skipped ? "\xE2\x80\xA6" : "", line));
    if (!column)
        return;
    size_t bytes = 0, columns = skipped ? 1 : 0;
    for (size_t i = skipped; i < before && from[bytes]; i++)
        do
            bytes++;
        while ((from[bytes] & 0xC0) == 0x80);
    columns += text_width(text_visible(scratch, arena_text(scratch, from, bytes)));
    size_t marks = diag->at.length > 1 ? diag->at.length : 1;
    if (columns + marks > EXCERPT_COLUMNS)
        marks = columns < EXCERPT_COLUMNS ? EXCERPT_COLUMNS - columns : 1;
    char *mark = arena_alloc(scratch, marks + 1);
    memset(mark, '~', marks);
    mark[0] = '^';
    put(context, arena_printf(scratch, "  %*s%s\n", (int)columns, "", mark));
}

static const char *severity_colour(enum severity severity)
{
    static const char *const colours[] = {"\033[36m", "\033[33m", "\033[31m", "\033[1;31m"};
    return colours[severity];
}

/* A hint may have several lines, as a block for the gym file has. */
static void print_hint(const char *hint, struct arena *scratch, diag_put *put, void *context)
{
    for (const char *line = hint; line && *line; line += strcspn(line, "\n"), line += *line == '\n')
        put(context, arena_printf(scratch, "  %s%s\n", line == hint ? "hint: " : "      ",
                                  text_visible(scratch, arena_text(scratch, line, strcspn(line, "\n")))));
}

static bool is_last_of_its_kind(const struct diag *diag)
{
    for (const struct diag *next = diag->next; next; next = next->next)
        if (next->id == diag->id && next->at.file == diag->at.file)
            return false;
    return true;
}

char *sheet_column_letters(char buffer[SHEET_LETTERS], uint32_t column)
{
    char letters[SHEET_LETTERS], *at = letters + sizeof letters;
    *--at = 0;
    for (; column && at > letters; column = (column - 1) / 26)
        *--at = (char)('A' + (column - 1) % 26);
    memcpy(buffer, at, (size_t)(letters + sizeof letters - at));
    return buffer;
}

static const char *print_place(struct arena *scratch, const struct place *at)
{
    char letters[SHEET_LETTERS];
    if (at->sheet)
        return arena_printf(scratch, "!%s%u:", sheet_column_letters(letters, at->column), at->line);
    return arena_printf(scratch, "%u:%u:", at->line, at->column ? at->column : 1);
}

static void print_one(const struct diags *diags, const struct diag *diag, struct arena *scratch, diag_put *put,
                      void *context, bool colour)
{
    const char *on = colour ? severity_colour(list[diag->id].severity) : "", *off = colour ? "\033[0m" : "";
    if (diag->at.file)
        put(context, arena_printf(scratch, "%s%s", text_visible(scratch, diag->at.file),
                                  diag->at.sheet && diag->at.line ? "" : ":"));
    if (diag->at.line)
        put(context, print_place(scratch, &diag->at));
    put(context, arena_printf(scratch, "%s%s%s:%s %s\n", diag->at.file ? " " : "", on,
                              severity_name(list[diag->id].severity), off, text_visible(scratch, diag->message)));
    print_excerpt(diag, scratch, put, context);
    print_hint(advice_in_unit(scratch, diag->hint, diags->unit), scratch, put, context);
    size_t hidden = diags_hidden(diags, diag->id, diag->at.file);
    if (hidden && is_last_of_its_kind(diag))
        put(context, arena_printf(scratch, "%s: %s%s:%s %zu more of this kind (%s); `tautline check` lists them all\n",
                                  diag->at.file ? text_visible(scratch, diag->at.file) : "", on,
                                  severity_name(list[diag->id].severity), off, hidden, list[diag->id].name));
}

void diags_print(struct diags *diags, diag_put *put, void *context, bool colour)
{
    struct arena *scratch = arena_new();
    diags_sort(diags);
    for (const struct diag *diag = diags->first; diag; diag = diag->next) {
        print_one(diags, diag, scratch, put, context, colour);
        arena_reset(scratch);
    }
    arena_free(scratch);
}

enum severity diag_severity(enum diag_id id)
{
    return list[id].severity;
}

const char *diag_name(enum diag_id id)
{
    return list[id].name;
}

const char *diag_hint(enum diag_id id)
{
    return list[id].hint;
}

const char *severity_name(enum severity severity)
{
    static const char *const names[] = {"note", "warning", "error", "error"};
    return names[severity];
}
