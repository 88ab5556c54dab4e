from pathlib import Path

import pytest

from bot.__main__ import main
from bot.settings import SettingsError, read_settings


@pytest.fixture(autouse=True)
def _empty_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    for name in (
        "TOKEN",
        "OWNER",
        "OPEN",
        "DATA",
        "DATABASE_URL",
        "API_URL",
        "WEBHOOK_URL",
        "WEBHOOK_SECRET",
    ):
        monkeypatch.delenv(f"DUSKROUND_{name}", raising=False)


def test_nothing_told_gives_polling_and_a_file_in_the_data_folder(tmp_path: Path) -> None:
    settings = read_settings()
    assert (settings.token, settings.webhook_url, settings.open) == (None, "", False)
    assert settings.database == f"sqlite:///{tmp_path}/data/duskround.sqlite"
    assert settings.listen == ("127.0.0.1", 8080)
    assert not settings.is_api_loopback


def test_the_env_file_is_read_beneath_the_environment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "duskround.env").write_text("DUSKROUND_TOKEN=1:abc\nDUSKROUND_OWNER=5\n")
    monkeypatch.setenv("DUSKROUND_OWNER", "6")
    settings = read_settings()
    assert settings.token is not None
    assert settings.token.reveal() == "1:abc"
    assert settings.owner == 6
    assert "abc" not in repr(settings)


def test_every_problem_is_listed_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    told = {
        "TOKEN": "nonsense",
        "OWNER": "me",
        "API_URL": "ftp://x",
        "DATABASE_URL": "mysql://x",
        "WEBHOOK_URL": "http://example.org/",
        "TOKE": "1:a",
    }
    for name, value in told.items():
        monkeypatch.setenv(f"DUSKROUND_{name}", value)
    with pytest.raises(SettingsError) as caught:
        read_settings()
    names = {problem.split()[0].rstrip(":") for problem in caught.value.problems}
    assert names == {f"DUSKROUND_{name}" for name in told}
    assert "nonsense" not in str(caught.value)


def test_a_webhook_needs_its_secret_and_a_secret_its_webhook(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DUSKROUND_WEBHOOK_URL", "https://example.org/hook")
    with pytest.raises(SettingsError, match="DUSKROUND_WEBHOOK_SECRET is missing"):
        read_settings()
    monkeypatch.delenv("DUSKROUND_WEBHOOK_URL")
    monkeypatch.setenv("DUSKROUND_WEBHOOK_SECRET", "abc")
    with pytest.raises(SettingsError, match="DUSKROUND_WEBHOOK_URL is missing"):
        read_settings()


def test_an_unknown_line_of_the_env_file_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "duskround.env").write_text("DUSKROUND_TOKN=1:abc\n")
    with pytest.raises(SettingsError, match="DUSKROUND_TOKN is not a setting"):
        read_settings()


def test_without_a_token_the_command_says_how_to_begin(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    said = capsys.readouterr().err
    assert "DUSKROUND_TOKEN" in said
    assert "python -m demo" in said


def test_wrong_settings_end_with_2(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DUSKROUND_OWNER", "me")
    assert main([]) == 2
    assert capsys.readouterr().err.startswith("DUSKROUND_OWNER")
