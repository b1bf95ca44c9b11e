"""The commands that start the shop, as far as they go without a server: settings, links, and ends told in words."""

import os
import re

import pytest

from app.base.database import Database, make_engine
from app.base.errors import SetUpError
from app.base.settings import Settings
from app.cli import main
from app.pattern.problem import Refused
from app.run.serve import CANNOT_START, SLOT_TAKEN, new_password_link
from app.shop.people.service import designer_by_token, ensure_designer

EMAIL = "ottilie@cotter-row.example"


@pytest.fixture
def home(monkeypatch, tmp_path, settings):
    """The environment of a shop of its own, with its tables and one designer."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TAPELINE_DATA_DIR", str(settings.data_dir))
    with opened(settings).writing() as session:
        ensure_designer(session, EMAIL, "Ottilie Brack")
    before = os.umask(0o077)
    yield settings
    os.umask(before)


def opened(settings):
    return Database(make_engine(settings.database_address()))


# ---- a new password


def test_a_link_for_a_designer_opens_her_password_page_once(home):
    link = new_password_link(home, EMAIL)
    assert link.startswith("http://127.0.0.1:8000/password/")
    with opened(home).reading() as session:
        assert designer_by_token(session, link.rpartition("/")[2]).email == EMAIL
    newer = new_password_link(home, f" {EMAIL.upper()} ")
    with opened(home).reading() as session:
        assert designer_by_token(session, link.rpartition("/")[2]) is None, "a new link ends the older one"
        assert designer_by_token(session, newer.rpartition("/")[2]).email == EMAIL


@pytest.mark.parametrize(
    ("public", "start"),
    [
        ("https://patterns.example", "https://patterns.example/password/"),
        ("https://patterns.example/", "https://patterns.example/password/"),
        ("https://patterns.example/shop", "https://patterns.example/shop/password/"),
    ],
)
def test_a_link_leads_to_where_people_reach_the_shop(home, public, start):
    settings = home.model_copy(update={"public_url": public})
    assert re.fullmatch(re.escape(start) + r"[A-Za-z0-9_-]{32,}", new_password_link(settings, EMAIL))


def test_nobody_gets_a_link_whom_the_shop_does_not_know(home):
    told = new_password_link(home, "rosa@example.org")
    assert isinstance(told, Refused)
    assert told.problems[0].message == "Nobody signs in with rosa@example.org."


def test_the_keeper_prints_a_link_on_the_command_line(home, capsys):
    assert main(["password", EMAIL]) == 0
    said = capsys.readouterr()
    assert said.out.startswith("Set the password within a day: http://127.0.0.1:8000/password/")
    assert said.err == ""


def test_an_unknown_e_mail_is_told_and_no_link_is_printed(home, capsys):
    assert main(["password", "rosa@example.org"]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "error: Nobody signs in with rosa@example.org." in said.err
    assert "fix: Check the e-mail." in said.err


# ---- settings that cannot be used


@pytest.mark.parametrize("command", [["password", EMAIL], ["serve"], ["work"], ["run"]])
@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("PORT", "seventy", "TAPELINE_PORT: Input should be a valid integer"),
        ("PORT", "70000", "TAPELINE_PORT: Input should be less than or equal to 65535."),
        ("WORKER_SLOT", "a b", "TAPELINE_WORKER_SLOT: "),
        ("LEASE_SECONDS", "1", "TAPELINE_LEASE_SECONDS must be at least three times TAPELINE_HEARTBEAT_SECONDS."),
        ("SESSION_KEY", "short-secret", "TAPELINE_SESSION_KEY must have at least 16 signs, or be left empty."),
        ("PROXIES", "the-router", "TAPELINE_PROXIES takes addresses such as 10.0.0.7 or 10.0.0.0/24"),
        ("LOG_LEVEL", "LOUD", "TAPELINE_LOG_LEVEL: "),
    ],
)
def test_a_setting_that_cannot_be_used_is_told_by_its_name_and_never_by_its_value(
    home, monkeypatch, capsys, command, name, value, said
):
    monkeypatch.setenv(f"TAPELINE_{name}", value)
    assert main(command) == CANNOT_START
    told = capsys.readouterr().err
    assert told.startswith("tapeline: The settings cannot be used.\n")
    assert said in told
    assert "short-secret" not in told
    assert "Traceback" not in told


def test_several_settings_that_cannot_be_used_are_told_at_once(home, monkeypatch, capsys):
    monkeypatch.setenv("TAPELINE_PORT", "0")
    monkeypatch.setenv("TAPELINE_WORKER_BUILDS", "99")
    main(["serve"])
    told = capsys.readouterr().err
    assert "TAPELINE_PORT: " in told
    assert "TAPELINE_WORKER_BUILDS: " in told


def test_a_file_of_settings_that_is_no_text_is_told(home, tmp_path, capsys):
    (tmp_path / ".env").write_bytes(b"\xff\xfe\x00")
    assert main(["password", EMAIL]) == CANNOT_START
    assert "The file .env cannot be read: " in capsys.readouterr().err


def test_settings_come_from_a_file_and_the_environment_wins(home, tmp_path, monkeypatch, capsys):
    (tmp_path / ".env").write_text("TAPELINE_PUBLIC_URL=https://from-the-file.example\n", "utf-8")
    main(["password", EMAIL])
    assert "https://from-the-file.example/password/" in capsys.readouterr().out
    monkeypatch.setenv("TAPELINE_PUBLIC_URL", "https://from-outside.example")
    main(["password", EMAIL])
    assert "https://from-outside.example/password/" in capsys.readouterr().out


def test_a_data_folder_that_cannot_be_is_told_before_anything_is_made(home, tmp_path, monkeypatch, capsys):
    (tmp_path / "file").write_text("mine", "utf-8")
    monkeypatch.setenv("TAPELINE_DATA_DIR", str(tmp_path / "file"))
    assert main(["password", EMAIL]) == CANNOT_START
    assert "There is no data folder at" in capsys.readouterr().err
    assert (tmp_path / "file").read_text("utf-8") == "mine"


def test_a_taken_slot_ends_otherwise_than_what_cannot_start():
    assert SLOT_TAKEN not in (CANNOT_START, 0, 2)
    assert issubclass(SetUpError, Exception)


# ---- addresses


@pytest.mark.parametrize(
    ("given", "address"),
    [
        ({}, "http://127.0.0.1:8000"),
        ({"port": 9000}, "http://127.0.0.1:9000"),
        ({"port": 9000, "public_url": "https://a.example"}, "https://a.example"),
    ],
)
def test_the_shop_is_reached_where_it_says(tmp_path, given, address):
    assert Settings(data_dir=tmp_path, **given).shop_address() == address
