"""Odd requests as bytes: what no browser sends, drawn by chance from a seed, so that a failure can be sent again."""

import random

PATHS = [
    "/", "/about", "/about/", "//about", "//evil.example/", "/%2e%2e/%2e%2e/etc/passwd", "/..%5c..%5cx", "/static/../app/run/application.py",
    "/static/css/base.css", "/static/css/base.css/", "/static//css", "/static/%00", "/static/" + "a" * 300, "/patterns/fernhill-skirt",
    "/patterns/fernhill-skirt/measure", "/patterns/%f0%9f%a7%b5", "/patterns/%ff", "/patterns/" + "%41" * 4000, "/studio",
    "/studio/sign-in", "/studio/sign-out", "/studio/sign-ins", "/studio/orders/%0a", "/studio?text=%00&page=99999999999999999999",
    "/studio/listings/fernhill-skirt/draft", "/studio/listings/x/versions/1/proof", "/password/x", "/password/%ed%a0%80",
    "/orders/x", "/orders/x/files/..%2f..%2fsession.key", "/fittings/x", "/fittings/x/fold/%00", "/healthz", "/healthz?%00",
    "http://evil.example/", "http://evil.example/about/", "*", "evil.example:80", "/?%", "/?=&&=;", "/about?\u00e9", "/about#x", "/\\evil",
    "/" + "a/" * 5000, "/a b", "/;x", "/about%0d%0aX-Evil:%201",
]  # fmt: skip
METHODS = [
    "GET",
    "POST",
    "HEAD",
    "PUT",
    "DELETE",
    "OPTIONS",
    "PATCH",
    "TRACE",
    "CONNECT",
    "get",
    "PROPFIND",
    "G@T",
    "",
    "POST\t",
]
VERSIONS = ["HTTP/1.1", "HTTP/1.1", "HTTP/1.1", "HTTP/1.0", "HTTP/2.0", "HTTP/9.9", "http/1.1", "", "HTTP/1.1 x"]
CHARSETS = [
    "",
    "; charset=foo",
    "; charset=utf-7",
    "; charset=utf-8",
    "; charset=idna",
    "; charset=undefined",
    "; charset*=x''%ff",
]
KINDS = [
    "multipart/form-data; boundary=x", "multipart/form-data", "multipart/form-data; boundary=", 'multipart/form-data; boundary="x',
    "multipart/form-data; boundary=\u00e9", "multipart/form-data; boundary=" + "y" * 5000, "application/x-www-form-urlencoded",
    "application/json", "text/plain", "", ";;;=", "multipart/mixed; boundary=x", "MULTIPART/FORM-DATA; BOUNDARY=x",
    "multipart/form-data; boundary*0=x; boundary*1=y", 'multipart/form-data; boundary=x; boundary="z"', "application/x-www-form-urlencoded" * 40,
]  # fmt: skip
BODIES = [
    b"", b"--x--", b"--x\r\n\r\n--x--", b"a=b", b"form_token=%00&email=%ff&password=" + b"p" * 3000, b"\xff\xfe\x00", b"&=" * 2000,
    b'--x\r\nContent-Disposition: form-data; name="a"\r\n\r\n\x00\xed\xa0\x80\r\n--x--\r\n',
    b'--x\r\nContent-Disposition: form-data; name="a"; filename="../../x\x00"\r\nContent-Type: text/plain; charset=utf-7\r\n\r\n+2AA-\r\n--x--\r\n',
    b'--x\r\nContent-Disposition: form-data; name="_charset_"\r\n\r\nutf-7\r\n--x--\r\n', b"--x\r\nContent-Disposition: attachment\r\n\r\nz\r\n--x--",
    b"--x\r\n" + b"H: v\r\n" * 3000 + b"\r\n--x--", b"--x\r\n" + b"H" * 70_000, b"--y\r\nContent-Disposition: form-data; name=a\r\n\r\nb\r\n--y--",
    b"a=b&" * 3000, b"x" * 300_000, b"--x\r\nContent-Disposition: form-data; name*=utf-7''%2b\r\n\r\nv\r\n--x--",
]  # fmt: skip
HEADERS = [
    "Range: bytes=0-0", "Range: bytes=99999-1", "Range: bytes=" + "0-1," * 500, "Range: lines=1", "Range: bytes=\u00b2-", "If-Range: x", "If-Modified-Since: x",
    "If-None-Match: " + "," * 1000, "Accept-Encoding: gzip;q=x, *", "Accept: \x00", "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: x",
    "Upgrade: h2c\r\nConnection: Upgrade, HTTP2-Settings", "Expect: 100-continue", "Expect: 200-ok", "Transfer-Encoding: chunked", "Transfer-Encoding: gzip",
    "Cookie: tapeline=x", "Cookie: tapeline=e30=.x.y; tapeline-device=" + "a" * 900, "Cookie: \u00e9=\u00e9; =; ;;", "Cookie: " + "a=b; " * 1500,
    "X-Forwarded-For: 1.2.3.4", "X-Forwarded-For: \u00e9, [::1", "X-Forwarded-Proto: javascript", "Host: evil.example", "Host: [", "Host: a b", "Host: \u00e9",
    "Forwarded: for=x", "Content-Length: 5", "Content-Length: -1", "Content-Length: x", "Content-Length: 99999999999999999999", " folded", "No colon",
    ": no name", "X: " + "y" * 60_000, "X: " + "y" * 200_000, "\r\n".join(f"X-{n}: y" for n in range(3000)), "X-Evil: a\nb", "Origin: null", "Referer: \x01",
    "Connection: close, keep-alive", "X-HTTP-Method-Override: DELETE", "Content-Encoding: gzip", "TE: trailers", "Date: \u0660",
]  # fmt: skip


def odd_request(seed):
    """The bytes of one request, the same for the same seed."""
    chance = random.Random(seed)
    method, version = chance.choice(METHODS[:3] if chance.random() < 0.8 else METHODS), chance.choice(VERSIONS)
    lines = [f"{method} {chance.choice(PATHS)} {version}"]
    if chance.random() < 0.9:
        lines.append("Host: shop.test")
    if chance.random() < 0.9:
        lines.append("Connection: close")
    lines += chance.sample(HEADERS, chance.choice([0, 0, 1, 1, 2, 4]))
    body = chance.choice(BODIES) if method == "POST" or chance.random() < 0.1 else b""
    if body or chance.random() < 0.1:
        lines.append(f"Content-Type: {chance.choice(KINDS)}{chance.choice(CHARSETS)}")
        length = len(body) + chance.choice([0, 0, 0, 0, -1, 7])
        lines.append(f"Content-Length: {length}")
    return "\r\n".join(lines).encode("utf-8") + b"\r\n\r\n" + body
