"""What the parts of the second verifier share: hashes, the one spelling of JSON, crew files and the
signatures by them. Written from docs/record-format.md; verify.py says what it needs and tells."""
import base64, hashlib, json, pathlib, re, subprocess, sys

STATUS = {"intact": 0, "not-countersigned": 9, "unsealed": 10, "other-mode": 11, "gap": 12,
          "unknown-signer": 13, "outside-bracket": 19, "revoked-signer": 20, "truncated": 14, "fork": 15,
          "altered": 16, "unreadable": 17}  # the gravest last
PRIME = 2 ** 255 - 19
EIGHTH = int.from_bytes(bytes.fromhex("26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"), "little")
WEAK = {0, 1, PRIME - 1, EIGHTH, PRIME - EIGHTH}  # a made-up signature passes under these
CONTROL, HIDDEN = r"\0-\x1f\x7f-\x9f", r"\xad\u061c\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\U000e0000-\U000e007f"
WORD = rf"[^\s{CONTROL}{HIDDEN}]+"
LINE = re.compile(rf"(?=.{{1,400}}$){WORD}(?: +{WORD})*")
WORDS = set("boot actor reader doer by words why next remarks opened name step state branch section before "
            "instrument part program id look_again outside examiner".split())  # the fields that hold words, or a name
ID = re.compile("(?=.{1,64}$)[a-z0-9]+(?:[.-][a-z0-9]+)*")
MAY = {"role:device": {"witnessed"}, "role:manager": {"performed", "approved", "stated"}}
SPACE = r"hames\.(?:performed|witnessed|approved|stated)\.v1(?:\.demo|\.drill)?"
MEMBER = re.compile(
    r"((?=.{1,64},)[a-z0-9]+(?:[.-][a-z0-9]+)*)((?:,role:(?:groom|driver|examiner|manager|device))+) "
    rf'namespaces="({SPACE}(?:,{SPACE})*)" (ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAI[A-Za-z0-9+/]{{43}}|'
    r"sk-ssh-ed25519@openssh.com AAAAGnNrLXNzaC1lZDI1NTE5QG9wZW5zc2guY29tAAAAI[A-Za-z0-9+/]{54,}={0,2}) "
    rf"((?=.{{1,100}}$){WORD}(?: {WORD})*)|#(?:\t|[^{CONTROL}])*|")

def sha256(data, tag=""):
    return hashlib.sha256((tag and f"hames-{tag}/1\0").encode() + data).hexdigest()

def read(path, most=2 ** 20):  # None where there is no file
    if path.exists() and path.stat().st_size > most:
        raise ValueError(f"{path.name} is too large")
    return path.read_bytes() if path.exists() else None

def depth(value):
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else None
    return 0 if inner is None else 1 + max(map(depth, inner), default=0)

def worded(value, name=""):
    """Whether all words and names in it are one line that nothing hides in or turns, and a kind is an id."""
    if isinstance(value, dict):
        return name not in WORDS and all(worded(one, name) for name, one in value.items())
    if isinstance(value, list):
        return all(worded(one, name) for one in value)
    if name == "took_ms":
        return type(value) is int
    if name == "kind":
        return isinstance(value, str) and bool(ID.fullmatch(value))
    return name not in WORDS or value is None or isinstance(value, str) and bool(LINE.fullmatch(value))

def spelt(raw, fields, most=65536):
    """What a line of JSON says, in the one spelling, with these fields in this order; else a ValueError."""
    value = json.loads(raw.decode(), parse_float=int, parse_int=lambda digits: int(digits.replace("-", "no")[:15]))
    again = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"
    if again.encode() != raw or len(raw) > most + 1 or not isinstance(value, dict) or " ".join(value) != fields \
            or depth(value) > 8:
        raise ValueError("not the fields of the format in the one spelling, or another line end")
    return value

