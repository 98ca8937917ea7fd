"""What every test needs before anything else is loaded."""

from __future__ import annotations

import os

from hypothesis import settings

# Qt reads this when it is first imported.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# Numbers and words are those of the same reader on every machine; tests of other readers name them.
os.environ["LC_ALL"] = "C.UTF-8"
os.environ.pop("LANGUAGE", None)

# The same random plans every time, so that a run that was green stays green; PAIRWRIGHT_EXAMPLES asks for new ones.
settings.register_profile("fixed", derandomize=True, deadline=None)
if "PAIRWRIGHT_EXAMPLES" not in os.environ:
    settings.load_profile("fixed")
