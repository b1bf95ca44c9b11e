"""Settings: what the environment may say, where things are kept, and the README's table of them."""

import stat
from concurrent.futures import ThreadPoolExecutor

import pytest
from pydantic import ValidationError

from app.base.settings import Settings
from tests.places import ROOT


def test_the_readme_shows_every_setting_as_it_is():
    table = ["| setting | default | what it is |", "|---|---|---|"]
    for name, field in Settings.model_fields.items():
        default = "" if field.default in (None, "") else f"`{field.default}`"
        table.append(f"| `TAPELINE_{name.upper()}` | {default} | {field.description} |")
    shown = "\n".join(table)
    assert shown in (ROOT / "README.md").read_text("utf-8"), f"README.md's table of settings is to read:\n{shown}"


def test_every_setting_says_what_it_is():
    assert all(field.description and field.description.endswith(".") for field in Settings.model_fields.values())


def test_the_embedded_database_lies_in_the_data_folder(tmp_path):
    settings = Settings(data_dir=tmp_path, database_url="")
    assert settings.database_address() == f"sqlite:///{tmp_path}/tapeline.db"
    assert settings.packs_dir() == tmp_path / "packs"


@pytest.mark.parametrize("scheme", ["postgres", "postgresql", "postgresql+psycopg"])
def test_any_usual_postgresql_address_gets_our_driver(scheme):
    settings = Settings(database_url=f"{scheme}://shop@localhost/tapeline")
    assert settings.database_address() == "postgresql+psycopg://shop@localhost/tapeline"


def test_the_environment_sets_fields_by_prefix(monkeypatch):
    monkeypatch.setenv("TAPELINE_WORKER_SLOT", "worker-7")
    monkeypatch.setenv("TAPELINE_LEASE_SECONDS", "22.5")
    settings = Settings()
    assert (settings.worker_slot, settings.lease_seconds) == ("worker-7", 22.5)


@pytest.mark.parametrize(
    "wrong", [{"port": 0}, {"worker_slot": "a/b"}, {"worker_builds": 0}, {"build_attempts": 0}, {"log_level": "LOUD"}]
)
def test_settings_that_cannot_work_are_refused(wrong):
    with pytest.raises(ValidationError):
        Settings(**wrong)


def test_a_lease_outlasts_several_heartbeats():
    with pytest.raises(ValidationError, match="TAPELINE_LEASE_SECONDS"):
        Settings(heartbeat_seconds=5, lease_seconds=9)


def test_the_session_key_is_made_once_and_private(tmp_path):
    settings = Settings(data_dir=tmp_path / "new", database_url="", session_key=None)
    first = settings.session_secret()
    assert len(first) >= 64
    assert settings.session_secret() == first
    assert stat.S_IMODE((tmp_path / "new" / "session.key").stat().st_mode) == 0o600


def test_a_session_key_that_was_set_is_used_and_never_shown(tmp_path):
    settings = Settings(data_dir=tmp_path, session_key="moth-lantern-sill")
    assert settings.session_secret() == "moth-lantern-sill"
    assert "moth-lantern" not in repr(settings)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("left", [b"", b"cut", b"\0" * 64, b"\xff" * 64])
def test_a_session_key_that_is_damaged_is_replaced_by_one_that_nobody_can_guess(tmp_path, left):
    settings = Settings(data_dir=tmp_path, database_url="", session_key=None)
    (tmp_path / "session.key").write_bytes(left)
    key = settings.session_secret()
    assert len(key) >= 64
    assert key.isascii()
    assert key.isprintable()
    assert settings.session_secret() == key
    assert stat.S_IMODE((tmp_path / "session.key").stat().st_mode) == 0o600


def test_processes_that_start_together_over_a_damaged_key_sign_with_the_same(tmp_path):
    settings = Settings(data_dir=tmp_path, database_url="", session_key=None)
    (tmp_path / "session.key").write_text("")
    with ThreadPoolExecutor(8) as pool:
        assert len(set(pool.map(lambda _: settings.session_secret(), range(8)))) == 1


def test_an_empty_key_in_the_environment_means_one_made_here(tmp_path):
    settings = Settings(data_dir=tmp_path, database_url="", session_key="")
    assert settings.session_secret() == (tmp_path / "session.key").read_text()


def test_a_key_that_was_set_too_short_is_refused_and_not_shown():
    with pytest.raises(ValidationError, match="at least 16 signs") as refused:
        Settings(session_key="moth")
    assert "moth" not in str(refused.value.errors()[0]["msg"])


def test_a_new_data_folder_is_closed_to_other_users(tmp_path):
    folder = Settings(data_dir=tmp_path / "new", database_url="").data_folder()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
