"""Problem documents (RFC 9457): every way to be told no, listed once, with what it means.

A problem's ``type`` is ``/problems/<code>``; a GET on it tells what stands here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.journal.refusals import Code
from service.wire import FieldFault, Problem

MEDIA_TYPE = "application/problem+json"
VALUE_SHOWN = 80
"""How much of a wrong value is repeated (characters)."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of problem: its HTTP status, its short title, what it means and what to do."""

    status: int
    title: str
    about: str


KINDS: dict[str, Kind] = {
    Code.NO_BOOK: Kind(503, "No book is open", "The service has no recipe book yet. Mend the book folder."),
    Code.EMPTY_ORDER: Kind(422, "The order is empty", "An order holds at least one drink."),
    Code.TOO_MANY_CUPS: Kind(422, "Too many cups", "Ring the rest in as another order."),
    Code.SOLD_OUT: Kind(409, "Sold out", "Something the drink needs has run out. Choose without it."),
    Code.UNKNOWN_TICKET: Kind(404, "No such ticket", "No order has that id. Look at the queue again."),
    Code.UNKNOWN_DRINK: Kind(404, "No such drink", "A drink is named by its order and a count, like 17.2."),
    Code.UNKNOWN_STEP: Kind(422, "No such step", "Steps of a drink count from 1."),
    Code.HANDED_OFF: Kind(409, "Handed off", "Take the hand-off back first, or ring in a remake."),
    Code.TICKET_VOID: Kind(
        409, "Void", "The order was struck off. Ring it in anew if it is wanted after all."
    ),
    Code.DRINK_VOID: Kind(
        409, "Void", "The drink was struck off. Ring it in anew if it is wanted after all."
    ),
    Code.DRINK_MADE: Kind(409, "Bumped", "The drink is bumped. Recall it before its steps are done over."),
    Code.DRINK_BEGUN: Kind(
        409, "Begun", "Hands have been at the drink. Make it again as another, with a reason."
    ),
    Code.TICKET_CLOSED: Kind(409, "Closed", "The order ended on an earlier day; it can only be reviewed."),
    Code.NOT_READY: Kind(409, "Not ready", "Hand an order off once all its drinks are bumped or void."),
    Code.REASON_MISSING: Kind(422, "A reason is missing", "A void or a remake needs a few words on why."),
    "line-refused": Kind(422, "Cannot be made", "The named choice does not go with the drink."),
    "unknown-item": Kind(
        404,
        "No such item",
        "Name an ingredient, topping, milk or drink by its id in the book, a person as the scores do.",
    ),
    "wrong-fields": Kind(
        422, "Some fields are wrong", "Each is named, with what it held and what is accepted."
    ),
    "not-json": Kind(
        400, "Not readable", "The body must be one JSON object in UTF-8 without NaN or Infinity."
    ),
    "too-deep": Kind(400, "Nested too deep", "No message of ours nests deeper than 16 levels."),
    "too-large": Kind(413, "Too large", "A body may have 64 kB at most."),
    "wrong-media-type": Kind(415, "Not JSON", "Send the body as application/json."),
    "key-missing": Kind(
        400, "A key is missing", "Send an Idempotency-Key, so that a retry cannot ring in twice."
    ),
    "key-unusable": Kind(400, "The key cannot be used", "A key is 1 to 200 visible ASCII characters."),
    "key-reused": Kind(422, "The key was used", "The key came before with another body. Take a new key."),
    "owner-elsewhere": Kind(
        403,
        "Only on this machine",
        "The owner's pages have no lock yet, so they open only on the machine that the service runs on. "
        "Start the service with OWNER_ANYWHERE=1 to open them to everyone who can reach it.",
    ),
    "book-changed": Kind(
        409, "The book changed", "Someone saved another version meanwhile. Load it and make the edit again."
    ),
    "book-refused": Kind(422, "The book is refused", "Each fault is named by file, line and key."),
    "book-not-writable": Kind(
        503, "The book cannot be written", "The folder of the book cannot be written. Nothing was changed."
    ),
    "no-such-version": Kind(404, "No such version", "See /api/owner/versions for those that are kept."),
    "cannot-measure": Kind(422, "That does not measure", "The named field does not fit the book."),
    "wrong-seed": Kind(422, "Not a seed", "A seed is a whole number from 0 to 2147483647."),
    "wrong-day": Kind(422, "Not a day", "Name a business day as YYYY-MM-DD."),
    "foreign-origin": Kind(403, "Foreign page", "Commands are taken from this service's own pages only."),
    "foreign-host": Kind(
        403,
        "Not a name of ours",
        "The service answers to addresses of its machine, to localhost, to the machine's own name, and to "
        "the names that the setting HOSTS lists.",
    ),
    "not-found": Kind(404, "Nothing here", "See /api/openapi.json for what there is."),
    "method-not-allowed": Kind(405, "Not that way", "The address exists, but takes another method."),
    "bad-request": Kind(400, "Not understood", "The request is not valid HTTP as this service takes it."),
    "journal-away": Kind(
        503, "The journal does not answer", "Nothing was recorded. Send it again in a moment."
    ),
    "journal-unsure": Kind(
        503,
        "The journal did not answer in time",
        "It may have been recorded or not. It is safe to send the same request again with the same key.",
    ),
    "journal-damaged": Kind(500, "The journal is damaged", "A record cannot be read. See the service's log."),
    "internal": Kind(500, "A fault of ours", "The service met a fault, which stands in its log."),
}


class ProblemFound(Exception):
    """Raised at the edge to answer with a problem document."""

    def __init__(self, code: str, detail: str, errors: Sequence[FieldFault] = ()) -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail
        self.errors = list(errors)


def problem(code: str, detail: str, errors: Sequence[FieldFault] = ()) -> Problem:
    """The problem document of a code."""
    kind = KINDS[code]
    return Problem(
        type=f"/problems/{code}", title=kind.title, status=kind.status, detail=detail, errors=list(errors)
    )


def field_fault(field: str, value: object, accepted: Sequence[str] | str) -> FieldFault:
    """One wrong field; a long value is cut, a list of what is accepted written out."""
    words = accepted if isinstance(accepted, str) else ", ".join(accepted)
    text = value if isinstance(value, str) else repr(value)
    text = text.encode("utf-8", "replace").decode()
    return FieldFault(
        field=field, value=text if len(text) <= VALUE_SHOWN else text[: VALUE_SHOWN - 1] + "…", accepted=words
    )
