"""The health page is cheap, however often it is asked."""

from app.web.health import Health, HealthLine, HealthStatus


def test_however_often_it_is_asked_the_shop_is_looked_at_once_in_a_while():
    looks = []

    def look():
        looks.append(1)
        # Whoever asks while somebody looks is told what was found before, and waits for nothing.
        assert health.lines()[0].status is HealthStatus.FAILING
        return [HealthLine("database", HealthStatus.OK, "")]

    health = Health(look)
    for _ in range(50):
        assert health.lines()[0].status is HealthStatus.OK
    assert len(looks) == 1
