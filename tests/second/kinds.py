"""What a manager may state of a Hames logbook, by kind: the fields of the body, and what the signature
means. Written from docs/record-format.md; statements.py reads what is stated."""
import datetime, re

BODIES = {
    "crew": ("number before file changes signed_off",
             "From here on, these people and laptops may sign as is written here."),
    "countersigned": ("trip device seq seal opinion opened remarks",
                      "I have looked at this trip as it was sealed, and at what is listed here."),
    "fork-closed": ("device seq goes_on ended words", "I have looked into both histories. The one named "
                    "here goes on; the other is kept and ends."),
    "pruned": ("trips words", "These trips were whole when I took them out of the logbook. What order needs "
               "of them is written here."),
    "loss-accepted": ("device from to words",
                      "These trips are lost. I know of it, and they are not looked for any more."),
    "joined": ("manager ends words", "I have looked at what this manager signed on several laptops apart. It was "
               "this manager, and all of it counts."),
    "defect-owned": ("trip device seq seal step owner by_day by_odometer words",
                     "I have looked at what this step was found to be. Who is named here sees to it; only a later "
                     "reading closes it.")}

def is_body(kind, version, meaning, body):
    """Whether a body of this kind, with that version and meaning beside it, is as the format has it."""
    fields, means = BODIES[kind]
    timed = " took_ms" * (kind == "countersigned" and "took_ms" in body)
    newer = 2 if timed or kind in ("joined", "defect-owned") else 1
    newer = 3 if kind == "crew" and any("rides" in line for line in body["signed_off"]) else newer
    good = (version, meaning, " ".join(body)) == (newer, means, fields + timed)
    if kind == "crew":
        good &= (body["number"] == 1) == (body["before"] is None) and body["number"] > 0
        good &= all(are_rides(line["rides"]) for line in body["signed_off"] if "rides" in line)
    elif kind == "joined":
        good &= len(body["ends"]) > 1 and body["ends"] == sorted({*body["ends"]})
    elif kind == "defect-owned":
        good &= is_owned(**body)
    return good

def are_rides(rides):
    """Whether check rides stand once each, in order, with a revision from 1 and a kind of rig."""
    told = [tuple(ride.values()) for ride in rides]
    named = all(" ".join(ride) == "checklist revision rigs drill seal" for ride in rides)
    kinds = all(ride["revision"] > 0 and ride["rigs"] in ("bumper-pull", "gooseneck") for ride in rides)
    return bool(rides) and named and kinds and told == sorted({*told})

def is_owned(seq, seal, owner, by_day, by_odometer, **_):
    """Whether a defect has one owner, and a day and an odometer that are such, where it has them."""
    day = by_day is None or re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", by_day) and datetime.date.fromisoformat(by_day)
    read = by_odometer is None or " ".join(by_odometer) == "typed means" and re.fullmatch(
        "(0|[1-9][0-9]*)([.][0-9]*[1-9])? (mi|km|m|ft|in|cm|mm)", by_odometer["means"])
    (who, named), = owner.items()
    named = isinstance(named, str) and (who == "outside" or re.fullmatch("(?=.{1,64}$)[a-z0-9]+([.-][a-z0-9]+)*", named))
    return bool(seq > 0 and re.fullmatch("[0-9a-f]{64}", seal) and day and read and named and who in ("crew", "outside"))
