"""What version 1 of the checklist must hold, row by row (common practice unless a row says else)."""

from datetime import UTC, datetime

import pytest

from teaching.exchange.checklist_file import FIXTURE, faults, load_checklist
from teaching.exchange.wrong_file import load_json
from teaching.rules.checklist import applicable
from teaching.rules.facts import BodyEvent, Chart, Kit, Stoma, Ward
from teaching.rules.vocabulary import KIT_ITEMS, PROCEDURES


def words(text):
    """Row codes written as a clinician would list them."""
    return text.split()


DAY = datetime(2026, 5, 11, 10, tzinfo=UTC)
CHECKLIST = load_checklist()
ITEMS = CHECKLIST.items


def rows(kind="ileostomy", states=(), **kit):
    chart = Chart(
        "a stay",
        Ward(),
        CHECKLIST,
        (Stoma("it", "it", kind),),
        (),
        kits=(Kit("it", DAY, **kit),),
        body_events=tuple(BodyEvent(state, DAY) for state in states),
    )
    return applicable(chart, "it", DAY)


def rated(procedure, **stoma):
    return [row.item.code for row in rows(**stoma) if row.item.procedure == procedure and row.rated]


def essential(procedure, **stoma):
    return [row.item.code for row in rows(**stoma) if row.item.procedure == procedure and row.essential]


def codes(procedure, **stoma):
    return [row.item.code for row in rows(**stoma) if row.item.procedure == procedure]


def test_the_file_has_no_fault():
    assert faults(load_json(FIXTURE)) == []


def test_rows_of_each_procedure():
    counts = {name: sum(item.procedure == name for item in ITEMS) for name in PROCEDURES}
    assert counts == {
        "meeting": 3,
        "change": 30,
        "swap": 4,
        "emptying": 11,
        "urine": 5,
        "night": 8,
        "topics": 29,
    }


EIGHTEEN = words("""
    prep-kit prep-hands off-peel off-cover clean-dry hair look-stoma look-skin look-under
    measure fit-check cut shut-first centre press join close next-due""")


def test_a_two_piece_cut_to_fit_ileostomy_has_exactly_18_rated_change_rows():
    assert rated("change") == EIGHTEEN
    assert len(EIGHTEEN) == 18


@pytest.mark.parametrize(
    ("item", "row"),
    [("remover", "off-remover"), ("powder", "powder"), ("film", "film"), ("seal", "seal"), ("belt", "belt")],
)
def test_each_kit_item_of_a_change_adds_one_rated_row(item, row):
    assert set(rated("change", items=frozenset({item}))) - set(EIGHTEEN) == {row}


def test_the_large_bag_and_the_night_bag_add_their_rows():
    every = frozenset(KIT_ITEMS)
    assert set(rated("emptying", items=every)) - set(rated("emptying")) == {"ho-join", "ho-chart"}
    assert rated("night", kind="urostomy") == ["nd-choice"]
    assert rated("night", kind="urostomy", items=every) == (
        words("""
    nd-choice nd-setup nd-join nd-lie nd-part nd-clean nd-stuck""")
    )
    assert len(rated("change", items=every)) == 18 + 5


@pytest.mark.parametrize(
    ("opening", "expected"),
    [
        ("cut", ["measure", "fit-check", "cut", "template"]),
        ("mouldable", ["measure", "mould"]),
        ("pre-cut", ["fit-check"]),
    ],
)
def test_the_opening_sets_the_fitting_rows(opening, expected):
    fitting = {item.code for item in ITEMS if item.phase == "fit-protect"}
    assert [code for code in codes("change", opening=opening) if code in fitting] == expected


def test_a_one_piece_has_no_join():
    assert set(rated("change")) - set(rated("change", pieces="one")) == {"join"}


def test_a_rod_or_stents_ask_for_knowing_the_tubes():
    for tube in ("rod", "stents"):
        assert set(rated("change", states=[tube])) - set(EIGHTEEN) == {"look-tubes"}
    assert "t-stents" in essential("topics", kind="urostomy", states=["stents"])


def test_emptying_of_an_ileostomy():
    assert codes("emptying") == words("""
    em-when em-place em-open em-run em-wipe em-close em-note em-hands em-night""")
    assert essential("emptying") == ["em-when", "em-open", "em-wipe", "em-close", "em-hands"]
    assert "em-note" in essential("emptying", states=["measured"])
    assert "em-note" not in essential("emptying", kind="colostomy", states=["measured"])


def test_a_closed_pouch_is_swapped_not_emptied():
    closed = {"kind": "colostomy", "closure": "closed", "outlet": ""}
    assert codes("emptying", **closed) == []
    assert rated("swap", **closed) == ["cl-when", "cl-off", "cl-on"]
    assert {"shut-first", "close", "off-empty"}.isdisjoint(codes("change", **closed))


def test_a_urostomy_takes_tap_and_night_rows_and_no_emptying_of_stool():
    assert codes("urine", kind="urostomy") == ["ue-when", "ue-open", "ue-shut", "ue-look", "ue-hands"]
    assert essential("urine", kind="urostomy") == codes("urine", kind="urostomy")
    assert codes("emptying", kind="urostomy") == []


