#include "commands/team/team_state.h"

#include "commands/team/team_below.h"
#include "commands/team/team_publish.h"
#include "commands/team/team_scan.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define STATE_NAME "state.json"

/* --- memory for jansson, here and in night.json ------------------------------------------------------------------------------ */

static void *json_room(size_t size)
{
    void *piece = malloc(size ? size : 1);
    if (!piece)
        arena_out_of_memory(size);
    return piece;
}

void team_state_prepare(void)
{
    json_set_alloc_funcs(json_room, free);
}

/* --- out -------------------------------------------------------------------------------------------------------------------- */

static json_t *texts(const char *const *items, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(array, json_string(items[i]));
    return array;
}

static json_t *name_counts(const struct name_count *items, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(array, json_pack("{s:s, s:I}", "name", items[i].name, "sets", (json_int_t)items[i].sets));
    return array;
}

static json_t *files(const struct team_state *state)
{
    json_t *array = json_array();
    for (size_t i = 0; i < state->files.count; i++) {
        const struct team_file *file = &state->files.items[i];
        json_array_append_new(array, json_pack("{s:s, s:s, s:I}", "path", file->path, "digest", file->digest, "bytes",
                                               (json_int_t)file->bytes));
    }
    return array;
}

/* Bytes by name: shorter than an object each. */
static json_t *outputs(const struct team_state *state)
{
    json_t *object = json_object();
    for (size_t i = 0; i < state->outputs.count; i++)
        json_object_set_new(object, state->outputs.items[i].name,
                            json_integer((json_int_t)state->outputs.items[i].bytes));
    return object;
}

static json_t *answers(const struct team_state *state)
{
    json_t *array = json_array();
    for (size_t i = 0; i < state->answers.count; i++) {
        const struct team_answer *answer = &state->answers.items[i];
        json_array_append_new(array, json_pack("{s:s, s:i, s:s}", "what", answer->what, "verdict", (int)answer->verdict,
                                               "text", answer->text));
    }
    return array;
}

/* null for a week in which no set has a weight */
static json_t *volumes(const struct team_state *state)
{
    json_t *array = json_array();
    for (size_t i = 0; i < state->volumes_kg.count; i++) {
        double kg = state->volumes_kg.items[i];
        json_array_append_new(array, isfinite(kg) ? json_real(kg) : json_null());
    }
    return array;
}

static json_t *state_json(const struct team_state *state)
{
    json_t *root = json_object();
    json_object_set_new(root, "lifter", json_string(state->lifter));
    json_object_set_new(root, "key", json_string(state->key));
    json_object_set_new(root, "results", json_string(state->results));
    json_object_set_new(root, "last_week", json_integer(state->last_week));
    json_object_set_new(root, "sets", json_integer((json_int_t)state->sets));
    json_object_set_new(root, "sets_before", json_integer((json_int_t)state->sets_before));
    json_object_set_new(root, "refused", json_integer((json_int_t)state->refused));
    for (int severity = FINDING_NOTE; severity <= FINDING_FAULT; severity++)
        json_object_set_new(root, finding_severity_name((enum finding_severity)severity),
                            json_integer((json_int_t)state->findings[severity]));
    json_object_set_new(root, "remark", json_string(state->note));
    json_object_set_new(root, "undrawn", json_string(state->undrawn));
    json_object_set_new(root, "first", json_string(state->first));
    json_object_set_new(root, "last", json_string(state->last));
    json_object_set_new(root, "report", json_string(state->report));
    json_object_set_new(root, "answers", answers(state));
    json_object_set_new(root, "volumes_kg", volumes(state));
    json_object_set_new(root, "volume_week", json_integer(state->volume_week));
    json_object_set_new(root, "names", name_counts(state->names.items, state->names.count));
    json_object_set_new(root, "chains", json_boolean(state->any_chain));
    json_object_set_new(root, "bands", texts(state->bands.items, state->bands.count));
    json_object_set_new(root, "setups", texts(state->setups.items, state->setups.count));
    json_object_set_new(root, "lifts", texts(state->lifts.items, state->lifts.count));
    json_object_set_new(root, "files", files(state));
    json_object_set_new(root, "outputs", outputs(state));
    return root;
}

