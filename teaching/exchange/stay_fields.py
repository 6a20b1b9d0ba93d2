"""One object of a stay file, read key by key: each fault is noted with its path, and reading goes on."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime

from teaching.exchange.stay_times import Clock
from teaching.exchange.wrong_file import did_you_mean

UNKNOWN = datetime(1, 1, 1, tzinfo=UTC)  # stands where a faulty time was; such a file is refused


@dataclass
class Book:
    """What all parts of one file share: the clock, the moment judged (None: not said) and the faults."""

    clock: Clock
    now: datetime | None = None
    faults: list[str] = field(default_factory=list)

    def fault(self, path: str, sentence: str) -> None:
        self.faults.append(f"{path}: {sentence}")


class Fields:
    """The keys of one object. Use as a context: on leaving, keys that nobody asked for are faults.

    Every method gives a harmless value where it has noted a fault; a file with any fault is refused whole.
    The key `about` may stand in any object: it is for people and is not read.
    """

    def __init__(self, book: Book, data: object, path: str) -> None:
        self.book, self.path = book, path
        self.asked = {"about"}
        self.data: dict = data if isinstance(data, dict) else {}
        if not isinstance(data, dict):
            book.fault(path or "file", "must be an object in braces.")

    def __enter__(self) -> "Fields":
        return self

    def __exit__(self, *_: object) -> None:
        for key in self.data:
            if key not in self.asked:
                self.fault(key, f"nobody reads this key; {did_you_mean(key, sorted(self.asked))}")

    def at(self, key: str) -> str:
        return f"{self.path}.{key}" if self.path else key

    def fault(self, key: str, sentence: str) -> None:
        self.book.fault(self.at(key) if key else self.path, sentence)

    def has(self, key: str) -> bool:
        self.asked.add(key)
        return self.data.get(key) is not None

    def take(self, key: str, kind: type | tuple[type, ...], mend: str, default: object = None) -> object:
        """The value if it is there and of its kind; with default ... its lack is a fault."""
        self.asked.add(key)
        value = self.data.get(key)
        if value is None:
            if default is ...:
                self.fault(key, f"is missing; {mend}")
            return None if default is ... else default
        if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
            self.fault(key, f"{value!r} does not fit here; {mend}")
            return None if default is ... else default
        return value

    def text(self, key: str, default: object = "") -> str:
        return str(self.take(key, str, "write it as text in quotes.", default) or "")

    def yes(self, key: str, default: object = False) -> bool:
        return bool(self.take(key, bool, "write true or false.", default))

    def code(self, key: str, known: Collection[str], default: object = ...) -> str:
        """One of the known words; "" after a fault."""
        value = self.text(key, default) if default is not ... or self.has(key) else ""
        if not value:
            if default is ...:
                self.fault(key, f"is missing; {did_you_mean('', known)}")
            return ""
        if value not in known:
            self.fault(key, f"{value} is unknown; {did_you_mean(value, known)}")
            return ""
        return value

    def codes(self, key: str, known: Collection[str]) -> frozenset[str]:
        """A set of known words, written as a list."""
        values = self.take(key, list, "write a list in square brackets.", [])
        assert isinstance(values, list) or values is None
        for value in values or []:
            if not isinstance(value, str) or value not in known:
                self.fault(key, f"{value} is unknown; {did_you_mean(value, known)}")
        return frozenset(str(value) for value in values or [])

    def number(self, key: str, low: float, high: float, unit: str, default: object = None) -> float | None:
        mend = f"write a number of {unit} from {low} to {high}, without quotes."
        value = self.take(key, (int, float), mend, default)
        if isinstance(value, int | float) and not low <= value <= high:
            self.fault(key, f"{value} is out of range; {mend}")
            return None
        return value if isinstance(value, int | float) else None

    def whole(self, key: str, low: int, high: int, unit: str, default: object = None) -> int | None:
        value = self.number(key, low, high, unit, default)
        if value is not None and value != int(value):
            self.fault(key, f"{value} is not whole; write a whole number of {unit}.")
        return None if value is None else int(value)

    def moment(self, key: str, default: object = None) -> datetime | None:
        """A moment in UTC that may lie ahead, such as a planned one."""
        text = self.take(key, str, 'write a time in quotes, such as "day 3 10:00".', default)
        if text is None:
            return None
        try:
            return self.book.clock.moment(text)
        except ValueError as trouble:
            self.fault(key, str(trouble))
            return None

    def happened(self, key: str, default: object = None) -> datetime | None:
        """A moment in UTC of something that happened: never after the moment judged."""
        moment = self.moment(key, default)
        if moment is None:
            return None
        if self.book.now is not None and moment > self.book.now:
            self.fault(
                key, f"{self.data[key]} lies after the moment judged; correct it, or judge at a later time."
            )
        return moment

    def when(self, key: str) -> datetime:
        """As `happened`, where it must be said; UNKNOWN after a fault."""
        return self.happened(key, ...) or UNKNOWN

    def each(self, key: str) -> Iterator["Fields"]:
        """The objects of a list, each checked for unknown keys when the next one is asked for."""
        values = self.take(key, list, "write a list in square brackets.", [])
        assert isinstance(values, list) or values is None
        for index, value in enumerate(values or []):
            with Fields(self.book, value, f"{self.at(key)}[{index}]") as fields:
                yield fields
