"""What the killing and the benchmarks share: processes of our own, and the person's side of the stand-in."""

import socket
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import httpx

from tests.tools.standing_in import TOKEN

ROOT = Path(__file__).parent.parent.parent


def begin(module: str, *arguments: str, environment: Mapping[str, str] | None = None, **more: Any) -> Any:
    """Start a module of ours as a process of its own."""
    command = [sys.executable, "-m", module, *arguments]
    settings = {"PATH": "/usr/bin:/bin", "PYTHONPATH": str(ROOT)} | dict(environment or {})
    return subprocess.Popen(command, cwd=ROOT, env=settings, text=True, **more)


def end(process: Any) -> None:
    """End a process started here."""
    if process.poll() is None:
        process.kill()
    process.wait()
    for pipe in (process.stdout, process.stderr):
        if pipe is not None:
            pipe.close()


def free_port() -> int:
    """Find a port nobody listens on."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return int(listening.getsockname()[1])


def stand_in(second: Path | None = None) -> tuple[Any, str]:
    """Start the stand-in, or the second one from a folder npm filled; gives the process and its address."""
    if second is None:
        process = begin("tests.tools.standing_in", stdout=subprocess.PIPE)
    else:
        there = {"DUSKROUND_TEST_NPM": str(second)}
        process = begin("tests.tools.second_stand_in", environment=there, stdout=subprocess.PIPE)
    return process, process.stdout.readline().split()[1]


def bot_settings(url: str, data: Path) -> dict[str, str]:
    """Say what the real bot has to be told."""
    return {
        "DUSKROUND_TOKEN": TOKEN,
        "DUSKROUND_API_URL": url,
        "DUSKROUND_DATA": str(data),
        "DUSKROUND_OPEN": "1",
    }


def person(url: str) -> httpx.Client:
    """Open the person's side."""
    return httpx.Client(base_url=url, trust_env=False, timeout=60)


def say(client: httpx.Client, chat: int, text: str) -> None:
    """Say something without waiting for the answer."""
    client.post(f"/person/{chat}/say", json={"text": text, "wait": False}).raise_for_status()


def said(client: httpx.Client, chat: int, after: int = 0) -> Sequence[dict[str, Any]]:
    """Read what the bot said in a chat."""
    messages = client.get(f"/person/{chat}/messages", params={"after": after}).raise_for_status().json()
    return [message for message in messages if message["who"] == "bot"]
