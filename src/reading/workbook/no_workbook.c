/* Built --without-workbooks: a workbook is recognised and refused. */
#include "reading/workbook/workbook_log.h"

enum workbook_read read_workbook(struct reading *reading, const char *path, bool in_folder, const char *root,
                                 struct file_kind *other)
{
    (void)reading, (void)path, (void)in_folder, (void)root;
    *other = (struct file_kind){"a workbook or another archive (zip), and this tautline was built without workbooks",
                                "save the sheet as CSV"};
    return WORKBOOK_OTHER;
}
