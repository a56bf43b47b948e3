"""`python -m layshaft` is the layshaft command."""

import sys

from layshaft.cli import main

sys.exit(main())
