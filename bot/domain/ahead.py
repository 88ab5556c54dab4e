"""The plan played on to its end: the evenings to come if all is done as asked and every look finds none."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from bot.domain.agenda import Evening, plan
from bot.domain.fold import Folded, fold_on
from bot.domain.identity import EntryId, HouseholdId, PlantId
from bot.domain.journal import CheckedClean, Entry, Payload, ReleasedNow, Treated
from bot.domain.knowledge import Knowledge
from bot.domain.tonight import tonight
from bot.domain.trade import Level

MOST_DAYS = 180
"""No evening further off is told: by then it has changed many times. Judgement. [d]"""


def ahead(journal: Folded, knowledge: Knowledge, today: date) -> Iterator[Evening]:
    """Give the evenings to come, each planned anew from what the one before would have brought."""
    last = today + timedelta(days=MOST_DAYS)
    while True:
        home = journal.household
        agenda = plan(home, knowledge, today)
        evening = next(iter(agenda.evenings), None)
        if evening is None or evening.on > last:
            return
        yield evening
        at = datetime.combine(evening.on, home.evening, home.zone)
        looks = tonight(home, knowledge, agenda, at).looks
        told: tuple[tuple[PlantId | None, Payload], ...] = (
            *(
                (one.plant, Treated(method=one.method, product=one.product))
                for one in evening.tasks
                if one.method
            ),
            *((one.plant, CheckedClean(one.level or Level.PLAIN)) for one in looks),
            *((plant, ReleasedNow(by_rule=True)) for plant in agenda.ready),
        )
        number = journal.entries[-1].id
        new = tuple(
            Entry(
                id=EntryId(number + count),
                household=HouseholdId(0),
                member=None,
                plant=plant,
                happened_at=at,
                happened_on=evening.on,
                recorded_at=at,
                source="ahead",
                payload=payload,
                void_of=None,
            )
            for count, (plant, payload) in enumerate(told, 1)
        )
        journal = fold_on(journal.entries + new, journal)
        today = evening.on + timedelta(days=1)
