"""pandas, where it is there: nothing else in the package imports it."""
from __future__ import annotations

import sys
from typing import Any

__all__ = ["is_frame", "pandas", "there"]


def pandas() -> Any:
    """The pandas module, or an ImportError that says what to do."""
    try:
        import pandas as module
    except ImportError as error:
        raise ImportError("this needs pandas; without it, dictionaries and arrays do the same") from error
    return module


def there() -> bool:
    """Whether pandas can be imported."""
    try:
        pandas()
    except ImportError:
        return False
    return True


def is_frame(table: Any) -> bool:
    """Whether something is a DataFrame; does not import pandas to find out."""
    module = sys.modules.get("pandas")
    return module is not None and isinstance(table, module.DataFrame)
