/* A workbook, whatever its bytes: the archive layer, and what is in it. */
#include "fuzz/target.h"
#include "fuzz/workbook_target.h"

const char target_name[] = "workbook";

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    target_workbook((const char *)bytes, length);
    return 0;
}
