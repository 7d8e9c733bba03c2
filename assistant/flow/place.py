"""Where the flows are: inside an installed package, beside it in a checkout.

The folder inside comes first: beside an installed package lie other people's packages, and one of
them may be called `flows` too. A checkout, and so an editable install, has none inside.
"""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent


def flows_folder(package: Path = PACKAGE) -> Path:
    """The folder that holds the flow files belonging to `package`.

    Raises FileNotFoundError, holding the last place looked at, when there is none.
    """
    places = (package / "flows", package.parent / "flows")
    for place in places:
        if place.is_dir():
            return place
    raise FileNotFoundError(places[-1])
