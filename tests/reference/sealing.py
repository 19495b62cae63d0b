"""Opens what the program seals with another's library of the age v1 format, and types a passphrase at a terminal.

    sealing.py keys                          prints a secret key and the key that belongs to it
    sealing.py open FILE --key SECRET OUT    opens FILE and unpacks the ZIP inside into OUT; prints its length
    sealing.py open FILE --words WORDS OUT   the same with a passphrase
    sealing.py type WORDS AGAIN COMMAND...   runs COMMAND at a terminal of its own, types both, prints what it showed

Exit code 4: the file does not open.
"""

import io
import os
import pty
import signal
import sys
import termios
import time
import zipfile

import pyrage


def open_sealed(file, kind, secret, out):
    sealed = open(file, "rb").read()
    try:
        if kind == "--key":
            plain = pyrage.decrypt(sealed, [pyrage.x25519.Identity.from_str(secret)])
        else:
            plain = pyrage.passphrase.decrypt(sealed, secret)
    except pyrage.DecryptError as why:
        print(why, file=sys.stderr)
        sys.exit(4)
    archive = zipfile.ZipFile(io.BytesIO(plain))
    assert archive.testzip() is None
    for entry in archive.infolist():
        assert entry.date_time == (1980, 1, 1, 0, 0, 0), entry
    archive.extractall(out)
    print(len(plain))


def type_at_terminal(words, command):
    signal.alarm(120)
    child, terminal = pty.fork()
    if child == 0:
        os.execv(command[0], command)
    shown, waiting = b"", list(zip((b"(not shown):", b"again:"), words))
    while True:
        try:
            some = os.read(terminal, 4096)
        except OSError:
            break
        if not some:
            break
        shown += some
        if waiting and waiting[0][0] in shown:
            # What is typed before the echo is off is thrown away.
            while termios.tcgetattr(terminal)[3] & termios.ECHO:
                time.sleep(0.02)
            os.write(terminal, waiting.pop(0)[1].encode() + b"\n")
    _, status = os.waitpid(child, 0)
    sys.stdout.write(shown.decode(errors="replace"))
    sys.exit(os.waitstatus_to_exitcode(status))


if sys.argv[1] == "keys":
    secret = pyrage.x25519.Identity.generate()
    print(secret)
    print(secret.to_public())
elif sys.argv[1] == "open":
    open_sealed(*sys.argv[2:6])
else:
    type_at_terminal(sys.argv[2:4], sys.argv[4:])