bool team_state_write(struct arena *arena, int folder, const struct team_state *state)
{
    json_t *root = state_json(state);
    char *text = json_dumps(root, JSON_COMPACT);
    json_decref(root);
    struct output *output = text ? output_open_in(arena, folder, STATE_NAME) : NULL;
    if (output) {
        output_text(output, text);
        output_text(output, "\n");
    }
    free(text);
    return output && output_commit(output);
}

/* --- reading ------------------------------------------------------------------------------------------------------ */

static size_t read_count(struct scan *scan)
{
    double number = scan_number(scan);
    return number > 0 && number < 9e15 ? (size_t)number : 0;
}

static week_number read_week(struct scan *scan)
{
    double number = scan_number(scan);
    return fabs(number) < 1e6 ? (week_number)number : 0;
}

typedef LIST(const char *) text_list;

static void read_texts(struct scan *scan, struct arena *arena, void *list)
{
    for (bool any = scan_begin(scan, '['); any && scan_more(scan, ']');)
        *LIST_ADD(arena, (text_list *)list) = scan_text(scan);
}

static void read_answer(struct scan *scan, struct team_answer *answer)
{
    *answer = (struct team_answer){"", "", VERDICT_NO_WAVES};
    for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) {
        const char *name = scan_name(scan);
        if (!strcmp(name, "what")) {
            answer->what = scan_text(scan);
        } else if (!strcmp(name, "text")) {
            answer->text = scan_text(scan);
        } else if (!strcmp(name, "verdict")) {
            size_t verdict = read_count(scan);
            answer->verdict = verdict > VERDICT_NO_WAVES ? VERDICT_NO_WAVES : (enum verdict_kind)verdict;
        } else {
            scan_skip(scan);
        }
    }
}

static void read_name(struct scan *scan, struct name_count *count)
{
    *count = (struct name_count){"", 0};
    for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) {
        const char *name = scan_name(scan);
        if (!strcmp(name, "name"))
            count->name = scan_text(scan);
        else if (!strcmp(name, "sets"))
            count->sets = read_count(scan);
        else
            scan_skip(scan);
    }
}

static void read_file(struct scan *scan, struct team_file *file)
{
    *file = (struct team_file){.path = ""};
    for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) {
        const char *name = scan_name(scan), *digest;
        if (!strcmp(name, "path")) {
            file->path = scan_text(scan);
        } else if (!strcmp(name, "bytes")) {
            file->bytes = (int64_t)read_count(scan);
        } else if (!strcmp(name, "digest")) {
            digest = scan_text(scan);
            memcpy(file->digest, digest, strlen(digest) < DIGEST_TEXT ? strlen(digest) : 0);
        } else {
            scan_skip(scan);
        }
    }
}

static void add_output(struct arena *arena, struct team_state *state, const char *name, int64_t bytes)
{
    if (folder_may_hold(name))
        *LIST_ADD(arena, &state->outputs) = (struct team_output){name, bytes};
}

/* Version 1.0 wrote an array of objects: its files still go when the folder is made again. */
static void read_old_output(struct scan *scan, struct arena *arena, struct team_state *state)
{
    const char *output = "";
    for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) {
        const char *name = scan_name(scan);
        if (!strcmp(name, "name"))
            output = scan_text(scan);
        else
            scan_skip(scan);
    }
    add_output(arena, state, output, -1);
}