def test_i15_a_wet_colostomy_takes_the_urostomys_rows_and_the_topics_of_both():
    wet = {"kind": "wet-colostomy", "outlet": "tap", "items": frozenset({"night-bag"})}
    uro = {"kind": "urostomy", "outlet": "tap", "items": frozenset({"night-bag"})}
    assert codes("emptying", **wet) == [] and codes("swap", **wet) == []
    assert codes("urine", **wet) == codes("urine", **uro) and codes("night", **wet) == codes("night", **uro)
    assert {"off-cover", "shut-first", "close"} <= set(rated("change", **wet))
    both = set(codes("topics", **uro)) | set(codes("topics", kind="colostomy"))
    assert set(codes("topics", **wet)) == both
    assert {"t-slow", "t-uti"} <= both


def test_hard_minimum():
    assert {item.code for item in ITEMS if item.hard_minimum} == set(
        words("""
    em-open em-close cl-off cl-on ue-open ue-shut t-call t-signs t-leak t-colour t-fluid
    t-block t-uti""")
    )


def test_decisions():
    assert {item.code for item in ITEMS if item.decision} == set(
        words("""
    off-remover hair fit-check powder film seal belt nd-choice""")
    )


def test_looking_rows():
    assert {item.code for item in ITEMS if item.looking} == {"look-stoma", "look-skin", "look-under"}


SHARES = {
    "all": "cut mould join close em-close cl-on ue-shut nd-join nd-part",
    "one of two": """
        prep-time prep-kit prep-hands off-empty off-remover off-peel off-read off-cover clean-dry
        measure fit-check powder film seal shut-first centre press belt next-due cl-when cl-off em-when
        em-place em-open em-run em-wipe em-note em-hands em-night ho-join ho-chart ue-when ue-open
        ue-look ue-hands nd-choice nd-setup nd-leave nd-lie nd-clean nd-stuck""",
}


def test_practice_shares():
    """Rows that no list names (meeting, hair, template, clearing away, topics) take no practice."""
    expected = {code: share for share, listed in SHARES.items() for code in listed.split()}
    assert {item.code: item.practice_share for item in ITEMS} == {
        item.code: expected.get(item.code, "none") for item in ITEMS
    }


def test_evidence_groups():
    assert {item.code: item.lends_to for item in ITEMS if item.lends_to} == {
        "em-close": {"close"},
        "ue-shut": {"close"},
        "close": {"em-close", "ue-shut"},
        "shut-first": {"close"},
    }
    assert {item.code for item in ITEMS if item.evidence_group == "outlet-shut"} == {
        "em-close",
        "ue-shut",
        "close",
    }


REOPENED = {
    "outlet": "em-wipe em-close close",
    "one-to-two": "join press centre",
    "convex-or-belt": "centre press belt",
    "opening": "measure cut mould fit-check",
    "tap": "ue-open ue-shut nd-join nd-part",
    "tubes-out": "measure cut centre look-tubes",
    "re-sited": """measure fit-check cut mould powder film seal shut-first centre press
                   look-stoma look-skin look-under look-tubes""",
}


def test_reopened_by():
    found = {event: {item.code for item in ITEMS if event in item.reopened_by} for event in REOPENED}
    assert found == {event: set(listed.split()) for event, listed in REOPENED.items()}
    assert {event for item in ITEMS for event in item.reopened_by} == set(REOPENED)


PHASES = {
    "prepare": "prep-time prep-kit prep-hands",
    "take-off": "off-empty off-remover off-peel off-read off-cover",
    "clean-look": "clean-dry hair look-stoma look-skin look-under look-tubes",
    "fit-protect": "measure fit-check cut mould template powder film seal",
    "put-on": "shut-first centre press join belt close clear next-due",
}


def test_phases_in_the_order_of_a_change():
    found = {phase: [item.code for item in ITEMS if item.phase == phase] for phase in PHASES}
    assert found == {phase: listed.split() for phase, listed in PHASES.items()}


def test_essential_topics():
    every = words("t-call t-signs t-leak t-alone t-bleed t-colour t-skin t-shrink t-order")
    assert essential("topics") == words("""
    t-call t-signs t-leak t-alone t-bleed t-colour t-skin t-shrink t-fluid t-block t-pills
    t-order""")
    assert set(essential("topics", kind="colostomy")) == {*every, "t-slow"}
    assert set(essential("topics", kind="urostomy")) == {*every, "t-uti", "t-drink"}


def test_topics_that_wait_for_a_state():
    assert "t-rear" in codes("topics", kind="colostomy") and "t-rear" not in codes("topics")
    assert "t-rear" in codes("topics", states=["rectum"]) and "t-wound" in codes("topics", states=["wound"])


def test_every_text_is_plain():
    """No exclamation mark, no quotation of another's heading, each question ends as one."""
    for item in ITEMS:
        assert "!" not in item.title + item.good + item.ask_back + item.watch_for
        assert item.ask_back.rstrip(".)")[-1] not in " ,;:" and item.title[0].isupper()