class Faults(list):  # of what is found, and why
    def need(self, good, finding, why):
        self.extend([] if good else [(finding, why)])
        return good

    def worst(self):
        return max([finding for finding, _ in self] or ["intact"], key=list(STATUS).index)

def tell(told):
    """Prints what is found of each, and of the whole; the exit status of that."""
    for name, faults in told:
        print(f"{name} {faults.worst()}  {'; '.join(why for _, why in faults)}".rstrip())
    print("whole", whole := Faults(fault for _, faults in told for fault in faults).worst())
    return STATUS[whole]

def point(key):
    """What a key and a hardware key have in common; a ValueError for one that no crew file may have."""
    blob, hard = base64.b64decode(key.split(" ")[1]), key.startswith("sk-")
    here, length, application = (blob[34:66], blob[66:70], blob[70:]) if hard else (blob[19:], b"", b"")
    made_for = re.fullmatch(rb"ssh:[!-~]*", application) and int.from_bytes(length, "big") == len(application)
    if int.from_bytes(here, "little") % 2 ** 255 % PRIME in WEAK or hard and not made_for:
        raise ValueError(f"a key of small order, or one that was not made for this: {key}")
    return here

def may(roles, names, key):
    """Whether somebody in these roles may have these namespaces and this key, and nothing stands twice."""
    deeds = set().union(*(MAY.get(role, {"performed"}) for role in roles))
    once = len({*roles}) == len(roles) and len({*names}) == len(names)
    device = "role:device" in roles and (len(roles) > 1 or key.startswith("sk-"))
    return once and not device and {name.split(".")[1] for name in names} <= deeds

ANSWERED = {}  # whether a signature is good; the same bytes are not asked about twice

class Crew(dict):
    """A crew file: by id the roles, namespaces, key and name. A fault is one of the whole file."""
    def __init__(self, path):
        self.path, data = path, read(path)
        if data is None:
            raise ValueError(f"{path} is not there")
        self.hash, (*lines, rest) = sha256(data), data.decode().split("\n")
        for line in lines + [rest + "\0"] * bool(rest):
            if not (member := MEMBER.fullmatch(line)):
                raise ValueError(f"no line of a crew file: {line[:80]!r}")
            who, roles, names, key, name = member.groups(default="")
            if who:
                roles, names = roles[1:].split(","), names.split(",")
                twice = who in self or point(key) in [point(one[2]) for one in self.values()]
                if twice or not may(roles, names, key):
                    raise ValueError(f"an id or key stands twice in the crew file, or may not so: {who}")
                self[who] = (roles, {*names}, key, name)
        modes = {(name.split(".") + ["real"])[3] for one in self.values() for name in one[1]}
        self.mode = next((one for one in ("real", "demo", "drill") if one in modes), "real")  # what the logbook is for

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
        asked = (self.hash, who, deed, armor, data)
        if asked not in ANSWERED:
            run = ["ssh-keygen", "-Y", "verify", "-f", self.path, "-I", who, "-n", deed, "-s", path]
            ANSWERED[asked] = not subprocess.run(run, input=data, capture_output=True).returncode
        good = ANSWERED[asked] and spelt_so and blob.startswith(head) and (len(parts[0]) == 51 or blob[-5] & 1)
        return need(good, "altered", f"{path.name} is no good signature, spelt as OpenSSH spells one")

def crews_of(words, own, parts=("",)):
    """The crew files that are named, else the logbook's own where it can be read; and those named alone."""
    named = [pathlib.Path(word[7:]) for word in words if word.startswith("--crew=")]
    if not any((own.parents[1] / part).exists() for part in parts):
        sys.exit(tell([(own.parents[1], Faults([("unreadable", "there is no logbook")]))]))  # a slip is not intact
    try:
        crews = [Crew(path) for path in named or [own]]
    except (OSError, ValueError) as error:
        crews = sys.exit(f"a crew file cannot be used: {error}") if named else []
    return crews, crews if named else []
