"""The typed tree of a draft: what each line says, with the span it was read from."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.problem import Span

__all__ = [
    "AllowanceClause",
    "Assign",
    "Call",
    "ChoiceLine",
    "Compare",
    "CutClause",
    "Dotted",
    "Draft",
    "EdgeAllowance",
    "Expr",
    "FabricLine",
    "FinishClause",
    "FinishedEdge",
    "FitLine",
    "GirthLine",
    "GrainClause",
    "Logic",
    "MarkClause",
    "Name",
    "NotchClause",
    "NoteClause",
    "NotionLine",
    "OutlineClause",
    "OutlineItem",
    "OutlineOf",
    "PieceNode",
    "Quantity",
    "Repeat",
    "RunNode",
    "SeamNotch",
    "SewLine",
    "SheetNode",
    "Solve",
    "StepNode",
    "StepSection",
    "Text",
    "Trace",
    "When",
    "WhenBlock",
    "WhomLine",
]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A written number with its unit: `kind` is "length" (mm), "angle" (radians) or "number"."""

    value: float
    kind: str
    span: Span


@dataclass(frozen=True, slots=True)
class Text:
    """A quoted text."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Name:
    """A bare name."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Dotted:
    """A name inside another: `front.side`."""

    owner: str
    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """One form of the language with its parts, as `curve` with two points and two directions."""

    form: str
    args: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Compare:
    """A comparison: `op` is one of < > <= >= = is "is not"."""

    op: str
    left: Expr
    right: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Logic:
    """`and`, `or` (two or more parts) or `not` (one part)."""

    op: str
    parts: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class When:
    """`A when TEST otherwise B`."""

    then: Expr
    test: Expr
    otherwise: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Trace:
    """A shape traced off the sheet: its sides and darts in order, and the points and paths it holds inside."""

    items: tuple[OutlineItem, ...]
    holding: tuple[Name, ...]
    span: Span


Expr = Quantity | Text | Name | Dotted | Call | Compare | Logic | When | Trace


