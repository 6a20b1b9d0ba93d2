"""Who acts: handed to every verb, so that rows and trail lines name the same person."""

from dataclasses import dataclass

from teaching.models import Clinician, User


@dataclass(frozen=True)
class Actor:
    """`clinician` None is the command line setting up the house; `user` None is work without a sign-in.

    `roles` are those the act leaned on, `address` the caller's network address, `request_id` the reference
    that the error page and the log carry too. `proof` is set where the password was given just now
    (`access.fresh_proof`); "" is a bare sign-in.
    """

    clinician: Clinician | None
    user: User | None = None
    roles: tuple[str, ...] = ()
    address: str = ""
    request_id: str = ""
    proof: str = ""
