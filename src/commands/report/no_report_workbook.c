/* Built --without-workbooks: this writes no workbook. */
#include "commands/report/report_workbook.h"

#include <errno.h>

bool report_workbook(struct session *session, struct output *output)
{
    (void)session, (void)output;
    errno = ENOTSUP;
    return false;
}

bool report_has_workbooks(void)
{
    return false;
}
