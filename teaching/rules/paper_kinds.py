"""The kinds of papers that are kept of a person, as lists name them."""

READINESS, TAKE_HOME, AGAINST_PLAN = "readiness", "take-home", "against-plan"
PAPER_KINDS = {
    READINESS: "Readiness record",
    TAKE_HOME: "Take-home sheet",
    AGAINST_PLAN: "Leaving against the plan",
}
