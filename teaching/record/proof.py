"""What stands in a row's `proof`: how surely it was this person who signed."""

from teaching.record.actor import Actor
from teaching.record.refusals import refuse


def proof_of(actor: Actor) -> str:
    """For a signature that needs no fresh proof."""
    return actor.proof or ("signed in" if actor.user else "no sign-in")


def proved(actor: Actor) -> str:
    """For one that does: a readiness record, a sign-off, a correction. Raises Refused for a bare sign-in.

    Work without a sign-in (the command line, an import) has no password to ask for, and says so in the row.
    """
    if actor.user is not None and not actor.proof:
        refuse("password", "Write your password again; this signature needs fresh proof that it is you.")
    return proof_of(actor)
