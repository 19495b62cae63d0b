"""What every room of the benchmark uses: running, timing in turns, and the list of results."""

import json
import statistics
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent


def run(command, environment=None):
    """Runs a command: its output's first line, wall seconds, and the most memory it held, MB.

    The memory is what the system says of the running program: what wait4 says would count this program's own, which
    the child has for a moment before it becomes the other.
    """
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, env=environment, text=True)
    peak = 0
    while process.poll() is None:
        try:
            status = Path(f"/proc/{process.pid}/status").read_text()
            peak = max([peak, *(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM"))])
        except OSError:
            pass
        time.sleep(0.002)
    took = time.perf_counter() - start
    said = process.stdout.read()
    if process.returncode != 0:
        sys.exit(f"failed: {' '.join(map(str, command))}")
    return said.split("\n")[0], took, peak / 1024


def turns(sides, times):
    """All sides in turns; the median seconds and the largest memory of each. A side gives both."""
    taken = [([], []) for _ in sides]
    for _ in range(times):
        for side, (seconds, peak) in zip(sides, taken):
            took, memory = side()
            seconds.append(took)
            peak.append(memory)
    return [(statistics.median(seconds), max(peak)) for seconds, peak in taken]


class Results:
    """Results of all rooms, one object for each name and peer."""

    def __init__(self):
        self.rows = []

    def add(self, name, n, ours, peer, peers, our_error, peer_error, unit):
        (ours_s, ours_mb), (peer_s, peer_mb) = ours, peers
        self.rows.append({
            "name": name, "n": n, "ours_s": ours_s, "peer": peer, "peer_s": peer_s, "ratio": peer_s / ours_s,
            "our_error": our_error, "peer_error": peer_error, "our_peak_mb": ours_mb, "peer_peak_mb": peer_mb,
        })
        print(f"{name}: ours {ours_s:.4f} s, {peer} {peer_s:.3f} s, ratio {peer_s / ours_s:.1f}, "
              f"errors {our_error:.2g} and {peer_error:.2g} {unit}", flush=True)

    def write(self, file):
        file.write_text(json.dumps(self.rows, indent=1) + "\n")
        print(f"\n{'name':<28}{'ours s':>9}{'peer s':>9}{'ratio':>8}{'our err':>9}{'its err':>9}{'our MB':>8}"
              f"{'its MB':>8}  peer")
        for row in self.rows:
            print(f"{row['name']:<28}{row['ours_s']:>9.4f}{row['peer_s']:>9.3f}{row['ratio']:>8.1f}"
                  f"{row['our_error']:>9.1g}{row['peer_error']:>9.1g}{row['our_peak_mb']:>8.0f}"
                  f"{row['peer_peak_mb']:>8.0f}  {row['peer']}")
