"""The guide to the draft language as static pages: a first skirt, parts, sections, measurements, words, reference."""

from __future__ import annotations

import re
import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from markupsafe import Markup

from app.base.templates import STATIC, fill
from app.pattern.body import MEASURES, Measure
from app.pattern.body.known import known_words
from app.pattern.guide import Entry, Group, Part, SectionGuide, first_skirt, parts, reference, section_order
from app.pattern.guide.first_skirt import FIRST_SKIRT
from app.pattern.guide.words import LanguageWord, language_words
from app.pattern.language.parse import SECTIONS
from app.pattern.names import in_words

__all__ = [
    "PAGES",
    "FirstSkirtPage",
    "PartsPage",
    "ReferencePage",
    "SectionsPage",
    "guide_page",
    "guide_view",
    "write_guide",
]

#: The pages by file name, with their titles in the guide's own menu.
PAGES = {
    "index.html": "Reference",
    "first-skirt.html": "A first skirt",
    "parts.html": "Parts from seams",
    "sections.html": "Sections",
    "measurements.html": "Measurements",
    "words.html": "Words",
}
#: Names in the table of contents where the rule's own would say little.
_NAMES = {
    "assign": "a step",
    "way_fold": "on fold",
    "arc_turn": "arc by angles",
    "compare": "comparison",
    "brace_value": "a figure",
    "brace_seam": "a seam's picture",
    "brace_when": "a step's condition",
    "notch_single": "notch",
    "notch_double": "double notch",
    "seam_notch": "matched notch",
    "seam_notch_double": "matched double notch",
    "seam_notch_facing": "notch facing",
    "allowance_edge": "an edge's allowance",
    "allowance_none": "no allowance",
    "opens_by": "opens",
}
_STYLES = ("tokens.css", "base.css", "guide.css")


@dataclass(frozen=True, slots=True)
class Link:
    """A page of the guide in its menu."""

    address: str
    title: str
    here: bool


