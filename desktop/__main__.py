"""`python -m desktop [PLAN]`: the same as the command `pairwright`."""

from __future__ import annotations

import sys

from desktop.app import main

if getattr(sys, "frozen", False):
    # A stand-alone program is started once more to be its own helper.
    from multiprocessing import freeze_support

    freeze_support()
sys.exit(main())
