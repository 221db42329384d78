#!/bin/sh
# The night on several nodes: a Slurm of three on this machine, of which one is lost in the middle, and then only its daemon; and GNU
# parallel over ssh. Files and store must be those of the run on one machine. Needs slurm-wlm, munge, parallel and openssh-server.
set -u
: "${TOP:?the source folder}" "${TAUTLINE:?the program to test}"
export LC_ALL=C TZ=UTC NO_COLOR=1
PATH=$PATH:/usr/sbin:/sbin
for each in sbatch slurmctld slurmd munged python3 sqlite3; do
    command -v $each >/dev/null || { echo "no $each here: skipped" && exit 77; }
done
[ "$(id -u)" = 0 ] || { echo "Slurm's daemons want root here: skipped" && exit 77; }
scratch=$(mktemp -d) || exit 99
work=$scratch cluster=$scratch/cluster
. "$TOP/tests/team/lib.sh"
mkdir -m 755 "$cluster" "$cluster/log" "$cluster/state" && chmod 755 "$scratch"

end_daemon() { # FILE with its process id
    [ ! -s "$1" ] || kill "$(cat "$1")" 2>/dev/null
}

clean_up() {
    for each in "$cluster"/slurmd.*.pid "$cluster/slurmctld.pid" "$cluster/munged.pid" "$cluster/sshd.pid"; do
        end_daemon "$each"
    done
    sleep 1
    rm -rf "$scratch"
}
trap clean_up EXIT

wait_for() { # SECONDS COMMAND...
    limit=$(($(date +%s) + $1))
    shift
    until "$@" >/dev/null 2>&1; do
        [ "$(date +%s)" -lt $limit ] || return 1
        sleep 0.5
    done
}

# --- the cluster
sed -e "s|@D@|$cluster|g" -e "s|@HOST@|$(hostname -s)|g" "$TOP/tests/cluster/slurm.conf" >"$cluster/slurm.conf"
head -c 32 /dev/urandom >"$cluster/munge.key" && chmod 400 "$cluster/munge.key"
export SLURM_CONF="$cluster/slurm.conf"
munged --key-file="$cluster/munge.key" --socket="$cluster/munge.sock" --pid-file="$cluster/munged.pid" --log-file="$cluster/munged.log" \
    --seed-file="$cluster/munged.seed" || { echo "munged does not start here: skipped" && exit 77; }
slurmctld -c
for node in loft1 loft2 loft3; do
    slurmd -N $node
done
three_idle() {
    [ "$(sinfo -h -N -o '%t' | grep -c '^idle')" = 3 ]
}
wait_for 60 three_idle || { echo "the nodes do not come up here: skipped" && tail -3 "$cluster"/log/*.log && exit 77; }

# --- the team: drawn by a slow gnuplot, so that a node is lost in the middle of the work
team "$work/team" --lifters 60
gym="$work/team/gym.ini"
gnuplot_stub <<'STUB'
sleep 0.02
STUB
export PATH="$work/stub:$PATH"
drawn_night "$gym" "$work/plain" --jobs 2
is "the run on one machine: status" 1 "$status"

all_done() {
    [ -z "$(squeue -h -o '%i')" ]
}
some_on() { # NODE
    squeue -h -t R -w "$1" -o '%i' | grep -q .
}
lose() { # NODE FOLDER [--daemon]
    lost_node=$1 into=$2
    shift 2
    cat >"$work/job" <<JOB
#!/bin/sh
#SBATCH --array=1-12
#SBATCH --requeue
#SBATCH --output=$work/job-%a.log
exec "$TAUTLINE" team --gym "$gym" --into "$into" --today 2026-06-03 --part "\$SLURM_ARRAY_TASK_ID/\$SLURM_ARRAY_TASK_COUNT" --wait --jobs 1
JOB
    sbatch --parsable "$work/job" >"$work/out" 2>"$work/err"
    check "the array is taken" $?
    wait_for 60 some_on "$lost_node"
    check "$lost_node works" $?
    python3 "$TOP/tests/cluster/crash.py" "$cluster" "$lost_node" "$@" >"$work/out" 2>&1
    check "$lost_node is lost $*" $?
    wait_for 300 all_done
    check "the array ends all the same" $?
    drawn_night "$gym" "$into" --gather
    is "$lost_node lost $*: status of --gather" 1 "$status"
    same "$lost_node lost $*: files and store are those of the run on one machine" "$work/plain" "$into"
    slurmd -N "$lost_node"
    wait_for 60 three_idle
}
lose loft2 "$work/lost"
lose loft3 "$work/orphaned" --daemon

# A node's tasks that are gone for good are no good night.
printf '2026-03-06,squat,60 kg,3,5,,\n' >>"$work/team/logs/00001.csv"
drawn_night "$gym" "$work/lost" --gather
is "no task came for a log that changed: status" 3 "$status"

# --- GNU parallel over ssh
if command -v parallel >/dev/null && parallel --version 2>/dev/null | grep -q '^GNU parallel' && command -v sshd >/dev/null; then
    ssh-keygen -q -t ed25519 -N '' -f "$cluster/host" && ssh-keygen -q -t ed25519 -N '' -f "$cluster/key"
    cp "$cluster/key.pub" "$cluster/authorized" && chmod 600 "$cluster/authorized"
    mkdir -p /run/sshd
    printf 'Port 17022\nListenAddress 127.0.0.1\nHostKey %s\nAuthorizedKeysFile %s\nPidFile %s\nStrictModes no\nUsePAM no\nPasswordAuthentication no\nPermitRootLogin prohibit-password\n' \
        "$cluster/host" "$cluster/authorized" "$cluster/sshd.pid" >"$cluster/sshd_config"
    "$(command -v sshd)" -f "$cluster/sshd_config"
    printf '#!/bin/sh\nexec ssh -p 17022 -i %s -o StrictHostKeyChecking=no -o UserKnownHostsFile=/dev/null -o LogLevel=ERROR "$@"\n' "$cluster/key" >"$cluster/ssh"
    chmod +x "$cluster/ssh"
    if wait_for 10 "$cluster/ssh" 127.0.0.1 true; then
        drawn_night "$gym" "$work/plain-2" --jobs 2
        "$TAUTLINE" team --gym "$gym" --list >"$work/names"
        seq 1 6 | parallel --will-cite -j 2 --ssh "$cluster/ssh" -S 127.0.0.1 \
            "PATH='$work/stub':\$PATH TZ=UTC LC_ALL=C '$TAUTLINE' team --gym '$gym' --into '$work/by-ssh' --today 2026-06-03 --part {}/6 --wait" >"$work/out" 2>"$work/err"
        check "parallel over ssh: all parts end well" $?
        drawn_night "$gym" "$work/by-ssh" --gather
        is "parallel over ssh: status of --gather" 1 "$status"
        same "parallel over ssh: files and store are those of the run on one machine" "$work/plain-2" "$work/by-ssh"
        is "--list names them all" 60 "$(wc -l <"$work/names" | tr -d ' ')"
    else
        skip "no ssh to this machine"
    fi
else
    skip "no GNU parallel or no sshd here"
fi
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
