"""Made-up finished stays by counting, not by chance, so that every figure on the paper can be worked out by hand."""

from teaching.analysis.unit_learning import LearnedStay

RESULTS = ("self-caring", "self-caring", "with nursing care arranged", "with a named helper", "self-caring")
ROWS = {"cut": (1, 4), "off-peel": (4, 4), "em-close": (3, 4), "em-open": (2, 4)}


def stays(count, results=RESULTS, few=0):
    """`count` stays over ten months; of each row the first so many in four were alone at once.

    `few` more rows were tried by that many people only.
    """
    return [_stay(number, results, few) for number in range(count)]


def _stay(number, results, few):
    tries = {
        code: (1, True) if number % of < at_once else (2 + number % 3, number % 7 != 0)
        for code, (at_once, of) in ROWS.items()
    }
    if number < few:
        tries["look-tubes"] = (1, True)
    independent = number % 5 < 3
    return LearnedStay(
        outcome="independent" if independent else "left", days=float(4 + number % 6),
        month=f"2026-{1 + number % 10:02}", result=results[number % len(results)], sessions=3 + number % 4, tries=tries,
    )  # fmt: skip


def paired_sessions(count):
    """By session: of cutting (06 and 03 in turn) the second read 04 in every fourth, of closing (06) 05 in every tenth;
    opening was always alike.
    """
    return {
        f"session {number}": [
            ("cut", *(("06", "04") if number % 4 == 0 else ("06", "06") if number % 2 == 0 else ("03", "03"))),
            ("em-close", "06", "05" if number % 10 == 0 else "06"),
            ("em-open", "06", "06"),
        ]
        for number in range(count)
    }
