"""What drills have that no other trip has: a tree of their own, texts beside the journal, a line 0 and kinds
of lines in version 3. Written from docs/record-format.md; verify.py and logbook.py ask it."""
import re
from signed import read

TREE = "drill"
BEHIND = "scenario sights seed stage examiner"
STAGES = "watch guided faded solo faults check-ride".split()
PLACES = "left right above close under behind inside cab hand".split()
KINDS = {"looked": "step from", "used": "step instrument showed", "called": "step verdict", "returned": "step",
         "learned": "words"}  # in version 3 and in drills alone
QUANTITY = re.compile(r"(?:0|[1-9]\d*)(?:\.\d*[1-9]|/[1-9]\d*)? [A-Za-z%][A-Za-z0-9/%-]*")

def is_tree(folder):
    """Whether this is the folder of the drills in a logbook; a logbook called so has a crew of its own."""
    place = folder.resolve()
    above = place.parent
    return place.name == TREE and (place / "dev").is_dir() and not (place / "crew").exists() \
        and (above / "crew").exists() and (above / "dev").exists()

def root_of(path):
    """The logbook that a folder lies in, whether it is a trip's or the drills', and whether it is of drills."""
    one = not (path / "dev").is_dir()
    root = path / "../../../.." if one else path
    drills = is_tree(root)
    return (root / ".." if drills else root), one, drills

def says_so(folder):
    """Whether the record in this folder says of itself that it is a drill."""
    first = (read(folder / "trip.jsonl", 2 ** 24) or b"").split(b"\n")[0] + b"\n"
    return first.startswith(b'{"v":3,')

def is_of(line, drill):
    """Whether a line behind line 0 has the version that its kind has, in a drill or in another trip."""
    kind, body = line["kind"], line["body"]
    if line["v"] == 1:
        return kind not in KINDS
    good = line["v"] == 3 and drill and " ".join(body) == KINDS.get(kind)
    return good and all(isinstance(value, str) for value in body.values()) \
        and body.get("from", "hand") in PLACES and body.get("verdict", "ok") in ("ok", "note", "fix", "stop") \
        and bool(QUANTITY.fullmatch(body.get("showed", "1 psi")))

def begins(begun):
    """Whether line 0 of version 3 is that of a drill."""
    said = begun["drill"]
    rides, named = said["stage"] == "check-ride", said["scenario"]
    return " ".join(said) == BEHIND and " ".join(named) == "id hash" and isinstance(named["id"], str) \
        and all(re.fullmatch("[0-9a-f]{64}", one) for one in (named["hash"], said["sights"])) \
        and type(said["seed"]) is int and said["stage"] in STAGES and rides == (said["examiner"] is not None) \
        and begun["mode"] == "drill" and begun["trip"].startswith("d-")

def texts(begun):
    """The hashes of the files a drill rests on besides those of a walk, by their names."""
    said = begun.get("drill")
    return {"scenario": said["scenario"]["hash"], "sights": said["sights"]} if said else {}

def examined(need, crew, begun, seal, sealed, folder):
    """Whether who examined a check ride signed its seal too: one of that crew who may, and not the person."""
    name = (begun.get("drill") or {}).get("examiner")
    if name is None:
        return True
    who = next((who for who, one in crew.items() if name in (who, one[3])), seal["person"])
    may = [role for role in ("examiner", "manager") if who != seal["person"] and f"role:{role}" in crew[who][0]]
    return need(may, "unknown-signer", f"{name} may not examine this person") \
        and crew.judge(need, who, may[0], "performed", "drill", sealed, folder / "seal.examiner.sig")

def own_folder(begun):
    """The place of a trip below the folder of all laptops, as far as line 0 says it."""
    letters = re.sub("[^a-z0-9]", "", begun["trip"])[:8]
    return f"{begun['device']}/t/{begun['seq']:06}-{letters}"
