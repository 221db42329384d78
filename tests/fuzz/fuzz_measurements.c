/* Measurements of bands: read, sorted out, fitted, compared. */
#include "fuzz/target.h"

#include "analysis/bands/band_comparing.h"
#include "analysis/bands/band_fitting.h"
#include "reading/measurements/measured_bands.h"
#include "reading/measurements/measurements.h"

#include <math.h>

const char target_name[] = "measurements";

static void check_points(const struct measured_bands *bands)
{
    for (size_t i = 0; i < bands->list.count; i++) {
        const struct measured_band *band = &bands->list.items[i];
        MUST(band->count > 0 && band->flat_m > 0);
        for (size_t k = 0; k < band->count; k++) {
            double before_m = k ? band->points[k - 1].length_m : band->flat_m,
                   before_kg = k ? band->points[k - 1].pull_kg : 0;
            MUST(band->points[k].length_m > before_m && band->points[k].pull_kg >= before_kg);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct measurement_options options = {.flat_m = NAN, .pull_unit_kg = NAN, .dates = DATES_UNSAID};
    struct pull_readings readings = {0};
    struct input *input = input_from_memory(arena, "bands.csv", (const char *)bytes, length, diags);
    if (input && measurements_read(arena, input, &options, diags, &readings)) {
        struct measured_bands bands = measured_bands_make(arena, &readings, &options, diags);
        check_points(&bands);
        struct band_fittings fittings = band_fittings_make(arena, bands.list.items, bands.list.count);
        band_comparisons_make(arena, &fittings);
    }
    input_close(input);
    target_print(diags);
    arena_free(arena);
    return 0;
}
