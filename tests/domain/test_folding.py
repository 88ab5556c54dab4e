"""A journal folded on entry by entry gives the household that it gives folded anew."""

from datetime import UTC, date, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.fold import Folded, fold, fold_on
from bot.domain.identity import EntryId, HouseholdId, MemberId, PlaceId, PlantId, ProductId
from bot.domain.journal import (
    CheckedClean,
    Entry,
    Found,
    Heard,
    HeldUntil,
    HouseholdSet,
    IsolatedNow,
    LostNow,
    Nudged,
    NudgedTask,
    Payload,
    PestCorrected,
    PlaceGone,
    PlaceSet,
    PlantRenamed,
    PlantSet,
    Postponed,
    ProductSet,
    ReleasedNow,
    SilenceAsked,
    TemperatureRead,
    Treated,
    Voided,
    WalkBegun,
    WalkEnded,
    WalkPassed,
    WorkBegun,
    WorkEnded,
    WorkTicked,
)
from bot.domain.trade import Grade, Level, Method
from bot.domain.window import Facing

START = datetime(2026, 3, 1, 9, tzinfo=UTC)
PLANTS = st.integers(1, 3).map(PlantId)
PLACES = st.integers(1, 3).map(PlaceId)
DAYS = st.integers(0, 9).map(lambda days: date(2026, 3, 1) + timedelta(days=days))
OF_A_PLANT: st.SearchStrategy[Payload] = st.one_of(
    st.builds(PlantSet, name=st.sampled_from(["ivy", "fern"]), place=PLACES),
    st.builds(PlantRenamed, st.sampled_from(["palm", "bay"])),
    st.builds(
        Found,
        pest=st.sampled_from(["thrips", "aphid"]),
        grade=st.sampled_from(Grade),
        count=st.none() | st.integers(1, 9),
    ),
    st.builds(CheckedClean, st.sampled_from(Level)),
    st.builds(Treated, method=st.sampled_from(Method), product=st.none() | st.just(ProductId(1))),
    st.builds(Postponed, on=DAYS),
    st.builds(IsolatedNow, apart=st.booleans(), quarantine_days=st.none() | st.just(14)),
    st.builds(ReleasedNow, by_rule=st.booleans()),
    st.just(LostNow()),
    st.builds(PestCorrected, st.sampled_from(["thrips", "aphid"])),
    st.just(WalkPassed()),
)
OF_THE_HOME: st.SearchStrategy[Payload] = st.one_of(
    st.builds(HouseholdSet, zone=st.none() | st.sampled_from(["Europe/Brussels", "Asia/Tokyo"])),
    st.builds(PlaceSet, place=PLACES, name=st.just("hall"), facing=st.none() | st.sampled_from(Facing)),
    st.builds(PlaceGone, place=PLACES),
    st.builds(TemperatureRead, place=PLACES, celsius=st.just(21.0)),
    st.builds(ProductSet, product=st.just(ProductId(1)), ingredient=st.just("soap")),
    st.builds(HeldUntil, st.none() | DAYS, is_own=st.booleans()),
    st.builds(WorkBegun, st.just((PlantId(1), PlantId(2)))),
    st.builds(WorkTicked, st.sampled_from(["wash", "wait"]), st.just((PlantId(1),))),
    st.just(WorkEnded()),
    st.builds(WalkBegun, st.just((PlantId(1), PlantId(2))), st.sampled_from(Level)),
    st.just(WalkEnded()),
)
SENT: st.SearchStrategy[Payload] = st.one_of(
    st.just(Heard()),
    st.just(SilenceAsked()),
    st.builds(
        Nudged,
        count=st.integers(1, 2),
        tasks=st.sampled_from([(), (NudgedTask(plant=PlantId(1), method=None, product=None),)]),
    ),
)
FIRST = (
    (PlantSet(name="ivy", place=PlaceId(1)), PlantId(1)),
    (PlaceSet(place=PlaceId(1), name="hall"), None),
)
TOLD = st.one_of(
    st.tuples(OF_A_PLANT, PLANTS),
    st.tuples(OF_THE_HOME | SENT, st.none()),
    st.tuples(st.just(Voided()), st.none()),
)


@st.composite
def journals(draw: st.DrawFn) -> list[list[Entry]]:
    """Give what was written message by message, some of it for earlier days and some to take back."""
    messages: list[list[Entry]] = []
    number = 0
    for day, told in enumerate([FIRST, *draw(st.lists(st.lists(TOLD, min_size=1, max_size=3), max_size=14))]):
        messages.append([])
        for payload, plant in told:
            number += 1
            back = timedelta(days=draw(st.sampled_from([0, 0, 0, 1, 5])))
            happened_at = START + timedelta(days=day, hours=draw(st.sampled_from([0, 0, 10]))) - back
            void_of = draw(st.integers(1, number - 1)) if isinstance(payload, Voided) else None
            is_ours = isinstance(payload, Nudged | Heard | SilenceAsked)
            messages[-1].append(
                Entry(
                    id=EntryId(number),
                    household=HouseholdId(1),
                    member=None if is_ours else MemberId(1),
                    plant=plant,
                    happened_at=happened_at,
                    happened_on=happened_at.date(),
                    recorded_at=START + timedelta(days=day),
                    source=f"update:{day}",
                    payload=payload,
                    void_of=None if void_of is None else EntryId(void_of),
                )
            )
    return messages


@settings(deadline=None)
@given(journals())
def test_folded_on_is_folded_anew(messages: list[list[Entry]]) -> None:
    folded, earlier = Folded(), []
    for message in messages:
        before, as_it_was = folded.household, fold(folded.entries)
        folded = fold_on((*folded.entries, *message), folded)
        assert folded.household == fold(folded.entries)
        assert before == as_it_was, "what was folded before stays as it was"
        earlier.append(folded)
    # a unit of work that failed leaves the longer journal behind: the shorter one is folded anew
    for one in earlier:
        assert fold_on(one.entries, folded).household == one.household
