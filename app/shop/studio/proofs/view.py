"""What the page of a proof shows: the share, the chart, where the draft fails, one body, and what can be done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from markupsafe import Markup

from app.base import aside
from app.pattern.body import MEASURES
from app.pattern.body.known import known_words
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.plain_words import is_told, title_of
from app.pattern.problem import Refused, spelled_out
from app.pattern.proof import AS_OFFERED, Range, finding_values, fit_svg, plan_proof
from app.pattern.units import Unit, show_length
from app.shop.catalogue.cards import draft_name
from app.shop.orders.shown import Finding, Pair
from app.shop.proofs.chart import Chart, chart_svg
from app.shop.proofs.models import Proof, ProofState
from app.shop.proofs.service import region_of_proof, share_of, why_not_sold
from app.shop.proofs.values import BodyResult
from app.shop.proofs.warnings import accepted_warning, warnings_of
from app.shop.proofs.words import accepted_words, percent, proof_words
from app.shop.studio.access import ListingVersion
from app.shop.studio.proofs.picture import finding_svg
from app.web.fields import Field, Option
from app.web.words import count, day, sentence

__all__ = [
    "BodyPage",
    "WarningLine",
    "CheckLine",
    "FitRow",
    "ProofPage",
    "ProvedVersion",
    "body_of",
    "draw_body",
    "proof_page",
    "proof_state",
    "read_share",
]

_KINDS = {
    "size": "of the size chart",
    "corner": "of our own choice, far from the middle",
    "drawn": "drawn by the survey's figures",
    "end": "drawn by the survey's figures, small or large on purpose",
    "given": "brought by you",
}
_WAITING = (ProofState.WAITING, ProofState.RUNNING)
#: At so many settings and checks a table is still read.
_SHOWN = 20
_NOTHING_DRAWN = "Nothing can be drawn at this setting."


@dataclass(frozen=True, slots=True)
class ProvedVersion(ListingVersion):
    """One version of a listing's draft with its proof."""

    proof: Proof


@dataclass(frozen=True, slots=True)
class CheckLine:
    """A check with how many bodies it stopped, and one finding as an example."""

    title: str
    bodies: str
    example: Finding


@dataclass(frozen=True, slots=True)
class WarningLine:
    """A warning of the proof: its check, what it is about, on how many bodies, an example; and who accepted it and why.

    `check` and `about` are its name, which the form for accepting it sends; `accepted` is "" while nobody has.
    """

    check: str
    about: str
    title: str
    bodies: str
    example: Finding
    accepted: str
    note: str


@dataclass(frozen=True, slots=True)
class FitRow:
    """A place where the garment touches the body: what is wanted there, and the ease that the bodies got, in cm."""

    title: str
    measure: str
    wanted: str
    mean: str
    spread: str
    ends: str
    outside: str


@dataclass(frozen=True, slots=True)
class BodyPage:
    """One body: who it is, its measurements, what was found at which setting, and the piece with the place marked."""

    title: str
    words: str
    measures: tuple[Pair, ...]
    findings: tuple[Finding, ...]
    drawing: Markup
    caption: str


@dataclass(frozen=True, slots=True)
class ProofPage:
    """A proof for the designer. `sold` says whether it is enough to sell on, and if not, why.

    `address` is that of the version; `on_sale` says whether new orders use it.
    """

    slug: str
    address: str
    title: str
    version: int
    on_sale: bool
    standing: str
    sold: str
    enough: bool
    waiting: bool
    stage: str
    percent: int
    problems: tuple[Finding, ...]
    proved: str
    chart: Markup
    body: BodyPage | None
    failures: tuple[CheckLine, ...]
    warnings: tuple[WarningLine, ...]
    fits: tuple[FitRow, ...]
    fit_picture: Markup
    worst: tuple[Option, ...]
    settings: tuple[Pair, ...]
    region: tuple[Pair, ...]
    accepted: str
    accept: tuple[Field, ...]


