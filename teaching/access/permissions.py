"""The table of permissions: what each role may do where it is held. The test of the addresses leans on it.

Charts are for those who nurse the person or plan their leaving. An educator, a unit lead and a record auditor
see counts, not charts, unless they also nurse on that unit (45 CFR 164.502(b), minimum necessary).
"""

NURSE = frozenset({"ward-nurse", "stoma-nurse"})
BEDSIDE = NURSE | {"assistant", "student"}
LEAD = frozenset({"lead"})

PERMISSIONS: dict[str, frozenset[str]] = {
    # the bedside
    "see_shift": BEDSIDE | {"planner"},
    "see_person": BEDSIDE | {"planner"},
    "record_emptying": BEDSIDE,  # an assistant's showing is kept and never confirms (I4)
    "record_change": NURSE | {"student"},  # an assistant does not rate a change
    "record_recheck": NURSE,
    "log_care": BEDSIDE,  # care given, a leak, a fluid-chart total
    "raise_caution": BEDSIDE,
    "tell_caution": BEDSIDE,
    "settle_caution": NURSE,
    "cosign": NURSE,
    "correct_account": BEDSIDE,  # one's own; the verb holds whose it is
    "print_huddle": NURSE,
    "print_handover": NURSE | {"planner"},
    "print_for_home": NURSE | {"planner"},
    # going home
    "see_readiness": NURSE | {"planner"},
    "arrange": NURSE | {"planner"},
    "sign_readiness": NURSE | {"planner"},
    "record_after_home": NURSE | {"planner"},
    # the stay
    "open_stay": NURSE,
    "plan_home": NURSE | {"planner"},
    # the unit
    "see_setup": NURSE | LEAD,
    "manage_staff": LEAD,
    "manage_unit": LEAD,
    # nurses' skills: the verbs hold who may assess whom
    "see_skills": frozenset({"educator", "lead", "stoma-nurse"}),
    "see_own_skills": BEDSIDE | {"educator", "lead", "planner"},
    "observe_practice": NURSE | {"educator"},
    "pair_ask": NURSE,  # whoever pairs reads beds and times of changes
    "withdraw_sign_off": frozenset({"educator", "lead", "stoma-nurse"}),
    "tick_huddle": NURSE | {"educator", "lead"},
    "see_learning": frozenset({"educator", "lead"}),
    "print_evidence": frozenset({"educator", "lead"}),
    # looking over what was done
    "see_counts": NURSE | LEAD | {"educator", "planner"},
    "see_trail": frozenset({"auditor"}),
}


def allows(roles: frozenset[str], permission: str) -> bool:
    """Whether one of these roles grants the permission. KeyError for one that is not in the table."""
    return not PERMISSIONS[permission].isdisjoint(roles)
