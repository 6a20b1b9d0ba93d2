"""Published checks of the rules read stories from tests/rules."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "rules"))
