"""Yes, no and done in the words that people type. "Not sure" is none of them."""

from __future__ import annotations

from assistant.answers.expect import Trouble
from assistant.answers.text import listed, plain, words_only

FINISHED = frozenset(listed("done|all_done|ready|listo|lista|hecho|ya_esta"))
"""Yes where something was to be done; a value that is asked about is not kept by it."""
YES = FINISHED | frozenset(
    listed(
        "y|ye|yes|yep|yup|yeah|yea|ya|sure|ok|okay|okey|k|right|correct|good|all_good|fine"
        "|that_is_right|thats_right|si|s|claro|vale|bueno|correcto|dale|esta_bien"
    )
)
NO = frozenset(listed("n|no|nope|nah|na|not|not_yet|wrong|incorrecto|tampoco|todavia_no"))
DONE = frozenset(
    listed(
        "finished|all_finished|im_done|i_am_done|were_done|we_are_done|im_finished|im_through|its_done"
        "|it_is_done|its_all_done|thats_done|that_is_done|its_finished|done_it|done_that|done_now"
        "|done_with_it|all_is_done|everything_is_done|did_it|i_did|i_did_it|i_did_that|i_did_all"
        "|we_did|we_did_it|ive_done_it|ive_done_that|ive_done_all|turned_it|i_turned_it|we_turned_it"
        "|its_turned|set_it|i_set_it|its_set|ya_termine|termine|terminado|ya_lo_hice|lo_hice"
    )
)
"""What is said of a list once it is done; it says yes to nothing else."""
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


def agrees(text: str) -> bool:
    """Whether a line says yes to what was read; "done" says that of an act alone."""
    return bool(yes_no(text)) and plain(text).strip(" .!") not in FINISHED


def is_done(text: str) -> bool:
    """Whether a line says that what was to be done is done ("done", "ok", "I turned it")."""
    try:
        return bool(yes_no(text)) or words_only(text).replace("'", "") in DONE
    except Trouble:
        return False
