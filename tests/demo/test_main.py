"""The demo as a process: it says where it is, and ends quietly when it is told to."""

import signal
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent


def test_it_ends_by_sigterm_without_a_complaint(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "demo", "--data", str(tmp_path)]
    with subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as demo:
        assert demo.stdout is not None
        assert demo.stdout.readline().startswith("ready http://127.0.0.1:")
        demo.send_signal(signal.SIGTERM)
        _, complaint = demo.communicate(timeout=30)
    assert (demo.returncode, complaint) == (0, "")
