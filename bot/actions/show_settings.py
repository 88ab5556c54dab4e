"""The household's preferences."""

from datetime import time

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk


class SettingsTold(Outcome, kw_only=True):
    town: str | None
    zone: str | None
    evening: time
    quiet_from: time
    quiet_until: time
    places: int
    plants: int


@answers(Topic.SETTINGS)
def show_settings(_: Ask, desk: Desk) -> SettingsTold:
    household = desk.household
    since, until = household.quiet_hours(desk.member.id)
    return SettingsTold(
        town=household.town,
        zone=household.zone_name if household.is_zone_told else None,
        evening=household.evening,
        quiet_from=since,
        quiet_until=until,
        places=len(household.places),
        plants=len(household.living),
    )
