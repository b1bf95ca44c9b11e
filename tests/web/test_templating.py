"""Rendering: escaped, strict, one documented frozen dataclass for each page, static files addressed by content."""

import dataclasses
import inspect
import re
from importlib import import_module

import jinja2
import pytest

from app.base import templates
from app.base.templates import STATIC
from app.shop.catalogue.view import PlainPage
from tests.house.source import APP, ROOT

VIEWS = [*APP.rglob("*view.py"), APP / "web" / "failures.py", APP / "web" / "fields.py"]
MODULES = [import_module(".".join(path.relative_to(ROOT).with_suffix("").parts)) for path in VIEWS]
SHOWN = [
    found
    for module in MODULES
    for _name, found in inspect.getmembers(module, inspect.isclass)
    if dataclasses.is_dataclass(found) and found.__module__ == module.__name__
]


@pytest.mark.parametrize("shown", SHOWN, ids=lambda shown: f"{shown.__module__}.{shown.__name__}")
def test_what_a_page_shows_is_frozen_and_documented(shown):
    assert shown.__dataclass_params__.frozen
    assert shown.__doc__ and not shown.__doc__.startswith(f"{shown.__name__}(")


def test_what_people_type_is_never_markup(visitor):
    evil = '"><script>alert(1)</script>'
    form = visitor.get("/patterns/fernhill-skirt/measure")
    page = visitor.submit(form, **{"measure-waist_girth": evil, "size": evil, "paper": evil, "cloth-main-width": evil})
    assert page.status == 422
    assert "<script>alert" not in page.html
    assert "&lt;script&gt;" in page.html
    page = visitor.submit(visitor.get("/studio/sign-in"), email=evil, password="x")
    assert "<script>alert" not in page.html
    assert page.form()["email"] == evil


def test_a_template_that_asks_for_what_a_page_does_not_have_fails_loudly(app):
    template = templates._environment().from_string("{{ page.nothing }}")
    with pytest.raises(jinja2.UndefinedError):
        template.render(page=PlainPage())


def test_every_static_file_that_a_template_names_is_there_and_carries_its_content_in_its_address():
    for path in (ROOT / "templates").rglob("*.html"):
        for name in re.findall(r"static\('([^']+)'\)", path.read_text()):
            address = templates._static_address(name)
            assert re.fullmatch(rf"/static/{re.escape(name)}\?v=[0-9a-f]{{10}}", address)


def test_every_module_and_image_that_style_or_script_names_is_there():
    for sheet in (STATIC / "css").glob("*.css"):
        for name in re.findall(r'url\("([^"]+)"\)', sheet.read_text()):
            assert (sheet.parent / name).is_file(), f"{sheet.name} asks for {name}"
    for script in (STATIC / "js").glob("*.js"):
        for name in re.findall(r'from "([^"]+)"', script.read_text()):
            assert (script.parent / name).is_file(), f"{script.name} asks for {name}"


def test_every_class_that_a_template_uses_has_a_style():
    css = "".join(sheet.read_text() for sheet in (STATIC / "css").glob("*.css"))
    plain = {"wide", "good", "field", "fields", "steps", "card", "step", "unpublished"}
    for path in (ROOT / "templates").rglob("*.html"):
        if "packs" in path.parts:
            continue
        for value in re.findall(r'class="([^"{}]+)"', path.read_text()):
            for name in set(value.split()) - plain:
                assert f".{name}" in css, f"{path.name} uses the class {name}, which no style sheet knows"
