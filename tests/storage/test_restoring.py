"""A copy takes the place of the database, or is refused with the live file as it was; nothing replaced is lost."""

import gzip
import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.database import FILE_NAME, Database
from bot.storage.locking import running
from bot.storage.photos import PhotoFolder
from bot.storage.restoring import ASIDE_KEPT
from tests.journeys.test_photos import picture
from tests.storage.sample import NOW
from tests.storage.test_left_by_0_4_0 import LEFT
from tests.tools.accounts import as_account

Say = Callable[..., tuple[int, str]]


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "data"))
    return tmp_path / "data"


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str]) -> Say:
    def run(*words: str) -> tuple[int, str]:
        code = main([*words])
        said = capsys.readouterr()
        return code, (said.out + said.err).strip()

    return run


def founded(data: Path, *people: int) -> list[HouseholdId]:
    database = Database("", data)
    with database.unit() as store:
        homes = [store.found_household(person, person, f"N{person}", NOW).household for person in people]
    database.close()
    return homes


def homes(data: Path) -> set[int]:
    with closing(sqlite3.connect(data / FILE_NAME)) as connection:
        return {row[0] for row in connection.execute("SELECT id FROM household")}


def state(folder: Path) -> dict[str, str]:
    """Give every file of a folder with a digest of what is in it."""
    files = (file for file in folder.rglob("*") if file.is_file())
    return {str(file): hashlib.sha256(file.read_bytes()).hexdigest() for file in files}


def foreign(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE notes (text TEXT)")


def newer(file: Path) -> None:
    Database(f"sqlite:///{file}", file.parent).close()
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")


def of_another_bot(file: Path) -> None:
    Database(f"sqlite:///{file}", file.parent).close()


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (foreign, "is no database of Duskround"),
        (newer, "it was written by a newer version"),
        (of_another_bot, "is of another bot's database"),
        (lambda file: file.write_bytes(b"SQLite format 3\0" + bytes(5000)), "is damaged or no database"),
        (lambda file: file.mkdir(), "there is no copy at"),
    ],
)
def test_what_does_not_belong_here_is_refused_before_anything_is_touched(
    data: Path, tmp_path: Path, command: Say, make: Callable[[Path], object], why: str
) -> None:
    founded(data, 1)
    PhotoFolder(data / "photos").keep(HouseholdId(1), PhotoId(1), picture((1, 2, 3)))
    (tmp_path / "other").mkdir()
    make(tmp_path / "other" / "copy.sqlite")
    with running(data, data / FILE_NAME):
        before = state(data)
    code, said = command("restore", str(tmp_path / "other" / "copy.sqlite"))
    assert code == 1
    assert said.startswith("no restore: ")
    assert why in said
    assert "\n" not in said
    assert state(data) == before


def test_a_copy_moves_to_an_empty_folder(data: Path, command: Say, monkeypatch: pytest.MonkeyPatch) -> None:
    founded(data, 1)
    _, copy = command("backup")
    monkeypatch.setenv("DUSKROUND_DATA", str(data.parent / "new"))
    assert command("restore", copy) == (0, f"restored {copy}: 1 households")
    assert homes(data.parent / "new") == {1}
    _, again = command("backup")
    assert command("restore", again)[0] == 0


def test_a_home_founded_after_a_restore_never_gets_the_fate_of_an_erased_one(
    data: Path, command: Say
) -> None:
    first, erased = founded(data, 1, 2)
    _, copy = command("backup")
    database = Database("", data)
    with database.unit() as store:
        store.forget_household(erased)
    database.close()
    assert "; 1 erasures done again" in command("restore", copy)[1]
    assert homes(data) == {first}
    (innocent,) = founded(data, 3)
    assert innocent != erased
    _, later = command("backup")
    assert command("restore", later)[0] == 0
    assert homes(data) == {first, innocent}
    assert "; 1 erasures done again" in command("restore", copy)[1]


def test_numbers_go_on_beyond_those_of_the_days_that_were_replaced(data: Path, command: Say) -> None:
    (home,) = founded(data, 1)
    _, copy = command("backup")
    database = Database("", data)
    with database.unit() as store:
        last = max(store.new_plant(home) for _ in range(50))
    database.close()
    command("restore", copy)
    database = Database("", data)
    with database.unit() as store:
        assert store.new_plant(home) > last
    database.close()


def left_by_0_4_0(file: Path) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    with gzip.open(LEFT / "home.sqlite.gz") as left, file.open("wb") as copy:
        shutil.copyfileobj(left, copy)
    return file


def test_a_copy_of_version_0_4_comes_back_and_is_of_this_database(data: Path, command: Say) -> None:
    founded(data, 1)
    _, newest = command("backup")
    old = left_by_0_4_0(data / "backups" / "duskround-20260622T182000Z.sqlite")
    assert command("restore", str(old))[0] == 0
    assert command("restore", newest)[0] == 0


