"""From the review of a fitting to the files, as a customer goes it."""

import re
from dataclasses import asdict
from hashlib import sha256

import pytest
import sqlalchemy as sa

from app.packs.request import PackFile
from app.pattern import lay
from app.pattern.problem import Refused
from app.pattern.sheets import projector
from app.shop.catalogue.service import add_draft_version, listing_by_slug, put_on_sale
from app.shop.orders.keeping import pack_sha256
from app.shop.orders.models import Order, OrderState
from app.shop.orders.review import preview
from app.shop.orders.service import FittingEntry, cloths_of, fitting_by_token, order_by_token, save_fitting
from tests.proved import stand_proved

FORM = "/patterns/fernhill-skirt/measure"


def token_of(page):
    return page.path.rpartition("/")[2]


@pytest.fixture
def ordered(visitor, fitted):
    return visitor.submit(fitted, to=f"{fitted.path}/order", name="Rosa Quill", email="rosa@example.org")


def change(database, page, **values):
    with database.writing() as session:
        order = order_by_token(session, token_of(page))
        for name, value in values.items():
            setattr(order, name, value)


def test_the_review_shows_pieces_finished_sizes_and_entries(fitted):
    assert fitted.status == 200
    assert "Your Fernhill skirt" in fitted.words
    assert "Every check holds." in fitted.words
    assert "<svg" in fitted.html
    assert "Hip 100 5 105" in fitted.words
    assert "Waist to hip 21 cm" in fitted.words
    assert "Skirt cloth 140 cm wide, folded" in fitted.words


def test_the_drawing_carries_no_style_that_the_page_policy_would_refuse(fitted):
    assert " style=" not in fitted.html
    assert "<style" not in fitted.html


def test_what_was_entered_can_be_changed_and_the_first_fitting_stays(visitor, fitted):
    edit = visitor.get(f"{fitted.path}/edit")
    assert edit.form(FORM)["measure-hip_girth"] == "100"
    changed = visitor.submit(edit, to=FORM, **{"measure-hip_girth": "104"})
    assert changed.path != fitted.path
    assert "Hip girth 104 cm" in changed.words
    assert "Hip girth 100 cm" in visitor.get(fitted.path).words


def test_entries_are_shown_and_opened_again_as_they_were_typed(visitor):
    typed = {"measure-waist_girth": "29 15/16", "measure-hip_girth": "100,5cm", "measure-waist_to_hip": "8¼"}
    inches = visitor.submit(visitor.get(FORM), to=FORM, action="in")
    page = visitor.submit(inches, to=FORM, **typed)
    for words in ("Waist girth 29 15/16 in", "Hip girth 100,5cm", "Waist to hip 8¼ in"):
        assert words in page.words
    again = visitor.get(f"{page.path}/edit").form(FORM)
    assert {name: again[name] for name in typed} == typed


def test_the_cloth_page_says_how_much_to_buy_with_a_lay_plan_and_notions(visitor, fitted):
    page = visitor.get(f"{fitted.path}/fabric")
    assert "data-fragment" in page.html
    assert re.search(r"Skirt cloth 1\.\d\d? m of cloth 140 cm wide, folded along its length", page.words)
    assert "Trouser hook and bar: 1" in page.words
    assert page.html.count("<svg") == 2


def test_cloth_that_is_too_narrow_is_told_and_cannot_be_ordered(visitor):
    measures = {"measure-waist_girth": "76", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}
    narrow = visitor.submit(visitor.get(FORM), **measures, **{"cloth-main-width": "32"})
    told = "32 cm is too narrow. Folded along its length, this cloth must be at least"
    assert "Every check holds." not in narrow.words
    assert told in narrow.words
    assert told in visitor.get(f"{narrow.path}/fabric").words
    assert "Order my free sample" not in narrow.words
    assert visitor.submit(narrow, to=f"{narrow.path}/order").status == 422


