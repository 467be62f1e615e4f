#!/usr/bin/env python3
"""A second verifier of Hames records, written from docs/record-format.md; it shares no code with the
program. It needs Python 3.8, its standard library, and the ssh-keygen of OpenSSH 8.2, or later ones.

    python3 verify.py [--crew=FILE] LOGBOOK|TRIP...

It tells what it finds of each trip and of their order; its status is the gravest finding's. It reads only
what it uses of a line's body, and walks no walk again: `against-the-rules` the program alone can say."""
import contextlib, drills, pathlib, re, sys
from signed import CONTROL, Crew, Faults, crews_of, read, sha256, spelt, tell, worded

RELIABLE = ("intact", "unsealed")
DEEDS = ("reader", "doer", "by")  # who did what a line tells
BEGUN = "trip mode device seq previous checklist rig crew manager program odometer reader doer"
FIELDS = {"line": "v i prev wall mono boot actor kind body", 1: BEGUN, 2: BEGUN + " haul carried paper",
          3: BEGUN + " haul carried paper drill",
          "seal": "v trip mode device seq lines last outcome counts meaning name role person wall"}

class Trip:
    """The folder of a trip, and what is found of it by the crew files trusted, among trips or among drills."""
    def __init__(self, folder, trusted, device=None, drill=False):
        self.folder, self.drill, self.faults, self.begun, self.seal, self.hashes = folder, drill, Faults(), {}, None, None
        try:
            self.judge(trusted)
            if self.faults.worst() in RELIABLE:
                own, beside = drills.own_folder(self.begun), read(folder / "crew.allowed_signers")
                good = not device or own == f"{device}/t/{folder.name[:15]}"
                good = good and (not beside or sha256(beside) == self.begun["crew"])
                self.faults.need(good, "altered", "in another's folder, or beside another crew file")
        except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            self.faults.need(False, "unreadable", f"{type(error).__name__}: {error}")

    def chain(self, rows):
        """The lines before the first fault; the hashes of all are kept."""
        self.hashes, lines, last = [], [], "0" * 64
        for index, raw in enumerate(rows):
            line, newer = {"i": None, "prev": None}, re.match(rb'\{"v":(?![123],)\d+[,}]', raw)
            with contextlib.suppress(ValueError, RecursionError):
                said = spelt(raw, FIELDS["line"])
                line = said if worded({**said, "body": None}) else line
            self.faults.need((line["i"], line["prev"]) == (index, last) and not newer,
                             "unreadable" if newer else "altered", f"line {index + 1}: none, or in another place")
            lines += [] if self.faults else [line]
            last = sha256(raw[:-1], "line")
            self.hashes.append(last)
        return lines

    def is_work_of(self, who, name):
        """Whether this person signed, read, did or checked any of it."""
        named = any(one == who or name_parts(one) == name_parts(name) for one in self.people)
        return named or who == self.signed[0] or name == self.signed[1]

    def judge(self, trusted):
        need, folder = self.faults.need, self.folder
        journal, sealed = read(folder / "trip.jsonl", 2 ** 24) or b"", read(folder / "seal.json")
        rows = re.findall(rb"(?m)^[^\n]*\n(?=[^\n]*\n)|^[^\n\0]*\n", journal)  # a NUL: a part never arrived
        lines, whole = self.chain(rows), b"".join(rows) == journal != b""
        kinds, sound = [line["kind"] for line in lines], whole and not self.faults
        need(whole, "unsealed" if sealed is None else "truncated", "the last line is not whole")
        need(sealed is not None, "unsealed", "nobody has signed for it")
        if not lines:
            return need(self.hashes, "unreadable", "the journal has no line")
        begun, version = lines[0]["body"], lines[0]["v"]
        fields = " ".join(name for name in begun if version == 1 or name != "answers")
        if kinds[0] != "begun" or "begun" in kinds[1:] or fields != FIELDS[version] or not answers(begun):
            raise ValueError("the first line begins the walk, and no other")
        if not all(drills.is_of(line, version == 3) for line in lines[1:]) or version == 3 and not drills.begins(begun):
            raise ValueError("version 3 is of drills alone, and what is in it has it")
        if not all(worded(line["body"]) for line in lines):
            raise ValueError("words or a name that are none, or hide something")
        self.people = {name for line in lines for name in [line["actor"], *map(line["body"].get, DEEDS)] if name}
        for name, hashed in {"checklist": begun["checklist"]["hash"], "rig": begun["rig"]["hash"], **drills.texts(begun)}.items():
            text = read(folder / f"{name}.yaml") or b""
            need(sha256(text) == hashed, "altered" if text else "gap", f"another {name}, or none")
        self.begun, pinned = begun, []
        with contextlib.suppress(ValueError):
            pinned = [Crew(folder / "crew.allowed_signers")]
        mode = "drill" if self.drill else ([one.mode for one in trusted + pinned] + ["real"])[0]
        need(begun["mode"] == mode, "other-mode", f"a {begun['mode']} trip among {mode} ones")
        if sealed is None:
            return
        seal = spelt(sealed, FIELDS["seal"])
        if not worded(seal) or not re.fullmatch(rf"(?=.*\S)[^{CONTROL}]{{1,400}}", seal["meaning"]):
            raise ValueError("a seal with words that are none, or hide something")
        self.signed = seal["person"], seal["name"]
        for one in ("trip", "mode", "device", "seq"):
            need(seal[one] == begun[one], "altered", f"seal and journal differ in the {one}")
        fewer = "truncated" if len(lines) < seal["lines"] else "altered"
        if sound and need(seal["lines"] == len(lines), fewer, f"{len(lines)} lines, {seal['lines']} sealed"):
            given = [line["body"].get("verdict") or line["body"]["judgement"]["outcome"]
                     for line in lines if line["kind"] in ("reading", "sighting")]
            counts = {one: given.count(one) for one in ("ok", "note", "fix", "stop")}
            need((seal["last"], seal["counts"]) == (self.hashes[-1], counts) and kinds.count("ended") == 1
                 and kinds[-1] == "ended" and lines[-1]["body"]["outcome"] == seal["outcome"],
                 "altered", "the last line, the outcome or the counts are not those sealed")
        crews = trusted + [one for one in pinned if any(crew.grew_from(one) for crew in trusted)]
        crew = next((crew for crew in crews if crew.hash == begun["crew"]), None)
        if need(crew, "unknown-signer", "the crew file in force is none of those trusted"):
            roles = ("person", seal["role"], "performed"), ("device", "device", "witnessed")
            good = [crew.judge(need, seal[who], *deed, seal["mode"], sealed, folder / f"seal.{who}.sig")
                    for who, *deed in roles]
            if all(good) and drills.examined(need, crew, begun, seal, sealed, folder):
                self.seal = sha256(sealed, "seal")
            need(crew.get(seal["person"], [seal["name"]])[-1] == seal["name"], "altered", "the name is another")

