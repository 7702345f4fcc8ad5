"""The requirements on a statement of the Experience API, as checks.

Source: xAPI 1.0.3 part two, https://github.com/adlnet/xAPI-Spec/blob/master/xAPI-Data.md (section numbers beside the
checks); IEEE 9274.1.1-2023 keeps them.  Only what MUST hold of statements of the form that the trainer writes.
"""

import re
import uuid
from datetime import datetime
from urllib.parse import urlsplit

STATEMENT = {
    "id",
    "actor",
    "verb",
    "object",
    "result",
    "context",
    "timestamp",
    "stored",
    "authority",
    "version",
    "attachments",
}
RESULT = {"score", "success", "completion", "response", "duration", "extensions"}
CONTEXT = {
    "registration",
    "instructor",
    "team",
    "contextActivities",
    "revision",
    "platform",
    "language",
    "statement",
    "extensions",
}
DEFINITION = {
    "name",
    "description",
    "type",
    "moreInfo",
    "interactionType",
    "correctResponsesPattern",
    "choices",
    "scale",
    "source",
    "target",
    "steps",
    "extensions",
}
INTERACTIONS = {  # 2.4.4.1, interaction activities
    "true-false",
    "choice",
    "fill-in",
    "long-fill-in",
    "matching",
    "performance",
    "sequencing",
    "likert",
    "numeric",
    "other",
}
IDENTIFIERS = {"mbox", "mbox_sha1sum", "openid", "account"}
# ISO 8601 durations (4.6); RFC 5646 language tags, the simple ones (4.2).
DURATION = re.compile(r"P(?=.)(\d+(\.\d+)?Y)?(\d+M)?(\d+D)?(T(?=.)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?|P\d+W")
LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")


def problems(statement):
    """Return a sentence for every requirement that ``statement`` breaks."""
    found = []

    def must(holds, what):
        if not holds:
            found.append(what)

    must(set(statement) <= STATEMENT, "2.2: no property that is not in the specification")
    must({"actor", "verb", "object"} <= set(statement), "2.4: actor, verb and object are required")
    must(not _nulls(statement), "2.2: no value is null (except in extensions)")
    must(str(uuid.UUID(statement["id"])) == statement["id"], "2.4.1: the id is a UUID in its usual form")
    _actor(statement["actor"], must)
    must(_iri(statement["verb"]["id"]), "2.4.3: the verb's id is an IRI")
    _languages(statement["verb"]["display"], must)
    _activity(statement["object"], must)
    _result(statement.get("result", {}), must)
    _context(statement.get("context", {}), must)
    must(_instant(statement["timestamp"]), "4.5: the timestamp is ISO 8601 with an offset, never -00:00")
    return found


def _actor(actor, must):
    must(actor.get("objectType", "Agent") == "Agent", "2.4.2.1: an Agent")
    must(set(actor) <= {"objectType", "name"} | IDENTIFIERS, "2.2: no other property")
    must(len(set(actor) & IDENTIFIERS) == 1, "2.4.2.1: exactly one identifier")
    account = actor.get("account", {})
    must(set(account) == {"homePage", "name"} and _iri(account["homePage"]), "2.4.2.4: homePage (IRL) and name")
    must(all(isinstance(account[key], str) and account[key] for key in account), "2.4.2.4: strings")


def _activity(activity, must):
    must(activity.get("objectType", "Activity") == "Activity" and _iri(activity["id"]), "2.4.4.1: the id is an IRI")
    must(set(activity) <= {"objectType", "id", "definition"}, "2.2: no other property")
    definition = activity.get("definition", {})
    must(set(definition) <= DEFINITION, "2.2: no other property")
    for key in ("name", "description"):
        _languages(definition.get(key, {"en": ""}), must)
    must(_iri(definition.get("type", "a:b")), "2.4.4.1: the type is an IRI")
    if "cmi.interaction" in definition.get("type", ""):
        must(definition.get("interactionType") in INTERACTIONS, "2.4.4.1: a valid interactionType")
    _extensions(definition.get("extensions", {}), must)


def _result(result, must):
    must(set(result) <= RESULT, "2.2: no other property")
    score = result.get("score", {})
    must(set(score) <= {"scaled", "raw", "min", "max"}, "2.4.5.1: no other property")
    must(-1 <= score.get("scaled", 0) <= 1, "2.4.5.1: scaled from -1 to 1")
    for key in ("success", "completion"):
        must(isinstance(result.get(key, True), bool), f"2.4.5: {key} is a Boolean")
    must(isinstance(result.get("response", ""), str), "2.4.5: the response is a string")
    must(bool(DURATION.fullmatch(result.get("duration", "PT0S"))), "4.6: the duration is ISO 8601")
    _extensions(result.get("extensions", {}), must)


def _context(context, must):
    must(set(context) <= CONTEXT, "2.2: no other property")
    activities = context.get("contextActivities", {})
    must(set(activities) <= {"parent", "grouping", "category", "other"}, "2.4.6.2: a known key")
    for several in activities.values():
        must(isinstance(several, list) and bool(several), "2.4.6.2: arrays")
        for activity in several:
            _activity(activity, must)
    _extensions(context.get("extensions", {}), must)


def _extensions(extensions, must):
    must(all(_iri(key) for key in extensions), "2.4.7: keys of extensions are IRIs")


def _languages(texts, must):
    must(all(LANGUAGE.fullmatch(tag) and isinstance(text, str) for tag, text in texts.items()), "4.2: a language map")


def _iri(text):
    parts = urlsplit(text)
    return (
        isinstance(text, str)
        and bool(parts.scheme)
        and bool(parts.netloc or parts.path)
        and not re.search(r'[\s<>"{}|\\^`]', text)
    )


def _instant(text):
    try:
        return datetime.fromisoformat(text).tzinfo is not None and not text.endswith("-00:00")
    except ValueError:
        return False


def _nulls(value, inside_extensions=False):
    if isinstance(value, dict):
        return any(_nulls(entry, inside_extensions or key == "extensions") for key, entry in value.items())
    if isinstance(value, list):
        return any(_nulls(entry, inside_extensions) for entry in value)
    return value is None and not inside_extensions