def proof_page(proved: ProvedVersion, body: BodyPage | None, chosen: str = "") -> ProofPage:
    """The proof of a draft version, with one body where one was `chosen` by its id."""
    listing, proof = proved.listing, proved.proof
    state, summary = proof_state(proof), proof.summary
    unsold = why_not_sold(proof)
    failed = [body for body in proof.bodies if body["failed"]]
    return ProofPage(
        slug=listing.slug,
        address=proved.address,
        title=listing.title,
        version=proved.version.number,
        on_sale=listing.published and listing.current_version_id == proved.version.id,
        standing=sentence(proof_words(proof)),
        sold=spelled_out(unsold) or "This is enough to put it on sale.",
        enough=not unsold,
        waiting=bool(state["waiting"]),
        stage=str(state["stage"]),
        percent=int(state["percent"]),
        problems=tuple(Finding(str(one["message"]), str(one["fix"])) for one in proof.problems),
        proved=_proved_words(proof),
        chart=Markup(chart_svg(Chart(proof.bodies, region_of_proof(proof), linked=True, chosen=chosen))),
        body=body,
        failures=tuple(_check(one) for one in summary.get("failures", ())[:_SHOWN]),
        warnings=_warnings(proof),
        fits=tuple(_fit(one) for one in summary.get("fits", ())),
        fit_picture=Markup(fit_svg(summary.get("fits", ()), Unit.CM)),
        worst=tuple(
            Option(one["id"], f"{one['id']}: fails at {one['failed']} of {len(summary['settings'])}")
            for one in sorted(failed, key=lambda body: -body["failed"])[:_SHOWN]
        ),
        settings=tuple(
            Pair(str(tally["setting"]), f"{tally['held']} of {tally['bodies']}")
            for tally in summary.get("settings", ())
        ),
        region=tuple(_range(one) for one in region_of_proof(proof).ranges),
        accepted=accepted_words(proof),
        accept=_accept_fields(proof),
    )


def proof_state(proof: Proof) -> dict[str, Any]:
    """What the page asks for while a proof is worked out."""
    running = proof.state is ProofState.RUNNING
    stage = f"{proof.done:,} of {proof.units:,} patterns drawn and checked" if running else "Waiting for a worker"
    share = 100 * proof.done // proof.units if running and proof.units else 0
    return {"waiting": proof.state in _WAITING, "stage": stage, "percent": share}


def body_of(proved: ProvedVersion, chosen: str) -> BodyPage | None:
    """One body of the proof with what stopped it, drawn anew for the picture; None when no such body is in it."""
    found = next((body for body in proved.proof.bodies if body["id"] == chosen), None)
    if found is None:
        return None
    settings = len(proved.proof.summary["settings"])
    held = settings - found["failed"]
    text, settled = proved.version.text, dict(proved.listing.settled)
    drawn = aside.run(draw_body, text, draft_name(proved.listing), settled, proved.listing.title, found)
    if isinstance(drawn, Refused):
        drawn = "", spelled_out(drawn.problems)
    drawing, caption = drawn
    return BodyPage(
        title=sentence(found["id"]),
        words=f"A body {_KINDS[found['kind']]}. It holds at {held} of {count(settings, 'setting')}.",
        measures=tuple(Pair(_title(name), show_length(mm, Unit.CM)) for name, mm in found["body"].items()),
        findings=tuple(
            Finding(f"{one['finding']['message']} ({one['setting']})", one["finding"]["fix"])
            for one in found["failures"]
        ),
        drawing=Markup(drawing),
        caption=caption,
    )


def read_share(text: str) -> float | None:
    """A share as typed in percent (`98.5`, `98,5 %`), 0 to 1; None when it is none."""
    plain = text.replace("%", "").replace(",", ".").strip()
    whole, _, part = plain.partition(".")
    if not (
        whole.isascii() and whole.isdigit() and len(whole) <= 3 and (not part or (part.isascii() and part.isdigit()))
    ):
        return None
    return float(plain) / 100.0


