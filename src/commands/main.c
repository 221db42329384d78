/* tautline: the real weight of a set with chains and bands. */
#include "commands/command.h"

#include "base/text.h"
#include "commands/options/column_names.h"
#include "commands/options/options_parse.h"
#include "commands/version.h"
#include "model/numeric.h"
#include "writing/unfinished.h"

#include <fcntl.h>
#if defined(__GLIBC__)
#include <malloc.h>
#endif
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define MANY_BYTES ((size_t)64 * 1024 * 1024) /* the logs are too large, and not only the machine too full */

static void no_memory(size_t wanted_bytes)
{
    unfinished_remove();
    if (wanted_bytes)
        fprintf(stderr, "tautline: out of memory (%zu bytes wanted)%s; no unfinished output was kept\n", wanted_bytes,
                wanted_bytes < MANY_BYTES
                    ? ""
                    : ": give it fewer lifters or logs at a time; loads and trend as CSV need least");
    else
        fputs("tautline: out of memory; no unfinished output was kept\n", stderr);
    _exit(EXIT_INTERNAL);
}

static void end_by_signal(int signal_number)
{
    unfinished_remove();
    raise(signal_number); /* its default action is restored, and happens when this returns */
}

/* A signal to end must not leave unfinished files behind. A signal that the caller has set to be ignored (nohup)
 * stays ignored. */
static void install_signal_handlers(void)
{
    static const int ends[] = {SIGHUP, SIGINT, SIGTERM, SIGXCPU};
    struct sigaction before, action = {.sa_handler = end_by_signal, .sa_flags = (int)SA_RESETHAND};
    sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (!sigaction(ends[i], NULL, &before) && before.sa_handler != SIG_IGN)
            sigaction(ends[i], &action, NULL);
    signal(SIGPIPE, SIG_IGN); /* a closed pipe is then an output that could not be written: status 3 */
    signal(SIGXFSZ, SIG_IGN); /* so is a file at its size limit: the write fails, and what was written is removed */
}

static enum exit_status written(struct output *output)
{
    return output && output_commit(output) ? EXIT_ALL_READ : EXIT_UNREADABLE;
}

static enum exit_status show_help(struct arena *arena, bool brief)
{
    struct output *output = output_open(arena, NULL);
    output_text(
        output,
        "tautline reads logs of lifts done with chains and bands and works out what each set really weighed.\n\n"
        "Usage: tautline COMMAND [OPTION]... ARGUMENT...\n\nCommands:\n");
    for (size_t i = 0; i < command_count; i++)
        output_printf(output, "  %-10s %-22s %s\n", commands[i].name, commands[i].arguments, commands[i].summary);
    if (brief) {
        output_text(output, "\n'tautline --help' says more.\n");
        return written(output);
    }
    output_text(
        output,
        "\nA LOG is a file (CSV export or text log), a folder, or - for standard input.\n"
        "'tautline COMMAND --help' lists a command's options, -h only their names; the manual is 'man tautline'\n"
        "and, for a command, 'man tautline-COMMAND'.\n\n"
        "Exit status: 0 all read; 1 lines were refused; 2 wrong usage; 3 unreadable input or unwritten output; 4 "
        "internal.\n\n"
        "Safety: check bands and anchors before each session, stay out of the line of a stretched band, and have "
        "set-ups\n"
        "and loads checked on the spot by a qualified coach.\n");
    return written(output);
}

static enum exit_status show_command_help(struct arena *arena, const struct command *command, bool brief)
{
    struct output *output = output_open(arena, NULL);
    output_printf(output, "Usage: tautline %s [OPTION]... %s\n\n%s.\n\nOptions:\n", command->name, command->arguments,
                  command->summary);
    if (brief)
        options_brief(arena, output, command->groups);
    else
        options_help(arena, output, command->groups);
    output_printf(output, "\n'man tautline-%s' says more.\n", command->name);
    return written(output);
}

