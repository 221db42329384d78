/* A plan, as `plan --format csv` writes it and anybody may have edited it. */
#include "fuzz/target.h"

#include "reading/plan_file.h"

#include <math.h>
#include <string.h>

const char target_name[] = "plan";

static bool good_load(double kg)
{
    return isnan(kg) || fabs(kg) <= 1e7;
}

static void check_week(const struct planned_week *week)
{
    char printed[16];
    MUST(week->lift && *week->lift && week->lifter && week->ar);
    MUST(week->focus != FOCUS_UNSAID && week->line > 1);
    MUST(week_print(printed, week->week) == 8);
    MUST(isfinite(week->straight_kg) && good_load(week->straight_kg) && good_load(week->volume_mean_kg));
    MUST(good_load(week->bottom_kg) && good_load(week->top_kg) && good_load(week->mean_kg));
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct planned_weeks plan = {0};
    struct input *input = input_from_memory(arena, "plan.csv", (const char *)bytes, length, diags);
    if (input && plan_read(arena, input, diags, &plan))
        for (size_t i = 0; i < plan.list.count; i++)
            check_week(&plan.list.items[i]);
    input_close(input);
    target_print(diags);
    arena_free(arena);
    return 0;
}
