"""`python -m desktop [PLAN]`: the same as the command `pairwright`."""

from __future__ import annotations

import sys

from desktop.app import main

sys.exit(main())
