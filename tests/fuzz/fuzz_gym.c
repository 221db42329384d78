/* A gym file; then a short log is weighed with whatever gear it gave. */
#include "fuzz/target.h"

#include "reading/gym/gym_file.h"
#include "reading/same_history.h"
#include "reading/text/text_log.h"

const char target_name[] = "gym";

static const char log_text[] =
    "2026-01-12 speed\nsquat 80 + 2 chains/side: 8x2\nbench press 60 + band b29 doubled @ pegs: 9x3\nback squat 75%: "
    "3x3\n"
    "2026-01-19 speed\nsquat 85 + chain long x2/side: 8x2\nbench press 62.5 + reverse band b45 @ rack-top: 9x3\n"
    "2026-01-26 strength\nsquat 90 + band b29/b30 choked: 5x3 @8\npull-up BW+10: 3x5\nbench press bar + band b13: "
    "3x8\n";

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    const struct gym *gym = gym_read_memory(arena, "gym.ini", (const char *)bytes, length, diags);
    if (gym) {
        struct reading_options options = {.dates = DATES_UNSAID};
        struct input *input = input_from_memory(arena, "log", log_text, sizeof log_text - 1, diags);
        struct reading *reading = reading_new(arena, gym, diags, &options);
        *LIST_ADD(reading->log->arena,
                  &reading->log->files) = (struct log_file){.path = "log", .first = NO_DAY, .last = NO_DAY};
        read_text_log(reading, input, 0);
        input_close(input);
        reading_finish(reading);
        target_analyse(reading);
        reading_free(reading);
    }
    target_print(diags);
    arena_free(arena);
    return 0;
}
