# The rules of the source tree that show in its objects. Input: `nm -A` lines "src/ROOM/.../FILE.o:ADDRESS? TYPE NAME", read twice: the first
# pass learns which room defines a name, the second judges what each object uses. Prints one line per violation.
function room_of(path) {
    sub(/^.*src\//, "", path)
    sub(/\/.*/, "", path)
    return path
}
BEGIN {
    allowed["base"] = " base "
    allowed["model"] = " base model "
    allowed["reading"] = " base model reading "
    allowed["analysis"] = " base model analysis "
    allowed["writing"] = " base writing "
    allowed["commands"] = " base model reading analysis writing commands "
    # What the compiler makes of printf("...\n"), and the checked forms of hardened builds, count as well.
    printing = "^(__)?v?f?d?printf(_chk)?$|^f?puts(_unlocked)?$|^f?putc(har)?(_unlocked)?$|^fwrite(_unlocked)?$|^std(in|out|err)$|^perror$|^v?w?arnx?$"
    io = "^f?open(at)?(64)?$|^fdopen$|^f?read(_chk)?$|^pread(64)?$|^write$|^creat(64)?$|^getline$|^fgets$|^getenv$|^system$|^popen$|" printing
    ending = "^_?exit$|^_Exit$|^quick_exit$|^v?errx?$"
    numbers = "^(__isoc99_|__isoc23_)?(strto(d|f|ld|l|ll|ul|ull|imax|umax)|v?f?s?scanf|ato(i|f|l|ll))$"
    careless = "^(__)?(strcpy|strcat|v?sprintf|gets|strtok)(_chk)?$"
}
{
    colon = index($0, ":")
    object = substr($0, 1, colon - 1)
    type = $(NF - 1)
    name = $NF
}
FNR == NR { # the first pass
    if (type ~ /^[TDRBVWC]$/ && name !~ /^__(odr_)?asan|^__gcov/) {
        home[name] = room_of(object)
    }
    next
}
type == "U" {
    room = room_of(object)
    if (room == "" || !(room in allowed))
        next
    if (name in home && !index(allowed[room], " " home[name] " "))
        print object ": " room " uses " name " of " home[name]
    if ((room == "model" || room == "analysis") && name ~ io)
        print object ": input or output in " room ": " name
    if (room == "reading" && name ~ printing)
        print object ": reading prints: " name
    if (room != "commands" && name ~ ending && !(name == "_exit" && object ~ /gnuplot\/render\.o$/)) # its child, where gnuplot cannot be started
        print object ": library code ends the program: " name
    if (name ~ numbers && object !~ /base\/number\.o$/)
        print object ": numbers are read by base/number.c alone, not by " name
    if (name ~ careless)
        print object ": forgets the size of its buffer: " name
}
