"""
Fourteen weeks of an outbreak in an attic flat in Ghent, played through the real bot over HTTP. All invented.

The person here does what a tired person does: is late, does half, corrects herself. At the end checks of
our own say whether the bot kept its word: nothing sent in quiet hours, no spray asked for in direct sun.
"""

import json
import re
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from tornado.httpclient import AsyncHTTPClient, HTTPRequest

from demo.running import OWNER, Running, running
from demo.shadows import lit_minute

ZONE = ZoneInfo("Europe/Brussels")
START = datetime(2026, 5, 2, 10, 0, tzinfo=ZONE)
WEEKS = 14
GHENT = (51.05, 3.72)
QUIET_FROM, QUIET_UNTIL = 22, 8
SPRAY_AND_DRY_MINUTES = 210
LAMP_UNTIL = 18
PLACES = {
    "hoya": "none",
    "small hoya": "none",
    "moth orchid": "W",
    "coffee plant": "W",
    "ivy": "E",
    "calathea": "E",
    "bay laurel": "afternoon",
    "chilli": "afternoon",
}
UNDER_A_LAMP = ("hoya", "small hoya")
SET_UP = (
    "/start",
    "Gent",
    """\
hoya, landing, 15 cm
small hoya, landing
moth orchid, kitchen sill
coffee plant, kitchen sill
ivy, study
calathea, study
bay laurel, balcony
chilli, balcony""",
    "landing has no window, light until 18:00",
    "kitchen sill faces west",
    "study looks east",
    "balcony is outdoors, afternoon sun",
    "got soap, ready to use, every 7 days",
    "got alcohol",
    "landing is 21 degrees",
    "usual",
    "study is 21 degrees",
    "usual",
)
OUTBREAK = (
    "hoya 12 longtailed mealybugs in the axils",
    "a few longtailed mealybugs on the coffee plant",
    "orchid 8 longtailed mealybugs",
    "some spider mites on the ivy",
    "2 fungus gnats on the calathea",
    "got bti, every 5 days",
    "isolate the hoya",
    "isolate the ivy",
    "isolated?",
    "why hoya",
)
CASES = ("hoya", "coffee plant", "moth orchid", "ivy", "calathea")
"""Plants of the outbreak: all are released by the rule at its end."""
ASIDES = {
    1: ("done",),
    2: ("not tonight",),
    3: ("done except coffee", "coffee done", "hoya 3 in the axils", "ivy 2 mites"),
    5: ("done", "undo", "done", "when can the hoya go back"),
    6: ("dnoe", "done", "what's due"),
    7: ("thanks",),
}


@dataclass(slots=True)
class Faults:
    """What the bot did wrong, as the checks see it."""

    lines: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Talker:
    """The person at the keyboard."""

    whole: Running
    http: AsyncHTTPClient = field(default_factory=AsyncHTTPClient)
    nudges: list[dict[str, Any]] = field(default_factory=list)
    released: dict[str, str] = field(default_factory=dict)

    async def post(self, path: str, body: dict[str, Any]) -> dict[str, Any]:
        """Send JSON to the stand-in."""
        request = HTTPRequest(
            f"{self.whole.standin.url}{path}", "POST", {"Content-Type": "application/json"}, json.dumps(body)
        )
        answer: dict[str, Any] = json.loads((await self.http.fetch(request)).body)
        return answer

    async def say(self, text: str) -> str:
        """Say something and print what the bot answers."""
        self._print("you", text, self.whole.clock.now())
        answer = await self.post(f"/person/{OWNER}/say", {"text": text})
        texts = [
            message["text"] or ""
            for message in answer["messages"]
            if message["who"] == "bot" and message["edited_at"] is None
        ]
        for reply in texts:
            self._print("bot", reply, self.whole.clock.now())
        return "\n".join(texts)

    async def next_nudge(self) -> dict[str, Any] | None:
        """Let time pass until the bot speaks up."""
        answer = await self.post("/clock", {"to_next_nudge": True})
        messages = [one for one in answer["messages"].get(str(OWNER), []) if one["who"] == "bot"]
        new = [one for one in messages if one["id"] not in {known["id"] for known in self.nudges}]
        new = [one for one in new if one["edited_at"] is None]
        for one in new:
            self.nudges.append(one)
            self._print("bot", one["text"], datetime.fromisoformat(one["at"]), one["buttons"])
        return new[-1] if new else None

    async def pass_time(self, **span: float) -> None:
        """Let some time pass."""
        await self.post("/clock", {"by_seconds": timedelta(**span).total_seconds()})

    @staticmethod
    def _print(who: str, text: str, at: datetime, buttons: list[list[dict[str, str]]] | None = None) -> None:
        local = at.astimezone(ZONE)
        head = f"{local:%a} {local.day} {local:%b} {local:%H:%M}  {who}: "
        lines = text.splitlines() or [""]
        print(head + lines[0])
        for line in lines[1:]:
            print(" " * len(head) + line)
        if buttons:
            print(" " * len(head) + "  ".join(f"[{one['label']}]" for row in buttons for one in row))


