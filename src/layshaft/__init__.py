"""Layshaft: from a unit book and one job's looks and readings to a proven rebuild.

Here: nothing but the version.  Each room (a folder below) says in its own docstring what is in it, and
docs/architecture.md leads through them in order.
"""

__version__ = "0.1.0"
