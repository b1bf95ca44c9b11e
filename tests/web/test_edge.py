"""Addresses and forms that no browser of ours would send, foreign hosts, and asking without wanting the body."""

import pytest

from app.shop.people.service import ensure_designer, password_link_token
from app.web.edge import plain_text

FORM = "/patterns/fernhill-skirt/measure"
MEASURES = {"measure-waist_girth": "76", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}
NO_LETTERS = ["%00", "%0a", "%0D%0Aset-cookie:x=1", "%1b[31m", "%7f", "%ff", "%ed%a0%80", "%c2%85"]


@pytest.mark.parametrize("sign", NO_LETTERS)
@pytest.mark.parametrize(
    "path", ["/{}", "/patterns/{}", "/patterns/fernhill-skirt{}", "/orders/{}", "/password/{}", "/static/{}.css"]
)
def test_an_address_with_signs_that_are_no_letters_is_simply_not_there(visitor, path, sign):
    page = visitor.get(path.format(sign))
    assert page.status == 404
    assert "<h1>" in page.html
    assert "set-cookie" not in page.headers


@pytest.mark.parametrize("sign", NO_LETTERS)
def test_a_search_for_signs_that_are_no_letters_finds_nothing(designer, sign):
    page = designer.get(f"/studio?text=Rosa{sign}&state={sign}&page={sign}")
    assert page.status == 200
    assert "No order found." in page.words


def test_typed_text_keeps_what_a_keyboard_sends_and_nothing_else():
    assert plain_text("Zoë\tQuill\r\nне 模 👩🏽‍🎤") == "Zoë\tQuill\r\nне 模 👩🏽‍🎤"
    assert plain_text("a\0b\x0bc\x1b[1md\x7f\x85") == "abc[1md"
    assert plain_text("\ud800x\uffff") == "\ufffdx\ufffd"


def test_a_form_with_signs_that_cannot_be_kept_is_taken_without_them(visitor):
    page = visitor.submit(visitor.get(FORM), to=FORM, **MEASURES | {"measure-waist_girth": "7\0006"})
    assert page.path.startswith("/fittings/")
    order = visitor.submit(page, to=f"{page.path}/order", name="Ro\0sa\x1b Quill", email="rosa@quill.example\0")
    assert order.path.startswith("/orders/")


@pytest.mark.parametrize("path", ["/about/", "/patterns/fernhill-skirt/", "/about//", "http://shop.test//about/"])
def test_a_slash_too_many_still_finds_the_page_on_this_very_host(visitor, path):
    answer = visitor.get(path, headers={"host": "evil.example"}, follow_redirects=False)
    assert answer.status == 307
    assert answer.headers["location"] in ("/about", "/patterns/fernhill-skirt")


def test_what_was_asked_is_kept_when_a_slash_is_taken_away(designer):
    answer = designer.get("/studio/?text=a%26b&page=2", follow_redirects=False)
    assert answer.headers["location"] == "/studio?text=a%26b&page=2"


@pytest.mark.parametrize(
    "path", ["//evil.example/", "/%5Cevil.example/", "/%2F%2Fevil.example/", "/nothing/", "/static/"]
)
def test_no_slash_leads_to_another_host(visitor, path):
    assert visitor.get(f"http://shop.test{path}", follow_redirects=False).status in (404, 405)


def test_a_form_sent_with_a_slash_too_many_is_not_sent_on(visitor):
    assert visitor.client.build_request("POST", "/about/")
    page = visitor.post("/about/", {})
    assert page.status in (403, 404, 405)
    assert "location" not in page.headers


@pytest.mark.parametrize("host", ["evil.example", "evil.example:99", "[", "a b", "x/y?z", "@", "ä", ""])
@pytest.mark.parametrize("path", ["/", "/about", "/studio", "/studio/sign-in", "/nothing", "/static/", "/healthz"])
def test_no_answer_says_a_host_that_a_request_made_up(visitor, host, path):
    page = visitor.get(path, headers={"host": host.encode()}, follow_redirects=False)
    assert page.status < 500
    assert "evil" not in page.html + str(page.headers)
    assert "://" not in page.headers.get("location", "")


def test_the_password_form_goes_to_its_own_page_whatever_the_host_says(visitor, database):
    with database.writing() as session:
        token = password_link_token(session, ensure_designer(session, "ottilie@cotter-row.example", ""))
    page = visitor.get(f"/password/{token}", headers={"host": "shop.test/evil?"})
    assert f'action="/password/{token}"' in page.html


def test_every_page_can_be_asked_for_without_its_body(app, designer):
    for path, methods in app.openapi()["paths"].items():
        if "get" in methods and "{" not in path:
            full, head = designer.get(path), designer._runner.run(designer.client.head(path, follow_redirects=True))
            assert head.status_code == full.status == 200, path
            assert head.headers["content-type"] == full.headers["content-type"]


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND"])
def test_other_methods_are_told_which_ones_a_page_takes(app, visitor, method):
    for path in ("/about", "/studio/sign-in", "/studio"):
        page = visitor._runner.run(visitor.client.request(method, path))
        assert page.status_code == 405
        assert "GET" in page.headers["allow"]


@pytest.mark.parametrize(
    ("kind", "body", "status"),
    [
        ("multipart/form-data; boundary=x; charset=foo", b"--x--", 415),
        ("multipart/form-data; boundary=x; charset=utf-7", b"--x--", 415),
        ("application/x-www-form-urlencoded; charset=idna", b"a=b", 415),
        ("application/json", b"{}", 415),
        ("text/plain", b"a=b", 415),
        ("", b"a=b", 415),
        ("multipart/form-data", b"--x--", 400),
        ("multipart/form-data; boundary=", b"--x--", 400),
        ("multipart/form-data; boundary=" + "x" * 300, b"--x--", 400),
        ("multipart/form-data; boundary=x", b"nonsense", 400),
        ("multipart/form-data; boundary=x", b"--x\r\n\r\nno name\r\n--x--", 400),
        ("multipart/form-data; boundary=x", b"--x\r\nContent-Disposition: form-data; name=a", 403),
        ("multipart/form-data; boundary=x; charset=UTF-8", b"--x--\r\n", 403),
        ("application/x-www-form-urlencoded", b"a=%ff%zz&\xff\xfe=\x00;;&&==", 403),
        ("application/x-www-form-urlencoded", b"&".join([b"a=b"] * 400), 400),
    ],
)
def test_an_odd_form_is_answered_with_a_calm_page(visitor, caplog, kind, body, status):
    page = visitor._runner.run(visitor.client.post(FORM, content=body, headers={"content-type": kind}))
    assert page.status_code == status
    assert "<h1>" in page.text
    assert "Traceback" not in caplog.text


@pytest.mark.parametrize("charset", ["utf-7", "undefined", "unicode_escape", "idna"])
def test_a_part_of_a_form_is_read_as_utf_8_whatever_it_says(visitor, charset):
    token = visitor.get(FORM).form()["form_token"]
    parts = {"form_token": token, "measure-waist_girth": "+2AA-\\ud800", "_charset_": charset}
    head = f"Content-Type: text/plain; charset={charset}"
    body = b"".join(
        f'--x\r\nContent-Disposition: form-data; name="{name}"\r\n{head}\r\n\r\n{value}\r\n'.encode()
        for name, value in parts.items()
    )
    sent = visitor.client.post(
        FORM, content=body + b"--x--\r\n", headers={"content-type": "multipart/form-data; boundary=x"}
    )
    page = visitor._runner.run(sent)
    assert page.status_code == 422
    assert "+2AA-\\ud800" in page.text