def answers(begun):
    """Whether what line 0 answers to managers stands last, each question once, and is said by who reads or does."""
    given = begun.get("answers", [None])
    if given == [None]:
        return "answers" not in begun
    good = all(" ".join(one) == "question by words" and re.fullmatch("[0-9a-f]{64}", one["question"])
               and one["by"] in (begun["reader"], begun["doer"]) and isinstance(one["words"], str) for one in given)
    last = [name for name in begun if name != "drill"][-1]
    return bool(given) and good and last == "answers" and len({one["question"] for one in given}) == len(given)

def order(trips):
    """Every fault in the order of the trips that can be relied on, device by device."""
    devices, faults = {}, Faults()
    for new in sorted(trips, key=lambda trip: (not trip.seal, -len(trip.hashes))):  # the fullest copy first
        same = devices.setdefault(new.begun["device"], {}).setdefault(new.begun["seq"], [])
        if all(new.seal not in (None, one.seal) or any(a != b for a, b in zip(new.hashes, one.hashes)) for one in same):
            same.append(new)
    for device, numbers in sorted(devices.items()):
        before, after = [], 1
        for number, here in sorted(numbers.items()):
            before = before if faults.need(number == after, "gap", f"{device} lacks {after}") else []
            faults.need(len(here) == 1, "fork", f"{len(here)} different trips {number} of {device}")
            last, said = (here[0].begun["previous"] or {"last": "seal", "hash": None}).values()
            goes_on = [said in ([trip.seal] if last == "seal" else trip.hashes) for trip in before]
            finding = "fork" if last == "seal" and before and (before[0].seal or not said) else "truncated"
            faults.need(any(goes_on) or not before, finding, f"{device} {number} tells {number - 1} otherwise")
            before, after = here, number + 1
    return faults