def test_what_version_0_4_erased_is_erased_again_but_nobody_who_lives_here(data: Path, command: Say) -> None:
    """That version noted numbers alone, and after its restore gave an erased home's number to a new one."""
    old = left_by_0_4_0(data / "backups" / "duskround-20260622T182000Z.sqlite")
    data.joinpath("erased.jsonl").write_text('{"household": 1}\n', "utf-8")
    assert "1 erasures done again" in command("restore", str(old))[1]
    assert homes(data) == set()
    data.joinpath(FILE_NAME).unlink()
    founded(data, 1)
    assert "1 households; what was there" in command("restore", str(old))[1]
    assert homes(data) == {1}


def test_photos_that_are_replaced_are_kept_aside_and_those_that_belong_come_back(
    data: Path, command: Say
) -> None:
    (home,) = founded(data, 1)
    folder = PhotoFolder(data / "photos")
    database = Database("", data)
    with database.unit() as store:
        first, second = (store.new_photo(home, name, "", 1, NOW) for name in ("a", "b"))
        store.photo_kept(first)
        store.photo_kept(second)
    folder.keep(home, first, picture((1, 1, 1)))
    copy = database.back_up(NOW)
    folder.keep(home, second, picture((2, 2, 2)))  # kept after the copy was made, though its row is in it
    with database.unit() as store:
        newcomer = store.found_household(2, 2, "B", NOW).household
    folder.keep(newcomer, PhotoId(9), picture((3, 3, 3)))
    database.close()
    folder.forget(HouseholdId(home))
    folder.keep(home, second, picture((2, 2, 2)))
    code, said = command("restore", str(copy))
    assert code == 0
    assert "photos are not beside it" not in said
    assert folder.read(home, first) == picture((1, 1, 1))  # from beside the copy
    assert folder.read(home, second) == picture((2, 2, 2))  # from here
    assert folder.read(newcomer, PhotoId(9)) is None
    (aside,) = data.glob("photos-before-*")
    assert PhotoFolder(aside).read(newcomer, PhotoId(9)) == picture((3, 3, 3))


def test_a_photo_that_is_nowhere_is_told(data: Path, command: Say) -> None:
    (home,) = founded(data, 1)
    database = Database("", data)
    with database.unit() as store:
        store.photo_kept(store.new_photo(home, "a", "", 1, NOW))
    copy = database.back_up(NOW)
    database.close()
    assert "; 1 photos are not beside it" in command("restore", str(copy))[1]


def test_what_was_put_aside_can_itself_be_restored_and_goes_after_two_weeks(data: Path, command: Say) -> None:
    founded(data, 1)
    _, copy = command("backup")
    founded(data, 2)
    PhotoFolder(data / "photos").keep(HouseholdId(2), PhotoId(1), picture((1, 2, 3)))
    _, said = command("restore", copy)
    assert homes(data) == {1}
    aside = said.rpartition(" is now ")[2]
    assert command("restore", aside)[0] == 0
    assert homes(data) == {1, 2}
    database = Database("", data)
    database.tidy(datetime.now(UTC) + ASIDE_KEPT - timedelta(minutes=1))  # noqa: TID251 - restores are dated by the machine
    assert len([*data.glob("*-before-*")]) == 3
    database.tidy(datetime.now(UTC) + ASIDE_KEPT + timedelta(minutes=1))  # noqa: TID251 - as above
    assert [*data.glob("*-before-*")] == []
    database.close()
    assert homes(data) == {1, 2}


def test_a_log_that_was_not_written_back_is_restored_too(data: Path, tmp_path: Path, command: Say) -> None:
    """Somebody copied file and log by hand while the bot ran."""
    database = Database("", data)
    with database.unit() as store:
        store.found_household(1, 1, "A", NOW)
    (tmp_path / "mine").mkdir()
    for ending in ("", "-wal"):
        shutil.copyfile(data / f"{FILE_NAME}{ending}", tmp_path / "mine" / f"copy{ending}")
    database.close()
    assert command("restore", str(tmp_path / "mine" / "copy"))[0] == 0
    assert homes(data) == {1}


