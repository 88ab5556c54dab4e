"""Photos: with the plant they name, asked where they name none, shown as before and after."""

import io
from dataclasses import dataclass, field, replace
from datetime import date

import pytest
from PIL import Image

from bot.actions.incoming import Photo
from bot.actions.keep_photo import MOST_PHOTOS
from bot.domain.identity import HouseholdId, PhotoId
from bot.domain.journal import Found, PhotoTaken
from tests.journeys.talking import Talk
from tests.journeys.test_outbreak import live_until_released


def picture(colour: tuple[int, int, int], size: tuple[int, int] = (640, 480)) -> bytes:
    """Make a plain picture."""
    held = io.BytesIO()
    Image.new("RGB", size, colour).save(held, "JPEG")
    return held.getvalue()


@dataclass(frozen=True)
class Kept:
    """Pictures in memory."""

    pictures: dict[PhotoId, bytes] = field(default_factory=dict)

    def read(self, household: HouseholdId, photo: PhotoId) -> bytes | None:
        """Give a picture."""
        del household
        return self.pictures.get(photo)


@pytest.fixture
def kept(talk: Talk) -> Kept:
    """Let the conversation see pictures."""
    pictures = Kept()
    talk.conversation = replace(talk.conversation, photos=pictures)
    return pictures


def _photos(talk: Talk) -> list[str | None]:
    return [name for name, one in talk.told() if isinstance(one, PhotoTaken)]


def test_a_photo_goes_with_the_plant_under_it(talk: Talk) -> None:
    assert talk.send(Photo("file-1", "the hoya")) == ["Written: a photo of hoya."]
    assert talk.send(Photo("file-2", "Hoya")) == [
        "Written: a photo of hoya. That is photo 2 of it; “photos hoya” shows before and after."
    ]
    assert _photos(talk) == ["hoya", "hoya"]


def test_what_stands_under_a_photo_is_written_too(talk: Talk) -> None:
    (answer,) = talk.send(Photo("file-1", "hoya 12 longtailed mealybugs in the axils"))
    assert answer.startswith("Written: 12 longtailed mealybugs on hoya, in the axils.")
    assert answer.endswith("Written: a photo of hoya.")
    assert any(isinstance(one, Found) for _, one in talk.told())


def test_a_photo_of_nothing_named_asks_for_its_plant(talk: Talk) -> None:
    talk.say("ivy 8 spider mites")
    before = len(talk.entries())
    assert talk.send(Photo("file-1", "")) == ["Which plant is on the photo? Its name will do."]
    assert talk.labels() == ["ivy", "hoya", "small hoya", "moth orchid", "coffee plant"]
    assert talk.new_since(before) == []
    assert talk.say("the orchid") == ["Written: a photo of moth orchid."]
    assert talk.send(Photo("file-2", "look at this")) == ["Which plant is on the photo? Its name will do."]
    assert talk.press("ivy") == ["Written: a photo of ivy."]


def test_pictures_sent_together_go_with_the_plant_of_the_first(talk: Talk) -> None:
    talk.send(Photo("file-1", "ivy", "album-7"))
    assert talk.send(Photo("file-2", "", "album-7"))[0].startswith("Written: a photo of ivy. That is photo 2")
    assert talk.send(Photo("file-3", "", "album-8")) == ["Which plant is on the photo? Its name will do."]