static enum exit_status show_version(struct arena *arena)
{
    struct output *output = output_open(arena, NULL);
    version_put(arena, output);
    return written(output);
}

static const struct command *command_find(const char *name)
{
    for (size_t i = 0; i < command_count; i++)
        if (!strcmp(commands[i].name, name))
            return &commands[i];
    return NULL;
}

static enum exit_status unknown_command(struct arena *arena, const char *name)
{
    const char **names = ARENA_ARRAY(arena, const char *, command_count);
    for (size_t i = 0; i < command_count; i++)
        names[i] = commands[i].name;
    const char *nearest = text_nearest(name, names, command_count);
    if (!nearest && !access(name, F_OK))
        return usage_error("", arena_printf(arena, "which command for '%s'? To read it: tautline report %s",
                                            text_visible(arena, name), text_visible(arena, name)));
    return usage_error(
        "", nearest ? arena_printf(arena, "no command '%s'; did you mean '%s'?", text_visible(arena, name), nearest)
                    : arena_printf(arena, "no command '%s'", text_visible(arena, name)));
}

static enum exit_status run_command(struct arena *arena, const struct command *command, int argc, char **argv)
{
    struct options options;
    const char *message = options_parse(arena, &options, command->groups, argc, argv);
    if (message)
        return usage_error(command->name, text_visible(arena, message));
    if (options.help)
        return show_command_help(arena, command, options.brief);
    if (options.version)
        return show_version(arena);
    if ((command->groups & TAKES_LOGS) && !options.argument_count && !options.gym && access("gym.ini", R_OK))
        return usage_error(command->name, "which log? Name one, or a gym file that lists them");
    if (options.columns) {
        struct columns columns = command->columns(&options);
        message = options_choose_columns(arena, &options, columns.items, columns.count);
    }
    return message ? usage_error(command->name, text_visible(arena, message)) : command->run(arena, &options);
}

static enum exit_status run(struct arena *arena, int argc, char **argv)
{
    const char *word = argc > 1 ? argv[1] : "";
    if (!*word)
        return usage_error("", "which command?");
    if (!strcmp(word, "--help") || !strcmp(word, "-h") || (!strcmp(word, "help") && argc == 2))
        return show_help(arena, !strcmp(word, "-h"));
    if (!strcmp(word, "--version"))
        return show_version(arena);
    bool help = !strcmp(word, "help");
    const struct command *command = command_find(help ? argv[2] : word);
    if (!command)
        return unknown_command(arena, help ? argv[2] : word);
    return help ? show_command_help(arena, command, false) : run_command(arena, command, argc - 1, argv + 1);
}

/* A standard descriptor that the caller closed must not be reused for a log or a result. It is opened in the wrong
 * direction on purpose, so that using it is an error instead of a loss: standard input can only be written, the other
 * two only read. */
static void open_standard_descriptors(void)
{
    for (int descriptor = STDIN_FILENO; descriptor <= STDERR_FILENO; descriptor++)
        if (fcntl(descriptor, F_GETFD) < 0)
            open("/dev/null", descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY); /* open() takes the lowest: this one */
}

#define LARGEST_KEPT (32 * 1024 * 1024) /* bytes: the largest M_MMAP_THRESHOLD that glibc accepts */

/* Freed memory is soon needed again, so it is kept: the system would have to zero the pages once more. Measured: this
 * saves a fiftieth of the time of a large trend. */
static void tune_malloc(void)
{
#if defined(__GLIBC__)
    mallopt(M_MMAP_THRESHOLD, LARGEST_KEPT);
    mallopt(M_TRIM_THRESHOLD, 2 * LARGEST_KEPT);
#endif
}

int main(int argc, char **argv)
{
    struct arena *arena;
    tune_malloc();
    open_standard_descriptors();
    arena_on_no_memory(no_memory);
    numeric_ready();
    install_signal_handlers();
    arena = arena_new();
    enum exit_status status = run(arena, argc, argv);
    arena_free(arena);
    return (int)status;
}
