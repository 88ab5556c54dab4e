"""Pictures on the disk, and the rows that say which are still to be fetched."""

import os
from collections.abc import Container
from datetime import datetime, timedelta
from pathlib import Path

import sqlalchemy as sa
from sqlalchemy import bindparam

from bot.domain.identity import HouseholdId, PhotoId
from bot.domain.value import Value
from bot.storage.prepared import inserted
from bot.storage.tables import UtcDateTime, photo

MOST_BYTES = 10_000_000
"""The platform keeps photos below this. [B]"""
MOST_PIXELS = 50_000_000
"""A picture that would unfold to more is refused unopened. Judgement: 50 megapixels. [1]"""
MOST_TRIES = 8
_FIRST_WAIT = timedelta(seconds=30)
_LONGEST_WAIT = _FIRST_WAIT * 2**MOST_TRIES
KINDS = {"JPEG": ".jpg", "PNG": ".png", "WEBP": ".webp"}

_HOUSEHOLD = bindparam("of_household", type_=sa.BigInteger)
_WANTED = (
    sa.select(photo.c.id, photo.c.household, photo.c.file_id, photo.c.tries, photo.c.chat)
    .where(sa.text("photo.state = 'wanted'"), photo.c.not_before <= bindparam("now", type_=UtcDateTime))
    .order_by(photo.c.id)
    .limit(bindparam("at_most", type_=sa.Integer))
)
_COUNT = sa.select(sa.func.count()).where(photo.c.household == _HOUSEHOLD, photo.c.state != "refused")
_LOST = sa.select(photo.c.id).where(photo.c.household == _HOUSEHOLD, photo.c.state == "refused")
_COUNT_WANTED = sa.select(sa.func.count()).select_from(photo).where(sa.text("photo.state = 'wanted'"))
_OF_ALBUM = sa.select(photo.c.id).where(
    photo.c.household == _HOUSEHOLD, photo.c.album == bindparam("of_album", type_=sa.Text)
)


class BadPictureError(Exception):
    """What came is no picture that can be kept; the text says why and carries nothing of its content."""


class WantedPhoto(Value):
    """A picture that is still to be fetched."""

    id: PhotoId
    household: HouseholdId
    file_id: str
    tries: int
    chat: int | None
    """Where it came from; none for one of an earlier version."""

    @property
    def is_last_try(self) -> bool:
        """Whether it is given up if it cannot be fetched this time."""
        return self.tries + 1 >= MOST_TRIES


class PhotoRows:
    """The rows of pictures, within one unit of work."""

    _connection: sa.Connection

    def new_photo(
        self, household: HouseholdId, file_id: str, album: str, chat: int, now: datetime
    ) -> PhotoId:
        """Note a picture that is to be fetched from the platform, and the chat it came from."""
        row = {
            "household": household,
            "file_id": file_id,
            "album": album,
            "chat": chat,
            "state": "wanted",
            "tries": 0,
            "sent_at": now,
            "not_before": now,
        }
        return PhotoId(inserted(self._connection, photo, row))

    def count_photos(self, household: HouseholdId) -> int:
        return self._connection.execute(_COUNT, {"of_household": household}).scalar_one()

    def lost_photos(self, household: HouseholdId) -> frozenset[PhotoId]:
        """Give the pictures that could not be kept."""
        return frozenset(self._connection.execute(_LOST, {"of_household": household}).scalars().all())

    def photos_of_album(self, household: HouseholdId, album: str) -> tuple[PhotoId, ...]:
        """Give the pictures that were sent together."""
        return tuple(
            self._connection.execute(_OF_ALBUM, {"of_household": household, "of_album": album}).scalars()
        )

    def wanted_photos(self, now: datetime, limit: int) -> tuple[WantedPhoto, ...]:
        """Give pictures whose turn to be fetched has come, oldest first."""
        rows = self._connection.execute(_WANTED, {"now": now, "at_most": limit})
        return tuple(WantedPhoto(*row) for row in rows)

    def count_wanted(self) -> int:
        return self._connection.execute(_COUNT_WANTED).scalar_one()

    def photo_kept(self, number: PhotoId) -> None:
        self._set(number, state="kept")

    def photo_refused(self, number: PhotoId) -> None:
        """Note that a picture cannot be kept, ever."""
        self._set(number, state="refused")

    def photo_later(self, one: WantedPhoto, now: datetime) -> None:
        """Put a picture off, each time twice as long."""
        self._set(one.id, tries=one.tries + 1, not_before=now + _FIRST_WAIT * 2**one.tries)

    def free_photos(self, now: datetime) -> None:
        """Let none wait longer than any is made to: the clock it waits by was ahead."""
        waits = sa.update(photo).where(
            sa.text("photo.state = 'wanted'"), photo.c.not_before > now + _LONGEST_WAIT
        )
        self._connection.execute(waits.values(not_before=now))

    def _set(self, number: PhotoId, **values: object) -> None:
        self._connection.execute(sa.update(photo).where(photo.c.id == number).values(**values))


class PhotoFolder:
    """The folder of pictures: one folder a household, one file a picture, for their owner alone."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def read(self, household: HouseholdId, photo: PhotoId) -> bytes | None:
        """Give a picture, None where it has not come yet or could not be kept."""
        for ending in KINDS.values():
            file = self._file(household, photo, ending)
            if file.is_file():
                return file.read_bytes()
        return None

    def keep(self, household: HouseholdId, photo: PhotoId, content: bytes) -> None:
        """
        Write a picture so that it is there whole or not at all.

        BadPictureError where it is too large, too large when unfolded, or no picture of a known kind.
        """
        target = self._file(household, photo, picture_ending(content))
        target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        draft = target.with_suffix(".part")
        draft.unlink(missing_ok=True)
        descriptor = os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(descriptor)
        draft.replace(target)

    def forget(self, household: HouseholdId) -> None:
        folder = self._folder / str(household)
        for file in folder.glob("*"):
            file.unlink(missing_ok=True)
        if folder.is_dir():
            folder.rmdir()

    def sweep(self, homes: Container[int]) -> None:
        """Delete the pictures of households that are no more, and what a stop left half written."""
        for folder in self._folder.glob("*"):
            if folder.name.isdigit() and int(folder.name) not in homes:
                self.forget(HouseholdId(int(folder.name)))
        for draft in self._folder.glob("*/*.part"):
            draft.unlink(missing_ok=True)

    def _file(self, household: HouseholdId, photo: PhotoId, ending: str) -> Path:
        return self._folder / str(household) / f"{photo}{ending}"


def picture_ending(content: bytes) -> str:
    """Give the file ending of a picture by its own head; only the head is read, so that nothing unfolds."""
    import io  # noqa: PLC0415 - with Pillow, on demand
    import warnings  # noqa: PLC0415

    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415

    if len(content) > MOST_BYTES:
        raise BadPictureError(f"{len(content)} bytes, more than {MOST_BYTES}")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content), formats=list(KINDS)) as picture:
                kind, (width, height) = str(picture.format), picture.size
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        raise BadPictureError(f"no picture ({type(error).__name__})") from error
    if width * height > MOST_PIXELS:
        raise BadPictureError(f"{width} x {height} pixels, more than {MOST_PIXELS} in all")
    return KINDS[kind]