def test_the_width_a_narrow_cloth_is_told_to_have_is_enough_and_the_only_one_named(visitor):
    measures = {"measure-waist_girth": "30", "measure-hip_girth": "39 1/2", "measure-waist_to_hip": "8 1/4"}
    inches = visitor.submit(visitor.get(FORM), to=FORM, action="in")
    narrow = visitor.submit(inches, to=FORM, **measures, **{"cloth-main-width": "12"})
    figures = re.findall(r"at least ([\d /]+) in wide", narrow.words)
    assert len(figures) == 1
    edit = visitor.get(re.search(r'href="(/fittings/\S+/edit)#cloth-main-width"', narrow.html)[1])
    wide = visitor.submit(edit, to=FORM, **{"cloth-main-width": figures[0]})
    assert "Every check holds." in wide.words
    assert visitor.submit(wide, to=f"{wide.path}/order").path.startswith("/orders/")


def test_a_cloth_that_goes_laid_open_is_laid_so_with_one_press(visitor):
    measures = {"measure-waist_girth": "76", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}
    narrow = visitor.submit(visitor.get(FORM), **measures, **{"cloth-main-width": "45"})
    assert "Laid open, in one layer, your 45 cm are enough." in narrow.words
    opened = visitor.post(f"{narrow.path}/fold/main", narrow.form(f"{narrow.path}/order"))
    assert "Every check holds." in opened.words


TUNIC = "/patterns/larkspur-tunic/measure"


@pytest.fixture
def tunic(visitor):
    """A fitting of the tunic, whose pieces go on far less cloth laid open."""
    filled = visitor.submit(visitor.get(TUNIC), to=TUNIC, action="size", size="92")
    return visitor.submit(filled, to=TUNIC, action="check")


def test_cloth_that_goes_further_laid_open_is_offered_and_changed_with_one_press(visitor, tunic):
    page = visitor.get(f"{tunic.path}/fabric")
    offered = re.search(r"Laid open, you would need (\d\.\d\d) m instead of (\d\.\d\d) m\.", page.words)
    assert float(offered[1]) < 0.75 * float(offered[2])
    changed = visitor.post(f"{tunic.path}/fold/main", page.form(f"{tunic.path}/order") | {"name": "Rosa Quill"})
    assert changed.status == 200
    assert changed.path != tunic.path
    assert "150 cm wide, laid open" in changed.words
    assert "150 cm wide, folded" in visitor.get(tunic.path).words
    assert changed.form(f"{changed.path}/order")["name"] == "Rosa Quill"
    assert visitor.get(changed.path).form(f"{changed.path}/order")["name"] == ""
    again = visitor.get(f"{changed.path}/fabric")
    assert "of cloth 150 cm wide, laid open" in again.words
    assert "/fold/main" not in again.html


def test_everything_but_the_fold_of_one_cloth_is_kept(visitor, database, tunic):
    page = visitor.get(f"{tunic.path}/fabric")
    changed = visitor.post(f"{tunic.path}/fold/lining", page.form(f"{tunic.path}/order"))
    with database.reading() as session:
        old, new = (fitting_by_token(session, token_of(each)) for each in (tunic, changed))
        for name in ("listing_id", "draft_version_id", "entered", "measurements", "choices", "unit", "paper"):
            assert getattr(old, name) == getattr(new, name)
        assert old.cloths["main"] == new.cloths["main"]
        assert new.cloths["lining"] == {**old.cloths["lining"], "folded": not old.cloths["lining"]["folded"]}


def test_a_cloth_that_is_not_in_the_pattern_cannot_be_turned(visitor, fitted):
    fields = visitor.get(f"{fitted.path}/fabric").form(f"{fitted.path}/order")
    assert visitor.post(f"{fitted.path}/fold/velvet", fields).status == 404


def test_a_pattern_is_drawn_while_others_can_write(visitor, app, fitted, monkeypatch):
    """No transaction is held over anything slow: at that time another writer finds the shop open."""
    inside = []
    work_out = preview.aside.run_or_busy

    def got(*args):
        with app.state.database.writing() as session:
            inside.append(session.execute(sa.text("SELECT 1")).scalar())
        return work_out(*args)

    monkeypatch.setattr(preview.aside, "run_or_busy", got)
    preview._made.cache_clear()
    placed = visitor.submit(fitted, to=f"{fitted.path}/order")
    assert placed.path.startswith("/orders/")
    assert inside == [1]


