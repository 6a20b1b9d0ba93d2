"""Small groups are not shown, and must not be found by subtracting what is shown from the whole.

Fewer than five people in a group could be recognised by those who nursed them (common practice, no source).
"""

from collections.abc import Mapping

FEWEST = 5


def shown(counts: Mapping[str, int], *, fewest: int = FEWEST) -> dict[str, int | None]:
    """The counts with every group from 1 to `fewest` - 1 hidden (None), and enough others hidden with them.

    Whoever knows the whole can work out only the sum of what is hidden: that sum is at least `fewest` and
    belongs to two groups or more. Nobody at all (0) is no small group and is shown, unless it must hide with another.
    """
    hidden = {name for name, count in counts.items() if 0 < count < fewest}
    if hidden:
        others = sorted(counts.keys() - hidden, key=lambda name: (counts[name] == 0, counts[name], name))
        while others and (len(hidden) < 2 or sum(counts[name] for name in hidden) < fewest):
            hidden.add(others.pop(0))
    return {name: None if name in hidden else count for name, count in counts.items()}


def no_few(*counts: int, fewest: int = FEWEST) -> bool:
    """Whether each of these groups is nobody, or `fewest` or more: a share of two parts says both."""
    return all(count == 0 or count >= fewest for count in counts)
