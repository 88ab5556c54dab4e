"""The health page: what a probe and a metrics collector read."""

import re
from pathlib import Path

import httpx
import pytest

from bot.app import assemble
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
    parked=0,
    photos_wanted=0,
    last_tick_s=4,
    updates=17,
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
    assert all(kind == "counter" for name, kind, *_ in METRICS if name.endswith("_total"))


@pytest.mark.parametrize(("field", "value"), [("oldest_due_s", 301), ("last_tick_s", 301)])
def test_late_messages_and_a_stopped_clock_are_unwell(field: str, value: float) -> None:
    assert WELL.is_well
    told = {name: getattr(WELL, name) for name in Vitals.__slots__} | {field: value}
    assert not Vitals(**told).is_well


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
            assert (health.status_code, health.text) == (200, "well\n")
            metrics = (await web.get("/metrics")).text
            assert "duskround_undelivered 0" in metrics
            clock.move_to(clock.now().replace(hour=23))
            assert (await web.get("/health")).status_code == 503  # no tick for thirteen hours
    finally:
        await app.stop()
        await standin.stop()
    assert ask_health(settings) == 1  # nobody listens any more


def test_without_an_address_there_is_no_health_to_ask(tmp_path: Path) -> None:
    assert ask_health(Settings(data=tmp_path)) == 1
