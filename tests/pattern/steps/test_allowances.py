"""Seam allowances: the usual one said once, the rest edge by edge."""

from dataclasses import replace

from app.pattern.steps import allowance_list


def test_the_usual_width_comes_first_and_names_no_edge(tunic):
    usual = allowance_list(tunic)[0]
    assert (usual.width, usual.edges) == (10.0, "")


def test_other_widths_name_their_edges_widest_first(tunic):
    _, hems, bare = allowance_list(tunic)
    assert (hems.width, hems.edges) == (30.0, "Back (hem), Front (hem) and Sleeve (wrist)")
    assert (bare.width, bare.edges) == (0.0, "Back facing (outer edge) and Front facing (outer edge)")


def test_fold_edges_are_never_named(tunic):
    assert all("centre" not in row.edges for row in allowance_list(tunic))


def test_a_pattern_without_pieces_has_no_allowances(tunic):
    assert allowance_list(replace(tunic, pieces=())) == ()