def test_an_order_is_placed_without_laying_any_cloth(visitor, fitted, monkeypatch):
    monkeypatch.setattr(lay, "plan", None)
    preview._plan.cache_clear()
    assert visitor.submit(fitted, to=f"{fitted.path}/order").path.startswith("/orders/")


def test_a_wrong_email_keeps_both_entries_and_is_named(visitor, fitted):
    page = visitor.submit(fitted, to=f"{fitted.path}/order", name="Rosa", email="rosa at example")
    assert page.status == 422
    assert "is not an e-mail address" in page.words
    assert page.form(f"{fitted.path}/order")["name"] == "Rosa"
    assert page.form(f"{fitted.path}/order")["email"] == "rosa at example"


def test_a_name_longer_than_can_be_kept_is_refused(visitor, fitted):
    page = visitor.submit(fitted, to=f"{fitted.path}/order", name="R" * 121)
    assert page.status == 422
    assert "at most 120 characters" in page.words


def test_an_order_needs_neither_name_nor_email(visitor, fitted):
    assert visitor.submit(fitted, to=f"{fitted.path}/order").path.startswith("/orders/")


def test_ordering_twice_gives_the_same_order(visitor, fitted, ordered):
    assert visitor.submit(fitted, to=f"{fitted.path}/order").path == ordered.path


def test_a_fitting_that_was_ordered_leads_to_its_order_whatever_is_sold_now(visitor, database, fitted, ordered):
    sell_another(database)
    page = visitor.get(fitted.path)
    assert "You have ordered this pattern" in page.words
    assert f'href="{ordered.path}"' in page.html
    assert "changed Fernhill skirt since" not in page.words
    assert f"{fitted.path}/order" not in page.forms


def test_how_soon_a_pattern_is_built_is_said_by_how_many_wait(visitor, database, fitted):
    assert "Your pattern is built in a few minutes; its page stays open" in fitted.words
    with database.writing() as session:
        fitting = fitting_by_token(session, token_of(fitted))
        for number in range(11):
            entry = FittingEntry({}, fitting.measurements, fitting.choices, "cm", "a4", cloths_of(fitting))
            other = save_fitting(session, listing_by_slug(session, fitting.listing.slug), entry)
            session.add(waiting_order(other, number))
    page = visitor.get(fitted.path)
    assert "11 orders wait at the moment, and your pattern takes its turn among them" in page.words
    assert "a few minutes" not in page.words


def waiting_order(fitting, number):
    return Order(
        number=f"TL-{number}",
        token=f"token-{number}",
        fitting=fitting,
        draft_version=fitting.draft_version,
        price_cents=0,
        currency="EUR",
        payment_kind="sample",
        payment_state="settled",
        state=OrderState.PLACED,
        created_at=fitting.created_at,
        updated_at=fitting.created_at,
    )


def test_a_new_order_waits_and_says_how_it_follows_along(visitor, ordered):
    assert "Your pattern is being made" in ordered.words
    assert '<noscript><meta http-equiv="refresh"' in ordered.html
    assert 'aria-live="polite"' in ordered.html
    state = visitor.get(f"{ordered.path}/state").answer.json()
    assert state == {"waiting": True, "stage": "Waiting for a free worker", "percent": 0}


def test_the_stage_and_share_of_a_build_are_shown(visitor, database, ordered):
    change(database, ordered, state=OrderState.BUILDING, stage="Laying the pieces on the cloth", progress=0.42)
    page = visitor.get(ordered.path)
    assert "Laying the pieces on the cloth" in page.words
    assert 'value="42"' in page.html


