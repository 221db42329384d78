#include "reading/workbook/xlsx_parts.h"

#include "base/text.h"
#include "reading/workbook/part_reader.h"

#include <string.h>

#define RELATIONS ((size_t)4096)

struct relation
{
    const char *id, *kind, *target; /* kind: the last part of its type: worksheet, styles */
};

struct reading_parts
{
    struct arena *arena;
    LIST(struct relation) relations;
    const char *of; /* the part that the relations belong to */
    struct xlsx_parts *parts;
    LIST(const char *) sheet_relations; /* of each sheet */
};

char *part_path(struct arena *arena, const char *base, const char *target)
{
    const char *slash = strrchr(base, '/');
    size_t length = *target == '/' || !slash ? 0 : (size_t)(slash + 1 - base);
    char *path = arena_alloc(arena, length + strlen(target) + 2), *to = path;
    memcpy(path, base, length);
    to += length;
    for (const char *at = target; *at;) {
        size_t step = strcspn(at, "/");
        if (step == 2 && !memcmp(at, "..", 2)) {
            while (to > path && *--to == '/')
                ;
            while (to > path && to[-1] != '/')
                to--;
        } else if (step && !(step == 1 && *at == '.')) {
            memcpy(to, at, step);
            to += step;
            if (at[step])
                *to++ = '/';
        }
        at += step + (at[step] == '/');
    }
    *to = 0;
    return path;
}

/* --- relations --------------------------------------------------------------------------------------------------- */

static void see_relation(void *context, const char *name, const char *const *attributes)
{
    struct reading_parts *reading = context;
    if (strcmp(xml_local(name), "Relationship") || reading->relations.count >= RELATIONS)
        return;
    const char *id = xml_attribute(attributes, "", "Id"), *type = xml_attribute(attributes, "", "Type");
    const char *target = xml_attribute(attributes, "", "Target"), *mode = xml_attribute(attributes, "", "TargetMode");
    if (!id || !type || !target || (mode && !strcmp(mode, "External")))
        return;
    const char *kind = strrchr(type, '/');
    *LIST_ADD(reading->arena, &reading->relations) = (struct relation){
        arena_copy(reading->arena, id), arena_copy(reading->arena, kind ? kind + 1 : type),
        part_path(reading->arena, reading->of, target)};
}

static void pass_end(void *context, const char *name)
{
    (void)context, (void)name;
}

static bool read_relations(struct reading_parts *reading, struct archive *archive, const char *of, const char **why,
                           enum diag_id *id)
{
    static const struct xml_events events = {.start = see_relation, .end = pass_end};
    const char *slash = strrchr(of, '/'), *base = slash ? slash + 1 : of;
    const char *member = arena_printf(reading->arena, "%.*s_rels/%s.rels", (int)(base - of), of, base);
    reading->of = of;
    reading->relations.count = 0;
    return part_read(reading->arena, archive, member, &events, reading, why, id);
}

static const char *target_of(const struct reading_parts *reading, const char *kind)
{
    for (size_t i = 0; i < reading->relations.count; i++)
        if (!strcmp(reading->relations.items[i].kind, kind))
            return reading->relations.items[i].target;
    return NULL;
}

/* --- the workbook ------------------------------------------------------------------------------------------------ */

static bool is_true(const char *value)
{
    return value && (!strcmp(value, "1") || !strcmp(value, "true"));
}

static void see_sheet(struct reading_parts *reading, const char *const *attributes)
{
    struct arena *arena = reading->arena;
    const char *name = xml_attribute(attributes, "", "name"), *state = xml_attribute(attributes, "", "state");
    const char *relation = xml_attribute(attributes, "relationships", "id");
    if (reading->parts->sheets.count > XLSX_SHEETS) /* one too many is enough to detect it */
        return;
    *LIST_ADD(arena, &reading->parts->sheets) = (struct xlsx_sheet_part){
        .name = arena_copy(arena, name ? name : ""),
        .hidden = state && text_starts(state, "h") ? true : state && text_starts(state, "veryHidden")};
    *LIST_ADD(arena, &reading->sheet_relations) = arena_copy(arena, relation ? relation : "");
}

static void see_workbook(void *context, const char *name, const char *const *attributes)
{
    struct reading_parts *reading = context;
    const char *local = xml_local(name);
    if (!strcmp(local, "workbookPr"))
        reading->parts->epoch_1904 = is_true(xml_attribute(attributes, "", "date1904"));
    else if (!strcmp(local, "sheet"))
        see_sheet(reading, attributes);
}

static void find_sheets(struct reading_parts *reading)
{
    for (size_t i = 0; i < reading->parts->sheets.count; i++)
        for (size_t k = 0; k < reading->relations.count; k++) {
            const struct relation *relation = &reading->relations.items[k];
            if (!strcmp(relation->id, reading->sheet_relations.items[i]) && !strcmp(relation->kind, "worksheet"))
                reading->parts->sheets.items[i].part = relation->target;
        }
}

bool xlsx_parts_read(struct arena *arena, struct archive *archive, struct xlsx_parts *parts, const char **why,
                     enum diag_id *id)
{
    static const struct xml_events events = {.start = see_workbook, .end = pass_end};
    struct reading_parts reading = {.arena = arena, .parts = parts};
    *parts = (struct xlsx_parts){0};
    if (!read_relations(&reading, archive, "", why, id))
        return false;
    const char *workbook = target_of(&reading, "officeDocument");
    if (!workbook)
        workbook = "xl/workbook.xml";
    if (!part_read(arena, archive, workbook, &events, &reading, why, id) ||
        !read_relations(&reading, archive, workbook, why, id))
        return false;
    if (parts->sheets.count > XLSX_SHEETS) {
        *why = "it has more than 256 sheets";
        *id = DIAG_LIMIT_REACHED;
        return false;
    }
    find_sheets(&reading);
    parts->styles = target_of(&reading, "styles");
    parts->strings = target_of(&reading, "sharedStrings");
    return true;
}
