#include "model/uncertainty.h"

#include <math.h>

double u_combined(const double *parts, size_t count, u_correlation *correlation, const void *context)
{
    double variance = 0;
    for (size_t i = 0; i < count; i++) {
        variance += parts[i] * parts[i];
        for (size_t j = i + 1; j < count; j++)
            variance += 2 * parts[i] * parts[j] * correlation(context, i, j);
    }
    return sqrt(variance < 0 ? 0 : variance); /* rounding may leave a trifle below 0 where parts cancel; NAN stays */
}
