"""Every setting of the shop, in one object read from the environment (prefix `TAPELINE_`)."""

from __future__ import annotations

import fcntl
import os
import re
import secrets
from ipaddress import IPv4Network, IPv6Network, ip_network
from pathlib import Path
from typing import Literal, Self

from pydantic import Field, SecretStr, field_validator, model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

from app.base.errors import SetUpError

__all__ = ["Settings"]

#: A key that nobody guesses, as we make them and somewhat shorter: plain signs, so that no hole in a file is one.
_KEY = re.compile(r"[!-~]{32,}")
#: A key that was set may be a phrase; a shorter one could be tried out from a single cookie.
_SHORTEST_KEY = 16


class Settings(BaseSettings):
    """What the studio keeper may set; every field's description is its row in the README's table."""

    model_config = SettingsConfigDict(env_prefix="TAPELINE_", env_file=".env", extra="ignore", frozen=True)

    data_dir: Path = Field(Path("data"), description="Folder for the embedded database, packs and session key.")
    database_url: str = Field("", description="PostgreSQL address; empty means SQLite in the data folder.")
    session_key: SecretStr | None = Field(
        None, description="Key that signs sessions; empty means one made at the first start."
    )
    public_url: str = Field(
        "", description="Address at which people reach the shop, for links; empty means this machine and the port."
    )
    host: str = Field("127.0.0.1", description="Address the web server listens on.")
    port: int = Field(8000, ge=1, le=65535, description="Port the web server listens on.")
    proxies: str = Field(
        "",
        description="Addresses or networks of your own proxies, separated by commas; what these say of a visitor's "
        "address (X-Forwarded-For) is believed, and nobody else.",
    )
    https_only: bool = Field(False, description="Send cookies over HTTPS only; switch on wherever the shop is public.")
    session_days: int = Field(14, ge=1, le=365, description="Days a designer stays signed in at most.")
    session_idle_days: int = Field(
        4, ge=1, le=365, description="Days after which a designer who does not come to the studio is signed out."
    )
    worker_slot: str = Field(
        "worker-1", pattern=r"^[A-Za-z0-9_.-]{1,40}$", description="Name of this worker; each live one needs its own."
    )
    worker_builds: int = Field(1, ge=1, le=16, description="Packs one worker builds at the same time.")
    proof_processes: int = Field(0, ge=0, le=256, description="Processes that prove drafts; 0 means one for each core.")
    drawing_processes: int = Field(
        2, ge=1, le=64, description="Processes that draw for the pages, within bounds of time and memory."
    )
    heartbeat_seconds: float = Field(5.0, gt=0, description="Seconds between two signs of life of a worker.")
    lease_seconds: float = Field(
        30.0, gt=0, description="Silence in seconds after which a worker counts as dead and its builds are done again."
    )
    sweep_seconds: float = Field(5.0, gt=0, description="Seconds between two looks for orders left behind.")
    build_attempts: int = Field(3, ge=1, le=20, description="Tries at one build before the order counts as failed.")
    retry_seconds: float = Field(10.0, ge=0, description="Pause in seconds before a failed build is tried again.")
    stop_seconds: float = Field(20.0, ge=0, description="Seconds that running builds get when a worker is stopped.")
    address_fittings: int = Field(
        120, ge=1, description="Sets of measurements taken from one network address within an hour."
    )
    address_waiting: int = Field(10, ge=1, description="Orders of one network address that may wait at a time.")
    address_orders: int = Field(40, ge=1, description="Orders taken from one network address within a day.")
    most_waiting: int = Field(500, ge=1, description="Orders that may wait in all before no more are taken.")
    fitting_days: int = Field(30, ge=1, description="Days for which measurements that nobody ordered by are kept.")
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = Field("INFO", description="Least severe line to log.")

    @field_validator("proxies")
    @classmethod
    def _each_is_a_network(cls, proxies: str) -> str:
        try:
            _networks(proxies)
        except ValueError as wrong:
            raise ValueError(f"TAPELINE_PROXIES takes addresses such as 10.0.0.7 or 10.0.0.0/24: {wrong}") from wrong
        return proxies

    @model_validator(mode="after")
    def _lease_outlasts_heartbeats(self) -> Self:
        if self.lease_seconds < 3 * self.heartbeat_seconds:
            raise ValueError("TAPELINE_LEASE_SECONDS must be at least three times TAPELINE_HEARTBEAT_SECONDS")
        return self

    def trusted_proxies(self) -> tuple[IPv4Network | IPv6Network, ...]:
        """The networks of the proxies that are believed; an address alone is a network of one."""
        return _networks(self.proxies)

    @model_validator(mode="after")
    def _key_cannot_be_guessed(self) -> Self:
        if self.session_key is not None and 0 < len(self.session_key.get_secret_value()) < _SHORTEST_KEY:
            raise ValueError(f"TAPELINE_SESSION_KEY must have at least {_SHORTEST_KEY} signs, or be left empty")
        return self

    def shop_address(self) -> str:
        """The address at which people reach the shop."""
        return self.public_url or f"http://127.0.0.1:{self.port}"

    def database_address(self) -> str:
        """The SQLAlchemy address of the one database, with the driver named."""
        if not self.database_url:
            return f"sqlite:///{self.data_dir.resolve() / 'tapeline.db'}"
        scheme, mark, rest = self.database_url.partition("://")
        return f"postgresql+psycopg{mark}{rest}" if scheme in ("postgres", "postgresql") else self.database_url

    def packs_dir(self) -> Path:
        """Folder in which built packs are kept."""
        return self.data_dir.resolve() / "packs"

    def session_secret(self) -> str:
        """The key that signs sessions: the one that was set, else one kept in the data folder (made once, mode 600)."""
        if self.session_key is not None and (key := self.session_key.get_secret_value()):
            return key
        return _kept_secret(self.data_folder() / "session.key")

    def data_folder(self) -> Path:
        """The data folder, made if it is missing and then closed to other users: it holds people's measurements."""
        folder = self.data_dir.resolve()
        try:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as error:
            raise SetUpError(
                f"There is no data folder at {folder}, and none can be made: {error.strerror}.\n"
                "Name a folder that the shop may write, in TAPELINE_DATA_DIR."
            ) from error
        return folder


def _networks(text: str) -> tuple[IPv4Network | IPv6Network, ...]:
    return tuple(ip_network(each.strip()) for each in text.split(",") if each.strip())


def _kept_secret(path: Path) -> str:
    """The key in this file, made if there is none; one that could be guessed (empty, cut short) is replaced."""
    try:
        with path.open("a+", encoding="ascii", errors="replace") as file:
            # Of two processes that start together, one writes and the other reads.
            fcntl.flock(file, fcntl.LOCK_EX)
            path.chmod(0o600)
            file.seek(0)
            if not _KEY.fullmatch(key := file.read()):
                key = secrets.token_urlsafe(48)
                file.truncate(0)
                file.write(key)
                file.flush()
                os.fsync(file.fileno())
            return key
    except OSError as error:
        raise SetUpError(
            f"The session key {path} cannot be read and written: {error.strerror}.\n"
            "Remove whatever is there, and give the shop its data folder to write in."
        ) from error
