#include "commands/pictures/pictures.h"

#include "analysis/evaluated_set.h"
#include "base/names.h"
#include "base/text.h"
#include "commands/pictures/pictures_curves.h"
#include "commands/pictures/pictures_parts.h"
#include "commands/pictures/pictures_planned.h"
#include "commands/pictures/pictures_strength.h"
#include "commands/pictures/pictures_team.h"
#include "commands/pictures/pictures_waves.h"
#include "commands/pictures/pictures_weeks.h"
#include "commands/pictures/pictures_year.h"

#include <math.h>
#include <string.h>

const struct picture *picture_find(const struct pictures *pictures, enum picture_theme theme, const char *lifter,
                                   const char *lift, enum focus focus)
{
    for (size_t i = 0; i < pictures->list.count; i++) {
        const struct picture *picture = &pictures->list.items[i];
        if (picture->theme == theme && picture->focus == focus && !strcmp(picture->lift, lift) &&
            !strcmp(picture->lifter, lifter))
            return picture;
    }
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
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(arena, session->training, &lift_count);
    add_years(&pictures, waves);
    if (style->only_year)
        return pictures;
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
    return pictures;
}