def test_a_ready_order_gives_its_files_with_sizes_and_printing_advice(visitor, database, app, ordered):
    draft = app.state.packs.begin("pack-1", "claim")
    content = b"%PDF-1.7 a pattern".ljust(1_250_000)
    (draft / "pattern-a4.pdf").write_bytes(content)
    app.state.packs.keep(draft, "pack-1")
    file = PackFile("pattern-a4.pdf", "Pattern for A4 paper", len(content), sha256(content).hexdigest())
    kept = {"pack_folder": "pack-1", "pack_sha256": pack_sha256([file]), "files": [asdict(file)]}
    cloth = {"name": "main", "title": "Skirt cloth", "width_mm": 1400.0, "buy_mm": 1550.0, "buy": "1.55 m"}
    summary = {"sheets": 12, "paper": "a4", "cloths": [cloth], "notes": ["The band is wider than most."]}
    change(database, ordered, state=OrderState.READY, summary=summary, **kept)
    page = visitor.get(ordered.path)
    assert "Ready to print" in page.words
    assert "Pattern for A4 paper PDF, 1.2 MB" in page.words
    assert "actual size" in page.words
    assert "To print 12 sheets" in page.words
    assert "Skirt cloth to buy 1.55 m, 140 cm wide" in page.words
    assert "The band is wider than most." in page.words
    answer = visitor.get(f"{ordered.path}/files/pattern-a4.pdf").answer
    assert answer.content == content
    assert answer.headers["content-type"] == "application/pdf"
    assert "attachment" in answer.headers["content-disposition"]
    assert visitor.get(f"{ordered.path}/files/secret.txt").status == 404
    assert visitor.get(f"{ordered.path}/files/..%2Fpack-1%2Fpattern-a4.pdf").status == 404


def test_files_cannot_be_had_before_the_order_is_ready(visitor, database, ordered):
    change(database, ordered, files=[{"name": "x.pdf", "title": "x", "bytes": 1, "sha256": "0"}], pack_folder="pack")
    assert visitor.get(f"{ordered.path}/files/x.pdf").status == 404


def test_an_order_that_needs_the_designer_says_so_with_what_was_found(visitor, database, ordered):
    finding = {
        "code": "checks.seam-walk",
        "message": "The side seam is 4 mm too long.",
        "fix": "Redraw it.",
    }
    change(database, ordered, state=OrderState.NEEDS_DESIGNER, reason="seams", findings=[finding])
    page = visitor.get(ordered.path)
    assert "This needs the designer" in page.words
    assert "Edges that are sewn together would not be equally long" in page.words
    assert "4 mm" not in page.words
    assert "refresh" not in page.html


@pytest.mark.parametrize(
    ("state", "words"), [(OrderState.FAILED, "The build stopped"), (OrderState.CANCELLED, "This order was cancelled")]
)
def test_every_other_end_of_an_order_is_told(visitor, database, ordered, state, words):
    change(database, ordered, state=state)
    assert words in visitor.get(ordered.path).words


def test_a_body_the_design_cannot_serve_is_told_plainly_and_goes_to_the_designer(visitor, database):
    body = {"waist_girth": 760.0, "hip_girth": 1000.0, "waist_to_hip": 800.0}
    with database.writing() as session:
        entry = FittingEntry({}, body, {}, "cm", "a4", {})
        token = save_fitting(session, listing_by_slug(session, "fernhill-skirt"), entry).token
    page = visitor.get(f"/fittings/{token}")
    assert page.status == 200
    assert "This needs the designer" in page.words
    assert "The finished garment would come out wider or narrower" in page.words
    assert "For the designer: every finding" in page.words
    assert "The finished garment Measured" not in page.words
    assert "Send it to the designer" in page.words
    assert visitor.get(f"{page.path}/fabric").status == 200
    sent = visitor.submit(page, to=f"{page.path}/order", name="Rosa Quill")
    assert "This needs the designer" in sent.words
    assert "The finished garment would come out wider or narrower" in sent.words
    assert "did not pass one of our checks" in sent.words
    with database.reading() as session:
        order = order_by_token(session, token_of(sent))
        assert (order.state, order.ticket, order.attempt) == (OrderState.NEEDS_DESIGNER, 0, 0)
        assert [found["severity"] for found in order.findings].count("error") >= 1


