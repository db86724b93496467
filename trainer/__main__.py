"""``python -m trainer`` is the same as the ``trainer`` command."""

from trainer.cli import main

if __name__ == "__main__":
    main()
