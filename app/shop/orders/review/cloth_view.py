"""What the cloth page of a fitting shows: how much to buy, how it is laid, and the lay plans."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from app.pattern.lay import LayPlan, cloth_in_words, folded_or_open, lay_plan_svg
from app.pattern.make import Made
from app.pattern.plain_words import in_plain_words, titles_of
from app.pattern.steps import notions_list
from app.pattern.units import Unit, show_cloth_length
from app.shop.orders.models import Fitting
from app.shop.orders.review.narrow import narrow_cloths
from app.shop.orders.review.preview import ClothNeeded, cloth_needed, pattern_of
from app.web.words import sentence

__all__ = ["ClothShown", "FabricPage", "fabric_page"]


@dataclass(frozen=True, slots=True)
class ClothShown:
    """One cloth: how much to buy, how it is laid, and the lay plan; or the problem that forbids one.

    `offer` says what laying it the other way would save, `offer_action` is the words of the button that does so.
    """

    name: str
    title: str
    buy: str
    words: str
    drawing: Markup
    problem: str
    offer: str
    offer_action: str


@dataclass(frozen=True, slots=True)
class FabricPage:
    """All the cloth and notions for a fitting."""

    token: str
    title: str
    cloths: tuple[ClothShown, ...]
    notions: tuple[str, ...]


def fabric_page(fitting: Fitting) -> FabricPage:
    """The cloth and notions of a fitting."""
    made = pattern_of(fitting)
    unit = Unit(fitting.unit)
    notions = notions_list(made.pattern, unit) if isinstance(made, Made) else ()
    narrow = {cloth.name: cloth.words for cloth in narrow_cloths(fitting)}
    titles = titles_of(made.pattern if isinstance(made, Made) else None)
    return FabricPage(
        token=fitting.token,
        title=fitting.listing.title,
        cloths=tuple(_cloth(needed, narrow.get(needed.fabric.name), titles, unit) for needed in cloth_needed(fitting)),
        notions=tuple(f"{row.title}: {row.amount}" if row.amount else row.title for row in notions),
    )


def _cloth(needed: ClothNeeded, narrow: str | None, titles: Mapping[str, str], unit: Unit) -> ClothShown:
    offer, action = _offer(needed, unit)
    laid = needed.plan if isinstance(needed.plan, LayPlan) else None
    return ClothShown(
        name=needed.fabric.name,
        title=needed.fabric.title,
        buy=show_cloth_length(laid.buy, unit) if laid else "",
        words=f"of cloth {cloth_in_words(laid.cloth, unit)}" if laid else "",
        drawing=Markup(lay_plan_svg(laid, unit)) if laid else Markup(),
        problem=narrow or " ".join(in_plain_words(needed.problems, titles)),
        offer=offer,
        offer_action=action,
    )


def _offer(needed: ClothNeeded, unit: Unit) -> tuple[str, str]:
    """What the other way to lay a cloth would save, and the words on its button; both "" when it saves nothing."""
    better = needed.better
    if better is None:
        return "", ""
    how = sentence(folded_or_open(better.cloth))
    action = "Lay it folded" if better.cloth.folded else "Lay it open"
    buy = show_cloth_length(better.buy, unit)
    if not isinstance(needed.plan, LayPlan):
        return f"{how}, the pieces do go on it: you would need {buy}.", action
    return f"{how}, you would need {buy} instead of {show_cloth_length(needed.plan.buy, unit)}.", action
