#include "commands/pictures/pictures.h"

#include "analysis/evaluated_set.h"
#include "base/names.h"
#include "base/text.h"
#include "commands/pictures/pictures_curves.h"
#include "commands/pictures/pictures_parts.h"
#include "commands/pictures/pictures_planned.h"
#include "commands/pictures/pictures_spans.h"
#include "commands/pictures/pictures_strength.h"
#include "commands/pictures/pictures_team.h"
#include "commands/pictures/pictures_waves.h"
#include "commands/pictures/pictures_weeks.h"
#include "commands/pictures/pictures_year.h"

#include <math.h>
#include <string.h>

/* --- finding one -----------------------------------------------------------------------------------------------------
 */

static const char *place_key(struct arena *arena, const struct picture *picture, bool whole)
{
    return whole ? arena_printf(arena, "%d %d %s\n%s", (int)picture->theme, (int)picture->focus, picture->lifter,
                                picture->lift)
                 : arena_printf(arena, "%d %s", (int)picture->theme, picture->lifter);
}

static void note_place(struct pictures *pictures, size_t place, bool whole)
{
    struct arena *arena = pictures->session->arena;
    const char *key = place_key(arena, &pictures->list.items[place], whole);
    if (!map_get(pictures->places, key, strlen(key)))
        map_put(pictures->places, key, strlen(key), (void *)(uintptr_t)(place + 1));
}

static void note_places(struct pictures *pictures)
{
    pictures->places = map_new(pictures->session->arena);
    for (size_t i = 0; i < pictures->list.count; i++) {
        note_place(pictures, i, true);
        note_place(pictures, i, false);
    }
}

static const struct picture *picture_at(const struct pictures *pictures, const struct picture *wanted, bool whole)
{
    struct arena *scratch = arena_new();
    const char *key = place_key(scratch, wanted, whole);
    uintptr_t place = (uintptr_t)map_get(pictures->places, key, strlen(key));
    arena_free(scratch);
    return place ? &pictures->list.items[place - 1] : NULL;
}

const struct picture *picture_find(const struct pictures *pictures, enum picture_theme theme, const char *lifter,
                                   const char *lift, enum focus focus)
{
    return picture_at(pictures, &(struct picture){.theme = theme, .lifter = lifter, .lift = lift, .focus = focus},
                      true);
}

const struct picture *picture_first(const struct pictures *pictures, enum picture_theme theme, const char *lifter)
{
    return picture_at(pictures, &(struct picture){.theme = theme, .lifter = lifter}, false);
}

const struct picture *picture_next(const struct pictures *pictures, const struct picture *picture)
{
    const struct picture *end = pictures->list.items + pictures->list.count;
    for (const struct picture *next = picture + 1; next < end && !strcmp(next->lifter, picture->lifter); next++)
        if (next->theme == picture->theme)
            return next;
    return NULL;
}

/* --- all of them ---------------------------------------------------------------------------------------------------
 */

static const char *lift_key(struct arena *arena, const char *lifter, const char *lift)
{
    return arena_printf(arena, "%s\n%s", lifter, lift);
}

static struct names *lifts_with_ar(struct arena *arena, const struct training *training)
{
    struct names *with_ar = names_new(arena);
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        if (!evaluated->has_ar)
            continue;
        const char *key = lift_key(arena, evaluated->lifter, evaluated->lift);
        names_add(with_ar, key, strlen(key));
    }
    return with_ar;
}

bool lift_wanted(const struct pictures *pictures, const char *lifter, const char *lift)
{
    uint32_t number;
    const char *key = pictures->with_ar ? lift_key(pictures->session->arena, lifter, lift) : "";
    return !pictures->with_ar || names_find(pictures->with_ar, key, strlen(key), &number);
}

struct pictures pictures_make(struct session *session, const struct picture_style *style)
{
    struct arena *arena = session->arena;
    struct pictures pictures = {.session = session, .style = *style, .used = names_new(arena)};
    if (style->only_ar)
        pictures.with_ar = lifts_with_ar(arena, session->training);
    const struct waves *waves = session_waves(session);
    if (session->options->against || session->options->against_from != NO_DAY) {
        add_spans(&pictures, session->every_wave);
        return pictures;
    }
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(arena, session->training, &lift_count);
    add_years(&pictures, waves);
    if (style->only_year) {
        note_places(&pictures);
        return pictures;
    }
    add_team(&pictures);
    add_waves(&pictures, waves);
    add_planned(&pictures, waves);
    add_contributions(&pictures, waves);
    add_weeks(&pictures);
    for (size_t i = 0; i < lift_count; i++)
        add_curves(&pictures, &lifts[i]);
    for (size_t i = 0; i < lift_count; i++)
        if (lift_wanted(&pictures, lifts[i].lifter, lifts[i].lift))
            add_e1rm(&pictures, &lifts[i]);
    add_velocities(&pictures, lifts, lift_count);
    note_places(&pictures);
    return pictures;
}
