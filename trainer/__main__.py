"""Run the trainer as ``python -m trainer``."""

from trainer.cli import entry

entry()