@dataclass(frozen=True, slots=True)
class Assign:
    """One drafting step: a name and what it stands for."""

    name: str
    value: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Solve:
    """Find `name` between `least` and `most` so that `left` equals `right`, drawing `steps` each time."""

    name: str
    least: Expr
    most: Expr
    left: Expr
    right: Expr
    steps: tuple[StepNode, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class WhenBlock:
    """Steps that are drawn only when the test holds."""

    test: Expr
    steps: tuple[StepNode, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Repeat:
    """Steps drawn again for each whole number `name` from `least` to `most`."""

    name: str
    least: Expr
    most: Expr
    steps: tuple[StepNode, ...]
    span: Span


StepNode = Assign | Solve | WhenBlock | Repeat


@dataclass(frozen=True, slots=True)
class ChoiceLine:
    """A choice of the customer: its default, and either limits or options."""

    name: str
    default: Expr
    least: Expr | None
    most: Expr | None
    options: tuple[str, ...]
    title: str
    span: Span


@dataclass(frozen=True, slots=True)
class FabricLine:
    """A cloth: suggested width and how it behaves."""

    name: str
    title: str
    width: Expr | None
    one_way: bool
    open: bool
    shrinks: Expr | None
    stretches: Expr | None
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class NotionLine:
    """Something to buy besides cloth."""

    name: str
    title: str
    count: Expr | None
    length: Expr | None
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class SheetNode:
    """A drafting sheet: steps in order. `unread` are names that lines which could not be read may have drawn.

    The name is "" when its own line could not be read.
    """

    name: str
    steps: tuple[StepNode, ...]
    span: Span
    unread: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutClause:
    """`cut 2 mirrored main`, `cut 1 on fold lining`."""

    count: int
    on_fold: bool
    pair: bool
    fabric: str
    span: Span


@dataclass(frozen=True, slots=True)
class OutlineItem:
    """One edge or dart of an outline: a name of the sheet, perhaps called otherwise on the piece."""

    name: str
    source: Expr
    fold: bool
    span: Span


@dataclass(frozen=True, slots=True)
class OutlineClause:
    """The outline, edge after edge."""

    items: tuple[OutlineItem, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class OutlineOf:
    """The outline of a shape; `folds` are the sides that lie on the fold."""

    shape: Expr
    folds: tuple[str, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class GrainClause:
    """The grain: along a path, or from a point to another."""

    path: Expr | None
    start: Expr | None
    end: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class EdgeAllowance:
    """The allowance of one edge, or of all the others when `edge` is ""."""

    edge: str
    width: Expr | None
    corner: str
    span: Span


@dataclass(frozen=True, slots=True)
class AllowanceClause:
    """All allowances of a piece."""

    items: tuple[EdgeAllowance, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class FinishedEdge:
    """An edge whose finish is said."""

    edge: str
    span: Span


@dataclass(frozen=True, slots=True)
class FinishClause:
    """How edges are finished that no seam sews: `how` is one of the trade's words, as hemmed, lined or bound."""

    edges: tuple[FinishedEdge, ...]
    how: str
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class NotchClause:
    """A notch of a piece's own: on an edge, so far from one of its ends."""

    edge: str
    distance: Expr
    end: Expr | None
    double: bool
    span: Span


@dataclass(frozen=True, slots=True)
class MarkClause:
    """An inside mark: kind, a path or point, a label; drawn `times` in all, each `step` further in `direction`."""

    kind: str
    what: Expr
    label: str
    times: Expr | None
    direction: str
    step: Expr | None
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class NoteClause:
    """Words printed on the piece."""

    text: str
    span: Span


PieceClause = (
    OutlineClause | OutlineOf | GrainClause | AllowanceClause | FinishClause | NotchClause | MarkClause | NoteClause
)


@dataclass(frozen=True, slots=True)
class PieceNode:
    """A piece traced off a sheet. `unread` are the first words of its lines that could not be read.

    Among them is "piece" for its own line (whose name may then be ""), and "" for a line that may be any.
    """

    name: str
    title: str
    sheet: str
    cuts: tuple[CutClause, ...]
    clauses: tuple[PieceClause, ...]
    when: Expr | None
    span: Span
    unread: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RunNode:
    """An edge in a seam; `times` when it is walked more than once."""

    piece: str
    edge: str
    backwards: bool
    times: int
    span: Span


@dataclass(frozen=True, slots=True)
class SeamNotch:
    """A matched notch: so far along side a from its start or its end, or `facing` a point so far along side b."""

    distance: Expr
    from_end: bool
    double: bool
    facing: bool
    span: Span


@dataclass(frozen=True, slots=True)
class SewLine:
    """Two sides sewn to each other; `kind` is plain, ease, gather, elastic or short with limits."""

    a: tuple[RunNode, ...]
    b: tuple[RunNode, ...]
    kind: str
    least: Expr | None
    most: Expr | None
    notches: tuple[SeamNotch, ...]
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class GirthLine:
    """A girth of the finished garment, what it must come to, and how the wearer gets into it.

    `stretches` is what it measures pulled out, `opens` how long a slit opens it
    (`opens_fully`: all the way, as a buttoned front does), `passes` what of the body
    must go through it.
    """

    name: str
    title: str
    value: Expr
    body: Expr | None
    ease: Expr | None
    stretches: Expr | None
    opens: Expr | None
    opens_fully: bool
    passes: Expr | None
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class FitLine:
    """A place where the garment touches the body: what it measures there, and by how much that may exceed the body.

    `measure` is the body's measurement under it, a name of the register; `least` and `most` bound the ease.
    """

    name: str
    title: str
    value: Expr
    measure: Name
    least: Expr
    most: Expr
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class WhomLine:
    """Whom the garment is for: `group` is women, men or children; and the statures it is offered for, if told."""

    group: str
    least: Expr | None
    most: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class StepSection:
    """One step of the making: heading, raw Markdown, and the expressions in its braces with their place in the text.

    `parts` alternates plain text and expressions; `seams` are the edges whose seam picture is wanted.
    """

    title: str
    parts: tuple[str | Expr, ...]
    seams: tuple[Dotted, ...]
    when: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Draft:
    """A whole draft. `unread` are names that lines of no sheet which could not be read may stand for.

    `lost` is true when more could not be read than can be told by names.
    """

    title: str
    needs: tuple[Name, ...]
    choices: tuple[ChoiceLine, ...]
    fabrics: tuple[FabricLine, ...]
    notions: tuple[NotionLine, ...]
    figures: tuple[StepNode, ...]
    sheets: tuple[SheetNode, ...]
    pieces: tuple[PieceNode, ...]
    seams: tuple[SewLine, ...]
    girths: tuple[GirthLine, ...]
    steps: tuple[StepSection, ...]
    span: Span
    whom: WhomLine | None = None
    unread: tuple[str, ...] = ()
    lost: bool = False
    fits: tuple[FitLine, ...] = ()

    @property
    def group(self) -> str:
        """Whom it is for: women, when the draft does not say."""
        return self.whom.group if self.whom is not None else "women"
