"""A practice aid for installing prefabricated timber roof trusses.

The rooms, in the order in which they may lean on each other, are listed in ``DEVELOPERS.md``;
``tests/test_architecture.py`` holds the code to it.
"""

__version__ = "0.1.0"
