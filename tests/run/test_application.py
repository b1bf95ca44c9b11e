"""The application as it is put together: what the shop is called, and how much may be sent where."""

import pytest

from app.run.application import MOST_BODY_BYTES, MOST_DRAFT_BYTES, NAMELESS, create_app
from app.shop.people.service import ensure_studio
from tests.visitor import Visitor


@pytest.fixture
def bare(settings, opened):
    """A shop with nothing in it, not even a name."""
    app = create_app(settings)
    opened.callback(app.state.queue.close)
    opened.callback(app.state.database.close)
    return app


def test_a_shop_without_a_name_is_called_something_until_its_keeper_names_it(bare, opened):
    person = Visitor(bare)
    opened.callback(person.close)
    assert NAMELESS in person.get("/how-it-works").html
    with bare.state.database.writing() as session:
        ensure_studio(session, "Cotter Row", "hello@cotter-row.example", "")
    page = person.get("/how-it-works")
    assert "Cotter Row" in page.html
    assert NAMELESS not in page.html


def test_a_name_once_known_is_not_looked_up_again(bare, database):
    with database.writing() as session:
        studio = ensure_studio(session, "Cotter Row", "hello@cotter-row.example", "")
    assert bare.state.studio_name() == "Cotter Row"
    with database.writing() as session:
        session.merge(studio).name = "Another"
    assert bare.state.studio_name() == "Cotter Row"


@pytest.mark.parametrize(
    ("path", "size", "status"),
    [
        ("/patterns/larkspur-tunic/measure", MOST_BODY_BYTES + 1, 413),
        ("/studio/listings/larkspur-tunic/draft", MOST_BODY_BYTES + 1, 403),  # Read whole, then its token is missed.
        ("/studio/listings/larkspur-tunic/draft", MOST_DRAFT_BYTES + 1, 413),
    ],
)
def test_a_draft_has_more_room_than_a_customers_form(visitor, path, size, status):
    assert visitor.post(path, {"a": "x" * (size - 2)}).status == status
