/* LD_PRELOAD: the call of readdir() that FAIL_READDIR_AT numbers (from 1), or of closedir() that FAIL_CLOSEDIR_AT
 * numbers, fails with EIO, as on a disk that is going; all others are the library's. */
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <stdlib.h>

static int fails(const char *variable, unsigned long *calls)
{
    const char *at = getenv(variable);
    ++*calls;
    return at && strtoul(at, NULL, 10) == *calls;
}

static unsigned long read_calls, close_calls;

#define READDIR(name, type)                                                                                            \
    struct type *name(DIR *folder)                                                                                     \
    {                                                                                                                  \
        struct type *(*real)(DIR *) = (struct type * (*)(DIR *)) dlsym(RTLD_NEXT, #name);                              \
        if (fails("FAIL_READDIR_AT", &read_calls)) {                                                                   \
            errno = EIO;                                                                                               \
            return NULL;                                                                                               \
        }                                                                                                              \
        return real(folder);                                                                                           \
    }
READDIR(readdir, dirent)
READDIR(readdir64, dirent64)

int closedir(DIR *folder)
{
    int (*real)(DIR *) = (int (*)(DIR *))dlsym(RTLD_NEXT, "closedir");
    int closed = real(folder);
    if (!fails("FAIL_CLOSEDIR_AT", &close_calls))
        return closed;
    errno = EIO;
    return -1;
}
