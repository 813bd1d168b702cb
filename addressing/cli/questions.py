"""`addressing questions`: what the client is asked, as a workbook and as a letter."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from addressing.cli.options import (
    docket_option,
    folder_for,
    json_option,
    list_argument,
    to_option,
)

if TYPE_CHECKING:
    from addressing.records.questions import Question


@click.command()
@list_argument
@docket_option
@to_option
@json_option
def questions(
    list_path: Path, docket_path: Path | None, folder: Path | None, *, as_json: bool
) -> None:
    """Write the client's questions: a workbook to fill in, and a letter with the same."""
    from addressing.cli.speaking import say, say_json
    from addressing.job.asking import list_as_read, open_questions, write_questions

    into = folder_for(list_path, folder)
    listed = list_as_read(list_path, docket_path, into)
    asked = open_questions(listed, into)
    book, letter = write_questions(listed, asked, into)
    if as_json:
        say_json(
            {
                "workbook": str(book),
                "letter": str(letter),
                "questions": [question_answer(question) for question in asked],
            }
        )
        return
    say(f"{len(asked)} {'question' if len(asked) == 1 else 'questions'} for the client.")
    say(f"  {book}  to fill in; then addressing answer {list_path} {book}")
    say(f"  {letter}  the same, to paste into a mail")


def question_answer(question: "Question") -> dict[str, Any]:
    """One question as programs read it."""
    return {
        "question": question.ref,
        "household": question.household,
        "codes": list(dict.fromkeys(found.code for found in question.covers)),
        "cell": str(question.where),
        "who": question.who,
        "text": question.text,
        "listed": question.listed,
        "answers": [choice.text for choice in question.choices],
    }
