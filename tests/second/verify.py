#!/usr/bin/env python3
"""A second verifier of Hames records, written from docs/record-format.md; it shares no code with the
program. It needs Python 3.8, its standard library, and the ssh-keygen of OpenSSH 8.2, or later ones.

    python3 verify.py [--crew=FILE] LOGBOOK|TRIP...

It tells what it finds of each trip and of their order; its status is the gravest finding's. It reads only
what it uses of a line's body, and walks no walk again: `against-the-rules` the program alone can say."""
import base64, contextlib, hashlib, json, pathlib, re, subprocess, sys

STATUS = {"intact": 0, "not-countersigned": 9, "unsealed": 10, "other-mode": 11, "gap": 12,
          "unknown-signer": 13, "outside-bracket": 19, "revoked-signer": 20, "truncated": 14, "fork": 15,
          "altered": 16, "unreadable": 17}  # the gravest last
RELIABLE = ("intact", "unsealed")
BEGUN = "trip mode device seq previous checklist rig crew manager program odometer reader doer"
FIELDS = {"line": "v i prev wall mono boot actor kind body", 1: BEGUN, 2: BEGUN + " haul carried paper",
          "seal": "v trip mode device seq lines last outcome counts meaning name role person wall"}
SPACE = r"hames\.(?:performed|witnessed|approved|stated)\.v1(?:\.demo|\.drill)?"
MEMBER = re.compile(
    r"((?=.{1,64},)[a-z0-9]+(?:[.-][a-z0-9]+)*)((?:,role:(?:groom|driver|examiner|manager|device))+) "
    rf'namespaces="({SPACE}(?:,{SPACE})*)" (ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAI[A-Za-z0-9+/]{{43}}|'
    r"sk-ssh-ed25519@openssh.com AAAAGnNrLXNzaC1lZDI1NTE5QG9wZW5zc2guY29tAAAAI[A-Za-z0-9+/]{60,}={0,2}) "
    r"([^\s\0-\x1f]+(?: [^\s\0-\x1f]+)*)|#[^\r]*|")

def sha256(data, tag=""):
    return hashlib.sha256((tag and f"hames-{tag}/1\0").encode() + data).hexdigest()

def read(path, most=2 ** 20):  # None where there is no file
    if path.exists() and path.stat().st_size > most:
        raise ValueError(f"{path.name} is too large")
    return path.read_bytes() if path.exists() else None

def spelt(raw, fields, most=65536):
    """What a line of JSON says, in the one spelling, with these fields in this order; else a ValueError."""
    value = json.loads(raw.decode(), parse_float=int, parse_int=lambda digits: int(digits.replace("-", "no")[:15]))
    again = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"
    if again.encode() != raw or len(raw) > most + 1 or not isinstance(value, dict) or " ".join(value) != fields:
        raise ValueError("not the fields of the format in the one spelling, or another line end")
    return value

class Faults(list):  # of what is found, and why
    def need(self, good, finding, why):
        self.extend([] if good else [(finding, why)])
        return good

    def worst(self):
        return max([finding for finding, _ in self] or ["intact"], key=list(STATUS).index)

class Crew(dict):
    """A crew file: by id the roles, namespaces, key and name. A fault is one of the whole file."""
    def __init__(self, path):
        self.path, data = path, read(path) or b""
        self.hash, (*lines, rest) = sha256(data), data.decode().split("\n")
        for line in lines + [rest + "\0"] * bool(rest):
            if not (member := MEMBER.fullmatch(line)):
                raise ValueError(f"no line of a crew file: {line[:80]!r}")
            who, roles, names, key, name = member.groups(default="")
            if who and (who in self or key in [one[2] for one in self.values()]):
                raise ValueError(f"an id or key stands twice in the crew file: {who}")
            self.update({who: (roles[1:].split(","), set(names.split(",")), key, name)} if who else {})
        modes = {(name.split(".") + ["real"])[3] for one in self.values() for name in one[1]}
        self.mode = modes.pop() if len(modes) == 1 else "real"  # what the logbook is for

    def grew_from(self, before):  # everyone is still here, the same, and may sign at least as much
        pairs = [(self.get(who), one) for who, one in before.items()]
        return all(now and now[0] == one[0] and now[1] >= one[1] and now[2:] == one[2:] for now, one in pairs)

    def judge(self, need, who, role, deed, mode, data, path):
        """Whether a file is that member's signature, in that role; a hardware key was touched for it."""
        deed, armor = f"hames.{deed}.v1" + (mode != "real") * f".{mode}", read(path)
        roles, names, key, _ = self.get(who, ("", "", "", ""))
        if armor is None or f"role:{role}" not in roles or deed not in names:
            finding = "unsealed" if armor is None else "unknown-signer"
            return need(False, finding, f"{who} may not, or did not, sign {deed} as {role}")
        begin, end = b"-----BEGIN SSH SIGNATURE-----\n", b"-----END SSH SIGNATURE-----\n"
        text = re.sub(rb"[^A-Za-z0-9+/]", b"", armor[len(begin):-len(end)])
        blob = base64.b64decode(text[:len(text) - (len(text) % 4 == 1)] + b"===")
        parts = [base64.b64decode(key.split(" ")[1]), deed.encode(), b"", b"sha512"]
        head = b"SSHSIG\0\0\0\1" + b"".join(len(part).to_bytes(4, "big") + part for part in parts)
        spelt_so = armor == begin + b"\n".join(re.findall(b".{1,70}", base64.b64encode(blob)) + [end])
        if spelt_so and blob[:33] == head[:33] and blob[33:65] != head[33:65] and blob[65:68] == head[65:68]:
            return need(False, "unknown-signer", f"{path.name} was made with another key")
        run = ["ssh-keygen", "-Y", "verify", "-f", self.path, "-I", who, "-n", deed, "-s", path]
        good = not subprocess.run(run, input=data, capture_output=True).returncode
        good = good and spelt_so and blob.startswith(head) and (len(parts[0]) == 51 or blob[-5] & 1)
        return need(good, "altered", f"{path.name} is no good signature, spelt as OpenSSH spells one")

