"""crash.py D NODE [--daemon]: kills the slurmd of NODE, and unless --daemon its step daemons and tasks, as a lost machine would. D: the folder of slurm.conf."""
import os, sys, signal
folder, node = sys.argv[1:3]; only_daemon = '--daemon' in sys.argv
def cmd(p):
    try: return open(f'/proc/{p}/cmdline').read().replace('\0',' ')
    except OSError: return ''
def env(p):
    try: return open(f'/proc/{p}/environ').read().split('\0')
    except OSError: return []
def stat(p):
    try: return open(f'/proc/{p}/stat').read().rsplit(')',1)[1].split()
    except OSError: return None
pids=[int(p) for p in os.listdir('/proc') if p.isdigit()]
d=int(open(f'{folder}/slurmd.{node}.pid').read())
kill=[d]
if not only_daemon:
    tasks=[p for p in pids if f'SLURMD_NODENAME={node}' in env(p)]
    kill+=tasks+list({int(stat(p)[1]) for p in tasks if stat(p) and 'slurmstepd' in cmd(int(stat(p)[1]))})
for p in kill:
    print('kill', p, cmd(p)[:110])
for p in kill:
    try: os.kill(p, signal.SIGKILL)
    except OSError as e: print(p,e)
