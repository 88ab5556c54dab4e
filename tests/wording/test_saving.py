"""What goes first, told plant by plant."""

from bot.actions.save_time import TimeSaved, Turn
from bot.domain.trade import Method
from bot.wording.working_out import time_saved


def test_a_plant_that_is_only_looked_at_has_its_line() -> None:
    told = TimeSaved(
        minutes=20,
        now=(Turn("hoya", (Method.WIPE, Method.SPRAY), 11), Turn("ivy", (None,), 2)),
        later=(),
        given_up=(),
        sorts={},
        hours_a_week=0.0,
        hours_saved=0.0,
    )
    assert time_saved(told).splitlines() == [
        "First, about 13 min:",
        "1 hoya: wipe, then spray, 11 min",
        "2 ivy: look, 2 min",
    ]
