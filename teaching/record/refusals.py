"""What a verb raises when it will not store something: which field, and a sentence that says the mend."""

from typing import NamedTuple, NoReturn


class Fault(NamedTuple):
    """`field` is the entry's field, or "" for the whole; `sentence` is shown to the person as it stands."""

    field: str
    sentence: str


class Refused(Exception):
    """Nothing was stored. `faults` holds every fault found, in the order of the form."""

    def __init__(self, *faults: Fault) -> None:
        self.faults: tuple[Fault, ...] = tuple(Fault(*fault) for fault in faults)
        super().__init__(" ".join(fault.sentence for fault in self.faults))


def refuse(field: str, sentence: str) -> NoReturn:
    """Raise Refused for one fault."""
    raise Refused(Fault(field, sentence))
