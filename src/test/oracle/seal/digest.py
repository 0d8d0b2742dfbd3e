# What RatingSealTest signs, digested by another program. Python 3.11, standard library only.
# RFC 8785 asks for keys in the order of their UTF-16 units, no blanks, and the shortest escapes: for whole numbers and for
# texts without characters beyond the basic plane in keys, json.dumps does that, but for control characters, which it writes
# with lower-case digits as the RFC does.
import hashlib
import json
from decimal import Decimal


def digest(value):
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


rubric = hashlib.sha256(b'{"id": "made-up", "note": "kept letter by letter"}').hexdigest()
tagging = digest({
    "form": "sideport-tagging-1",
    "style": "start_and_end",
    "phases": [
        {"phase": "side_port", "start_us": 0, "end_us": 500, "operator": "trainee"},
        {"phase": "rhexis", "start_us": 500, "end_us": None, "operator": None},
    ],
    "events": [{"kind": "bleeding", "at_us": 7, "severity": "minor", "note": 'say "ah" \u0001/ \u00fc'}],
})
rating = digest({
    "form": "sideport-rating-1",
    "case": "C-01",
    "trainee": "T03",
    "procedure": "phaco",
    "assessor": "A1",
    "self": False,
    "blind": True,
    "rubric": {"id": "made-up", "version": "1.0.0", "sha256": rubric},
    "items": [
        {"item": "rhexis", "points": 3, "not_applicable": None, "value": None, "comment": "second try",
         "evidence_us": [61000001, 7]},
        {"item": "slips", "points": 1, "not_applicable": None, "value": str(Decimal(2.5)), "comment": "",
         "evidence_us": []},
        {"item": "suture", "points": None, "not_applicable": "not_performed", "value": None, "comment": "",
         "evidence_us": [9]},
    ],
    "comment": "steady hands",
    "actions": ["wider wound", "slower = surer"],
    "tagging": {"annotator": "A1", "sha256": tagging},
    "recordings": ["ab" * 32],
    "amends": None,
    "reason": None,
    "signed_at": "2026-03-09T10:15:30.123456Z",
})
print("rubric ", rubric)
print("tagging", tagging)
print("rating ", rating)
