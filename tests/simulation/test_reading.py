"""The person's eyes: what a message asks is read from its lines, in the forms the bot has used."""

from dataclasses import replace

import pytest

from tests.simulation.grower import OBEDIENT, Home, Step
from tests.simulation.reading import Reader


@pytest.fixture(scope="module")
def reader() -> Reader:
    return Reader(Home(5, OBEDIENT))


def names(reader: Reader, *wanted: str) -> tuple[int, ...]:
    known = [plant.name for plant in reader.home.plants]
    return tuple(known.index(one) for one in wanted)


@pytest.fixture(scope="module")
def two(reader: Reader) -> tuple[str, str]:
    return reader.home.plants[0].name, reader.home.plants[1].name


@pytest.mark.parametrize(
    ("line", "step"),
    [
        ("Spray {0} and {1} with insecticidal soap.", Step(0, ("spray",), "soap")),
        ("Swab {0} and {1} with isopropyl alcohol.", Step(0, ("swab",), "alcohol")),
        ("Clean-out {0} and {1}.", Step(0, ("clean-out",))),
        ("1 Wipe {0} and {1}, then soap.", Step(0, ("wipe", "spray"), "soap")),
        ("Wipe {0} and {1}, then spray with horticultural oil.", Step(0, ("wipe", "spray"), "oil")),
        (
            "Prune {0} and {1}, rinse, then spray with insecticidal soap.",
            Step(0, ("prune", "rinse", "spray"), "soap"),
        ),
        ("{0} and {1}: let the top of the mix dry.", Step(0, ("dry",))),
        (
            "{0} and {1}: let the top of the mix dry, then nematodes with Steinernema feltiae nematodes.",
            Step(0, ("dry", "drench"), "nematodes"),
        ),
        ("Tomorrow: rinse {0} and {1} by 17:00.", Step(0, ("rinse",), None, "tomorrow")),
        ("Tomorrow: rinse {0} and {1} by 17:00, then soap.", Step(0, ("rinse", "spray"), "soap", "tomorrow")),
        (
            "Tomorrow morning, 08:00 to 10:00: neem oil on {0} and {1}.",
            Step(0, ("spray",), "neem", "morning"),
        ),
    ],
)
def test_a_line_of_work_is_read(reader: Reader, two: tuple[str, str], line: str, step: Step) -> None:
    asked = reader.read("Tonight, Sat 2 May:\n" + line.format(*two))
    assert asked.steps == tuple(replace(step, plant=one) for one in names(reader, *two))


def test_looks_lifts_and_releases_are_read(reader: Reader, two: tuple[str, str]) -> None:
    first, second = two
    asked = reader.read(
        f"Look at {first} and {second} with a lens.\n"
        f"Lift {first} out of the pot once and look: “{first} clean, roots too”, or what you see.\n"
        f"All-clear for {second}: “put {second} back”.\n"
        f"Then “all clean, with a lens”, or “{first} 3”."
    )
    assert asked.looks == names(reader, first, second)
    assert asked.lifts == names(reader, first)
    assert asked.ready == names(reader, second)
    assert asked.levels == {"lens"}
    assert asked.steps == ()


@pytest.mark.parametrize(
    "line",
    [
        "Sun off from 20:55.",
        "First soap on {0}: one leaf, and the rest after 1 to 2 days.",
        "Late: {0}; tonight still helps, about one treatment more.",
    ],
)
def test_what_asks_no_work_is_not_taken_for_work(reader: Reader, two: tuple[str, str], line: str) -> None:
    asked = reader.read(line.format(*two))
    assert (asked.steps, asked.looks, asked.ready) == ((), (), ())


def test_all_of_a_place_and_all_but_some_are_read(reader: Reader) -> None:
    home = reader.home
    room = home.plants[0].room
    there = [number for number, plant in enumerate(home.plants) if plant.room == room]
    place, last = home.rooms[room], home.plants[there[-1]].name
    assert reader.read(f"Wipe all {len(there)} at {place}, then soap.").steps == tuple(
        Step(one, ("wipe", "spray"), "soap") for one in there
    )
    assert reader.read(f"Wipe all but {last} at {place}.").steps == tuple(
        Step(one, ("wipe",)) for one in there[:-1]
    )
    assert len(reader.read(f"Look at all {len(home.plants)} plants with a lens.").looks) == len(home.plants)
