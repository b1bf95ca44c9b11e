"""Name and e-mail: both may be empty, and what is there must be usable."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.orders.review.form import customer_fields, read_customer


@pytest.mark.parametrize(
    ("name", "email"), [("", ""), ("Rosa Quill", ""), ("", "rosa@example.org"), (" Rosa ", " r.q+x@sub.example.org ")]
)
def test_what_can_be_used_is_taken(name, email):
    customer, errors = read_customer({"name": name, "email": email})
    assert errors == {}
    assert (customer.name, customer.email) == (name.strip(), email.strip())


@pytest.mark.parametrize(
    "email", ["rosa", "rosa@", "@example.org", "a@b", "a b@example.org", "a@b@c.org", "x" * 260 + "@e.org"]
)
def test_what_is_no_email_is_named(email):
    _customer, errors = read_customer({"email": email})
    assert set(errors) == {"email"}


@given(st.text(max_size=300), st.text(max_size=300))
def test_whatever_is_typed_stands_in_the_fields_again(name, email):
    posted = {"name": name, "email": email}
    _customer, errors = read_customer(posted)
    fields = {field.name: field for field in customer_fields(posted, errors)}
    assert fields["name"].value == name
    assert fields["email"].value == email
    assert {field.name for field in fields.values() if field.error} == set(errors)


def test_a_name_is_one_line_whatever_was_sent():
    customer, errors = read_customer({"name": " Rosa\r\nQuill\u2028 \t of Linnet\n"})
    assert customer.name == "Rosa Quill of Linnet"
    assert errors == {}
