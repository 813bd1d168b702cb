"""What the client is asked, what came back, and what was decided: by household, with its place."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, GuestList, Household, Person
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Choice:
    """One proposed answer. `effect` is what it does ("keep", "drop", "set" …), `value` to what.

    Of the effect "part" the value is who is left out: names, `GUEST`, `CHILD`, `BETWEEN` two.
    """

    text: str
    effect: str
    value: str = ""


GUEST, CHILD, FAMILY = "guest", "child", "family"
"""Of those who are left out: companions, and children, without a name; all unnamed family."""
ONE = "drop-one"
"""The value of the effect "drop" where a household is one person: "leave her out" says it too."""
BETWEEN = "|"


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that is asked, in the client's words; it may stand for several findings.

    `ref` is stable: the household's key, the finding's code, the number of the person if one is
    meant. `basis` is what the list said when it was asked: an answer to other words is stale.
    """

    ref: str
    kind: str
    group: str
    who: str
    text: str
    listed: str
    basis: str
    where: Where
    choices: tuple[Choice, ...]
    covers: tuple[Finding, ...]
    households: tuple[str, ...] = ()
    """The keys of the households that it is about; none when it is about the list."""
    person: int | None = None
    """The place of the person among the household's people, from 0."""
    quoted: str = ""
    """Words of the list that the finding quotes."""
    notes: tuple[str, ...] = ()
    """What the list says besides of the same households, which may help to answer."""

    @property
    def household(self) -> str | None:
        """The household that the answer is kept for."""
        return self.households[0] if self.households else None


@dataclass(frozen=True, slots=True)
class Matter:
    """What the client meets as one question: one thing alone, or many alike in a table.

    `number` is the one that workbook and letter give it, `group` the heading that it stands under.
    For a table `ref` is "all:" with the finding's code and kind, and `choices` say what can be said
    of all at once; else both are the question's own.
    """

    number: int
    group: str
    ref: str
    text: str
    choices: tuple[Choice, ...]
    questions: tuple[Question, ...]
    table: str = ""
    """The name of the table, "" for one thing alone."""
    opening: str = ""
    """What the table asks for."""
    own: bool = True
    """True when the answers may be in own words beside the proposed ones."""
    each: bool = False
    """True when each row of the table shows its own question."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One place for an answer as the client has it: the question, and the mark of its basis.

    `matter` is the ref of the table that it stands in, "" outside of tables.
    """

    ref: str
    mark: str = ""
    matter: str = ""


@dataclass(frozen=True, slots=True)
class Decision:
    """One answer as it was given, and where it stands.

    `mark` is the fingerprint of the question's basis, "" when the answer was written by hand.
    `sure` says that an address is right even where it can't be confirmed.
    """

    ref: str
    answer: str
    where: Where
    mark: str = ""
    sure: bool = False
    date: str | None = None
    """The day that it was read on, ISO 8601, as the docket or --date gives it."""
    about: str = ""
    """Of what it was said, as the list had it: so that it is known again, respelled."""
    kind: str = ""
    """The kind of its question, with `taken` so that it goes on when the list asks no longer."""
    taken: Choice | None = None
    """The proposed answer that it was; None for own words."""
    among: tuple[str, ...] = ()
    """The keys of the households that it was about, where they were several."""
    listed: tuple[str, ...] = ()
    """What the list said of these households when the answer left somebody of them out."""


@dataclass(frozen=True, slots=True)
class Said:
    """Words of the client that nothing could be made of; open until they are dealt with.

    `ref` is the question or correction that they stood at, "" for words beside them; `household`
    whom they are about, None for nobody on the list. `by` is the ref of the decision that settled
    them, or `SETTLED`; "" while they are open.
    """

    words: str
    where: Where
    ref: str = ""
    household: str | None = None
    date: str | None = None
    by: str = ""
    against: str = ""
    """What the designer had set, where the words are an answer that says otherwise."""


@dataclass(frozen=True, slots=True)
class Earlier:
    """An answer that was read and is replaced; `by` is the ref of what replaced it."""

    decision: Decision
    by: str


SETTLED = "settled"
"""What the designer has declared dealt with."""


@dataclass(frozen=True, slots=True)
class Given:
    """What an answered workbook or letter holds.

    `blanks` are the places that were left empty, `findings` what can't be taken and what the client
    adds, `held` is the number of our questions in it, `said` its words that are no answers.
    `numbers` says which ref each number of a letter has.
    """

    decisions: tuple[Decision, ...]
    blanks: tuple[Asked, ...] = ()
    findings: tuple[Finding, ...] = ()
    held: int = 0
    said: tuple[Said, ...] = ()
    numbers: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Called:
    """A household as it is called since something was decided of it.

    `people` are its people at the places where the list has them; None for one who is gone.
    """

    home: Household
    people: tuple[Person | None, ...]


@dataclass(frozen=True, slots=True)
class Applied:
    """A list with the decisions in it.

    `settled` are the households (None: the list) and codes that are answered: a later stage may
    find them again. `taken` are the decisions that hold, `open` those that don't.
    """

    guest_list: GuestList
    findings: tuple[Finding, ...]
    settled: frozenset[tuple[str | None, str]] = frozenset()
    taken: tuple[tuple[Question, Decision], ...] = ()
    open: tuple[Decision, ...] = ()
    asked: tuple[Question, ...] = ()
    """What is asked about those who came with an answer, and isn't answered."""
    moot: frozenset[str] = frozenset()
    """The refs of questions that other answers have settled: whoever was meant has left."""
    called: Mapping[str, Called] = field(default_factory=dict)
    """By key the households that are called otherwise than the list has them."""
    beside: frozenset[str] = frozenset()
    """The refs of decisions of which something stays beside names that were corrected."""
    halves: tuple[Household, ...] = ()
    """Of households that an answer parts each half, before what is decided of it alone; the first
    by a key of its own (`h-abcdefgh-1`)."""


@dataclass(frozen=True, slots=True)
class NamesRead:
    """Words read as names; `family` is what they say of unnamed family ("and family").

    `doubtful` when the reader isn't sure of them.
    """

    people: tuple[Person, ...]
    label: str | None = None
    doubtful: bool = False
    family: str | None = None


@dataclass(frozen=True, slots=True)
class Readers:
    """How answers are read: by the same rules as the list itself.

    `address` takes the fields of an address ("lines" for one in a single cell) and gives it as
    read, with what is wrong with it. `same` tells whether two are one person in two spellings,
    `place` whether two addresses are one door, however written.
    """

    names: Callable[[str], NamesRead]
    children: Callable[[str], NamesRead]
    title: Callable[[str], str | None]
    address: Callable[[Mapping[str, Cited]], tuple[Address | None, tuple[str, ...]]]
    same: Callable[[Person, Person], bool]
    place: Callable[[Address | None, Address | None], bool]