def test_a_database_outside_the_data_folder_is_copied_and_locked_like_one_inside(
    data: Path, tmp_path: Path, command: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "elsewhere" / "plants.sqlite"
    monkeypatch.setenv("DUSKROUND_DATABASE_URL", f"sqlite:///{file}")
    database = Database(f"sqlite:///{file}", data)
    with database.unit() as store:
        home = store.found_household(1, 1, "A", NOW).household
        photo = store.new_photo(home, "a", "", 1, NOW)
        store.photo_kept(photo)
    PhotoFolder(data / "photos").keep(home, photo, picture((9, 9, 9)))
    database.close()
    _, copy = command("backup")
    assert PhotoFolder(Path(copy).with_suffix(".photos")).read(home, photo) == picture((9, 9, 9))
    shutil.rmtree(data / "photos")
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "third"))
    with running(data, file):
        code, said = command("restore", copy)
        assert (code, said) == (1, f"no restore: a bot is running on {file.parent}: stop it first")
    monkeypatch.setenv("DUSKROUND_DATA", str(data))
    assert command("restore", copy)[0] == 0
    assert PhotoFolder(data / "photos").read(home, photo) == picture((9, 9, 9))
    assert len([*file.parent.glob("plants-before-*.sqlite")]) == 1


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can act for a service")
def test_what_root_does_in_a_service_s_folder_belongs_to_the_service(data: Path, command: Say) -> None:
    founded(data, 1)
    PhotoFolder(data / "photos").keep(HouseholdId(1), PhotoId(1), picture((1, 2, 3)))
    service = 65_534
    for path in (data, *data.rglob("*")):
        os.chown(path, service, service)
    (data / "duskround.lock").unlink(missing_ok=True)
    _, copy = command("backup")
    assert command("restore", copy)[0] == 0
    command("selftest")
    assert {path.stat().st_uid for path in (data, *data.rglob("*"))} == {service}
    for folder in data.parents[:-2]:
        folder.chmod(folder.stat().st_mode | 0o011)
    opened = (
        "import sqlite3, sys; c = sqlite3.connect(sys.argv[1]);"
        "c.execute('UPDATE household SET next_evening_at = NULL'); c.commit(); open(sys.argv[2], 'r+')"
    )
    files = [str(data / FILE_NAME), str(data / "duskround.lock")]
    subprocess.run([*as_account(service), sys.executable, "-I", "-c", opened, *files], check=True, cwd="/")


def test_the_copies_made_by_hand_are_named_with_their_date(
    data: Path, command: Say, caplog: pytest.LogCaptureFixture
) -> None:
    (home,) = founded(data, 1)
    _, copy = command("backup")
    _, said = command("selftest")
    assert f"UTC, nobody drops it: {copy}" in said
    database = Database("", data)
    with database.unit() as store:
        store.forget_household(home)
    database.close()
    assert "not from the copies made by hand: 20" in caplog.text
    assert set(json.loads((data / "erased.jsonl").read_text("utf-8"))) == {"tag"}


class StoppedError(Exception):
    """The process ends here."""


def stopping(monkeypatch: pytest.MonkeyPatch, after: int) -> list[str]:
    """Let the so-manieth change of a name on the disk be the last thing that does not happen."""
    done: list[str] = []

    def until(name: str, real: Callable[..., object]) -> Callable[..., object]:
        def change(*words: object, **more: object) -> object:
            if len(done) >= after:
                raise StoppedError
            done.append(name)
            return real(*words, **more)

        return change

    for where, names in ((Path, ("replace", "rename", "unlink", "mkdir")), (os, ("link",))):
        for name in names:
            monkeypatch.setattr(where, name, until(name, getattr(where, name)))
    return done


def test_a_stop_at_any_moment_leaves_the_old_home_or_the_new_one_with_every_photo(
    data: Path, tmp_path: Path, command: Say
) -> None:
    """Worked through step by step: whatever a restore does not get to, nothing that was there is lost."""
    (first,) = founded(data, 1)
    database = Database("", data)
    with database.unit() as store:
        photo = store.new_photo(first, "a", "", 1, NOW)
        store.photo_kept(photo)
    database.photos.keep(first, photo, picture((1, 1, 1)))
    copy = database.back_up(NOW)
    database.close()
    (second,) = founded(data, 2)
    PhotoFolder(data / "photos").keep(second, PhotoId(9), picture((2, 2, 2)))
    begun = tmp_path / "begun"
    shutil.copytree(data, begun)
    steps, seen = 0, set()
    while True:
        shutil.rmtree(data)
        shutil.copytree(begun, data)
        with pytest.MonkeyPatch.context() as patch:
            done = stopping(patch, steps)
            try:
                code, _ = command("restore", str(copy))
            except StoppedError:
                code = -1
        held = homes(data)
        assert held in ({first}, {first, second}), done
        seen.add(frozenset(held))
        pictures = {file.read_bytes() for file in data.rglob("*.jpg")}
        assert pictures == {picture((1, 1, 1)), picture((2, 2, 2))}, done
        if code == 0:
            break
        with pytest.MonkeyPatch.context() as patch:
            assert command("restore", str(copy))[0] == 0, done  # the next try finds nothing in its way
        assert homes(data) == {first}
        steps += 1
    assert steps > 5
    assert seen == {frozenset({first}), frozenset({first, second})}
