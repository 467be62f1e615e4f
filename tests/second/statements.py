#!/usr/bin/env python3
"""A second verifier of what managers state of a Hames logbook: their statements, and the roster of
crew files. Written from docs/record-format.md, beside verify.py, which judges the trips.

    python3 statements.py [--crew=FILE]... LOGBOOK...

It reads of a statement's body only what it uses. What statements say of trips it does not judge."""
import itertools, pathlib, re, sys
from kinds import is_body
from signed import Crew, Faults, crews_of, point, read, sha256, spelt, tell, worded

FIELDS = "v mode manager name role number previous known crew heads wall meaning kind body"

class Statement:
    """One statement; a ValueError where it is none."""
    def __init__(self, path):
        self.path, self.data = path, read(path, 2 ** 19) or b""
        self.hash, said = sha256(self.data, "statement"), spelt(self.data, FIELDS, 2 ** 19 - 1)
        self.body, self.kind, self.signature = said["body"], said["kind"], path.with_name("statement.sig")
        self.__dict__.update(said, what="{kind} {number} of {manager}".format(**said))
        read(self.signature)  # none is too large
        known, heads = [one["manager"] for one in self.known], [one["device"] for one in self.heads]
        first = (self.number == 1) == (self.previous is None) and self.number > 0
        fixed = self.role == "manager" and is_body(self.kind, self.v, self.meaning, self.body)
        before = [self.body["before"]] if self.kind == "crew" else self.body["ends"] if self.kind == "joined" else []
        self.names = [one for one in [self.previous, *before, *(one["hash"] for one in self.known)] if one]
        hashes = all(re.fullmatch("[0-9a-f]{64}", one) for one in [self.crew, *self.names])
        if not worded(said) or not first or not fixed or not hashes or known != sorted({*known} - {self.manager}) \
                or heads != sorted({*heads}) or self.mode not in ("real", "demo", "drill"):
            raise ValueError("not as a statement of its kind is")

