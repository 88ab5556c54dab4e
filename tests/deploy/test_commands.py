"""The container file's own commands, run as its account on a copy of the folders it copies: no daemon is needed."""

import json
import os
import re
import shutil
import stat
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.domain.identity import HouseholdId
from bot.storage.database import FILE_NAME, Database
from tests.journeys.talking import START, Talk
from tests.journeys.test_photos import picture
from tests.tools.accounts import as_account

ROOT = Path(__file__).parent.parent.parent
FILE = (ROOT / "deploy" / "Containerfile").read_text("utf-8")
LAST_STAGE = FILE[FILE.rindex("FROM ") :]
IS_ROOT = os.geteuid() == 0
PYTHON = "/opt/duskround/bin/python"


def words(instruction: str) -> list[str]:
    """Give the words of an instruction in its exec form."""
    found = re.search(rf"{instruction} (\[.+\])$", LAST_STAGE, re.MULTILINE)
    assert found is not None
    told: list[str] = json.loads(found[1])
    assert told[0] == PYTHON
    return told[1:]


def account() -> int:
    found = re.search(r"^USER (\d+):\1$", LAST_STAGE, re.MULTILINE)
    assert found is not None
    return int(found[1])


class Container:
    """What would be in it: the installed files, the volume, the account, and nothing of this checkout."""

    def __init__(self, folder: Path) -> None:
        self.site, self.data, self.tmp = folder / "site", folder / "data", folder / "tmp"
        install(self.site)
        self.data.mkdir(mode=0o700)
        self.tmp.mkdir()
        self.tmp.chmod(0o1777)
        environment = re.search(r"^ENV ((?:.+\\\n)*.+)$", LAST_STAGE, re.MULTILINE)
        assert environment is not None
        told = dict(pair.split("=", 1) for pair in environment[1].replace("\\\n", " ").split())
        self.environment = {
            "PATH": "/usr/bin:/bin",
            **{name: value.replace("/data", str(self.data)) for name, value in told.items()},
            "PYTHONPATH": str(self.site),
            "MPLCONFIGDIR": str(self.tmp),
        }
        assert self.environment["DUSKROUND_DATA"] == str(self.data)
        self.own()

    def own(self) -> None:
        """Give the volume to the account, as a new volume of the image is."""
        for path in (self.data, *self.data.rglob("*")) if IS_ROOT else ():
            os.chown(path, account(), account())

    def run(
        self, *more: str, told: str = "", instruction: str = "ENTRYPOINT"
    ) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, *words(instruction), *more]
        prefix = as_account(account()) if IS_ROOT else []
        # a runtime hands the account its standard input as its own; a pipe of root's it could not open by name
        prefix += ["sh", "-c", 'cat | "$@"', "sh"]
        return subprocess.run(
            [*prefix, *command],
            env=self.environment,
            cwd=self.data,
            input=told,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )


def install(site: Path) -> None:
    """Copy what the container file copies and the project's build would install: a file forgotten there is missing here."""
    copied = re.findall(r"^COPY (?!--from)(.+) \S+$", FILE, re.MULTILINE)
    sources = {source for line in copied for source in line.split()}
    assert sources >= {"pyproject.toml", "bot", "demo"}
    assert all((ROOT / source).exists() for source in sources)
    tools = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]
    for package, globs in tools["package-data"].items():
        for pattern in globs:
            for file in (ROOT / package).glob(pattern):
                _copy(file, site)
    for package in ("bot", "demo"):
        for init in (ROOT / package).rglob("__init__.py"):
            for file in init.parent.glob("*.py"):
                _copy(file, site)


def _copy(file: Path, site: Path) -> None:
    target = site / file.relative_to(ROOT)
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(file, target)


@pytest.fixture
def container() -> Iterator[Container]:
    # not in pytest's folder: any run makes that its owner's alone, and here another account works
    with tempfile.TemporaryDirectory(prefix="duskround-container-") as folder:
        Path(folder).chmod(0o755)
        yield from _used(Container(Path(folder)))


def _used(made: Container) -> Iterator[Container]:
    database = Database("", made.data)
    Talk(database).set_up()
    with database.unit() as store:
        photo = store.new_photo(HouseholdId(1), "file", "", 1, START)
        store.photo_kept(photo)
    database.photos.keep(HouseholdId(1), photo, picture((0, 120, 0)))
    database.close()
    made.own()
    yield made
    owners = {path.stat().st_uid for path in (made.data, *made.data.rglob("*"))}
    assert owners == {account() if IS_ROOT else os.geteuid()}
    open_to_others = [
        path for path in made.data.rglob("*") if stat.S_IMODE(path.stat().st_mode) & 0o077 and path.is_file()
    ]
    assert open_to_others == []


def test_every_command_works_on_the_volume(container: Container) -> None:
    backup = container.run("backup")
    assert backup.returncode == 0, backup.stderr
    copy = backup.stdout.strip()
    assert Path(copy).parent == container.data / "backups" / "by-hand"
    exported = container.run("export")
    assert exported.returncode == 0, exported.stderr
    assert "content" in json.loads(exported.stdout)[0]["photos"][0]
    assert container.run("rebuild").stdout == "derived anew for 1 households\n"
    restored = container.run("restore", copy)
    assert restored.returncode == 0, restored.stderr
    assert restored.stdout.startswith(f"restored {copy}: 1 households; what was there is now ")
    twice = container.run("import", "/dev/stdin", told=exported.stdout)
    assert (twice.returncode, twice.stderr) == (1, "no import: this household is here already, as number 1\n")
    (container.data / FILE_NAME).unlink()
    moved = container.run("import", "/dev/stdin", told=exported.stdout)
    assert (moved.stderr, moved.stdout) == ("", "imported 1 households: 1\n")
    tested = container.run("selftest")
    assert "ok  database" in tested.stdout
    assert f"nobody drops it: {copy}" in tested.stdout
    assert container.run("understand", told="done\n").stdout.startswith("done\t")


def test_without_a_token_it_says_how_to_get_one(container: Container) -> None:
    begun = container.run()
    assert begun.returncode == 2
    assert "DUSKROUND_TOKEN" in begun.stderr


def test_the_health_check_says_no_where_nothing_runs(container: Container) -> None:
    container.environment["DUSKROUND_HEALTH_LISTEN"] = "127.0.0.1:1"
    assert container.run(instruction=r"HEALTHCHECK[^\[]+CMD").returncode == 1


@pytest.mark.skipif(not IS_ROOT, reason="only root can take the account's rights away")
def test_a_volume_that_is_not_the_account_s_is_one_line(container: Container) -> None:
    for path in (container.data, *container.data.rglob("*")):
        os.chown(path, 0, 0)
    container.environment["DUSKROUND_TOKEN"] = "1:abcdef"
    process = container.run("backup")
    container.own()
    assert process.returncode == 1
    assert process.stderr.startswith("no backup: ")
    assert process.stderr.count("\n") == 1
