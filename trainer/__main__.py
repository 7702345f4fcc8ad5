"""Run the trainer as ``python -m trainer``."""

import sys

from trainer.cli import main

sys.exit(main())
