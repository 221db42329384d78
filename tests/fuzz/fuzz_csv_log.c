/* A CSV log, whatever its bytes: detected, read, weighed, audited. */
#include "fuzz/target.h"
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_log.h"
#include "reading/same_history.h"

const char target_name[] = "csv_log";

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct reading *reading = target_reading(target_gym());
    struct arena *arena = arena_new();
    struct input *input = input_from_memory(arena, "log", (const char *)bytes, length, reading->diags);
    if (input) {
        char delimiter;
        uint32_t header_line;
        if (csv_log_detect(reading, input, &delimiter, &header_line)) {
            *LIST_ADD(reading->log->arena,
                      &reading->log->files) = (struct log_file){.path = "log", .first = NO_DAY, .last = NO_DAY};
            read_csv_log(reading, input, 0, delimiter, header_line);
        }
        input_close(input);
        reading_finish(reading);
        target_analyse(reading);
    }
    target_print(reading->diags);
    arena_free(arena);
    return 0;
}
