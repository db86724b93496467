"""What holds for every test: none depends on how busy the machine is, and the command line is built once."""

import atexit
import gc
import os
import shutil
import tempfile
from functools import cache
from pathlib import Path

import typer.testing
from hypothesis import HealthCheck, settings
from sizes import by_size

from trainer.records import keys

settings.register_profile(
    "no clock", deadline=None, max_examples=by_size(10, 40, 100), suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("no clock")

# The whole command line is made of its functions at every call otherwise, which takes longer than most commands.
typer.testing._get_command = cache(typer.testing._get_command)

# Whole attempts are kept in memory, and hardly anything in them is a circle: to look for circles as often as Python
# does takes a seventh of the time.
gc.set_threshold(100_000, 20, 50)

# Records are flushed to the disk at every action, some 20,000 times in all: in memory that costs no waiting.
MEMORY = Path("/dev/shm")
if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > 2**30:
    os.environ["TMPDIR"] = tempfile.tempdir = str(MEMORY)

# What a command keeps without `--data` goes to a folder of this run, never to that of who runs the tests.
os.environ["XDG_DATA_HOME"] = tempfile.mkdtemp(prefix="trainer-tests-")
atexit.register(shutil.rmtree, os.environ["XDG_DATA_HOME"], ignore_errors=True)

# A guess at a passphrase is to be costly; the tests open hundreds of keys. `test_records_keys.py` has the real cost.
keys.SCRYPT_N = 2**10
