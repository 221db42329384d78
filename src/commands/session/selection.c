#include "commands/session/selection.h"

#include "base/names.h"
#include "base/text.h"
#include "reading/lift_names.h"

#include <stdio.h>
#include <string.h>

#define SHOWN 20 /* names that a message lists */

struct choice /* of one option */
{
    struct session *session;
    const char *option;
    struct names *names; /* what there is */
};

static void add_name(struct choice *choice, const char *name)
{
    for (uint32_t i = 0; i < names_count(choice->names); i++)
        if (text_same_name(names_text(choice->names, i), name))
            return;
    if (*name)
        names_add(choice->names, name, strlen(name));
}

static struct choice lifters_there(struct session *session)
{
    struct choice choice = {session, "lifter", names_new(session->arena)};
    for (size_t i = 0; i < session->gym->lifter_count; i++)
        add_name(&choice, session->gym->lifters[i].name);
    for (uint32_t i = 0; i < names_count(session->log->lifters); i++)
        add_name(&choice, names_text(session->log->lifters, i));
    return choice;
}

/* A lift with a tested max can be planned before it is in any log. */
static struct choice lifts_there(struct session *session)
{
    const struct gym *gym = session->gym;
    struct choice choice = {session, "lift", names_new(session->arena)};
    for (uint32_t i = 0; i < names_count(session->log->lifts); i++)
        add_name(&choice, names_text(session->log->lifts, i));
    for (size_t i = 0; i < gym->lift_count; i++)
        add_name(&choice, gym->lifts[i].name);
    for (size_t i = 0; i < gym->lifter_count; i++) {
        for (size_t k = 0; k < gym->lifters[i].max_count; k++)
            add_name(&choice, lift_main_name(session->arena, gym, gym->lifters[i].maxes[k].lift));
        for (size_t k = 0; k < gym->lifters[i].height_count; k++)
            add_name(&choice, lift_main_name(session->arena, gym, gym->lifters[i].heights[k].lift));
    }
    return choice;
}

/* The names that contain the folded text; every name contains "". */
static struct names *that_contain(const struct choice *choice, const char *folded)
{
    struct names *found = names_new(choice->session->arena);
    for (uint32_t i = 0; i < names_count(choice->names); i++) {
        const char *name = names_text(choice->names, i);
        if (strstr(text_fold(choice->session->arena, name), folded))
            names_add(found, name, strlen(name));
    }
    return found;
}

static const char *listed(struct arena *arena, const struct names *names)
{
    const char *list = "";
    size_t count = names_count(names);
    for (uint32_t i = 0; i < count && i < SHOWN; i++)
        list = arena_printf(arena, "%s%s%s", list, i ? ", " : "", text_visible(arena, names_text(names, i)));
    return count > SHOWN ? arena_printf(arena, "%s and %zu more", list, count - SHOWN) : list;
}

static const char *refuse(const struct choice *choice, const char *said, const struct names *candidates, bool several)
{
    struct session *session = choice->session;
    const char *what = text_visible(session->arena, said);
    if (several)
        fprintf(stderr, "tautline: --%s '%s' may be %s: write more of the name\n", choice->option, what,
                listed(session->arena, candidates));
    else if (names_count(candidates))
        fprintf(stderr, "tautline: no %s is called '%s'; the logs and the gym file have: %s\n", choice->option, what,
                listed(session->arena, candidates));
    else if (!strcmp(choice->option, "lifter") && session->options->argument_count)
        fprintf(stderr,
                "tautline: no lifter is called '%s': these logs and the gym file name none; --as '%s' says whose logs "
                "they are\n",
                what, what);
    else
        fprintf(stderr, "tautline: no %s is called '%s': the logs and the gym file have none\n", choice->option, what);
    session->misused = true;
    return NULL;
}

/* `exact`: what the text means if it is a whole name. NULL: refused, already reported. */
static const char *chosen(const struct choice *choice, const char *said, const char *exact)
{
    for (uint32_t i = 0; i < names_count(choice->names); i++)
        if (text_same_name(names_text(choice->names, i), exact))
            return names_text(choice->names, i);
    const struct names *found = that_contain(choice, text_fold(choice->session->arena, said));
    if (names_count(found) == 1)
        return names_text(found, 0);
    if (!names_count(found) && choice->session->options->max_kg > 0)
        return text_squeeze(choice->session->arena, exact); /* a plan from the 1RM alone needs no log of it */
    return names_count(found) ? refuse(choice, said, found, true) : refuse(choice, said, choice->names, false);
}

bool session_select(struct session *session)
{
    const struct options *options = session->options;
    struct arena *arena = session->arena;
    struct choice lifters = options->lifters.count ? lifters_there(session) : (struct choice){0};
    struct choice lifts = options->lifts.count ? lifts_there(session) : (struct choice){0};
    const char **lifter_names = ARENA_ARRAY(arena, const char *, options->lifters.count);
    const char **lift_names = ARENA_ARRAY(arena, const char *, options->lifts.count);
    for (size_t i = 0; i < options->lifters.count; i++)
        if (!(lifter_names[i] = chosen(&lifters, options->lifters.items[i], options->lifters.items[i])))
            return false;
    for (size_t i = 0; i < options->lifts.count; i++)
        if (!(lift_names[i] = chosen(&lifts, options->lifts.items[i],
                                     lift_main_name(arena, session->gym, options->lifts.items[i]))))
            return false;
    session->lifters = (struct name_choice){lifter_names, options->lifters.count};
    session->lifts = (struct name_choice){lift_names, options->lifts.count};
    return true;
}