def draw_body(text: str, name: str, settled: Mapping[str, Any], title: str, body: BodyResult) -> tuple[str, str]:
    """The body drawn at the setting that stopped it first, or as offered, and the words under the picture.

    The finding is that of the text as it stands: a result may be older than a comment that moved the draft's lines.
    Worked out by a helper (`app.base.aside`), as the text may be slow.
    """
    plan = plan_proof(text, name, settled=settled)
    if isinstance(plan, Refused):
        return "", _NOTHING_DRAWN
    failure = body["failures"][0] if body["failures"] else None
    setting = next((one for one in plan.settings if failure and one.name == failure["setting"]), plan.settings[0])
    whole = next((one.body for one in plan.bodies if one.id == body["id"]), body["body"])
    made = make_pattern(text, name, whole, setting.choices)
    problems = [finding_values(problem) for problem in made.problems] if isinstance(made, Refused) else []
    if not isinstance(made, Made | Failed):
        line = problems[0]["line"]
        stopped = "" if line is None else f": drafting stops at line {line}, “{text.splitlines()[line - 1].strip()}”"
        return "", f"{_NOTHING_DRAWN[:-1]}{stopped}."
    kept = failure["finding"] if failure else None
    finding = next((one for one in problems if kept and one["check"] == kept["check"]), kept)
    picture = finding_svg(replace(made.pattern, title=title), finding)
    if finding is None or failure is None:
        return picture, "Its pieces, with every choice as offered."
    return picture, f"{finding['place'] or 'The whole pattern'}, {failure['setting']}: the place is marked."


def _proved_words(proof: Proof) -> str:
    if proof.proved_at is None:
        return ""
    summary = proof.summary
    needs = proof.bodies[0]["body"] if proof.bodies else ()
    told = (
        f"{summary['patterns']:,} patterns: {count(int(summary['bodies']), 'body', 'bodies')}, each at "
        f"{count(len(summary['settings']), 'setting')} of the choices. Proved on {day(proof.proved_at)}."
    )
    return " ".join((told, known_words(str(summary["group"]), needs))).strip()


def _warnings(proof: Proof) -> tuple[WarningLine, ...]:
    """Every warning, those to read first."""
    lines = [_warning(proof, one) for one in warnings_of(proof)]
    return tuple(sorted(lines, key=lambda line: bool(line.accepted)))


def _warning(proof: Proof, tally: Mapping[str, Any]) -> WarningLine:
    line, accepted = _check(tally), accepted_warning(proof, tally)
    said = f"{accepted['by']} accepted it on {day(datetime.fromisoformat(accepted['at']))}." if accepted else ""
    return WarningLine(
        check=str(tally["check"]),
        about=str(tally["about"]),
        title=line.title,
        bodies=f"on {line.bodies} of {count(int(proof.summary['bodies']), 'body', 'bodies')}",
        example=line.example,
        accepted=said,
        note=accepted["note"] if accepted else "",
    )


def _fit(tally: Mapping[str, Any]) -> FitRow:
    least, most = (_centimetres(end) for end in tally["wanted"])
    off, at = int(tally["outside_anywhere"]), "" if tally["at"] == AS_OFFERED else f" ({tally['at']})"
    return FitRow(
        title=f"{tally['title']}{at}",
        measure=f"over {str(tally['measure']).lower()}",
        wanted=f"{least} to {most}" if least != most else least,
        mean=_centimetres(tally["mean"]),
        spread=_centimetres(tally["sd"]),
        ends=f"{_centimetres(tally['least'])} to {_centimetres(tally['most'])}",
        outside=f"{off:,} of {tally['patterns']:,}",
    )


def _centimetres(mm: float) -> str:
    """A length as the table has it: `-1.2`, `3.5`."""
    return f"{mm / 10.0 + 0.0:.1f}".replace("-0.0", "0.0").replace("-", "−")


def _check(tally: Mapping[str, Any]) -> CheckLine:
    example = tally["example"]
    code = str(tally["check"])
    # A proof that was kept may tell of a check that is no more: it is named by its code.
    title = title_of(code) if is_told(code) else code
    return CheckLine(title, f"{tally['bodies']}", Finding(str(example["message"]), str(example["fix"])))


def _title(name: str) -> str:
    return MEASURES[name].title if name in MEASURES else name


def _range(found: Range) -> Pair:
    least = show_length(found.least, Unit.CM, named=False)
    return Pair(_title(found.axis), f"{least} to {show_length(found.most, Unit.CM)}")


def _accept_fields(proof: Proof) -> tuple[Field, ...]:
    reached = share_of(proof)
    if reached is None:
        return ()
    return (
        Field(
            name="share",
            label="Share of the bodies that is enough",
            value=percent(reached).removesuffix(" %"),
            unit="%",
            mode="decimal",
        ),
        Field(
            name="seen",
            label="I have looked at the bodies that fail. Customers outside the proved measurements come to me.",
            kind="tick",
        ),
    )
