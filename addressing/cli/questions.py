"""`addressing questions`: what the client is asked, as a workbook and as a letter."""

from typing import TYPE_CHECKING, Any

import click

from addressing.cli.options import Job, job_options, json_option

if TYPE_CHECKING:
    from addressing.records.questions import Matter, Question


@click.command()
@job_options()
@json_option
def questions(job: Job, *, as_json: bool) -> None:
    """Write the client's questions: a workbook to fill in, and a letter with the same."""
    from addressing.cli.speaking import counted_questions, say, say_json
    from addressing.job.asking import list_as_read, outgoing, write_questions
    from addressing.job.hinting import command_line
    from addressing.job.manifest import keep_docket

    into = job.place
    listed = list_as_read(job.list_path, job.docket, into)
    job.refuse_earlier(listed.remembered.versions)
    out = outgoing(listed, into)
    matters = out.matters
    book, letter = write_questions(listed, out, into)
    keep_docket(into, listed.guest_list, listed.docket)
    if as_json:
        say_json(
            {
                "workbook": str(book),
                "letter": str(letter),
                "matters": [_matter_answer(matter) for matter in matters],
                "questions": [question_answer(each) for m in matters for each in m.questions],
            }
        )
        return
    single = sum(len(matter.questions) for matter in matters)
    say(f"{counted_questions(len(matters), single)} for the client.")
    for matter in matters:
        if matter.table:
            say(f"  {matter.number}. a table of {len(matter.questions)}: {matter.text}")
    then = command_line("answer", job.list_path, book, docket=job.asked, folder=job.folder)
    say(f"  {book}  to fill in; then {then}")
    say(f"  {letter}  the same, to paste into a mail")


def _matter_answer(matter: "Matter") -> dict[str, Any]:
    """What the client meets as one question: its number, its words, the questions in it."""
    return {
        "number": matter.number,
        "group": matter.group,
        "matter": matter.ref,
        "text": matter.text,
        "answers": [choice.text for choice in matter.choices],
        "table": matter.table or None,
        "questions": [question.ref for question in matter.questions],
    }


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
        "notes": list(question.notes),
        "answers": [choice.text for choice in question.choices],
    }
