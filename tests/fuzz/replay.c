/* Runs a fuzz target over the inputs that are kept, without a fuzzer: corpus/NAME, and crashes/NAME, where all that
 * ever made it fall over stays. Arguments name other files or folders instead. A target that falls over takes this
 * program with it; its last line then names the input. */
#include "fuzz/target.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static unsigned replayed;

static void replay_file(struct arena *arena, const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) {
        fprintf(stderr, "%s: %s\n", path, strerror(errno));
        exit(1);
    }
    struct stat status;
    size_t size = fstat(fileno(file), &status) ? 0 : (size_t)status.st_size;
    char *bytes = arena_alloc(arena, size + 1);
    size_t length = fread(bytes, 1, size, file);
    fclose(file);
    printf("%s\n", path);
    fflush(stdout);
    LLVMFuzzerTestOneInput((const uint8_t *)bytes, length);
    replayed++;
}

static void replay(struct arena *arena, const char *path)
{
    DIR *folder = opendir(path);
    if (!folder) {
        replay_file(arena, path);
        return;
    }
    for (struct dirent *entry; (entry = readdir(folder));)
        if (*entry->d_name != '.')
            replay_file(arena, arena_printf(arena, "%s/%s", path, entry->d_name));
    closedir(folder);
}

int main(int argc, char **argv)
{
    struct arena *arena = arena_new();
    const char *top = getenv("TOP");
    struct stat status;
    for (int i = 1; i < argc; i++)
        replay(arena, argv[i]);
    if (argc == 1) {
        replay(arena, arena_printf(arena, "%s/tests/fuzz/corpus/%s", top ? top : ".", target_name));
        const char *crashes = arena_printf(arena, "%s/tests/fuzz/crashes/%s", top ? top : ".", target_name);
        if (!stat(crashes, &status))
            replay(arena, crashes);
    }
    arena_free(arena);
    printf("%s: %u inputs\n", target_name, replayed);
    return replayed == 0;
}
