"""`python -m app` is the command `tapeline`."""

import sys

from app.cli import main

sys.exit(main())
