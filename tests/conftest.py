"""What every test needs before anything else is loaded."""

from __future__ import annotations

import os

# Qt reads this when it is first imported.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
