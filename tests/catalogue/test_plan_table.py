"""
The plan of every pest, cell by cell, against a copy written by hand; and that "why more" shows each.

Where the figures come from: "sim" is a judgement whose order of rules an independent simulation with wide parameters
supports; "J" is a judgement alone. Read: gaps from the development lines of Karacaoglu and Satar 2017 (citrus mealybug),
Jarosik and others 2011 (spider mite, aphids), Illinois and UNH sheets (thrips); Bti weekly, oftener when warm: UC IPM 2017;
whitefly every 5 to 7 days: K-State Extension (memory); mites with a lens on old leaves and tapped over paper: Univ. Florida
IFAS, Monroe County; looks weekly, handwork before sprays: common practice, no source. Days stand for 18, 21 and 25 degC.
"""

import re
from dataclasses import dataclass
from typing import Any

import pytest

from bot.catalogue.load import load
from bot.domain.campaign import Basis
from bot.domain.gap import plan_gap
from bot.domain.pest import Pest
from bot.domain.trade import Level
from bot.wording.rules import rule_lines
from tests.domain.telling import IVY, KNOWLEDGE, home
from tests.wording.test_words import VOICE

CATALOGUE = load()
H1, H3 = ("h1", 1.0), ("h3", 1.0)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of the table, with how its figures are said at 21 degC."""

    last_day: tuple[int, int, int]
    """Last day of the window from one treatment to the next, at 18, 21 and 25 degC. [d]"""
    hand: str | None
    few: int = 0
    start: tuple[str, ...] = ()
    strong: tuple[tuple[str, ...], str, int, int] | None = None
    """The strong step: methods, from which grade, at most so often, days apart."""
    at_roots: str | None = None
    """From which grade, where it may sit at the roots; None is the same."""
    a_week: tuple[tuple[float, int], ...] = ()
    label: int | None = None
    warm: float | None = None
    unpots: bool = False
    rounds: int | None = None
    after: int
    clean: int = 0
    least: tuple[Any, Any] = (None, None)
    """Rounds go on so long since the last find, and since the start."""
    looks: dict[str, int]
    apart: int = 5
    waits: Any
    free: Any = None
    strict: Any = None
    said: tuple[str, ...]


ROWS = {
    # W = 130/(T-8.5): 13.7, 10.4, 7.9; .8 W, at most 10. h3 at 21 degC: 133/12.5 + 401/13.3 = 40.8 d.
    "citrus_mealybug": Row(
        last_day=(10, 8, 6), hand="wipe", few=3, strong=(("clean-out",), "many", 2, 28), at_roots="some", unpots=True,
        after=5, clean=2, least=(H3, None), looks={"glance": 4, "plain": 4, "lens": 4, "roots": 4}, waits=H3,
        said=("5 to 8 days apart at 21 °C", "Handwork: wipe with each spray, within 36 hours", "3 treatments by hand alone, then 2 with a spray",
              "clean-out, from 31 pests on, at most 2 times, 28 days apart", "may sit at the roots, from 6 pests on, 2 times whatever is seen, and 3 times at most", "last find: 5 treatments", "2 looks in a row",
              "Goes back 41 days (21 °C, from egg to grown)", "2 looks come late", "one at 26 °C", "1 look at the roots, from some pests on 2"),
    ),
    # W = 161/(T-8): 16.1, 12.4, 9.5.
    "longtailed_mealybug": Row(
        last_day=(10, 9, 7), hand="wipe", few=3, strong=(("clean-out",), "many", 2, 28), at_roots="some", unpots=True,
        after=5, clean=2, least=(H3, None), looks={"glance": 4, "plain": 4, "lens": 4, "roots": 4}, waits=H3,
        said=("6 to 9 days apart", "4 with a lens", "No day counts for more than one at 26 °C"),
    ),
    # W = 97/(T-10.3): 12.6, 9.1, 6.6; .8 W.
    "spider_mite": Row(
        last_day=(10, 7, 5), hand="rinse", strong=(("prune", "rinse"), "few", 4, 14), a_week=((18, 1), (60, 2)), label=5,
        warm=23, after=6, least=((42, 42, 42), (28, 28, 28)), looks={"lens": 2, "tap": 2}, waits=(44, 31, 23),
        free=H1, strict=(24, 18, 13),
        said=("prune, then rinse, from 1 pest on, at most 4 times, 14 days apart", "1 day a week below 18 °C",
              "2 days a week warmer than that", "A label of 5 days or less is sought", "From 23 °C on", "last find: 6 treatments",
              "42 days after the last find", "28 days after the first treatment", "2 with a lens or 2 tapped over paper",
              "Goes back 31 days (21 °C)", "8 days (21 °C, egg and first instar) without spray, rinse or wipe",
              "1 last find for all plants of a place"),
    ),
    # two months of sound new growth, said plainly; often discarded. Windows are judgements of their own lines.
    "flat_mite": Row(last_day=(10, 10, 10), hand=None, rounds=4, after=3, clean=2, looks={"lens": 4, "plain": 8}, apart=7,
                     waits=(60, 60, 60), said=("Goes back 60 days", "4 with a lens", "At least 4 treatments")),
    "broad_mite": Row(last_day=(6, 4, 3), hand=None, start=("prune",), label=5, rounds=4, after=3, clean=2,
                      looks={"lens": 4, "plain": 8}, apart=7, waits=(60, 60, 60), said=("Goes back 60 days", "7 days apart")),
    "cyclamen_mite": Row(last_day=(7, 6, 5), hand=None, start=("prune",), label=7, rounds=4, after=3, clean=2,
                         looks={"lens": 4, "plain": 8}, apart=7, waits=(60, 60, 60), said=("Goes back 60 days",)),
    # W = 52/(T-9.5): 6.1, 4.5, 3.4, whole days.
    "western_flower_thrips": Row(
        last_day=(6, 4, 3), hand="rinse", start=("prune",), strong=(("clean-out",), "few", 2, 28), label=5, unpots=True,
        after=6, least=(H1, (46, 34, 25)), looks={"card": 3, "tap": 3, "plain": 5, "lens": 4}, waits=(33, 26, 20), free=H1,
        strict=H1,
        said=("clean-out, from 1 pest on", "34 days (21 °C) after the first treatment", "3 by card", "Goes back 26 days (21 °C)",
              "last find: 6 treatments", "1 last find for all plants of the home", "where the label is too long: wash on 2 days"),
    ),
    # Bti every 7 days up to 20 degC, else 5; 4 of Bti or 2 of nematodes; no isolation, nothing rinsed or wiped.
    "fungus_gnat": Row(
        last_day=(7, 5, 5), hand=None, rounds=4, after=3, looks={"card": 2, "potato": 2}, apart=7,
        waits=(41, 34, 28),
        said=("5 to 5 days apart", "At least 4 treatments", "nematodes counts for 2 treatments", "2 by card or 2 by potato",
              "Goes back 34 days (21 °C)"),
    ),
    # W = 104/(T-5.6): 8.4, 6.7, 5.4; .8 W.
    "green_peach_aphid": Row(
        last_day=(6, 5, 4), hand="rinse", start=("prune",), rounds=3, after=5, clean=2,
        looks={"plain": 5, "lens": 3, "tap": 3}, waits=(21, 18, 15), free=("h3", 2.5),
        said=("Day 1: prune", "rinse hard with each spray", "At least 3 treatments", "Goes back 18 days (21 °C)",
              "22 days (21 °C, from egg to grown times 2.5) without spray, rinse or wipe"),
    ),
    # its own line, 87/(T-6.5): 7.6, 6.0, 4.7.
    "melon_aphid": Row(
        last_day=(6, 4, 3), hand="rinse", start=("prune",), rounds=3, after=5, clean=2,
        looks={"plain": 5, "lens": 3, "tap": 3}, waits=(21, 18, 15), free=("h3", 2.5), said=("2 looks in a row", "3 tapped over paper"),
    ),
    "greenhouse_whitefly": Row(
        last_day=(7, 7, 6), hand="rinse", start=("prune",), rounds=5, after=4, clean=2,
        looks={"lens": 3, "tap": 3, "card": 3, "plain": 4}, waits=(49, 38, 29), free=H1,
        said=("7 to 7 days apart", "wash the undersides", "At least 5 treatments", "3 by card", "Goes back 38 days (21 °C)"),
    ),
    # .8 x 180/(T-10.3): 18.7 held to 14, 13.5, 9.8.
    "brown_soft_scale": Row(
        last_day=(14, 13, 9), hand="wipe", few=3, rounds=3, after=6, clean=2, least=(None, (61, 44, 32)),
        looks={"plain": 3, "lens": 3, "tape": 3}, waits=(114, 82, 60),
        said=("scrape with each spray", "44 days (21 °C) after the first treatment", "3 by tape", "Goes back 82 days (21 °C)"),
    ),
    # .8 x 124/(T-9.6): 11.8, 8.7, 6.4.
    "armoured_scale": Row(
        last_day=(11, 8, 6), hand="wipe", few=3, rounds=3, after=6, clean=2, least=(None, (51, 36, 27)),
        looks={"plain": 3, "lens": 3, "tape": 3}, waits=("h3", 1.1),
        said=("36 days (21 °C) after the first treatment", "from egg to grown times 1.1"),
    ),
    # a clean-out, then drenches as labelled, two to three weeks apart; the ball's outer face every three weeks.
    "root_mealybug": Row(
        last_day=(21, 21, 21), hand=None, label=21, strong=(("clean-out",), "few", 2, 28), unpots=True, rounds=3, after=4,
        looks={"roots": 3}, apart=21, waits=(120, 120, 120),
        said=("14 to 21 days apart", "at most 2 times", "3 at the roots, 21 days apart", "21 days after fresh mix",
              "Goes back 120 days"),
    ),
}  # fmt: skip


def _wait(wait: Any) -> Any:
    return None if wait is None else wait.days or (wait.clock, wait.times)


def _row(pest: Pest) -> dict[str, Any]:
    fight, least, looking, leaving = pest.fight, pest.least, pest.looking, pest.leaving
    strong = tuple(one.value for one in fight.strong)
    return {
        "last_day": tuple(plan_gap(pest, celsius, None).upper_days for celsius in (18, 21, 25)),
        "hand": None if fight.handwork is None else fight.handwork.value,
        "few": fight.few_by_hand,
        "start": tuple(one.value for one in fight.start),
        "strong": (strong, fight.strong_from.value, fight.strong_most, fight.strong_apart_days)
        if fight.strong_from is not None
        else None,
        "at_roots": None
        if fight.strong_from_at_roots is fight.strong_from or fight.strong_from_at_roots is None
        else fight.strong_from_at_roots.value,
        "a_week": fight.between_a_week,
        "label": fight.label_sought_days,
        "warm": fight.warm_from_c,
        "unpots": fight.unpots,
        "rounds": least.rounds,
        "after": least.after_find,
        "clean": least.clean_looks,
        "least": (_wait(least.since_find), _wait(least.since_start)),
        "looks": {level.value: number for level, number in looking.needed.items()},
        "apart": looking.apart_days,
        "waits": _wait(leaving.since_find),
        "free": _wait(leaving.contact_free),
        "strict": _wait(leaving.contact_free_strict),
    }


def test_every_pest_has_its_row() -> None:
    assert set(ROWS) == set(CATALOGUE.pests)


@pytest.mark.parametrize("key", ROWS)
def test_every_cell_is_what_the_table_says(key: str) -> None:
    row = ROWS[key]
    assert _row(CATALOGUE.pests[key]) == {name: getattr(row, name) for name in _row(CATALOGUE.pests[key])}


@pytest.mark.parametrize("key", ROWS)
def test_every_block_of_figures_says_whether_it_was_read_remembered_or_judged(key: str) -> None:
    pest = CATALOGUE.pests[key]
    blocks = (pest.fight, pest.least, pest.looking, pest.leaving)
    for evidence in (*(block.evidence for block in blocks), pest.gap_evidence, pest.sight_evidence):
        assert evidence.sources or evidence.basis in {Basis.JUDGEMENT, Basis.MEMORY}
        assert evidence.basis is not Basis.READ or set(evidence.sources) <= set(CATALOGUE.sources)


def test_cards_show_no_mites_and_gnats_are_never_set_apart_or_discarded() -> None:
    for key in ("spider_mite", "flat_mite", "broad_mite", "cyclamen_mite"):
        assert Level.CARD not in CATALOGUE.pests[key].looking.needed
    gnat = CATALOGUE.pests["fungus_gnat"].fight
    assert (gnat.is_set_apart, gnat.is_discarded, gnat.is_room_wide) == (False, False, True)


SOURCED = re.compile(r"\((our judgement|read|from memory)(: [^)]*(\([^)]*\)[^)]*)*)?\)\.$")
UNITS = re.compile(
    r"\d+(\.\d+)? (days?|treatments?|looks?|times|hours|pests?|%|°C|plain|with|at|by|tapped|last)|Day 1"
)


@pytest.mark.parametrize("key", ROWS)
def test_why_in_full_shows_each_rule_with_a_figure_a_unit_and_its_source(key: str) -> None:
    telling = home()
    telling.find(IVY, key, 0)
    state = telling.progress(IVY, 0)
    lines = rule_lines(state, KNOWLEDGE.cited, VOICE, None)
    for line in lines:
        assert SOURCED.search(line), line
        assert UNITS.search(line), line
    text = "\n".join(lines)
    for said in ROWS[key].said:
        assert said in text
    for rule in (
        "The last look is younger than 10 days and later than the last treatment",
        "fades over 3 days",
    ):
        assert rule in text
    assert ("Alive 14 days after the start" in text) is bool(CATALOGUE.pests[key].fight.strong)
