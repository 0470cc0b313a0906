"""Hypothesis: the same examples every time, and no files in the tree."""
import os
import tempfile

os.environ["HYPOTHESIS_STORAGE_DIRECTORY"] = os.path.join(tempfile.gettempdir(), "tailorgeom-hypothesis")

from hypothesis import settings  # noqa: E402

settings.register_profile("tests", database=None, deadline=None, derandomize="TAILOR_LONG" not in os.environ)
settings.load_profile("tests")
