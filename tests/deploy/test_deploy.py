"""What an operator installs from, looked at by the tools that read it: systemd, a Dockerfile linter, a schema."""

import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from bot.settings import read_settings

ROOT = Path(__file__).parent.parent.parent
DEPLOY = ROOT / "deploy"
TOOLS = Path(sys.executable).parent
MOST_EXPOSED = "20"
"""Overall exposure by systemd-analyze security, in tenths: 2.0 of 10."""

has_systemd = pytest.mark.skipif(
    shutil.which("systemd-analyze") is None, reason="Debian's package systemd is not installed"
)


def ran(*command: str) -> subprocess.CompletedProcess[str]:
    """Run a tool and give what it said."""
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """Give the unit with a program that is there, for the checkout is not in /opt here."""
    text = (DEPLOY / "duskround.service").read_text("utf-8")
    started = re.sub(r"^ExecStart=\S+", f"ExecStart={sys.executable}", text, flags=re.MULTILINE)
    assert started != text
    file = tmp_path / "duskround.service"
    file.write_text(started, "utf-8")
    return file


@has_systemd
def test_systemd_takes_the_unit(unit: Path) -> None:
    said = ran("systemd-analyze", "verify", str(unit))
    ours = [line for line in said.stderr.splitlines() if unit.name in line]
    assert (said.returncode, ours) == (0, [])


@has_systemd
def test_the_unit_is_hardened(unit: Path) -> None:
    said = ran("systemd-analyze", "security", "--offline=yes", f"--threshold={MOST_EXPOSED}", str(unit))
    assert said.returncode == 0, said.stdout


@has_systemd
def test_a_unit_that_is_wrong_is_found(unit: Path) -> None:
    unit.write_text(unit.read_text("utf-8").replace("[Service]", "[Service]\nNoSuchSetting=yes"), "utf-8")
    assert "NoSuchSetting" in ran("systemd-analyze", "verify", str(unit)).stderr


def test_the_container_file_passes_its_linter() -> None:
    said = ran(str(TOOLS / "hadolint"), "--failure-threshold", "info", str(DEPLOY / "Containerfile"))
    assert said.returncode == 0, said.stdout


def test_the_linter_finds_what_is_wrong(tmp_path: Path) -> None:
    wrong = tmp_path / "Containerfile"
    wrong.write_text("FROM python:latest\nRUN cd /tmp && pip install x\n", "utf-8")
    assert ran(str(TOOLS / "hadolint"), str(wrong)).returncode != 0


def test_the_container_runs_as_nobody_special_and_is_looked_after() -> None:
    text = (DEPLOY / "Containerfile").read_text("utf-8")
    last = text[text.rindex("FROM ") :]
    assert re.search(r"^USER 10001:10001$", last, re.MULTILINE)
    assert '"-m", "bot", "health"' in last
    assert "--require-hashes" in text
    assert not re.search(r"FROM \S+:latest|FROM [^:\s]+$", text, re.MULTILINE)


def test_compose_holds_to_its_specification() -> None:
    said = ran(
        str(TOOLS / "check-jsonschema"),
        "--builtin-schema",
        "vendor.compose-spec",
        str(DEPLOY / "compose.yaml"),
    )
    assert said.returncode == 0, said.stdout


def test_what_opens_the_container_opens_it_to_this_machine_alone() -> None:
    opening = (DEPLOY / "compose.open.yaml").read_text("utf-8")
    said = ran(
        str(TOOLS / "check-jsonschema"),
        "--builtin-schema",
        "vendor.compose-spec",
        str(DEPLOY / "compose.open.yaml"),
    )
    assert said.returncode == 0, said.stdout
    assert "ports:" not in (DEPLOY / "compose.yaml").read_text("utf-8")
    published = re.findall(r"^ +- (\S+:\d+)$", opening, re.MULTILINE)
    assert published == ["127.0.0.1:8080:8080", "127.0.0.1:8081:8081"]


def test_the_bot_waits_for_the_database_of_its_profile() -> None:
    text = (DEPLOY / "compose.yaml").read_text("utf-8")
    assert re.search(r"depends_on:\n +db:\n +condition: service_healthy\n +required: false\n", text)


def test_a_wrong_compose_file_is_found(tmp_path: Path) -> None:
    wrong = tmp_path / "compose.yaml"
    wrong.write_text("services:\n  bot:\n    no_such_key: 1\n", "utf-8")
    assert ran(
        str(TOOLS / "check-jsonschema"), "--builtin-schema", "vendor.compose-spec", str(wrong)
    ).returncode


def _locked() -> dict[str, str]:
    text = (DEPLOY / "requirements.lock").read_text("utf-8")
    return dict(re.findall(r"^([a-z0-9-]+)==(\S+)", text, re.MULTILINE))


def test_every_package_is_locked_by_a_hash_and_within_what_the_project_asks() -> None:
    text = (DEPLOY / "requirements.lock").read_text("utf-8")
    blocks = re.split(r"\n(?=[a-z0-9-]+==)", text.partition("\n")[2])
    assert all("--hash=sha256:" in block for block in blocks)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    asked = [Requirement(one) for one in project["dependencies"]]
    asked += [Requirement(one) for one in project["optional-dependencies"]["postgresql"]]
    locked = _locked()
    for one in asked:
        assert one.name in locked, f"{one.name} is not locked: make deploy/requirements.lock anew"
        assert one.specifier.contains(locked[one.name]), (
            f"{one.name} {locked[one.name]} is not {one.specifier}"
        )


def test_the_example_environment_holds_only_settings_there_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = (DEPLOY / "duskround.env.example").read_text("utf-8")
    for name in re.findall(r"^#?(DUSKROUND_\w+)=", text, re.MULTILINE):
        monkeypatch.delenv(name, raising=False)
    file = tmp_path / "duskround.env"
    file.write_text(text, "utf-8")
    assert read_settings(file).health == ("127.0.0.1", 8081)
    told = text.replace("#DUSKROUND_WEBHOOK_SECRET=", "#DUSKROUND_WEBHOOK_SECRET=secret")
    file.write_text(re.sub(r"^#(DUSKROUND_)", r"\1", told, flags=re.MULTILINE), "utf-8")
    assert read_settings(file).webhook_url == "https://bots.example.org/hook"