class Trip:
    """The folder of a trip, and what is found of it by the crew files trusted."""
    def __init__(self, folder, trusted, device=None):
        self.folder, self.faults, self.begun, self.seal, self.hashes = folder, Faults(), {}, None, None
        try:
            self.judge(trusted)
            if self.faults.worst() in RELIABLE:
                own, beside = "{device}/t/{seq:06}-{trip:.8}".format(**self.begun), read(folder / "crew.allowed_signers")
                good = not device or own == f"{device}/t/{folder.name[:15]}"
                good = good and (not beside or sha256(beside) == self.begun["crew"])
                self.faults.need(good, "altered", "in another's folder, or beside another crew file")
        except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            self.faults.need(False, "unreadable", f"{type(error).__name__}: {error}")

    def chain(self, rows):
        """The lines before the first fault; the hashes of all are kept."""
        self.hashes, lines, last = [], [], "0" * 64
        for index, raw in enumerate(rows):
            line, newer = {"i": None, "prev": None}, re.match(rb'\{"v":(?![12],)\d+[,}]', raw)
            with contextlib.suppress(ValueError, RecursionError):
                line = spelt(raw, FIELDS["line"])
            self.faults.need((line["i"], line["prev"]) == (index, last) and not newer,
                             "unreadable" if newer else "altered", f"line {index + 1}: none, or in another place")
            lines += [] if self.faults else [line]
            last = sha256(raw[:-1], "line")
            self.hashes.append(last)
        return lines

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
        begun, later = lines[0]["body"], [line["v"] for line in lines[1:]]
        if kinds[0] != "begun" or "begun" in kinds[1:] or 2 in later or " ".join(begun) != FIELDS[lines[0]["v"]]:
            raise ValueError("the first line begins the walk, and no other")
        for name in ("checklist", "rig"):
            need(sha256(read(folder / f"{name}.yaml") or b"") == begun[name]["hash"], "altered", f"another {name}")
        self.begun, pinned = begun, []
        with contextlib.suppress(ValueError):
            pinned = [Crew(folder / "crew.allowed_signers")]
        mode = ([one.mode for one in trusted + pinned] + ["real"])[0]
        need(begun["mode"] == mode, "other-mode", f"a {begun['mode']} trip in a {mode} logbook")
        if sealed is None:
            return
        seal = spelt(sealed, FIELDS["seal"])
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
            self.seal = sha256(sealed, "seal") if all(good) else None
            need(crew.get(seal["person"], [seal["name"]])[-1] == seal["name"], "altered", "the name is another")

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

def trips_of(root, crews):
    """The trips of a logbook; a folder without a whole line and without a seal was never begun."""
    trips = [Trip(folder, crews, folder.parts[-3]) for folder in sorted(root.glob("dev/*/t/*"))
             if re.fullmatch(r"\d{6}(-[a-z0-9]{1,8}){1,2}", folder.name)]
    return [trip for trip in trips if trip.hashes != [] or (trip.folder / "seal.json").exists()]

def main(*words):
    named, trips = [Crew(pathlib.Path(word[7:])) for word in words if word.startswith("--crew=")], []
    for path in (pathlib.Path(word) for word in words if not word.startswith("--crew=")):
        one = not (path / "dev").is_dir()
        own = path / ("../../../.." if one else ".") / "crew/allowed_signers"
        crews = named or [Crew(own)] * own.exists()
        trips += [Trip(path, crews)] if one else trips_of(path, crews)
    reliable = [trip for trip in trips if trip.faults.worst() in RELIABLE]
    told = [(trip.folder.name, trip.faults) for trip in trips]
    told += [("order", Faults([fault])) for fault in order(reliable)]
    for name, faults in told:
        print(f"{name} {faults.worst()}  {'; '.join(why for _, why in faults)}".rstrip())
    print("whole", whole := Faults(fault for _, faults in told for fault in faults).worst())
    return STATUS[whole]

if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
