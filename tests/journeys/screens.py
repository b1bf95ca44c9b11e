"""The README's pictures, taken of the real thing: `python -m tests.journeys.screens`.

Starts the demo shop in a folder of its own, walks one order through it at desktop and
phone width, and renders sheets and instructions of the delivered pack.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pypdfium2
from PIL import Image, ImageOps
from playwright.sync_api import Page, expect, sync_playwright

from tests.journeys.conftest import CHROMIUM, free_port, wait_for

OUT = Path(__file__).parents[2] / "static" / "screens"
GROUND = (226, 232, 232)


@contextmanager
def running_shop(folder: Path) -> Iterator[str]:
    """The demo shop's address while it runs."""
    port = free_port()
    url = f"http://127.0.0.1:{port}"
    settings = {"TAPELINE_DATA_DIR": str(folder), "TAPELINE_PORT": str(port), "TAPELINE_PUBLIC_URL": url}
    process = subprocess.Popen([sys.executable, "-m", "app", "run"], env=os.environ | settings)
    try:
        wait_for(url)
        yield url
    finally:
        process.terminate()
        process.wait()


def take(page: Page, name: str, folder: Path) -> Image.Image:
    """A screenshot of what fits the window."""
    path = folder / f"{name}.png"
    page.screenshot(path=path)
    return Image.open(path).convert("RGB")


def order(page: Page, url: str, folder: Path) -> list[Image.Image]:
    """One order from the catalogue to its files; the pictures on the way."""
    page.goto(url)
    pictures = [take(page, "catalogue", folder)]
    page.goto(f"{url}/patterns/larkspur-tunic/measure")
    page.click("button[value=size]")
    bust = page.locator("input[name=measure-bust_girth]")
    expect(bust).not_to_have_value("")
    bust.scroll_into_view_if_needed()
    pictures.append(take(page, "measure", folder))
    page.click("button:has-text('Show me my pattern')")
    page.wait_for_url("**/fittings/*")
    pictures.append(take(page, "review", folder))
    page.click("button:has-text('Order')")
    page.wait_for_url("**/orders/*")
    page.wait_for_selector("a[href*='/files/']", timeout=120_000)
    pictures.append(take(page, "ready", folder))
    return pictures


def download(page: Page, folder: Path) -> dict[str, Path]:
    """The order's PDFs by file name."""
    files = {}
    for link in page.locator("a[href*='/files/']").all():
        with page.expect_download() as waiting:
            link.click()
        path = folder / waiting.value.suggested_filename
        waiting.value.save_as(path)
        files[path.name.split("_")[-1]] = path
    return files


def pages_of(pdf: Path, numbers: list[int], scale: float) -> list[Image.Image]:
    """Some pages of a PDF as pictures."""
    document = pypdfium2.PdfDocument(pdf)
    return [document[n].render(scale=scale).to_pil().convert("RGB") for n in numbers if n < len(document)]


def row(pictures: list[Image.Image], height: int) -> Image.Image:
    """Pictures side by side at one height, each with a fine edge."""
    scaled = [
        ImageOps.expand(p.resize((round(p.width * height / p.height), height)), 1, (180, 190, 190)) for p in pictures
    ]
    sheet = Image.new("RGB", (sum(p.width + 24 for p in scaled) + 24, height + 50), GROUND)
    left = 24
    for picture in scaled:
        sheet.paste(picture, (left, 24))
        left += picture.width + 24
    return sheet


def main() -> None:
    """Take the pictures and write them where the README looks for them."""
    OUT.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        with running_shop(folder / "data") as url:
            desk = order(browser.new_page(viewport={"width": 1280, "height": 900}), url, folder)
            phone_page = browser.new_page(viewport={"width": 390, "height": 844})
            phone = order(phone_page, url, folder)
            files = download(phone_page, folder)
        browser.close()
        row([desk[0], desk[2], phone[1], phone[3]], 620).save(OUT / "shop.png", optimize=True)
        tiled = next(path for name, path in files.items() if "pattern-a4" in name)
        words = next(path for name, path in files.items() if "instructions" in name)
        sheets = pages_of(tiled, [0, 5, 6], 1.4) + pages_of(words, [0, 2, 5], 1.4)
        row(sheets, 620).save(OUT / "pack.png", optimize=True)


if __name__ == "__main__":
    main()
