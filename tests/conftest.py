"""One profile for all property tests: the same examples on every machine, however slow it is."""

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None, max_examples=50)
settings.load_profile("steady")