WIDE = {"measure-waist_girth": "118", "measure-hip_girth": "145", "measure-waist_to_hip": "22"}


@pytest.fixture
def outside(visitor):
    """A fitting that draws well, for a body wider than any on which the design stands proved."""
    return visitor.submit(visitor.get(FORM), to=FORM, **WIDE)


def test_a_body_outside_the_proof_is_told_so_before_she_orders(outside):
    assert "Outside what this design was proved on" in outside.words
    assert "The hip girth is 145 cm; this design was proved from 76 cm to 140 cm." in outside.words
    assert "nothing is charged" in outside.words
    assert "Order my free sample" not in outside.words
    assert "Your pieces" in outside.words


def test_her_order_goes_to_the_designer_and_is_not_built_by_itself(visitor, designer, database, app, outside):
    sent = visitor.submit(outside, to=f"{outside.path}/order", name="Rosa Quill")
    assert "lie outside those on which this design was proved" in sent.words
    assert "The hip girth is 145 cm" in sent.words
    with database.reading() as session:
        order = order_by_token(session, token_of(sent))
        assert (order.state, order.ticket) == (OrderState.NEEDS_DESIGNER, 0)
        assert app.state.queue.unfinished() == []
    page = designer.get(f"/studio/orders/{order.number}")
    assert "The hip girth is 145 cm" in page.words
    assert "Build it all the same" in page.words
    assert "ask the designer" not in page.words
    designer.post(f"/studio/orders/{order.number}/rebuild", page.form(f"/studio/orders/{order.number}/rebuild"))
    with database.reading() as session:
        assert order_by_token(session, token_of(sent)).state is OrderState.PLACED
    assert len(app.state.queue.unfinished()) == 1


def test_a_body_inside_the_proof_is_built_at_once(visitor, app, fitted):
    assert "Outside what" not in fitted.words
    visitor.submit(fitted, to=f"{fitted.path}/order")
    assert len(app.state.queue.unfinished()) == 1


def test_a_version_on_trial_changes_nothing_for_customers(visitor, app, database, fitted):
    with database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        add_draft_version(session, listing, listing.current_version.text + "\n# another\n")
    page = visitor.submit(visitor.get(f"{fitted.path}/edit"), to=FORM)
    assert "still being proved" not in page.words
    visitor.submit(page, to=f"{page.path}/order")
    assert len(app.state.queue.unfinished()) == 1


def sell_another(database, change=lambda text: text + "\n# another\n"):
    """Put a changed draft of the skirt on sale."""
    with database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        version = add_draft_version(session, listing, change(listing.current_version.text))
        stand_proved(session, version, hip_girth=(760.0, 1400.0))
        assert not isinstance(put_on_sale(session, listing, version), Refused)


def test_a_review_of_a_version_that_is_no_longer_sold_says_so_and_offers_the_one_that_is(visitor, database, fitted):
    sell_another(database)
    page = visitor.get(fitted.path)
    assert "The designer has changed Fernhill skirt since you entered your measurements." in page.words
    assert f"{fitted.path}/order" not in page.forms
    renewed = visitor.submit(page, to=f"{fitted.path}/renew")
    assert renewed.status == 200
    assert renewed.path not in (fitted.path, FORM)
    assert "changed Fernhill skirt since" not in renewed.words
    for entry in ("76 cm", "100 cm", "21 cm"):
        assert entry in renewed.words
    placed = visitor.submit(renewed, to=f"{renewed.path}/order")
    with database.reading() as session:
        assert order_by_token(session, token_of(placed)).draft_version.number == 2


def test_an_order_sent_from_a_page_opened_before_the_change_is_not_built_without_a_word(visitor, app, database, fitted):
    sell_another(database)
    page = visitor.submit(fitted, to=f"{fitted.path}/order", name="Rosa Quill")
    assert "The designer has changed Fernhill skirt since you entered your measurements." in page.words
    assert app.state.queue.unfinished() == []
    with database.reading() as session:
        assert session.scalars(sa.select(Order)).all() == []


