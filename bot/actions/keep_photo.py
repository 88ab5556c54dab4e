"""Photos of plants: kept beside the journal, shown as before and after."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.domain.identity import PhotoId, PlantId
from bot.domain.journal import PhotoTaken


class KeepPhoto(Command):
    """A photo and the plants it shows; without plants they are asked."""

    photo: PhotoId
    plants: tuple[PlantId, ...] = ()


class RefusePhoto(Command):
    """A photo past the most that a household may keep."""

    most: int


class PhotoKept(Outcome):
    """A photo goes with plants; how many there are of the first now."""

    plants: tuple[str, ...]
    count: int


class TooManyPhotos(Outcome):
    """The household keeps as many photos as it may."""

    most: int


MOST_PHOTOS = 500
"""Photos of one household. Judgement: two a plant and week for a long outbreak."""


MOST_OFFERED = 8


def receive_photo(file_id: str, album: str, desk: Desk) -> PhotoId | TooManyPhotos:
    """Note that a photo is to be fetched; the picture itself comes later and outlives a restart."""
    household = desk.member.household
    if desk.store.count_photos(household) >= MOST_PHOTOS:
        return TooManyPhotos(MOST_PHOTOS)
    return desk.store.new_photo(household, file_id, album, desk.member.chat, desk.now)


def plants_of_album(album: str, desk: Desk) -> tuple[PlantId, ...]:
    """Give the plants an earlier picture of the same album was told to show."""
    if not album:
        return ()
    photos = set(desk.store.photos_of_album(desk.member.household, album))
    return tuple(
        plant.id for plant in desk.household.living if any(photo in photos for _, photo in plant.photos)
    )


@performs
def refuse_photo(command: RefusePhoto) -> TooManyPhotos:
    return TooManyPhotos(command.most)


@performs
def keep_photo(command: KeepPhoto, desk: Desk) -> PhotoKept | Asks:
    """Say which plants a photo shows, or ask."""
    if not command.plants:
        offered = _likely(desk)[:MOST_OFFERED]
        choices = tuple(
            Choice(ButtonText.NAMED, (KeepPhoto(command.photo, (plant,)),), desk.plant(plant).name)
            for plant in offered
        )
        return Asks(Missing.SHOWN, asking=Asking(choices))
    drafts = [desk.draft(PhotoTaken(command.photo), plant=plant) for plant in command.plants]
    desk.write(drafts)
    return PhotoKept(desk.names(command.plants), len(desk.plant(command.plants[0]).photos))


def _likely(desk: Desk) -> list[PlantId]:
    """Give the plants by how likely somebody photographs them: tonight's, those with a case, the rest."""
    tonight = [line.plant for line, _ in desk.evening.named(desk.now) if line.plant is not None]
    cases = [plant.id for plant in desk.household.living if plant.open_cases]
    return list(dict.fromkeys((*tonight, *cases, *(plant.id for plant in desk.household.living))))
