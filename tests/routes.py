"""The addresses of an application: every route, however it came in."""

from collections.abc import Iterator


def all_routes(app) -> Iterator:
    """Every route of an application or a router, those of what it includes or mounts among them."""
    for route in app.routes:
        yield route
        within = getattr(route, "original_router", route)
        if getattr(within, "routes", None):
            yield from all_routes(within)
