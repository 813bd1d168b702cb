"""From households to the ranked lines of each piece, by etiquette or by postal style.

In: households and the docket's choices. Out: pieces, each with its wordings, best first. Never
measures type, never reads the client's file.
"""

from addressing.wording.address_lines import MILITARY
from addressing.wording.bare_units import set_behind_sign
from addressing.wording.cards import ask_tables
from addressing.wording.casing import cased, cased_firm
from addressing.wording.first_names import ask_first_names
from addressing.wording.forms import failing
from addressing.wording.own_words import check_inners, check_words
from addressing.wording.word import ask_capitals, word_hosts, word_list

__all__ = [
    "MILITARY",
    "ask_capitals",
    "ask_first_names",
    "ask_tables",
    "cased",
    "cased_firm",
    "check_inners",
    "check_words",
    "failing",
    "set_behind_sign",
    "word_hosts",
    "word_list",
]
