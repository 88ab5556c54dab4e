"""Whatever was told, undo gives back the household as it was before."""

from datetime import UTC, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.desk import Desk
from bot.actions.hold import Hold
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import LosePlant
from bot.actions.move_plant import MovePlant
from bot.actions.perform import perform
from bot.actions.read_temperature import ReadTemperature
from bot.actions.release_plant import ReleasePlant
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.catalogue.load import load
from bot.domain.fold import fold
from bot.domain.identity import HouseholdId, PlaceId, PlantId
from bot.domain.trade import Level, Method, Sign
from bot.domain.window import Facing
from bot.storage.database import Database
from tests.journeys.talking import OWNER, START, Talk

KNOWLEDGE = load().knowledge
HOME = HouseholdId(1)
PLANTS = st.lists(st.integers(1, 5).map(PlantId), min_size=1, max_size=3, unique=True).map(tuple)
DAYS = st.one_of(st.none(), st.integers(0, 20).map(lambda back: START.date() - timedelta(days=back)))
COMMANDS: st.SearchStrategy[Command] = st.one_of(
    st.builds(LogRound, plants=PLANTS, method=st.sampled_from(Method), on=DAYS),
    st.builds(
        LogFind,
        plants=PLANTS,
        count=st.integers(1, 90),
        pest=st.sampled_from(sorted(KNOWLEDGE.pests)),
        on=DAYS,
    ),
    st.builds(LogCheck, plants=PLANTS, level=st.sampled_from(Level), on=DAYS),
    st.builds(LogSign, plants=PLANTS, sign=st.sampled_from(Sign), on=DAYS),
    st.builds(Isolate, PLANTS, DAYS, st.booleans()),
    st.builds(ReleasePlant, plants=PLANTS, on=DAYS, confirmed=st.just(value=True)),
    st.builds(MovePlant, PLANTS, st.integers(1, 3).map(PlaceId)),
    st.builds(LosePlant, PLANTS),
    st.just(Hold()),  # a return is not taken back: the bot would fall silent
    st.builds(StockProduct, ingredient=st.sampled_from(sorted(KNOWLEDGE.products))),
    st.builds(ReadTemperature, st.integers(1, 3).map(PlaceId), st.floats(10, 30)),
    st.builds(SetPlace, name=st.just("attic"), facing=st.sampled_from(Facing)),
    st.just(SetTown("Paris")),
    st.just(AddPlants((NewPlant(name="fern", place="attic"),))),
)


@settings(max_examples=15, deadline=None)
@given(st.lists(COMMANDS, min_size=1, max_size=5))
def test_undo_restores(told: list[Command]) -> None:
    with TemporaryDirectory() as folder:
        talk = Talk(Database("", Path(folder)))
        try:
            talk.set_up()
            for number, command in enumerate(told):
                _told_and_taken_back(talk, command, number)
        finally:
            talk.database.close()


def _told_and_taken_back(talk: Talk, command: Command, number: int) -> None:
    """Tell it, take it back and compare, then tell it again so that the next meets a fuller journal."""
    before = talk.entries()
    _perform(talk, command, f"told:{number}")
    if talk.entries() != before:
        _perform(talk, Undo(), f"undo:{number}")
        assert fold(talk.entries()) == fold(before)
        _perform(talk, command, f"again:{number}")


def _perform(talk: Talk, command: Command, source: str) -> None:
    with talk.database.unit() as store:
        member = store.member(OWNER, OWNER)
        assert member is not None
        perform(command, Desk(store, member, KNOWLEDGE, talk.now.astimezone(UTC), source))
