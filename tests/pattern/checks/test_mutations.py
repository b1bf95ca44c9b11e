"""Each check hears the damage it is for, and none hears another's: see `mutations` for the table."""

from __future__ import annotations

import pytest

from app.pattern.checks import CHECKS
from tests.pattern.checks.damages_fresh import DAMAGES
from tests.pattern.checks.damages_slips import SLIPS
from tests.pattern.checks.mutations import (
    BY_HAND,
    BY_TEXT,
    TEXT,
    checks_by_name,
    codes_by_hand,
    codes_of_text,
    damaged,
    main,
)


def test_the_undamaged_draft_is_passed_in_silence():
    assert codes_of_text(TEXT) == ()


@pytest.mark.parametrize("damage", BY_TEXT, ids=lambda d: f"{d.check}: {d.words}")
def test_a_damaged_draft_is_heard_by_that_check_alone(damage):
    assert codes_of_text(damaged(damage)) == (damage.code,)


@pytest.mark.parametrize("damage", BY_HAND, ids=lambda d: f"{d.check}: {d.words}")
def test_a_pattern_damaged_by_hand_is_heard_by_that_check_alone(damage):
    assert codes_by_hand(damage) == (damage.code,)


def test_every_check_is_tried_on_a_damaged_text():
    heard = {damage.check for damage in BY_TEXT} | {slip.check for slip in SLIPS if slip.check != "drafting"}
    fresh = {code for _, _, _, code, _ in DAMAGES}
    heard |= {check.name for check in CHECKS if fresh & {told.code for told in check.findings}}
    assert heard == set(checks_by_name())


def test_the_table_names_every_damage(capsys):
    main()
    printed = capsys.readouterr().out
    assert printed.count("\n| `") == len(BY_TEXT) + len(BY_HAND)
    assert "NO:" not in printed
    assert f"{len(BY_TEXT) + len(BY_HAND)} of {len(BY_TEXT) + len(BY_HAND)} damages are heard" in printed
