#!/usr/bin/env python3
"""A second verifier of a whole Hames logbook: its trips (verify.py), what managers stated
(statements.py), and the order of trips beside that. Written from docs/record-format.md.

    python3 logbook.py [--crew=FILE]... LOGBOOK

It does not ask what lies beside trips."""
import itertools, pathlib, sys
from types import SimpleNamespace
from signed import Crew, Faults, crews_of, read, sha256, spelt, tell
from statements import Book
from verify import FIELDS, RELIABLE, countersigns, end, fits, is_copy, ordered, stands, trips_of

class Device:
    """The trips of a device by number, and what managers say of them."""
    def __init__(self):
        self.numbers, self.pins, self.closed, self.lost = {}, {}, [], []

    def take(self, new):
        same = self.numbers.setdefault(new.seq, [])
        for at, one in enumerate(same):
            if is_copy(one, new):
                same[at] = max(one, new, key=lambda trip: (trip.seal is not None, trip.lines, not trip.pruned))
                return
        same.append(new)

    def at(self, seq):
        return self.numbers.get(seq, [])

    def pin(self, seq, ends, stated):
        """What a statement says of a trip's end; the last that says so is kept."""
        pins = self.pins.setdefault(seq, [])
        at = next((at for at, pin in enumerate(pins) if pin[0] == ends), len(pins))
        pins[at:at + 1] = [(ends, stated)]

    def is_lost(self, seq):
        return any(loss["from"] <= seq <= loss["to"] for loss, _ in self.lost)

    def ended(self, book):
        """The ends of trips of histories that a manager's last word ended, and of what followed them."""
        ended = set()
        for seq, trips in sorted(self.numbers.items()):
            for one in trips:
                naming = {stated: fits(one, fork["goes_on"]) for fork, stated in self.closed if fork["seq"] == seq
                          and any(fits(one, history) for history in [fork["goes_on"], *fork["ended"]])}
                last = [goes for word, goes in naming.items()
                        if not any(word in book.behind(other) for other in naming if other != word)]
                before = self.before(one)
                follows = before and all(end(trip) in ended for trip in before)
                if not any(last) if last else follows:
                    ended.add(end(one))
        return ended

    def before(self, trip):
        """The trips it goes on from: since a closed fork, over numbers that only other histories used."""
        first = min([fork["seq"] for fork, _ in self.closed] + [trip.seq - 1])
        named = ([one for one in self.at(seq) if not stands(one, trip.previous)]
                 for seq in range(trip.seq - 1, first - 1, -1))
        return next((trips for trips in named if trips), [])

    def judge(self, name, book, need):
        ended, missing, before, newest = self.ended(book), set(), [], 0
        for seq, trips in sorted(self.numbers.items()):
            here = [trip for trip in trips if end(trip) not in ended]
            if not here:
                continue
            row = range(newest + 1, seq)
            over = any(not stands(one, trip.previous) for trip in here for one in before)
            passed = over or not all(map(self.at, row))  # what only histories that ended used
            gone = [number for number in row if not self.is_lost(number) and not (passed and self.at(number))]
            need(not gone, "gap", f"{name}: {gone[:1]} to {gone[-1:]} before {seq}")
            need(len(here) == 1, "fork", f"{name}: {len(here)} different trips {seq}")
            before = before if over or seq == newest + 1 else []
            for trip in here:
                told = [stands(one, trip.previous) for one in before]
                fits_on = not all(told) or not told or self.over_a_loss(trip)
                need(fits_on, told and told[0], f"{name}: {seq} says so of {seq - 1}")
            missing, before, newest = missing.union(gone), here, seq
        beyond = None
        for seq, pins in sorted(self.pins.items()):
            open = [ends for ends, last in pins if all(stands(trip, ends) for trip in self.at(seq))
                    and not self.is_accepted(seq, last, book) and not self.is_closed(seq, ends)]
            if open and self.at(seq):
                need(False, stands(self.at(seq)[0], open[-1]), f"{name}: {seq} ended otherwise than witnessed")
            elif open and seq > newest:
                beyond = seq
            else:
                need(not open or seq in missing, "gap", f"{name}: {seq} was witnessed and is not here")
        need(beyond is None, "gap", f"{name}: {beyond} was witnessed, and the newest here is {newest}")
        for fork, _ in self.closed:
            for history in [fork["goes_on"], *fork["ended"]]:
                here = any(fits(trip, history) for trip in self.at(fork["seq"]))
                need(here or self.is_lost(fork["seq"]), "gap", f"{name}: a history of a closed fork is not here")

    def is_accepted(self, seq, last, book):
        """Whether a manager accepts its loss, and nobody who knew of that has named it since."""
        return any(loss["from"] <= seq <= loss["to"] and stated not in book.behind(last)
                   for loss, stated in self.lost)

    def is_closed(self, seq, ends):
        return any(fork["seq"] == seq and ends in [one["ends"] for one in [fork["goes_on"], *fork["ended"]]]
                   for fork, _ in self.closed)

    def over_a_loss(self, trip):
        """Whether it quotes the trip before a row of numbers whose loss is accepted."""
        lost = itertools.takewhile(self.is_lost, range(trip.seq - 1, 0, -1))
        return any(any(not stands(one, trip.previous) for one in self.at(seq - 1)) if trip.previous else seq == 1
                   for seq in lost)

