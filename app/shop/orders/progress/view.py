"""What an order's page shows its customer, ready to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.packs.request import ONE_SHEET_FILE, PROJECTOR_FILE
from app.pattern.names import titled
from app.pattern.units import Unit, show_length
from app.shop.catalogue.cards import card_of
from app.shop.orders.findings import findings_for_customer
from app.shop.orders.measure.print_form import PAPERS
from app.shop.orders.models import WAITING, Order, OrderState
from app.shop.orders.progress.rebuilding import rebuilding_words, rebuilt_words
from app.shop.orders.review.view import notes_title
from app.shop.orders.service import order_files, status_words
from app.shop.orders.shown import Pair, entered_pairs
from app.web.words import count, day

__all__ = ["FileShown", "ProgressPage", "progress_page", "progress_state", "pack_remarks"]


@dataclass(frozen=True, slots=True)
class FileShown:
    """One file to download."""

    name: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class ProgressPage:
    """An order as its customer sees it: waiting with its stage, ready with files, or stopped with the findings.

    `again` tells that a ready pattern is another than the one given out first; `left_out` says which files of a ready
    pack are not there and why; `one_sheet` and `projector`: there is one for a copy shop, and one for a projector.
    """

    token: str
    number: str
    placed: str
    heading: str
    lead: str
    waiting: bool
    stage: str
    percent: int
    again: str
    files: tuple[FileShown, ...]
    paper: str
    findings: tuple[str, ...]
    facts: tuple[Pair, ...]
    left_out: tuple[str, ...]
    notes_title: str
    notes: tuple[str, ...]
    one_sheet: bool
    projector: bool
    fitting: str


def progress_page(order: Order) -> ProgressPage:
    """An order for its customer."""
    state = progress_state(order)
    notes = pack_remarks(order, "notes")
    return ProgressPage(
        token=order.token,
        number=order.number,
        placed=day(order.created_at),
        heading=_AGAIN if rebuilding_words(order) else _HEADINGS[order.state],
        lead=rebuilding_words(order) or (_WHILE_WAITING if order.state in WAITING else status_words(order)),
        waiting=order.state in WAITING,
        stage=str(state["stage"]),
        percent=int(state["percent"]),
        again=rebuilt_words(order),
        files=tuple(
            FileShown(file.name, file.title, _file_words(file.name, file.bytes)) for file in order_files(order)
        ),
        paper=PAPERS.get(order.fitting.paper, order.fitting.paper),
        findings=findings_for_customer(order.findings, _titles(order))
        if order.state is OrderState.NEEDS_DESIGNER
        else (),
        facts=(
            Pair("Pattern", order.fitting.listing.title),
            *_built_pairs(order),
            *entered_pairs(order.fitting, order.draft_version),
        ),
        left_out=pack_remarks(order, "left_out"),
        notes_title=notes_title(notes),
        notes=notes,
        one_sheet=_has_file(order, ONE_SHEET_FILE),
        projector=_has_file(order, PROJECTOR_FILE),
        fitting=order.fitting.token,
    )


def _titles(order: Order) -> Mapping[str, str]:
    """What the pieces of an order's pattern are called, by name; none where its draft cannot be read."""
    card = card_of(order.draft_version, order.fitting.listing)
    return {name: titled(title, name) for name, title in card.pieces} if card is not None else {}


def pack_remarks(order: Order, what: str) -> tuple[str, ...]:
    """What the build of a ready pack wrote down for people: "left_out" or "notes"."""
    return tuple(order.summary.get(what, ())) if order.state is OrderState.READY else ()


def _has_file(order: Order, name: str) -> bool:
    return any(file.name == name for file in order_files(order))


def progress_state(order: Order) -> dict[str, Any]:
    """What the order's page asks for while it waits."""
    stage = order.stage or ("Waiting for a free worker" if order.state is OrderState.PLACED else "Beginning")
    return {"waiting": order.state in WAITING, "stage": stage, "percent": round(100 * order.progress)}


_HEADINGS = {
    OrderState.PLACED: "Your pattern is being made",
    OrderState.BUILDING: "Your pattern is being made",
    OrderState.READY: "Ready to print",
    OrderState.NEEDS_DESIGNER: "This needs the designer",
    OrderState.FAILED: "The build stopped",
    OrderState.CANCELLED: "This order was cancelled",
}

_AGAIN = "Your pattern is being made again"

# One sentence for the whole wait: the page stays open while the order goes from the queue to its last step.
_WHILE_WAITING = "It is drafted, checked, laid out and written to files, one after the other."


def _built_pairs(order: Order) -> tuple[Pair, ...]:
    """What a ready pack holds and what to buy for it, by the figures that the build wrote down."""
    if order.state is not OrderState.READY:
        return ()
    unit = Unit(order.fitting.unit)
    sheets = order.summary.get("sheets")
    printed = [Pair("To print", count(int(sheets), "sheet"))] if sheets else []
    cloths = (
        Pair(f"{cloth['title']} to buy", f"{cloth['buy']}, {show_length(cloth['width_mm'], unit)} wide")
        for cloth in order.summary.get("cloths", ())
    )
    return (*printed, *cloths)


def _file_words(name: str, size: int) -> str:
    kind = name.rpartition(".")[2].upper()
    return f"{kind}, {size / 1_000_000:.1f} MB" if size >= 1_000_000 else f"{kind}, {max(1, round(size / 1000))} kB"
