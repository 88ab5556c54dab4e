"""
The demo's page before axe-core, every rule of it, in Chromium: `python -m tests.tools.accessibility`.

On a page with thirty messages, buttons, a chart and an error, light and dark. Prints one line a finding; exit 1 where
one is serious or critical. Needs Debian's chromium and npm, which fetches axe-core (Deque, MPL 2.0) into a folder that
goes with the run; `--axe FILE` takes one that is there.
"""

import argparse
import asyncio
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import httpx

from demo.running import OWNER, running
from tests.demo.chromium import PROGRAM, Page, page
from tests.journeys.talking import START

VERSION = "axe-core@4"
TALK = (
    "/start",
    "Gent",
    "hoya, landing, 15 cm\nsmall hoya, landing\nmoth orchid, kitchen\nivy, study",
    "landing has no window",
    "got soap, ready to use, every 7 days",
    "hoya 12 longtailed mealybugs in the axils",
    "hoya 9 yesterday",
    "isolated?",
    "due",
    "invite",
    "help",
    "settings",
    "why more hoya",
    "chart hoya",
    "walk",
)
LEAST_MESSAGES = 30
GRAVE = frozenset({"serious", "critical"})
FAIL = "document.getElementById('photo').click(); say('The demo does not answer. Is it still running?', true)"
RUN = "axe.run(document, {resultTypes: ['violations', 'incomplete']}).then((found) => JSON.parse(JSON.stringify(found)))"


def fetched(folder: Path) -> Path:
    """Have npm fetch the library."""
    command = ["npm", "install", "--no-audit", "--no-fund", "--silent", "--prefix", str(folder), VERSION]
    subprocess.run(command, check=True, timeout=300)
    return folder / "node_modules" / "axe-core" / "axe.min.js"


async def findings(axe: str, scheme: str) -> list[dict[str, Any]]:
    """Give what the library finds on the page."""
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        for text in TALK:
            (await web.post(f"/person/{OWNER}/say", json={"text": text})).raise_for_status()
        with tempfile.TemporaryDirectory() as profile:
            async with page(Path(profile)) as shown:
                await shown.open(whole.standin.url, scheme=scheme)
                return await _checked(shown, axe)


async def _checked(shown: Page, axe: str) -> list[dict[str, Any]]:
    await shown.until(f"document.querySelectorAll('li').length >= {LEAST_MESSAGES - 1}")
    await shown.until("[...document.images].every((one) => one.complete && one.naturalWidth > 0)")
    await shown.until("document.images.length > 0 && document.querySelectorAll('li button').length > 1")
    await shown.run(f"{FAIL}; 0")
    assert await shown.run("document.getElementById('status').classList.contains('bad')")
    await shown.run(f"{axe}; 0")
    found = await shown.run(RUN)
    assert len(found["passes"]) > 10, "the library looked at nothing"
    return list(found["violations"])


def main() -> int:
    """Look at the page, print the findings, give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.accessibility")
    parser.add_argument("--axe", type=Path)
    chosen = parser.parse_args()
    if PROGRAM is None:
        sys.stderr.write("chromium is missing: apt-get install chromium\n")
        return 1
    grave = 0
    with tempfile.TemporaryDirectory() as folder:
        axe = (chosen.axe or fetched(Path(folder))).read_text("utf-8")
        for scheme in ("light", "dark"):
            found = asyncio.run(findings(axe, scheme))
            for one in found:
                places = ", ".join(str(node["target"]) for node in one["nodes"][:3])
                sys.stdout.write(f"{scheme}: {one['impact']}: {one['id']}: {one['help']} ({places})\n")
            grave += sum(one["impact"] in GRAVE for one in found)
            sys.stdout.write(f"{scheme}: {len(found)} findings\n")
    sys.stdout.write(f"serious or critical: {grave}\n")
    return 1 if grave else 0


if __name__ == "__main__":
    sys.exit(main())
