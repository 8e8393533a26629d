"""Run as ``python -m oarkit``."""

import sys

from oarkit.cli import main

sys.exit(main())
