#include "commands/pictures/pictures_team.h"

#include "commands/pictures/pictures.h"
#include "commands/pictures/pictures_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TEAM_HEIGHT 320 /* pixels beside the rows */
#define TEAM_ROW 56
#define TEAM_WIDTH 720
#define LEAST_HEIGHT 400

struct member
{
    const char *lifter;
    size_t begin, end;  /* range of its lifts among those that can be compared */
    double bottom, top; /* medians */
};

/* Largest gain at the top first; unknown gains last. */
static int by_change(const void *left, const void *right)
{
    const struct member *a = left, *b = right;
    double x = isnan(a->top) ? -INFINITY : a->top, y = isnan(b->top) ? -INFINITY : b->top;
    return x != y ? (x < y ? 1 : -1) : strcmp(a->lifter, b->lifter);
}

static double median_change(struct arena *arena, const struct verdict *const *lifts, size_t count,
                            enum load_measure measure)
{
    double *changes = ARENA_ARRAY(arena, double, count);
    size_t known = 0;
    for (size_t i = 0; i < count; i++)
        if (!isnan(lifts[i]->fact.over_share[measure]))
            changes[known++] = lifts[i]->fact.over_share[measure];
    return median_of(changes, known);
}

static const char *team_sentence(struct arena *arena, const struct member *members, size_t count)
{
    size_t heavier = 0, lighter = 0, known = 0;
    for (size_t i = 0; i < count; i++) {
        if (isnan(members[i].top))
            continue;
        known++;
        heavier += members[i].top > FACT_SAME;
        lighter += members[i].top < -FACT_SAME;
    }
    return arena_printf(arena,
                        "At the top, by the median of the lifts: heavier than the wave before for %zu of %zu lifters, "
                        "lighter for %zu, the same for %zu.",
                        heavier, known, lighter, known - heavier - lighter);
}

static void member_rows(struct drawn *drawn, const struct member *members, size_t count)
{
    DATA_TITLES(drawn, "lifter", "change at the bottom", "at the top");
    gp_block(drawn->script, "$LIFTERS");
    for (size_t i = 0; i < count; i++) {
        both_text(drawn, *members[i].lifter ? members[i].lifter : "no lifter named");
        both_share(drawn, members[i].bottom, 1);
        both_share(drawn, members[i].top, 1);
        both_end(drawn);
    }
}

void add_team(struct pictures *pictures)
{
    struct arena *arena = pictures->session->arena;
    size_t count;
    const struct verdict *verdicts = session_verdicts(pictures->session, &count);
    LIST(const struct verdict *) compared = {0};
    LIST(struct member) members = {0};
    for (size_t i = 0; i < count; i++) {
        const struct verdict *lift = &verdicts[i];
        if (!lift->fact.exists || (isnan(lift->fact.over_share[LOAD_BOTTOM]) && isnan(lift->fact.over_share[LOAD_TOP])))
            continue;
        *LIST_ADD(arena, &compared) = lift;
        if (!members.count || strcmp(members.items[members.count - 1].lifter, lift->lifter))
            *LIST_ADD(arena, &members) = (struct member){.lifter = lift->lifter, .begin = compared.count - 1};
        members.items[members.count - 1].end = compared.count;
    }
    if (members.count < 2)
        return;
    for (size_t i = 0; i < members.count; i++) {
        struct member *member = &members.items[i];
        const struct verdict *const *lifts = compared.items + member->begin;
        member->bottom = median_change(arena, lifts, member->end - member->begin, LOAD_BOTTOM);
        member->top = median_change(arena, lifts, member->end - member->begin, LOAD_TOP);
    }
    qsort(members.items, members.count, sizeof *members.items, by_change);
    struct drawn drawn = picture_begin(pictures,
                                       &(struct picture_of){PICTURE_TEAM, "", "", FOCUS_UNSAID, "team", "team",
                                                            "Newest waves against the waves before",
                                                            team_sentence(arena, members.items, members.count)});
    if (!pictures->style.width || pictures->style.for_page) {
        double height = TEAM_HEIGHT + TEAM_ROW * (double)members.count;
        gp_set_number(drawn.script, "width", TEAM_WIDTH);
        gp_set_number(drawn.script, "height", height > LEAST_HEIGHT ? height : LEAST_HEIGHT);
    }
    member_rows(&drawn, members.items, members.count);
    gp_block(drawn.script, "$LIFTS");
    for (size_t i = 0; i < members.count; i++) {
        for (size_t j = members.items[i].begin; j < members.items[i].end; j++) {
            gp_cell_number(drawn.script, (double)i + 1);
            gp_cell_number(drawn.script, compared.items[j]->fact.over_share[LOAD_BOTTOM]);
            gp_cell_number(drawn.script, compared.items[j]->fact.over_share[LOAD_TOP]);
            gp_row_end(drawn.script);
        }
    }
}