class Book:
    """What managers stated, by hash, and the roster: the crew file each `crew` statement put in force."""
    def __init__(self, root, crews, trusted):
        self.faults, self.stated, self.roster, found = Faults(), {}, {}, {}
        mode = crews[0].mode if crews else "real"
        for path in sorted(root.glob("mgr/*/*/statement.json")):
            try:
                one = Statement(path)
            except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
                self.faults.need(False, "unreadable", f"{path}: {error}")
                continue
            if self.faults.need(one.mode == mode, "other-mode", f"{one.what} is of another mode"):
                if one.hash not in found or one.signature.exists():
                    found[one.hash] = one
        for path in sorted(root.glob("mgr/*/*/statement.sig")):
            self.faults.need(path.with_name("statement.json").exists(), "gap", f"{path} is of no statement")
        waiting = [one for _, one in sorted(found.items()) if one.kind == "crew"]
        while ready := [one for one in waiting if one.body["before"] in (None, *self.roster)]:
            waiting.remove(ready[0])
            self.put_in_force(ready[0])
        for one in waiting:
            self.faults.need(False, "gap", f"{one.what}: the crew file before is not here, or does not count")
        for _, one in sorted(found.items()):
            if one.kind != "crew":
                crew = self.crew(one.crew)
                if self.faults.need(crew is not None, "unknown-signer", f"{one.what}: in no roster"):
                    self.sign(one, crew)
        for before in {self.stated[one].body["before"] for one in self.roster}:
            certain = len(self.goes_on(before)) == 1
            self.faults.need(certain, "fork", "two crew files in the place of the same one")
        known = any(self.crew(crew.hash) is not None for crew in trusted)  # a crew file that is trusted
        self.leads = known or not self.roster or not trusted
        self.faults.need(self.leads, "unknown-signer", "the roster leads to no crew file that is trusted")
        self.gaps()
        for one in self.stated.values():
            since = self.since(one.crew, one.hash)
            out, how = self.taken_out(self.roster[since][one.manager][2], since)
            one.late = out is not None and one.hash not in self.behind(out)
            self.faults.need(not one.late, how, f"{one.what}: its key had been taken out")
        self.apart()

    def crew(self, file):
        return next((crew for crew in self.roster.values() if crew.hash == file), None)

    def sign(self, one, crew):
        """Takes a statement in, where that crew says that its manager signed it."""
        need = self.faults.need
        if crew.judge(need, one.manager, "manager", "stated", one.mode, one.data, one.signature) \
                and need(crew[one.manager][-1] == one.name, "altered", f"{one.what}: the name is another"):
            self.stated[one.hash] = one
        return one.hash in self.stated

    def put_in_force(self, one):
        """Takes a crew file into the roster, where a manager of the one before may put it in force."""
        try:
            new = Crew(one.path.with_name("allowed_signers"))
        except ValueError as error:
            return self.faults.need(False, "altered", f"{one.what}: {error}")
        before = self.roster.get(one.body["before"], new)
        number = self.stated[one.body["before"]].body["number"] + 1 if one.body["before"] else 1
        fits = (new.hash, before.hash, number) == (one.body["file"], one.crew, one.body["number"])
        if not self.faults.need(fits, "altered", f"{one.what}: its crew file, or its place, is another"):
            return False
        olds = [(who, member) for crew in self.roster.values() for who, member in crew.items()]
        clash = [who for who, (_, _, key, name) in new.items() for old, member in olds
                 if point(member[2]) == point(key) and old != who or old == who and member[3] != name]
        managers = [who for who, member in new.items() if "role:manager" in member[0]]
        strangers = [line["person"] for line in one.body["signed_off"] if line["person"] not in new]
        fits = managers and not clash and not strangers
        if self.sign(one, before) and self.faults.need(fits, "altered", f"{one.what}: it cannot be {clash}"):
            self.roster[one.hash] = new
        else:
            self.stated.pop(one.hash, None)

    def row(self, hash):
        """A crew statement, and those in whose place its crew file was put, the newest first."""
        return [hash, *self.row(self.stated[hash].body["before"])] if hash else []

    def in_force(self):
        """The statement of the last crew file that everyone agrees on."""
        hash = None
        while len(one := self.goes_on(hash)) == 1:
            hash = min(one)
        return hash

    def goes_on(self, before):
        """What was put in the place of that crew file; of several, those that the last words go on with."""
        branches = {one for one in self.roster if self.stated[one].body["before"] == before}
        words = {one: self.behind(one) for one in self.roster
                 if branches <= self.behind(one) and branches & {*self.row(one)}}
        def counts(word):  # who was put out by a word does not speak on top of it
            who, under = self.stated[word].manager, words.keys() & words[word] - {word}
            return all("role:manager" in self.roster[one].get(who, ((),))[0] for one in under)
        words = {one: behind for one, behind in words.items() if counts(one)}
        last = [one for one in words if not any(one in words[other] for other in words if other != one)]
        return branches if len(branches) < 2 else {min(branches & {*self.row(one)}) for one in last}

    def gaps(self):
        for one in self.stated.values():
            row = [other.number for other in self.stated.values() if other.manager == one.manager]
            self.faults.need({*range(1, one.number)} <= {*row}, "gap", f"one before {one.what} is not here")
            self.faults.need({*one.names} <= {*self.stated}, "gap", f"{one.what} names one that is not here")

    def apart(self):
        """A number of a manager that counts twice is a fork, unless a join that counts stands on both."""
        counting = [one for one in self.stated.values() if not one.late]
        joins = [(one.body["manager"], self.behind(one.hash)) for one in counting if one.kind == "joined"]
        for one in counting:
            same = {two.hash for two in counting if (two.manager, two.number) == (one.manager, one.number)}
            joined = any(of == one.manager and same <= behind for of, behind in joins)
            self.faults.need(len(same) < 2 or joined, "fork", f"{one.what}: the number stands twice")

    def behind(self, hash):
        """A statement, and all that it stands on."""
        behind, waiting = set(), [hash]
        while waiting:
            hash = waiting.pop()
            if hash in self.stated and hash not in behind:
                behind.add(hash)
                waiting += self.stated[hash].names
        return behind

    def since(self, file, quoted):
        """The statement that put this crew file in force; the last the quoted one stands on, of several."""
        same = [one for one, crew in self.roster.items() if crew.hash == file]
        behind = self.behind(quoted) if len(same) > 1 else ()
        return ([one for one in same if one in behind] or same[:1] or [None])[-1]

    def taken_out(self, key, since):
        """The statement behind this one that took the key out, and what a later use is: a stranger's, if its row had none."""
        def holds(one):
            return key in [member[2] for member in self.roster[one].values()]
        owner = next((who for who, member in self.roster[since].items() if member[2] == key), None)
        for hash in self.roster:
            if owner and hash != since and since in self.behind(hash) and not holds(hash):
                rows = [*itertools.takewhile(lambda one: not holds(one), self.row(hash))]
                changes = [change for one in rows for change in self.stated[one].body["changes"]]
                what = [change["what"] for change in changes if change["who"] == owner]
                how = "outside-bracket" if "retired" in what and "revoked" not in what else "revoked-signer"
                return hash, "unknown-signer" if rows == self.row(hash) else how
        return None, "intact"

def main(*words):
    told = []
    for root in (pathlib.Path(word) for word in words if not word.startswith("--crew=")):
        crews, named = crews_of(words, root / "crew/allowed_signers")
        told.append((root.name, Book(root, crews, named).faults))
    return tell(told)

if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
