"""The question whether her two sides are alike: its fields, what was answered, and the answer as a fitting keeps it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.packs.sides import SIDES_MATTER_FROM, Sides
from app.pattern.units import LengthError, Unit, show_length
from app.shop.orders.measure.typed import TypedForm
from app.web.fields import Field, Option

__all__ = ["by_field", "kept_sides", "read_sides", "side_fields", "side_lengths", "with_sides"]

#: mm. More than this between two sides is a slip, or a body for which a pattern must be drawn by hand.
_MOST = 80.0


@dataclass(frozen=True, slots=True)
class _Question:
    """A place where sides differ: its fields' name, its words, and the measurements of designs that it matters to."""

    name: str
    label: str
    way: str
    how: str
    matters_to: frozenset[str]


_SHOULDER = _Question(
    "sides-shoulder",
    "Shoulders",
    "lower",
    "Stand before a mirror with a ruler or a shelf behind you. Measure from the floor to both shoulder points.",
    frozenset(
        {
            "shoulder_length",
            "shoulder_width",
            "back_waist_length",
            "front_waist_length",
            "neck_shoulder_point_to_waist",
            "neck_shoulder_point_to_bust_point",
            "armscye_girth",
            "scye_depth",
            "arm_length",
            "back_width",
        }
    ),
)
_HIP = _Question(
    "sides-hip",
    "Hips",
    "higher",
    "Tie a cord round the waist, level. Measure at both sides from the cord to the floor, over the hip.",
    frozenset(
        {
            "hip_girth",
            "waist_to_hip",
            "waist_to_knee",
            "waist_height",
            "hip_height",
            "outside_leg_length",
            "inside_leg_height",
            "body_rise",
        }
    ),
)


def by_field(name: str) -> str:
    """The field of how much a side differs."""
    return f"{name}-by"


def _asked(needs: Iterable[str]) -> tuple[_Question, ...]:
    wanted = set(needs)
    return tuple(question for question in (_SHOULDER, _HIP) if question.matters_to & wanted)


def side_lengths(needs: Iterable[str]) -> tuple[str, ...]:
    """The fields of the question that hold lengths, for a design with these needs."""
    return tuple(by_field(question.name) for question in _asked(needs))


def side_fields(needs: Iterable[str], sent: TypedForm, errors: Mapping[str, str]) -> tuple[Field, ...]:
    """The fields of the question; none where no difference of sides matters to the design."""
    fields: list[Field] = []
    for asked in _asked(needs):
        chosen = sent.texts.get(asked.name, "")
        options = (
            Option("", "alike, or nearly", chosen == ""),
            Option("left", f"the left one is {asked.way}", chosen == "left"),
            Option("right", f"the right one is {asked.way}", chosen == "right"),
        )
        fields.append(
            Field(
                name=asked.name,
                label=asked.label,
                kind="select",
                options=options,
                hint=asked.how,
                error=errors.get(asked.name, ""),
            )
        )
        by = by_field(asked.name)
        fields.append(
            Field(
                name=by,
                label=f"By how much it is {asked.way}",
                value=sent.texts.get(by, ""),
                hint="Leave it empty when both are alike.",
                unit=sent.unit.value,
                mode="decimal" if sent.unit is Unit.CM else "text",
                error=errors.get(by, ""),
            )
        )
    return tuple(fields)


def read_sides(needs: Iterable[str], sent: TypedForm, errors: dict[str, str]) -> dict[str, str]:
    """The answer as a fitting keeps it beside what was typed: side and mm by field. Faults go into `errors`."""
    kept: dict[str, str] = {}
    for asked in _asked(needs):
        side, by = sent.texts.get(asked.name, ""), by_field(asked.name)
        if side not in ("", "left", "right"):
            errors[asked.name] = f"{asked.label}: choose one of the list."
        elif side:
            mm = _difference(asked, sent, errors)
            if mm is not None:
                kept |= {asked.name: side, by: f"{mm:.1f}mm"}
        elif sent.text(by).strip():
            errors[asked.name] = f"{asked.label}: say which side is {asked.way}, or leave the difference empty."
    return kept


def _difference(asked: _Question, sent: TypedForm, errors: dict[str, str]) -> float | None:
    by = by_field(asked.name)
    if not sent.text(by).strip():
        errors[by] = f"{asked.label}: say by how much it is {asked.way}, or choose “alike, or nearly”."
        return None
    try:
        mm = sent.length(by)
    except LengthError as error:
        errors[by] = f"{asked.label}: {error}"
        return None
    if not SIDES_MATTER_FROM <= mm <= _MOST:
        least, most = (show_length(limit, sent.unit) for limit in (SIDES_MATTER_FROM, _MOST))
        errors[by] = (
            f"{asked.label}: a difference of {least} to {most} can be told. Less is lost in the cloth; for more ask "
            "the designer."
        )
        return None
    return mm


def kept_sides(entered: Mapping[str, object]) -> Sides:
    """The sides of a fitting, from what it keeps beside the texts that were typed."""

    def of(question: _Question) -> tuple[str, float]:
        side = str(entered.get(question.name, ""))
        return side, float(str(entered[by_field(question.name)]).removesuffix("mm")) if side else 0.0

    return Sides(*of(_SHOULDER), *of(_HIP))


def with_sides(sent: TypedForm, sides: Sides) -> TypedForm:
    """The form with this answer written into it."""
    for question, side, mm in (
        (_SHOULDER, sides.lower_shoulder, sides.shoulder_mm),
        (_HIP, sides.higher_hip, sides.hip_mm),
    ):
        if side:
            sent = TypedForm({**sent.texts, question.name: side}, sent.unit)
            sent = sent.with_length(by_field(question.name), mm)
    return sent
