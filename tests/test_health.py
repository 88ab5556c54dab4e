"""The health page: what a probe and a metrics collector read."""

import asyncio
import re
from pathlib import Path
from typing import Any

import httpx
import pytest

from bot.app import assemble
from bot.domain.value import replace
from bot.health import METRICS, Vitals, as_metrics
from bot.operating import ask_health
from bot.settings import Secret, Settings
from demo.running import SimulatedClock
from demo.standin import StandIn
from tests.journeys.talking import START
from tests.tools.standing_in import TOKEN

WELL = Vitals(
    households=2,
    undelivered=0,
    oldest_due_s=0,
    given_up=0,
    parked=0,
    photos_wanted=0,
    last_tick_s=4,
    updates=17,
    not_taken_s=0,
    is_polled_elsewhere=False,
    clock_stepped_s=0,
    disk_free_bytes=5_000_000_000,
    copy_age_s=7_200,
    errors=0,
    up_s=60,
)


def test_metrics_are_in_the_text_exposition_format() -> None:
    # Prometheus, exposition formats, text format 0.0.4: HELP and TYPE lines, then name and value.
    text = as_metrics(WELL)
    assert text.endswith("\n")
    for line in text.splitlines():
        assert re.fullmatch(
            r"# HELP [a-z_]+ \S.*|# TYPE [a-z_]+ (gauge|counter)|[a-z_:][a-z0-9_:]* [-+0-9.e]+", line
        ), line
    assert "duskround_updates_total 17" in text
    assert sum(line.startswith("# TYPE") for line in text.splitlines()) == len(METRICS)
    types = [line.split()[2:] for line in text.splitlines() if line.startswith("# TYPE")]
    assert all(name.endswith("_total") is (kind == "counter") for name, kind in types)


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("oldest_due_s", 301, "a message waits since 301 s"),
        ("last_tick_s", 301, "the timetable stands still since 301 s"),
        ("not_taken_s", 301, "no updates taken for 301 s"),
        ("is_polled_elsewhere", True, "another program takes this bot's updates"),
        ("clock_stepped_s", -7200.0, "clock stepped by -7200 s"),
        ("disk_free_bytes", 20_000_000, "20 MB left on the disk"),
        ("copy_age_s", 200_000, "no copy of the database for two days"),
    ],
)
def test_what_is_wrong_is_said(field: str, value: Any, told: str) -> None:
    assert list(WELL.troubles()) == []
    assert list(replace(WELL, **{field: value}).troubles()) == [told]


def test_a_bot_that_never_copied_is_unwell_after_two_days_only() -> None:
    assert list(replace(WELL, copy_age_s=None).troubles()) == []
    assert list(replace(WELL, copy_age_s=None, up_s=200_000).troubles()) != []


def test_given_up_messages_and_the_last_copy_are_remarked() -> None:
    assert list(replace(WELL, given_up=3).remarks()) == ["given-up messages: 3", "last copy: 2 h ago"]
    assert "duskround_copy_age_seconds" not in as_metrics(replace(WELL, copy_age_s=None))
    assert "duskround_given_up 3" in as_metrics(replace(WELL, given_up=3))


@pytest.mark.asyncio
async def test_a_running_bot_answers_its_health_page(tmp_path: Path, unused_tcp_port: int) -> None:
    clock = SimulatedClock(START)
    standin = StandIn(token=TOKEN, clock=clock.now)
    await standin.start(0)
    settings = Settings(
        token=Secret(TOKEN),
        owner=1,
        data=tmp_path,
        api_url=standin.url,
        health_listen=f"127.0.0.1:{unused_tcp_port}",
    )
    app = assemble(settings, clock, pacing=False)
    await app.start()
    try:
        async with httpx.AsyncClient(base_url=f"http://127.0.0.1:{unused_tcp_port}", trust_env=False) as web:
            health = await web.get("/health")
            assert health.status_code == 200, health.text
            assert health.text.startswith("well\nlast copy: ")
            metrics = (await web.get("/metrics")).text
            assert "duskround_undelivered 0" in metrics
            await fight(standin)
            health = await web.get("/health")
            assert health.status_code == 503
            assert "another program takes this bot's updates" in health.text
            assert "duskround_polled_elsewhere 1" in (await web.get("/metrics")).text
    finally:
        await app.stop()
        await standin.stop()
    assert ask_health(settings) == 1  # nobody listens any more


async def fight(standin: StandIn) -> None:
    """Take the bot's updates until it is told of the conflict."""
    async with httpx.AsyncClient(base_url=standin.url, trust_env=False) as other:
        for _ in range(3):
            await other.post(f"/bot{TOKEN}/getUpdates", json={"timeout": 0})
            await asyncio.sleep(0.2)


def test_without_an_address_there_is_no_health_to_ask(tmp_path: Path) -> None:
    assert ask_health(Settings(data=tmp_path)) == 1
