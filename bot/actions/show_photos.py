"""A plant before and after."""

from datetime import date

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk


class PhotosShown(Outcome, kw_only=True):
    """A plant before and after: the days of two photos and their bytes, None where they are not here yet."""

    plant: str
    before_on: date
    after_on: date
    before: bytes | None
    after: bytes | None
    count: int


class NoPhotos(Outcome):
    plant: str | None


@answers(Topic.PHOTOS)
def show_photos(command: Ask, desk: Desk) -> PhotosShown | NoPhotos:
    """Give the first photo since the case began, or of all, and the last one."""
    asked = [desk.plant(plant) for plant in command.plants] or desk.household.living
    household = desk.member.household
    lost = desk.store.lost_photos(household)
    shown = {plant.id: sorted(one for one in plant.photos if one[1] not in lost) for plant in asked}
    if not any(shown.values()):
        return NoPhotos(asked[0].name if command.plants else None)
    plant = max((one for one in asked if shown[one.id]), key=lambda one: shown[one.id][-1][0])
    photos = shown[plant.id]
    opened_on = min((case.opened_on for case in plant.open_cases), default=photos[0][0])
    first = next((one for one in photos if one[0] >= opened_on), photos[0])
    last = photos[-1]
    return PhotosShown(
        plant=plant.name,
        before_on=first[0],
        after_on=last[0],
        before=desk.photos.read(household, first[1]),
        after=desk.photos.read(household, last[1]),
        count=len(photos),
    )