static void read_outputs(struct scan *scan, struct arena *arena, struct team_state *state)
{
    bool old = scan_at(scan, '[');
    char closing = old ? ']' : '}';
    for (bool any = scan_begin(scan, old ? '[' : '{'); any && scan_more(scan, closing);) {
        if (old) {
            read_old_output(scan, arena, state);
            continue;
        }
        const char *name = scan_name(scan);
        add_output(arena, state, name, (int64_t)read_count(scan));
    }
}

static bool read_list(struct scan *scan, struct arena *arena, struct team_state *state, const char *name)
{
    if (!strcmp(name, "answers"))
        for (bool any = scan_begin(scan, '['); any && scan_more(scan, ']');)
            read_answer(scan, LIST_ADD(arena, &state->answers));
    else if (!strcmp(name, "volumes_kg"))
        for (bool any = scan_begin(scan, '['); any && scan_more(scan, ']');)
            *LIST_ADD(arena, &state->volumes_kg) = scan_number(scan);
    else if (!strcmp(name, "names"))
        for (bool any = scan_begin(scan, '['); any && scan_more(scan, ']');)
            read_name(scan, LIST_ADD(arena, &state->names));
    else if (!strcmp(name, "files"))
        for (bool any = scan_begin(scan, '['); any && scan_more(scan, ']');)
            read_file(scan, LIST_ADD(arena, &state->files));
    else if (!strcmp(name, "bands"))
        read_texts(scan, arena, &state->bands);
    else if (!strcmp(name, "setups"))
        read_texts(scan, arena, &state->setups);
    else if (!strcmp(name, "lifts"))
        read_texts(scan, arena, &state->lifts);
    else if (!strcmp(name, "outputs"))
        read_outputs(scan, arena, state);
    else
        return false;
    return true;
}

/* The members with one value. */
static bool read_value(struct scan *scan, struct team_state *state, const char *name)
{
    const struct
    {
        const char *name, **text;
    } texts[] = {{"lifter", &state->lifter},   {"key", &state->key},      {"results", &state->results},
                 {"remark", &state->note},     {"first", &state->first},  {"last", &state->last},
                 {"undrawn", &state->undrawn}, {"report", &state->report}};
    const struct
    {
        const char *name;
        size_t *count;
    } counts[] = {{"sets", &state->sets}, {"sets_before", &state->sets_before}, {"refused", &state->refused}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (!strcmp(name, texts[i].name))
            return *texts[i].text = scan_text(scan), true;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        if (!strcmp(name, counts[i].name))
            return *counts[i].count = read_count(scan), true;
    for (int severity = FINDING_NOTE; severity <= FINDING_FAULT; severity++)
        if (!strcmp(name, finding_severity_name((enum finding_severity)severity)))
            return state->findings[severity] = read_count(scan), true;
    if (!strcmp(name, "last_week"))
        return state->last_week = read_week(scan), true;
    if (!strcmp(name, "volume_week"))
        return state->volume_week = read_week(scan), true;
    if (!strcmp(name, "chains"))
        return state->any_chain = scan_true(scan), true;
    return false;
}

static void read_state(struct scan *scan, struct arena *arena, struct team_state *state)
{
    for (bool any = scan_begin(scan, '{'); any && scan_more(scan, '}');) {
        const char *name = scan_name(scan);
        if (!read_value(scan, state, name) && !read_list(scan, arena, state, name))
            scan_skip(scan);
    }
}

struct team_state *team_state_read(struct arena *arena, int lifters, const char *name)
{
    size_t length;
    int folder = below_folder(lifters, name);
    char *text = folder < 0 ? NULL : below_text(arena, folder, STATE_NAME, &length);
    if (folder >= 0)
        close(folder);
    if (!text)
        return NULL;
    struct scan scan = scan_of(text, length);
    struct team_state *state = ARENA_NEW(arena, struct team_state);
    state->lifter = state->key = state->results = state->note = state->undrawn = state->first = state->last =
        state->report = "";
    bool is_object = scan_at(&scan, '{');
    read_state(&scan, arena, state);
    return is_object && scan_end(&scan) ? state : NULL;
}
