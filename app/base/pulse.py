"""One row by which the shop feels whether its database can still be written."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy.orm import Mapped, mapped_column

from app.base.database import Base

__all__ = ["Pulse"]


class Pulse(Base):
    """The moment of the last try, in the one row there is."""

    __tablename__ = "pulse"

    id: Mapped[int] = mapped_column(primary_key=True)
    felt_at: Mapped[datetime]