@dataclass(frozen=True, slots=True)
class EntryView:
    """One form or line as the page shows it; `drawing` is SVG of our own making."""

    anchor: str
    name: str
    written: str
    says: str
    takes: str
    gives: str
    code: str
    text: str
    comes_to: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter of the reference."""

    anchor: str
    title: str
    entries: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True)
class ReferencePage:
    """The reference."""

    links: tuple[Link, ...]
    chapters: tuple[Chapter, ...]


@dataclass(frozen=True, slots=True)
class LessonView:
    """A step of the tutorial; `code` is what it adds to the draft."""

    title: str
    says: str
    code: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class FirstSkirtPage:
    """The tutorial, and the whole draft at its end."""

    links: tuple[Link, ...]
    lessons: tuple[LessonView, ...]
    text: str


@dataclass(frozen=True, slots=True)
class PartView:
    """A part drafted from seams: its lines, those that sew it, the whole draft; `pictures`: words and our own SVG."""

    anchor: str
    title: str
    says: str
    code: str
    seams: str
    text: str
    comes_to: tuple[str, ...]
    pictures: tuple[tuple[str, Markup], ...]


@dataclass(frozen=True, slots=True)
class PartChapter:
    """A chapter of the parts."""

    anchor: str
    title: str
    parts: tuple[PartView, ...]


@dataclass(frozen=True, slots=True)
class PartsPage:
    """Parts drafted from the lengths of seams already drawn."""

    links: tuple[Link, ...]
    chapters: tuple[PartChapter, ...]


@dataclass(frozen=True, slots=True)
class SectionsPage:
    """The sections in their order."""

    links: tuple[Link, ...]
    sections: tuple[SectionGuide, ...]


@dataclass(frozen=True, slots=True)
class MeasurementsPage:
    """The measurements of the body that a draft may ask for, by name."""

    links: tuple[Link, ...]
    measures: tuple[Measure, ...]
    children: str


@dataclass(frozen=True, slots=True)
class WordRow:
    """A word of the language: whether it may be a name, whether a section begins with it, and its entries."""

    word: str
    free: bool
    section: bool
    places: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class WordsPage:
    """Every word of the language, and those that nothing may be named like."""

    links: tuple[Link, ...]
    reserved: tuple[str, ...]
    words: tuple[WordRow, ...]


def write_guide(folder: Path) -> tuple[Path, ...]:
    """Write the guide's pages into a folder with the style and the letters they need; the pages' paths."""
    (folder / "css").mkdir(parents=True, exist_ok=True)
    (folder / "fonts").mkdir(exist_ok=True)
    for name in _STYLES:
        shutil.copyfile(STATIC / "css" / name, folder / "css" / name)
    for font in sorted((STATIC / "fonts").glob("*.woff2")):
        shutil.copyfile(font, folder / "fonts" / font.name)
    for name in PAGES:
        (folder / name).write_text(guide_page(name), "utf-8")
    return tuple(folder / name for name in PAGES)


def guide_page(name: str) -> str:
    """One page of the guide as HTML, by its file name in `PAGES`."""
    template, page = guide_view(name)
    return fill(f"shop/studio/guide/{template}.html", page=page)


_Page = ReferencePage | FirstSkirtPage | PartsPage | SectionsPage | MeasurementsPage | WordsPage


@cache
def guide_view(name: str) -> tuple[str, _Page]:
    """What one page of the guide shows, by its file name in `PAGES`, and the name of its template."""
    links = tuple(Link(address, title, address == name) for address, title in PAGES.items())
    if name == "index.html":
        return "reference", ReferencePage(links, _chapters(reference()))
    if name == "first-skirt.html":
        lessons = tuple(
            LessonView(each.title, each.says, "\n".join(each.lines), Markup(each.drawing)) for each in first_skirt()
        )
        return "first_skirt", FirstSkirtPage(links, lessons, FIRST_SKIRT)
    if name == "parts.html":
        return "parts", PartsPage(links, _part_chapters(parts()))
    if name == "measurements.html":
        return "measurements", MeasurementsPage(links, tuple(MEASURES.values()), known_words("children", MEASURES))
    if name == "words.html":
        words = language_words()
        reserved = tuple(each.word for each in words if not each.free)
        return "words", WordsPage(links, reserved, tuple(_word_row(each) for each in words))
    return "sections", SectionsPage(links, section_order())


def _word_row(each: LanguageWord) -> WordRow:
    places = tuple(
        Link(f"index.html#{_entry_anchor(entry)}", _short_name(entry.key), here=False) for entry in each.entries
    )
    return WordRow(each.word, each.free, each.word in SECTIONS, places)


def _entry_anchor(entry: Entry) -> str:
    return f"{_anchor(entry.group)}-{_anchor(entry.key)}"


def _chapters(entries: Sequence[Entry]) -> tuple[Chapter, ...]:
    views: dict[Group, list[EntryView]] = {group: [] for group in Group}
    for entry in entries:
        view = EntryView(
            anchor=_entry_anchor(entry),
            name=_short_name(entry.key),
            written=entry.written,
            says=entry.says,
            takes=", then ".join(entry.parts) if entry.parts else "nothing",
            gives=entry.gives,
            code="\n".join(entry.lines),
            text=entry.text,
            comes_to=entry.comes_to,
            drawing=Markup(entry.drawing),  # drawn by our own pen, which escapes every word
        )
        views[entry.group].append(view)
    return tuple(Chapter(_anchor(group), str(group), tuple(some)) for group, some in views.items())


def _anchor(words: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")


def _short_name(key: str) -> str:
    """A form or line by a word or two: the rule's own name without what only the grammar needs."""
    plain = re.sub(r"^(direction |trait_|way_|run_)|(_line|_head|_block|\(\))$", "", key)
    return _NAMES.get(key, in_words(plain))


def _part_chapters(shown: Sequence[Part]) -> tuple[PartChapter, ...]:
    views: dict[str, list[PartView]] = {part.chapter: [] for part in shown}
    for part in shown:
        view = PartView(
            anchor=f"part-{_anchor(part.name)}",
            title=part.title,
            says=part.says,
            code="\n".join(part.lines),
            seams="\n".join(part.seams),
            text=part.text,
            comes_to=part.comes_to,
            pictures=tuple((picture.words, Markup(picture.drawing)) for picture in part.pictures),
        )
        views[part.chapter].append(view)
    return tuple(PartChapter(_anchor(title), title, tuple(some)) for title, some in views.items())
