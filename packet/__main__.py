"""Let ``python -m packet`` do what ``collector-packet`` does."""

import sys

from packet.cli.cli import main

sys.exit(main())
