"""Pictures on the disk: whole or not at all, private, never unfolded to look at them."""

import io
import struct
import zlib
from datetime import timedelta
from pathlib import Path

import pytest
from PIL import Image

from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.database import Database
from bot.storage.photos import MOST_BYTES, MOST_TRIES, BadPictureError, PhotoFolder
from tests.storage.sample import NOW, found

HOME, PHOTO = HouseholdId(1), PhotoId(7)


def picture(kind: str = "JPEG") -> bytes:
    held = io.BytesIO()
    Image.new("RGB", (64, 48), (10, 120, 30)).save(held, kind)
    return held.getvalue()


def bomb() -> bytes:
    """A PNG of a few bytes that claims to be 9,000 by 9,000 (PNG specification, IHDR chunk)."""
    head = struct.pack(">IIBBBBB", 9_000, 9_000, 8, 2, 0, 0, 0)

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(("kind", "ending"), [("JPEG", ".jpg"), ("PNG", ".png"), ("WEBP", ".webp")])
def test_a_picture_is_kept_under_its_own_kind(tmp_path: Path, kind: str, ending: str) -> None:
    folder = PhotoFolder(tmp_path / "photos")
    folder.keep(HOME, PHOTO, picture(kind))
    file = tmp_path / "photos" / "1" / f"7{ending}"
    assert folder.read(HOME, PHOTO) == file.read_bytes() == picture(kind)
    assert oct(file.stat().st_mode & 0o777) == "0o600"
    assert oct(file.parent.stat().st_mode & 0o777) == "0o700"
    assert [one.name for one in file.parent.iterdir()] == [file.name]  # no half-written rest


@pytest.mark.parametrize(
    "content",
    [b"", b"not a picture", b"<svg/>", picture()[:20], b"GIF89a" + bytes(40), bomb(), bytes(MOST_BYTES + 1)],
)
def test_what_is_no_picture_to_keep_is_refused(tmp_path: Path, content: bytes) -> None:
    folder = PhotoFolder(tmp_path / "photos")
    with pytest.raises(BadPictureError):
        folder.keep(HOME, PHOTO, content)
    assert folder.read(HOME, PHOTO) is None


def test_a_household_is_forgotten_with_its_pictures(tmp_path: Path) -> None:
    folder = PhotoFolder(tmp_path / "photos")
    folder.keep(HOME, PHOTO, picture())
    folder.keep(HouseholdId(2), PHOTO, picture())
    folder.forget(HOME)
    folder.forget(HOME)
    assert folder.read(HOME, PHOTO) is None
    assert folder.read(HouseholdId(2), PHOTO) is not None


def test_wanted_pictures_come_until_they_are_kept_or_given_up(database: Database) -> None:
    home = found(database).household
    with database.unit() as store:
        first = store.new_photo(home, "one", "album", 42, NOW)
        second = store.new_photo(home, "two", "album", 42, NOW)
        assert store.photos_of_album(home, "album") == (first, second)
        assert store.count_photos(home) == 2
        assert [one.id for one in store.wanted_photos(NOW, 10)] == [first, second]
        store.photo_kept(first)
        (left,) = store.wanted_photos(NOW, 10)
        store.photo_later(left, NOW)
        assert store.wanted_photos(NOW + timedelta(seconds=29), 10) == ()
        assert [one.tries for one in store.wanted_photos(NOW + timedelta(seconds=30), 10)] == [1]
        later = NOW
        for _ in range(MOST_TRIES - 2):
            later += timedelta(days=1)
            (one,) = store.wanted_photos(later, 10)
            assert not one.is_last_try
            store.photo_later(one, later)
        (one,) = store.wanted_photos(later + timedelta(days=1), 10)
        assert one.is_last_try
        assert one.chat == 42
        store.photo_refused(one.id)
        assert store.wanted_photos(later + timedelta(days=9), 10) == ()
        assert store.lost_photos(home) == {second}
        assert store.count_photos(home) == 1  # a picture given up takes nobody's place


def test_a_clock_that_was_ahead_lets_no_picture_wait(database: Database) -> None:
    home = found(database).household
    with database.unit() as store:
        store.new_photo(home, "one", "", 42, NOW + timedelta(days=365))
        soon = store.new_photo(home, "two", "", 42, NOW + timedelta(minutes=1))
        store.free_photos(NOW)
        assert len(store.wanted_photos(NOW, 10)) == 1
        assert soon not in [one.id for one in store.wanted_photos(NOW, 10)]