def test_a_changed_design_that_asks_for_more_leads_to_the_form_with_all_that_was_entered(visitor, database, fitted):
    sell_another(database, lambda text: text.replace("waist_to_hip\n", "waist_to_hip, stature\n", 1))
    page = visitor.submit(visitor.get(fitted.path), to=f"{fitted.path}/renew")
    assert page.status == 422
    fields = page.form(FORM)
    assert (fields["measure-waist_girth"], fields["measure-stature"]) == ("76", "")


def test_an_order_that_stands_is_not_touched_by_a_change(visitor, database, fitted):
    placed = visitor.submit(fitted, to=f"{fitted.path}/order")
    sell_another(database)
    again = visitor.submit(fitted, to=f"{fitted.path}/order")
    assert again.path == placed.path
    with database.reading() as session:
        assert order_by_token(session, token_of(placed)).draft_version.number == 1


def test_a_pattern_taken_off_sale_can_still_be_looked_at_but_not_ordered(visitor, database, fitted):
    with database.writing() as session:
        listing_by_slug(session, "fernhill-skirt").published = False
    page = visitor.get(fitted.path)
    assert "not on sale at the moment" in page.words
    assert f"{fitted.path}/order" not in page.forms


@pytest.mark.parametrize("path", ["/fittings/nothing", "/orders/nothing", "/orders/nothing/state"])
def test_a_link_that_lost_a_letter_finds_nothing(visitor, path):
    page = visitor.get(path)
    assert page.status == 404
    assert "There is nothing at this address" in page.words


LEFT_OUT = "There is no file for a projector: the piece “Sash” is 492 cm long, and its page holds 500 cm."


def ready(app, database, page, names, **summary):
    """Let the order stand ready with these files in its pack."""
    draft = app.state.packs.begin("pack-1", "claim")
    for name in names:
        (draft / name).write_bytes(b"%PDF")
    app.state.packs.keep(draft, "pack-1")
    files = [PackFile(name, name, 4, sha256(b"%PDF").hexdigest()) for name in names]
    kept = {"pack_folder": "pack-1", "pack_sha256": pack_sha256(files), "files": [asdict(file) for file in files]}
    change(database, page, state=OrderState.READY, summary=summary, **kept)


def test_a_file_that_is_not_in_the_pack_is_told_beside_the_files_to_customer_and_designer(
    visitor, designer, app, database, ordered
):
    ready(app, database, ordered, ["pattern-a4.pdf"], left_out=[LEFT_OUT], notes=["The hem is long."])
    page = visitor.get(ordered.path)
    assert LEFT_OUT in page.words
    assert "For a copy shop" not in page.words
    assert "beam" not in page.words
    with database.reading() as session:
        number = order_by_token(session, token_of(ordered)).number
    studio = designer.get(f"/studio/orders/{number}")
    assert LEFT_OUT in studio.words
    assert "The hem is long." in studio.words


def test_a_pack_with_a_projector_file_comes_with_the_cautions_for_one(visitor, app, database, ordered):
    ready(app, database, ordered, ["pattern-a4.pdf", "pattern-one-sheet.pdf", "pattern-projector.pdf"])
    page = visitor.get(ordered.path)
    assert "Never look into the lens or the beam" in page.words
    assert "nobody trips over them" in page.words
    assert "follow the maker's handbook" in page.words
    assert "For a copy shop" in page.words


def test_a_projector_file_that_cannot_be_is_told_on_the_review_and_stands_in_no_orders_way(
    visitor, fitted, monkeypatch
):
    """A page as short as one of the skirt's pieces stands for pieces as long as a page."""
    monkeypatch.setattr(projector, "LONGEST", 700.0)
    page = visitor.get(fitted.path)
    assert "There is no file for a projector: the piece “" in page.words
    assert "Use the sheets for a home printer instead." in page.words
    assert visitor.submit(page, to=f"{page.path}/order").path.startswith("/orders/")


def test_whoever_chooses_a_projector_reads_the_caution_there(visitor):
    assert "Never look into the beam; fasten the projector" in visitor.get(FORM).words
