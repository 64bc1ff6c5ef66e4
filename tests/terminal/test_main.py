import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
LISTING = [sys.executable, "-m", "engine", "list", "checks", "--json", "--kb"]


def test_a_reader_may_stop_early() -> None:
    """`dryjoint list ... | head` ends without a word on the error stream."""
    command = [*LISTING, str(ROOT / "tests" / "knowledge" / "small")]
    with subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 0
