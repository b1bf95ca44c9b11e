"""A page of drawings to be looked at by a cutter: `python -m tests.journeys.garments` (each design at five bodies)."""

from __future__ import annotations

import html
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

from app.demo.shop import DEMO, DemoListing
from app.pattern.body import corner_bodies, size_body
from app.pattern.drawing import preview_svg
from app.pattern.make import Made, make_pattern
from app.pattern.units import Unit
from tests.journeys.conftest import CHROMIUM


def bodies() -> dict[str, dict[str, float]]:
    """Four sizes and one corner of the population."""
    found = {f"size {name}": dict(size_body(name)) for name in ("80", "92", "110", "128")}
    name, body = next(iter(corner_bodies().items()))
    return found | {name.replace("_", " "): dict(body)}


def cell(design: DemoListing, body: dict[str, float]) -> str:
    """The drawing of one design for one body, or why there is none."""
    made = make_pattern(design.text(), design.draft, body, dict(design.settled))
    if isinstance(made, Made):
        return preview_svg(made.pattern, Unit.CM)
    return "<p>" + html.escape(made.problems[0].message) + "</p>"


def page() -> str:
    """The whole page as HTML."""
    people = bodies()
    head = "".join(f"<th>{html.escape(name)}</th>" for name in people)
    rows = ""
    for design in DEMO:
        cells = "".join(f"<td>{cell(design, body)}</td>" for body in people.values())
        rows += f"<tr><th>{html.escape(design.words.title)}</th>{cells}</tr>"
    style = "body{font:14px sans-serif;color:#1d2a2a}td{width:420px;height:300px;border:1px solid #cdd8d8;padding:8px}"
    style += "svg{width:400px;height:290px}th{padding:6px}"
    return f"<meta charset=utf-8><style>{style}</style><table><tr><th></th>{head}</tr>{rows}</table>"


def main() -> None:
    """Write the page as a PNG to the path given, or to garments.png here."""
    out = Path(sys.argv[1] if len(sys.argv) > 1 else "garments.png")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        tab = browser.new_page(viewport={"width": 2400, "height": 1000})
        tab.set_content(page())
        tab.screenshot(path=out, full_page=True)
        browser.close()
    print(out)


if __name__ == "__main__":
    main()
