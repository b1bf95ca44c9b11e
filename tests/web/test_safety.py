"""Forged forms, headers, cookies, sizes, and what is said when something breaks."""

import re

import pytest

from app.web.headers import CONTENT_SECURITY_POLICY

FORM = "/patterns/fernhill-skirt/measure"
MEASURES = {"measure-waist_girth": "76.3", "measure-hip_girth": "101.9", "measure-waist_to_hip": "21.7"}


def posting_paths(app):
    """Every path of the application that takes a form, with something in place of its parameters."""
    paths = app.openapi()["paths"]
    return [re.sub(r"\{\w+\}", "x", path) for path, methods in paths.items() if "post" in methods]


def test_no_form_is_taken_without_its_token(app, visitor):
    paths = posting_paths(app)
    assert len(paths) >= 10
    for path in paths:
        for fields in ({}, {"form_token": ""}, {"form_token": "guessed"}):
            page = visitor.post(path, fields)
            assert page.status == 403, path
            assert "This form could not be taken" in page.words


def test_a_token_of_another_visitor_is_no_token(app, visitor, designer):
    stolen = visitor.get(FORM).form()["form_token"]
    assert designer.post("/studio/listings/fernhill-skirt/unpublish", {"form_token": stolen}).status == 403


@pytest.mark.parametrize("path", ["/", FORM, "/nothing-here", "/studio", "/static/css/base.css", "/healthz"])
def test_every_answer_carries_the_safe_headers(visitor, path):
    headers = visitor.get(path).headers
    assert headers["content-security-policy"] == CONTENT_SECURITY_POLICY
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["x-frame-options"] == "DENY"
    assert headers["referrer-policy"] == "same-origin"


def test_the_policy_allows_no_script_or_style_in_a_page():
    assert "unsafe" not in CONTENT_SECURITY_POLICY
    assert "default-src 'none'" in CONTENT_SECURITY_POLICY
    assert "frame-ancestors 'none'" in CONTENT_SECURITY_POLICY


def test_pages_that_show_a_body_leave_no_copy_behind(visitor, fitted):
    assert visitor.get(fitted.path).headers["cache-control"] == "no-store"
    assert visitor.get(fitted.path).headers["x-robots-tag"] == "noindex, nofollow"
    assert "x-robots-tag" not in visitor.get("/").headers
    assert visitor.get("/studio/sign-in").headers["cache-control"] == "no-store"
    assert visitor.get(FORM).headers["cache-control"] == "private, no-cache"


def test_the_session_cookie_is_out_of_reach_of_scripts_and_other_sites(visitor):
    cookie = visitor.get(FORM).headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie
    assert "secure" not in cookie


def test_over_https_the_cookie_and_the_site_stay_encrypted(settings, open_shop):
    answer = open_shop(settings.model_copy(update={"https_only": True})).get("/studio/sign-in")
    assert answer.headers["set-cookie"].startswith("__Host-tapeline=")
    assert "secure" in answer.headers["set-cookie"].lower()
    assert answer.headers["strict-transport-security"].startswith("max-age=")


def test_a_cookie_that_was_tampered_with_signs_nobody_in(designer):
    name, value = next(iter(designer.client.cookies.items()))
    designer.client.cookies.clear()
    designer.client.cookies.set(name, "A" + value[1:], domain="shop.test")
    assert designer.get("/studio").path == "/studio/sign-in"


def test_no_measurement_is_logged(visitor, caplog):
    with caplog.at_level("DEBUG"):
        page = visitor.submit(visitor.get(FORM), to=FORM, **MEASURES)
        visitor.get(page.path)
        visitor.submit(page, to=f"{page.path}/order")
    for figure in ("76.3", "763.0", "101.9", "1019.0", "21.7", "217.0"):
        assert figure not in caplog.text


def test_an_enormous_form_is_refused(visitor):
    token = visitor.get(FORM).form()["form_token"]
    page = visitor.post(FORM, {"form_token": token, "measure-waist_girth": "7" * 400_000})
    assert page.status == 413
    assert "That was too much to read" in page.words


def test_an_address_with_nothing_behind_it_is_answered_in_the_shops_own_look(visitor):
    page = visitor.get("/nothing-here")
    assert page.status == 404
    assert "There is nothing at this address" in page.words
    assert "Cotter Row Studio" in page.words


def test_a_fault_of_ours_is_told_without_details_and_written_down(app, visitor, caplog):
    @app.get("/broken")
    def broken():
        raise RuntimeError("the inside of the machine")

    page = visitor.get("/broken")
    assert page.status == 500
    assert "Something broke on our side" in page.words
    assert "machine" not in page.words
    assert page.headers["content-security-policy"] == CONTENT_SECURITY_POLICY
    assert "GET /broken failed: RuntimeError" in caplog.text


def test_the_health_page_asks_the_database(visitor):
    answer = visitor.get("/healthz").answer
    assert answer.status_code == 200
    assert answer.json()["database"] == {"status": "ok", "words": "It can be read and written."}


def test_no_page_describes_the_application_to_machines(visitor):
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert visitor.get(path).status == 404
