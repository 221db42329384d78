#include "commands/team/team_state.h"

#include "commands/team/team_below.h"
#include "commands/team/team_publish.h"

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

/* Bytes by name: every night reads them of every lifter, and a member costs a third of an object each. */
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
    json_object_set_new(root, "next", json_string(state->next));
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

static const char *text_of(struct arena *arena, const json_t *root, const char *name)
{
    const char *text = json_string_value(json_object_get(root, name));
    return text && *text ? arena_copy(arena, text) : "";
}

static size_t count_of(const json_t *root, const char *name)
{
    json_int_t count = json_integer_value(json_object_get(root, name));
    return count > 0 ? (size_t)count : 0;
}

typedef LIST(const char *) text_list;

static void read_texts(struct arena *arena, const json_t *root, const char *name, void *list)
{
    const json_t *array = json_object_get(root, name);
    for (size_t i = 0; i < json_array_size(array); i++) {
        const char *text = json_string_value(json_array_get(array, i));
        *LIST_ADD(arena, (text_list *)list) = arena_copy(arena, text ? text : "");
    }
}

static void read_lists(struct arena *arena, const json_t *root, struct team_state *state)
{
    const json_t *array = json_object_get(root, "answers");
    for (size_t i = 0; i < json_array_size(array); i++) {
        const json_t *each = json_array_get(array, i);
        size_t verdict = count_of(each, "verdict");
        *LIST_ADD(arena, &state->answers) = (struct team_answer){
            text_of(arena, each, "what"), text_of(arena, each, "text"),
            verdict > VERDICT_NO_WAVES ? VERDICT_NO_WAVES : (enum verdict_kind)verdict};
    }
    array = json_object_get(root, "volumes_kg");
    for (size_t i = 0; i < json_array_size(array) && i < TEAM_WEEKS; i++)
        *LIST_ADD(arena, &state->volumes_kg) = json_number_value(json_array_get(array, i));
    array = json_object_get(root, "names");
    for (size_t i = 0; i < json_array_size(array); i++) {
        const json_t *each = json_array_get(array, i);
        *LIST_ADD(arena, &state->names) = (struct name_count){text_of(arena, each, "name"), count_of(each, "sets")};
    }
    array = json_object_get(root, "files");
    for (size_t i = 0; i < json_array_size(array); i++) {
        const json_t *each = json_array_get(array, i);
        struct team_file *file = LIST_ADD(arena, &state->files);
        const char *digest = text_of(arena, each, "digest");
        file->path = text_of(arena, each, "path");
        file->bytes = (int64_t)count_of(each, "bytes");
        memcpy(file->digest, digest, strlen(digest) < DIGEST_TEXT ? strlen(digest) : 0);
    }
}

static void read_output(struct arena *arena, struct team_state *state, const char *name, const json_t *bytes)
{
    if (name && folder_may_hold(name))
        *LIST_ADD(arena, &state->outputs) = (struct team_output){arena_copy(arena, name), json_integer_value(bytes)};
}

/* Version 1.0 wrote an array of objects: its files still go when the folder is made again. */
static void read_outputs(struct arena *arena, json_t *root, struct team_state *state)
{
    json_t *outputs = json_object_get(root, "outputs"), *bytes;
    const char *name;
    for (size_t i = 0; i < json_array_size(outputs); i++)
        read_output(arena, state, json_string_value(json_object_get(json_array_get(outputs, i), "name")),
                    json_object_get(json_array_get(outputs, i), "bytes"));
    json_object_foreach(outputs, name, bytes) read_output(arena, state, name, bytes);
}

/* Read whole first: jansson takes a stream byte by byte. */
static json_t *load(int lifters, const char *name)
{
    struct arena *arena = arena_new();
    size_t length;
    int folder = below_folder(lifters, name);
    const char *text = folder < 0 ? NULL : below_text(arena, folder, STATE_NAME, &length);
    json_t *root = text ? json_loadb(text, length, JSON_REJECT_DUPLICATES, NULL) : NULL;
    if (folder >= 0)
        close(folder);
    arena_free(arena);
    return root;
}

struct team_state *team_state_read(struct arena *arena, int lifters, const char *name)
{
    json_t *root = load(lifters, name);
    if (!json_is_object(root)) {
        json_decref(root);
        return NULL;
    }
    struct team_state *state = ARENA_NEW(arena, struct team_state);
    state->lifter = text_of(arena, root, "lifter");
    state->key = text_of(arena, root, "key");
    state->results = text_of(arena, root, "results");
    state->last_week = (week_number)json_integer_value(json_object_get(root, "last_week"));
    state->sets = count_of(root, "sets");
    state->sets_before = count_of(root, "sets_before");
    state->refused = count_of(root, "refused");
    for (int severity = FINDING_NOTE; severity <= FINDING_FAULT; severity++)
        state->findings[severity] = count_of(root, finding_severity_name((enum finding_severity)severity));
    state->note = text_of(arena, root, "remark");
    state->undrawn = text_of(arena, root, "undrawn");
    state->next = text_of(arena, root, "next"); /* "" in what an older version wrote */
    state->first = text_of(arena, root, "first");
    state->last = text_of(arena, root, "last");
    state->report = text_of(arena, root, "report");
    state->any_chain = json_is_true(json_object_get(root, "chains"));
    state->volume_week = (week_number)json_integer_value(json_object_get(root, "volume_week"));
    read_texts(arena, root, "bands", &state->bands);
    read_texts(arena, root, "setups", &state->setups);
    read_texts(arena, root, "lifts", &state->lifts);
    read_lists(arena, root, state);
    read_outputs(arena, root, state);
    json_decref(root);
    return state;
}