def name_parts(name):
    """What makes a name one person's: not letter case, points, commas, or the order of its parts."""
    return sorted(re.findall(r"[^\W_]+", name.lower()))

def countersigns(trips, book):
    """What nobody has countersigned whose word counts."""
    faults, said = Faults(), [one for one in book.stated.values() if one.kind == "countersigned" and not one.late]
    for trip in (trip for trip in trips if trip.seal):
        of = trip.begun["device"], trip.begun["seq"], trip.seal, "agreed"
        good = any(tuple(map(one.body.get, ("device", "seq", "seal", "opinion"))) == of
                   and not trip.is_work_of(one.manager, one.name) for one in said)
        faults.need(good, "not-countersigned", f"{trip.folder.name}: by nobody whose word counts")
    return faults

def trips_of(root, crews, drill=False):
    """The trips of a logbook, or its drills; a folder without a whole line and without a seal was never begun."""
    found = sorted(root.glob(f"{drills.TREE}/dev/*/t/*" if drill else "dev/*/t/*"))
    trips = [Trip(folder, crews, folder.parts[-3], drill) for folder in found
             if re.fullmatch(r"\d{6}(-[a-z0-9]{1,8}){1,2}", folder.name)]
    return [trip for trip in trips if trip.hashes != [] or (trip.folder / "seal.json").exists()]

def end(trip):
    """What a trip is told from every other by."""
    return trip.seal or trip.last

def stands(trip, ends):
    """Nothing where the trip ends as is quoted; else what that amounts to."""
    last, quoted = (ends or {"last": "seal", "hash": None}).values()
    if last == "seal":
        return None if quoted == trip.seal and quoted else "fork" if trip.seal or not quoted else "truncated"
    return None if trip.pruned or quoted in (trip.last, *trip.hashes) else "truncated"

def fits(trip, history):
    return trip.trip == history["trip"] and not stands(trip, history["ends"])

def is_copy(one, other):
    """Whether one is the other, or its beginning: not yet sealed, cut off on the way, or pruned."""
    if one.seal and other.seal:
        return one.seal == other.seal
    short, long = sorted((one, other), key=lambda trip: trip.lines)
    if long.hashes:
        return long.hashes[short.lines - 1] == short.last
    return long.last == short.last or long.trip == short.trip

def ordered(trips, name="order"):
    """What is found of each trip, and of the order of those that can be relied on."""
    reliable = [trip for trip in trips if trip.faults.worst() in RELIABLE]
    return [*((trip.folder.name, trip.faults) for trip in trips), *((name, Faults([fault])) for fault in order(reliable))]

def main(*words):
    trips, played = [], []
    for path in (pathlib.Path(word) for word in words if not word.startswith("--crew=")):
        root, one, of_drills = drills.root_of(path)
        crews, _ = crews_of(words, root / "crew/allowed_signers")
        sent = one and not (root / "crew").exists() and not (root / "mgr").exists()  # alone: where it belongs
        of_drills = of_drills or sent and drills.says_so(path)
        if one:
            (played if of_drills else trips).append(Trip(path, crews, drill=of_drills))
        else:
            trips += [] if of_drills else trips_of(path, crews)
            played += trips_of(root, crews, drill=True)
    return tell(ordered(trips) + ordered(played, "order-of-drills"))

if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
