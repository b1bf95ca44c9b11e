"""The guide's pages in the studio: each is served to a designer, and to nobody else."""

from __future__ import annotations

import pytest

from app.pattern.guide import parts
from app.shop.studio.guide.view import PAGES


@pytest.mark.parametrize("name", PAGES)
def test_a_designer_reads_every_page_of_the_guide(designer, name):
    answer = designer.get(f"/studio/guide/{name}")
    assert answer.status == 200
    assert all(f'href="/studio/guide/{other}"' in answer.html for other in PAGES)


def test_the_parts_are_drawn_in_the_studio_too(designer):
    answer = designer.get("/studio/guide/parts.html")
    assert "A rolled collar on a stand" in answer.html
    assert answer.html.count('<article class="entry"') == len(parts())


def test_a_visitor_is_sent_to_sign_in(visitor):
    assert visitor.get("/studio/guide/parts.html").path == "/studio/sign-in"