def named(stated):
    """The heads, and as heads are the trip that is countersigned or has the defect, and a closed fork's histories."""
    body, ends = stated.body, []
    if stated.kind in ("countersigned", "defect-owned"):
        ends = [{"last": "seal", "hash": body["seal"]}]
    elif stated.kind == "fork-closed":
        ends = [history["ends"] for history in [body["goes_on"], *body["ended"]]]
    return [*stated.heads, *({"device": body["device"], "seq": body["seq"], "ends": one} for one in ends)]

def reached(devices, statements):
    """The ends of all trips that what these statements name reaches, along what each quotes."""
    marked = set()
    for head in (head for one in statements for head in named(one)):
        device, ends = devices.get(head["device"], Device()), head["ends"]
        trip = next((trip for trip in device.at(head["seq"]) if not stands(trip, ends)), None)
        while trip:
            if not trip.seal or ends["last"] == "seal":
                marked.add(end(trip))
            ends, trip = trip.previous, next(iter(device.before(trip)), None)
    return marked

def order(trips, book, crews):
    """Every fault in the order of the trips that can be relied on."""
    faults, devices, keys = Faults(), {}, []
    counting = [one for one in book.stated.values() if not one.late]
    for one in sorted(counting, key=lambda one: len(book.behind(one.hash))):  # what it stands on comes first
        for head in one.heads:
            devices.setdefault(head["device"], Device()).pin(head["seq"], head["ends"], one.hash)
        device = devices.setdefault(one.body["device"], Device()) if "device" in one.body else None
        if one.kind in ("countersigned", "defect-owned"):
            device.pin(one.body["seq"], {"last": "seal", "hash": one.body["seal"]}, one.hash)
        elif one.kind == "fork-closed":
            device.closed.append((one.body, one.hash))
        elif one.kind == "loss-accepted":
            device.lost.append((one.body, one.hash))
        elif one.kind == "pruned":
            for stub in one.body["trips"]:
                new = SimpleNamespace(**stub, hashes=[], pruned=True, folder=None)
                devices.setdefault(stub["device"], Device()).take(new)
    for one in trips:
        names = {name: one.begun[name] for name in ("device", "seq", "trip", "previous", "crew", "manager")}
        devices.setdefault(one.begun["device"], Device()).take(SimpleNamespace(
            **names, seal=one.seal, hashes=one.hashes, lines=len(one.hashes), last=one.hashes[-1], pruned=False,
            folder=one.folder))
    for name, device in sorted(devices.items()):
        device.judge(name, book, faults.need)
    placed = [trip for device in devices.values() for same in device.numbers.values() for trip in same]
    for named in {trip.manager for trip in placed} - {None, *book.stated}:
        faults.need(False, "gap", f"a trip quotes a statement that is not here, {named}")
    for trip in placed:
        if trip.seal and not trip.pruned and book.roster:
            seal = spelt(read(trip.folder / "seal.json"), FIELDS["seal"])
            crew = next((crew for crew in crews if crew.hash == trip.crew), None)
            crew = crew or Crew(trip.folder / "crew.allowed_signers")
            since = book.since(trip.crew, trip.manager) or next(iter(book.roster))
            for who in (seal["person"], seal["device"]):
                out, how = book.taken_out(crew[who][2], since)
                then = [book.stated[one] for one in book.behind(out)]
                late = out and end(trip) not in reached(devices, then)
                faults.need(not late, how, f"{trip.device} {trip.seq}: the key of {who} had been taken out")
    return faults

def main(*words):
    root = pathlib.Path([word for word in words if not word.startswith("--crew=")][0])
    known, named = crews_of(words, root / "crew/allowed_signers", ("crew", "dev", "mgr"))
    book = Book(root, known, named)
    crews = known + [crew for crew in book.roster.values() if book.leads]
    if force := book.in_force() if book.leads else None:
        data = read(root / "crew/allowed_signers")
        own, stated = sha256(data or b""), root.glob("mgr/*/*/statement.json")
        same = [one for one, crew in book.roster.items() if crew.hash == own]
        good = own == book.roster[force].hash or same and same[0] not in book.behind(force)
        # One that lies beside a statement which does not count is told with that.
        ahead = data is not None and not same and any(read(one.with_name("allowed_signers")) == data for one in stated)
        book.faults.need(good or ahead, "gap" if same else "altered", "the crew file is not the one in force")
    pruned = {stub["seal"] for one in book.stated.values() if one.kind == "pruned" and not one.late
              for stub in one.body["trips"]}
    trips = [trip for trip in trips_of(root, crews)
             if (trip.folder / "trip.jsonl").exists() or sha256(read(trip.folder / "seal.json"), "seal") not in pruned]  # cut off on the way
    reliable = [trip for trip in trips if trip.faults.worst() in RELIABLE]
    told = [*((trip.folder.name, trip.faults) for trip in trips), ("statements", book.faults),
            ("order", order(reliable, book, crews)), ("countersigns", countersigns(reliable, book)),
            *ordered(trips_of(root, crews, drill=True), "order-of-drills")]  # of which no statement says anything
    return tell(told)

if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