def test_before_and_after_stand_side_by_side_with_their_days(talk: Talk, kept: Kept) -> None:
    talk.send(Photo("file-1", "hoya"))
    talk.say("hoya 12 longtailed mealybugs")
    talk.at(date(2026, 5, 3), 12)
    talk.send(Photo("file-2", "hoya"))
    talk.at(date(2026, 6, 7), 12)
    talk.send(Photo("file-3", "hoya"))
    numbers = [photo for _, photo in talk.home.plants[next(iter(talk.home.plants))].photos]
    kept.pictures.update(
        zip(
            numbers,
            (picture((0, 90, 0)), picture((200, 0, 0)), picture((0, 0, 200), (300, 600))),
            strict=True,
        )
    )
    # the case began on 2 May: of that day is the first photo, and the last is the newest
    assert talk.say("photos hoya") == [
        "hoya: Sat 2 May on the left, Sun 7 Jun on the right, 3 photos in all."
    ]
    drawn = talk.shown[1][-1].picture
    assert drawn is not None
    assert len(drawn.content) < 200_000
    with Image.open(io.BytesIO(drawn.content)) as image:
        assert image.size == (540 + 8 + 540, 44 + 1080)
        left, right = image.getpixel((270, 300)), image.getpixel((820, 600))
    assert isinstance(left, tuple)
    assert isinstance(right, tuple)
    assert left[1] > 60 > left[2]  # the first is green
    assert right[2] > 150 > right[1]  # the last is blue


def test_the_end_of_an_outbreak_shows_the_first_photo_beside_the_last(talk: Talk, kept: Kept) -> None:
    talk.set_up(
        ("study has no window", "study is 24 degrees", "usual", "ivy 4 spider mites", "isolate the ivy")
    )
    talk.send(Photo("file-1", "ivy"))
    live_until_released(talk, "ivy")
    talk.send(Photo("file-2", "ivy"))
    numbers = [photo for _, photo in next(one for one in talk.home.living if one.name == "ivy").photos]
    kept.pictures.update(zip(numbers, (picture((0, 90, 0)), picture((0, 0, 200))), strict=True))
    said = "\n".join(talk.say("put ivy back"))
    assert "Sat 2 May on the left" in said
    assert "Well done: over in " in said
    drawn = next(one.picture for one in reversed(talk.shown[1]) if one.picture is not None)
    with Image.open(io.BytesIO(drawn.content)) as image:
        left, right = image.getpixel((270, 300)), image.getpixel((820, 300))
    assert isinstance(left, tuple)
    assert isinstance(right, tuple)
    assert left[1] > 60 > left[2]  # the first is green
    assert right[2] > 150 > right[1]  # the last is blue


def test_photos_not_here_yet_and_none_at_all_are_said(talk: Talk) -> None:
    assert talk.say("photos") == ["No photos yet. Send one with the plant's name under it."]
    assert talk.say("photos of the ivy") == ["No photo of ivy yet. Send one with its name under it."]
    talk.send(Photo("file-1", "ivy"))
    assert talk.say("photos ivy") == ["The photos of ivy are still being fetched; ask again in a minute."]
    assert talk.shown[1][-1].picture is None


def test_a_photo_is_taken_back_and_given_to_another_plant(talk: Talk) -> None:
    talk.send(Photo("file-1", "hoya"))
    talk.say("that was the small hoya")
    assert _photos(talk) == ["small hoya"]
    talk.say("undo")
    assert _photos(talk) == ["hoya"]  # the correction is taken back, not what it corrected
    talk.say("undo")
    assert _photos(talk) == []


def test_past_the_most_no_photo_is_kept_and_what_was_told_stays(talk: Talk) -> None:
    with talk.database.unit() as store:
        for number in range(MOST_PHOTOS):
            store.new_photo(HouseholdId(1), f"file-{number}", "", 1, talk.now)
    (answer,) = talk.send(Photo("file-x", "hoya 12 longtailed mealybugs"))
    assert answer.startswith("Written")
    assert answer.endswith("I keep 500 photos of a home at most, so this one is not kept.")
    assert _photos(talk) == []


def test_a_caption_that_is_not_understood_still_keeps_the_photo(talk: Talk) -> None:
    assert talk.send(Photo("file-1", "hoya looks weird to me today")) == ["Written: a photo of hoya."]


def test_an_exposure_under_a_photo_comes_first(talk: Talk) -> None:
    (answer,) = talk.send(Photo("file-1", "the cat licked the sprayed hoya"))
    assert answer.startswith("Stop, get away from it")
