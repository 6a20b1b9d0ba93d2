"""One line a record: no line can be forged; an exception's message, which may quote a row, is left out."""

import logging
import re
import time
import traceback

from ostomy_teach.reference import current_reference

# Control characters, and the line and paragraph separators some viewers break lines at.
UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]")


def escaped(text: str) -> str:
    """The text with every control character written out, such as \\n as backslash and n."""
    return UNPRINTABLE.sub(lambda found: found.group().encode("unicode_escape").decode(), text)


class OneLine(logging.Formatter):
    """time level logger reference message [| exception: where], all on one line."""

    converter = time.gmtime
    default_time_format = "%Y-%m-%dT%H:%M:%S"
    default_msec_format = "%s.%03dZ"

    def format(self, record: logging.LogRecord) -> str:
        reference = getattr(getattr(record, "request", None), "reference", current_reference.get())
        words = [self.formatTime(record), record.levelname, record.name, reference, record.getMessage()]
        if record.exc_info and record.exc_info[0]:
            frames = traceback.extract_tb(record.exc_info[2])
            where = " < ".join(f"{frame.filename}:{frame.lineno} {frame.name}" for frame in reversed(frames))
            words.append(f"| {record.exc_info[0].__name__}: {where}")
        return escaped(" ".join(words))
