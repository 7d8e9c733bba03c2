"""Yes and no in the words that people type. "Not sure" is neither."""

from __future__ import annotations

from assistant.answers.expect import Trouble
from assistant.answers.text import listed, plain, words_only

YES = frozenset(
    listed(
        "y|ye|yes|yep|yup|yeah|yea|ya|sure|ok|okay|okey|k|right|correct|done|all_done|ready|good"
        "|all_good|fine|that_is_right|thats_right|si|s|claro|listo|lista|hecho|vale|bueno|correcto"
        "|dale|esta_bien|ya_esta"
    )
)
NO = frozenset(listed("n|no|nope|nah|na|not|not_yet|wrong|incorrecto|tampoco|todavia_no"))
THUMBS = {"👍": True, "👌": True, "✅": True, "✔": True, "👎": False, "❌": False}
_SKIN = dict.fromkeys(range(0x1F3FB, 0x1F400))


def yes_no(text: str) -> bool | None:
    """True for yes, False for no, None for anything else ("not sure", "no sé", "?")."""
    try:
        thumb = THUMBS.get(plain(text).translate(_SKIN).strip())
        said = words_only(text).replace("'", "")
    except Trouble:
        return None
    if thumb is not None:
        return thumb
    return True if said in YES else False if said in NO else None