async def play(data: Path | None = None) -> int:
    """Play the story; give 0 only if it ended as it must."""
    async with running(START, data) as whole:
        talker = Talker(whole)
        for text in (*SET_UP, *OUTBREAK):
            await talker.say(text)
            await talker.pass_time(minutes=1)
        await _weeks(talker)
        faults = Faults()
        check_quiet(talker.nudges, faults)
        check_sun(talker.nudges, faults)
        check_released(talker.released, faults)
        print()
        for name, told in talker.released.items():
            print(f"released: {name}, {told}")
        print(f"{len(talker.nudges)} nudges, {len(faults.lines)} faults")
        for line in faults.lines:
            print(f"FAULT {line}")
        return 1 if faults.lines else 0


async def _weeks(talker: Talker) -> None:
    end = START + timedelta(weeks=WEEKS)
    number = 0
    while (nudge := await talker.next_nudge()) is not None and talker.whole.clock.now() < end:
        number += 1
        await talker.pass_time(minutes=25)
        await _answer(talker, nudge["text"], number)


async def _answer(talker: Talker, text: str, number: int) -> None:
    heard = text
    replies = ASIDES.get(number, _usual(text))
    for reply in replies:
        heard += "\n" + await talker.say(reply)
        await talker.pass_time(minutes=2)
    if "Tomorrow morning, " in text and "not tonight" not in replies:
        await _next_morning(talker)
    clear = re.findall(r"^All-clear for (.+?): ", heard, re.MULTILINE)
    for name in (one for names in clear for one in re.split(", | and ", names)):
        if name not in talker.released:
            answer = await talker.say(f"put {name} back")
            talker.released[name] = "by the rule" if ", all-clear" in answer else "not by the rule"


async def _next_morning(talker: Talker) -> None:
    """Spray the orchid the morning after, before the sun comes round."""
    now = talker.whole.clock.now().astimezone(ZONE)
    morning = now.replace(hour=8, minute=30) + timedelta(days=1)
    await talker.pass_time(seconds=(morning - now).total_seconds())
    await talker.say("did the orchid")


def _usual(text: str) -> tuple[str, ...]:
    """Answer a nudge as most evenings go: done what was asked, nothing seen."""
    replies = []
    if re.search(r"^(Spray|Swab|Wipe|Rinse|Prune|Clean-out|calathea: let|Drench)", text, re.MULTILINE):
        replies.append("done")
    if "Look at " in text:
        replies.append("checked everything with a lens, all clean")
    if re.search(r"calathea.*card", text):
        replies.append("calathea clean, sticky card")
    if lifted := re.search(r"^Lift (.+) out of the pot once", text, re.MULTILINE):
        replies += [f"{name} clean, roots too" for name in re.split(r", | and ", lifted[1])]
    return tuple(replies) or ("thanks",)


def check_quiet(nudges: list[dict[str, Any]], faults: Faults) -> None:
    """Find nudges sent in quiet hours, by the stand-in's own time stamps."""
    for nudge in nudges:
        local = datetime.fromisoformat(nudge["at"]).astimezone(ZONE)
        if local.hour >= QUIET_FROM or local.hour < QUIET_UNTIL:
            faults.lines.append(f"sent in quiet hours: {local}")


def check_sun(nudges: list[dict[str, Any]], faults: Faults) -> None:
    """Find sprays asked for while sun or lamp is on the leaves, from the words of the nudges alone."""
    for nudge in nudges:
        sent = datetime.fromisoformat(nudge["at"]).astimezone(ZONE)
        for plant, start in asked_sprays(nudge["text"], sent):
            lit = lit_minute(PLACES[plant], *GHENT, start, SPRAY_AND_DRY_MINUTES)
            if lit is not None:
                faults.lines.append(f"{plant} sprayed from {start}: sun at {lit.astimezone(ZONE)}")
            if plant in UNDER_A_LAMP and start.hour < LAMP_UNTIL:
                faults.lines.append(f"{plant} sprayed from {start}: the lamp is on")


def asked_sprays(text: str, sent: datetime) -> list[tuple[str, datetime]]:
    """Read from a nudge which plants are to be sprayed, and from when."""
    found = []
    named = "|".join(sorted(map(re.escape, PLACES), key=len, reverse=True))
    for line in text.splitlines():
        is_moved = " in shade" in line
        if not is_moved and re.match("Spray |(Wipe|Prune|Rinse|Swab) .*then .*(soap|oil)", line):
            found += [(name, sent) for name in re.findall(named, line)]
        elif line.startswith("Tomorrow morning, "):
            clock = re.search(r"(\d\d):(\d\d)", line)
            assert clock is not None
            day: date = sent.date() + timedelta(days=1)
            start = datetime(day.year, day.month, day.day, int(clock[1]), int(clock[2]), tzinfo=ZONE)
            found += [(name, start) for name in re.findall(named, line)]
    return [(name, start.astimezone(UTC).astimezone(ZONE)) for name, start in found]


def check_released(released: dict[str, str], faults: Faults) -> None:
    """Find plants that should have been released by the rule within its weeks and were not."""
    for name in CASES:
        if released.get(name) != "by the rule":
            faults.lines.append(f"{name} was not released by the rule")
