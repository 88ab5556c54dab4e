"""
A picture of a real evening from the demo, as a telephone shows it: `python -m tests.demo.picture [FILE]`.

390 pixels wide, light, written to demo/evening.png without a FILE. Needs Debian's chromium.
"""

import asyncio
import sys
import tempfile
from pathlib import Path
from typing import Any

import httpx

from demo.running import OWNER, running
from demo.story import START
from tests.demo.chromium import PROGRAM, page

TARGET = Path(__file__).parent.parent.parent / "demo" / "evening.png"
TALK = (
    "/start",
    "Gent",
    "hoya, landing, 15 cm\nivy, study, 12 cm",
    "landing has no window",
    "got soap, ready to use, every 7 days",
    "hoya 12 longtailed mealybugs in the axils",
    "isolate the hoya",
)
SHOWN = 2
"""The second evening of work: what is said at a first use stands no longer in the way."""
MOST_EVENINGS = 15


async def taken() -> bytes:
    """Play a small home up to an evening of work and give what the page shows when that is done."""
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        for text in TALK:
            await _post(web, f"/person/{OWNER}/say", {"text": text})
        works = 0
        for _ in range(MOST_EVENINGS):
            told = await _post(web, "/clock", {"to_next_nudge": True})
            evening = "".join(one["text"] for one in told["messages"].get(str(OWNER), ()))
            is_work = evening.startswith("Tonight") and "soap" in evening.casefold()
            works += is_work
            await _post(web, "/clock", {"by_seconds": 900})
            await _post(web, f"/person/{OWNER}/say", {"text": "done" if is_work else "all clean"})
            if works == SHOWN:
                break
        with tempfile.TemporaryDirectory() as profile:
            async with page(Path(profile)) as shown:
                await shown.open(whole.standin.url, scheme="light")
                await shown.until("document.querySelectorAll('li').length > 12")
                await shown.run("new Promise((done) => setTimeout(done, 500))")
                return await shown.picture()


async def _post(web: httpx.AsyncClient, path: str, body: dict[str, Any]) -> dict[str, Any]:
    return (await web.post(path, json=body)).raise_for_status().json()  # type: ignore[no-any-return]


if __name__ == "__main__":
    if PROGRAM is None:
        sys.exit("chromium is missing: apt-get install chromium")
    (Path(sys.argv[1]) if len(sys.argv) > 1 else TARGET).write_bytes(asyncio.run(taken()))
