"""Values of our dataclasses as hypothesis strategies, by their annotations."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from bot.actions.action import ButtonText, Choice
from bot.actions.ask import Ask
from bot.actions.courtesy import Help
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_round import LogRound
from bot.actions.mix_batch import Mix
from bot.actions.undo import Undo

_INSTANTS = st.datetimes(timezones=st.just(UTC))
_FLOATS = st.floats(allow_nan=False, allow_infinity=False)
st.register_type_strategy(datetime, _INSTANTS)
st.register_type_strategy(float, _FLOATS)
st.register_type_strategy(Decimal, st.decimals(allow_nan=False, allow_infinity=False))


def _choices() -> st.SearchStrategy[Choice]:
    plain = st.one_of(*(st.from_type(cls) for cls in (LogRound, Ask, Mix, Undo, Help)))
    commands = st.lists(plain, max_size=3).map(tuple)
    return st.builds(Choice, st.sampled_from(ButtonText), commands, st.text(max_size=40))


def values_of(cls: type) -> st.SearchStrategy[Any]:
    """Any value of a payload or command class; with choices one level deep."""
    if "choices" not in cls.__annotations__:
        return st.from_type(cls)
    missing = {"missing": st.sampled_from(Missing)} if cls is Incomplete else {}
    return st.builds(cls, choices=st.lists(_choices(), max_size=3).map(tuple), **missing)
