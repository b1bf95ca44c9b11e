"""What the page of a proof says in each state it can be in: to sell on, to wait for, to mend, to accept."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.body import size_body
from app.pattern.problem import Place, Problem
from app.pattern.proof import Range, Region, finding_values, region_values
from app.shop.proofs.models import ProofState
from app.shop.studio.proofs.view import ProvedVersion, draw_body, proof_page, proof_state, read_share
from tests.places import APRON, SLIP
from tests.shop.unsaved import MOMENT, a_listing, a_proof, a_version

VERSION = a_version(2)
SEAM = finding_values(Problem("checks.seam-walk", "The sides differ by 4 mm.", "Lower the hem.", Place("back", "side")))


def body(name, failed=0, kind="size", failures=()):
    return {"id": name, "kind": kind, "body": {"hip_girth": 1000.0}, "failed": failed, "failures": list(failures)}


def page(proof, listing=None, chosen=""):
    return proof_page(ProvedVersion(listing or a_listing(VERSION), VERSION, proof), None, chosen)


# ---- how it stands


@pytest.mark.parametrize(
    ("proof", "standing", "sold", "enough"),
    [
        (
            a_proof(ProofState.WAITING, summary={}, proved_at=None),
            "Waits for a worker.",
            "This version of the draft is not proved. Open its proof and wait until every body has been tried.",
            False,
        ),
        (
            a_proof(ProofState.RUNNING, summary={}, done=40, proved_at=None),
            "40 % worked out.",
            "This version of the draft is not proved. Open its proof and wait until every body has been tried.",
            False,
        ),
        (a_proof(), "100 of 100 bodies hold (100 %).", "This is enough to put it on sale.", True),
        (
            a_proof(ProofState.WAITING),
            "Waits for a worker. 100 of 100 bodies hold (100 %).",
            "This is enough to put it on sale.",
            True,
        ),
        (
            a_proof(ProofState.RUNNING, done=7),
            "7 % worked out. 100 of 100 bodies hold (100 %).",
            "This is enough to put it on sale.",
            True,
        ),
        (
            a_proof(share=0.98),
            "98 of 100 bodies hold (98 %).",
            "This draft held on 98.0% of the bodies, and 100.0% are asked for. "
            "Open its proof: mend the draft, or accept this share with your eyes open.",
            False,
        ),
        (
            a_proof(share=0.98, accepted_share=0.98),
            "98 of 100 bodies hold (98 %).",
            "This is enough to put it on sale.",
            True,
        ),
        (
            a_proof(ProofState.FAILED, summary={}),
            "Could not be worked out",
            "This version of the draft could not be proved. "
            "Its proof says why. Mend the draft, and keep it as a new version.",
            False,
        ),
        # What it held on before does not sell a version whose proof has failed since.
        (
            a_proof(ProofState.FAILED),
            "Could not be worked out",
            "This version of the draft could not be proved. "
            "Its proof says why. Mend the draft, and keep it as a new version.",
            False,
        ),
    ],
)
def test_a_proof_says_how_it_stands_and_whether_that_is_enough(proof, standing, sold, enough):
    shown = page(proof)
    assert (shown.standing, shown.sold, shown.enough) == (standing, sold, enough)


def test_a_draft_that_holds_nowhere_is_never_enough():
    proof = a_proof(share=0.0, accepted_share=0.01)
    proof.summary = {**proof.summary, "region": region_values(Region(()))}
    shown = page(proof)
    assert not shown.enough
    assert (
        shown.sold == "This draft held nowhere on enough bodies alike. Open its proof, mend the draft, and try again."
    )


@pytest.mark.parametrize(
    ("proof", "state"),
    [
        (a_proof(ProofState.WAITING, units=0, done=0), (True, "Waiting for a worker", 0)),
        (
            a_proof(ProofState.RUNNING, units=12_345, done=1_234),
            (True, "1,234 of 12,345 patterns drawn and checked", 9),
        ),
        (a_proof(ProofState.RUNNING, units=0, done=0), (True, "0 of 0 patterns drawn and checked", 0)),
        (a_proof(ProofState.RUNNING, units=3, done=3), (True, "3 of 3 patterns drawn and checked", 100)),
        (a_proof(ProofState.READY), (False, "Waiting for a worker", 0)),
        (a_proof(ProofState.FAILED), (False, "Waiting for a worker", 0)),
    ],
)
def test_a_page_that_follows_a_proof_is_told_how_far_it_is_and_when_to_stop(proof, state):
    assert tuple(proof_state(proof).values()) == state


def test_what_kept_a_proof_from_being_worked_out_is_told():
    proof = a_proof(ProofState.FAILED, summary={}, problems=[{"message": "No piece.", "fix": "Draw one."}])
    [shown] = page(proof).problems
    assert (shown.words, shown.fix) == ("No piece.", "Draw one.")


def test_a_proof_that_was_never_finished_tells_no_figures():
    shown = page(a_proof(ProofState.WAITING, summary={}, proved_at=None))
    assert (shown.proved, shown.failures, shown.settings, shown.region, shown.accept) == ("", (), (), (), ())


def test_a_finished_proof_tells_what_was_tried_and_when():
    proof = a_proof()
    proof.summary = {**proof.summary, "patterns": 12_345, "bodies": 1}
    assert page(proof).proved == ("12,345 patterns: 1 body, each at 1 setting of the choices. Proved on 5 March 2026.")


def test_the_designer_of_childrens_wear_is_told_what_is_known_of_the_bodies():
    measured = {"stature": 1160.0, "bust_girth": 580.0, "shoulder_length": 95.0}
    proof = a_proof(bodies=[{**body("size 116"), "body": measured}])
    proof.summary = {**proof.summary, "group": "children"}
    told = page(proof).proved
    assert "survey of 1977 tells us children’s chest girth" in told
    assert "No survey at hand tells us shoulder length" in told
    assert "soldiers" in page(a_proof(bodies=[body("size 92")])).proved


def test_it_is_told_whether_orders_use_this_very_version():
    assert page(a_proof(), a_listing(VERSION)).on_sale
    assert not page(a_proof(), a_listing(VERSION, published=False)).on_sale
    assert not page(a_proof(), a_listing(a_version(3))).on_sale
    assert not page(a_proof(), a_listing()).on_sale


# ---- where it fails


def test_bodies_that_fail_are_listed_the_worst_first_and_no_more_than_can_be_read():
    bodies = [body(f"size {number}", failed=number % 3) for number in range(60)]
    proof = a_proof(share=0.5, bodies=bodies)
    proof.summary = {**proof.summary, "settings": [{"setting": str(n), "bodies": 60, "held": 20} for n in range(3)]}
    worst = page(proof).worst
    assert len(worst) == 20
    assert worst[0].title == "size 2: fails at 2 of 3"
    assert worst[0].value == "size 2"
    assert [one.title.rpartition(" of ")[0][-1] for one in worst] == ["2"] * 20


def test_checks_are_told_by_their_titles_with_an_example():
    tally = {"check": "checks.seam-walk", "bodies": 5, "example": {"message": "4 mm.", "fix": "Lower it."}}
    gone = {**tally, "check": "checks.no-more", "bodies": 2}
    proof = a_proof(share=0.9)
    proof.summary = {**proof.summary, "failures": [tally, gone]}
    seam, other = page(proof).failures
    assert (seam.title, seam.bodies, seam.example.words, seam.example.fix) == ("Seam walk", "5", "4 mm.", "Lower it.")
    assert other.title == "checks.no-more"


def test_each_setting_tells_on_how_many_bodies_it_held():
    proof = a_proof()
    proof.summary = {
        **proof.summary,
        "settings": [
            {"setting": "as offered", "bodies": 100, "held": 100},
            {"setting": "length 45 cm", "bodies": 100, "held": 97},
        ],
    }
    assert [(pair.title, pair.words) for pair in page(proof).settings] == [
        ("as offered", "100 of 100"), ("length 45 cm", "97 of 100"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("found", "title", "words"),
    [
        (Range("hip_girth", 840.0, 1185.0), "Hip girth", "84 to 118.5 cm"),
        (Range("old_girth", 100.0, 200.0), "old_girth", "10 to 20 cm"),
    ],
)
def test_the_measurements_it_holds_within_are_told_in_words(found, title, words):
    proof = a_proof()
    proof.summary = {**proof.summary, "region": region_values(Region((found,)))}
    [shown] = page(proof).region
    assert (shown.title, shown.words) == (title, words)


# ---- accepting a share


def test_the_share_reached_stands_ready_to_be_accepted_and_the_tick_does_not():
    share, seen = page(a_proof(share=0.839)).accept
    assert (share.value, share.unit, share.mode) == ("83.9", "%", "decimal")
    assert (seen.kind, seen.ticked) == ("tick", False)
    assert page(a_proof()).accept[0].value == "100"


def test_who_accepted_what_and_when_is_told():
    proof = a_proof(share=0.839, accepted_share=0.839, accepted_by="Ottilie Brack", accepted_at=MOMENT)
    assert page(proof).accepted == "Ottilie Brack accepted 83.9 % on 5 March 2026."
    assert page(a_proof()).accepted == "Every body must hold. Nobody has accepted less."


@pytest.mark.parametrize(
    ("typed", "share"),
    [
        ("98.5", 0.985),
        ("98,5", 0.985),
        ("98,5 %", 0.985),
        (" 98 % ", 0.98),
        ("100", 1.0),
        ("0", 0.0),
        ("120", 1.2),
        ("099", 0.99),
        ("", None),
        ("%", None),
        (".5", None),
        ("-1", None),
        ("1e2", None),
        ("nan", None),
        ("inf", None),
        ("98.5.1", None),
        ("98 5", None),
        ("1000", None),
        ("٩٨", None),
        ("²", None),
        ("98.٥", None),
    ],
)
def test_a_share_is_read_in_percent_or_not_at_all(typed, share):
    assert read_share(typed) == (pytest.approx(share) if share is not None else None)


@given(st.text(max_size=12))
def test_any_text_is_a_share_or_none(typed):
    share = read_share(typed)
    assert share is None or 0.0 <= share < 10.0


# ---- one body drawn


def shown_body(size="92", failures=()):
    return {"id": f"size {size}", "kind": "size", "body": size_body(size), "failed": 0, "failures": list(failures)}


def test_a_body_that_holds_is_drawn_as_offered_under_the_designs_title():
    drawing, caption = draw_body(SLIP, "slip.draft", {}, "Test slip", shown_body())
    assert drawing.startswith("<svg")
    assert "Test slip" in drawing
    assert caption == "Its pieces, with every choice as offered."


def test_a_body_that_failed_has_the_place_marked():
    failure = {"setting": "as offered", "finding": SEAM}
    drawing, caption = draw_body(SLIP, "slip.draft", {}, "Test slip", shown_body(failures=[failure]))
    assert 'class="finding-picture"' in drawing
    assert caption == "back, edge side, as offered: the place is marked."


def test_a_finding_of_no_piece_shows_the_whole_pattern():
    whole = finding_values(Problem("checks.girth", "Too tight.", "Ease it.", None))
    drawing, caption = draw_body(
        SLIP, "slip.draft", {}, "Test slip", shown_body(failures=[{"setting": "as offered", "finding": whole}])
    )
    assert 'class="finding-picture"' not in drawing
    assert caption.endswith("as offered: the place is marked.")


def test_a_setting_that_the_draft_no_longer_has_is_drawn_as_offered():
    failure = {"setting": "a setting of old", "finding": SEAM}
    drawing, _ = draw_body(SLIP, "slip.draft", {}, "Test slip", shown_body(failures=[failure]))
    assert drawing.startswith("<svg")


@pytest.mark.parametrize("text", ["", "draft", SLIP.replace("hip_girth", "hip_girht")])
def test_a_text_that_cannot_be_read_draws_nothing_and_says_so(text):
    assert draw_body(text, "slip.draft", {}, "x", shown_body()) == ("", "Nothing can be drawn at this setting.")


def test_drafting_that_stops_names_the_line_in_its_own_words():
    text = APRON.replace("waist_girth * 0.3", "waist_girth * sin(arccos(waist_girth / 50cm))")
    drawing, words = draw_body(text, "apron.draft", {}, "Apron", shown_body())
    line = next(number for number, row in enumerate(text.split("\n"), 1) if "arccos" in row)
    assert drawing == ""
    assert words.startswith(f"Nothing can be drawn at this setting: drafting stops at line {line}, “across")
