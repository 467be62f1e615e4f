#!/usr/bin/env python3
"""Makes the two sets of invented trips that questions are tried on: traces.jsonl beside this file.

Nobody in them lives and no walk of them was made. Their paces are judged by people who do the
work, no source: a pressure twelve to twenty seconds, a wheel of nuts forty to sixty, a meter
fifteen to forty, a look two to eight, the way between them one to five. None of these numbers is
taken from the program, which has its own. Dice: Python's random.Random, seed 20261126.

Honest: steady, quick, hasty (hardly takes its time), helped (one types, one does), hand (does a
section, with the numbers on the back of the hand, then types it: rare, one in twenty-six), block (goes round the tires, then types them),
glances (two lamps in one look), interrupted, filled (tires set to the target every time before
anybody reads), paper (typed up in the evening, and said so).
Dishonest: seat (all of it typed in the cab), half (walked half of the way, the rest from the cab),
sections (waits as long as it would take, then types a section), slow-typist (from the cab, with
pauses), copied (a plausible pace, readings of the trip before), copied-air (the same with the true
air), afterwards (typed on the road, after the walk at departure), lent (somebody types in another
one's name, who is at another laptop). And patient: sits in the cab for as long as it takes, types an
answer every few seconds and makes up readings near the last ones. No time and no number of that
tells it from work; it is kept apart, as what these questions do not see.
"""

import datetime
import json
import pathlib
import random

DICE = random.Random(20261126)
HONEST = ["steady"] * 5 + ["quick"] * 3 + ["hasty"] * 2 + ["helped"] * 3 + ["block"] * 3
HONEST += ["glances"] * 3 + ["interrupted"] * 2 + ["filled"] * 2 + ["paper"] * 2 + ["hand"]
DISHONEST = ["patient", "seat", "half", "sections", "slow-typist", "copied", "copied-air", "afterwards", "lent"]
PEOPLE = ["Ivo Larch", "Nell Harrow", "Maud Teasel", "Jory Flint"]
LOOKS = [
    "truck-held", "ball-stamp", "coupler-stamp", "latch", "pin", "lift", "chains-crossed",
    "chain-hooks", "lanyard", "jack-up", "plug", "lamp-left", "lamp-right", "lamp-brake",
    "lamp-tail", "floor", "doors", "chocks-away",
]
# key, instrument, mark, section
READ = [("air", "thermometer", "1 F", 0)]
READ += [(f"tire-cold/{at}", "pressure-gauge", "1 psi", 1) for at in ("lf", "lr", "rf", "rr")]
READ += [("nuts/" + at, "torque-wrench", "1 ft-lb", 1) for at in ("lf", "rr")]
READ += [("battery-rest", "multimeter", "0.01 V", 2), ("battery-load", "multimeter", "0.01 V", 2)]
READ += [("ball-height", "tape", "0.25 in", 0), ("pull-time", "stopwatch", "0.1 s", 2)]


def steps():
    order = ["air", "truck-held", "ball-stamp", "coupler-stamp", "ball-height", "latch", "pin", "lift",
             "chains-crossed", "chain-hooks", "lanyard", "jack-up", "|", "tire-cold/lf", "tire-cold/lr",
             "tire-cold/rf", "tire-cold/rr", "nuts/lf", "nuts/rr", "|", "plug", "lamp-left",
             "lamp-right", "lamp-brake", "lamp-tail", "battery-rest", "battery-load", "floor", "doors",
             "chocks-away", "pull-time"]
    return order


def truly(season, day, air):
    """What is to be read: tires hold 65 psi at 70 F less a pound a month since they were filled."""
    since = day - season["filled"]
    values = {"air": f"{round(air)} F"}
    for at in ("lf", "lr", "rf", "rr"):
        told = season["psi"][at] - since / 30 * season["leak"][at]
        shown = (told + 14.7) * (air + 459.67) / (70 + 459.67) - 14.7
        values["tire-cold/" + at] = f"{round(shown + DICE.gauss(0, 0.4))} psi"
    for at in ("lf", "rr"):
        values["nuts/" + at] = "120 ft-lb"
    volts = 12.9 - 0.0012 * day + 0.002 * (air - 60) / 10
    values["battery-rest"] = f"{volts + DICE.gauss(0, 0.015):.2f} V"
    values["battery-load"] = f"{volts - 0.6 + DICE.gauss(0, 0.03):.2f} V"
    values["ball-height"] = f"{round((19 + DICE.gauss(0, 0.2)) * 4) / 4} in"
    values["pull-time"] = f"{3.1 + DICE.gauss(0, 0.15):.1f} s"
    return values


def honest_seconds(key, rate):
    if key.startswith("tire"):
        need = DICE.uniform(12, 20)
    elif key.startswith("nuts"):
        need = DICE.uniform(40, 60)
    elif key.startswith("battery"):
        need = DICE.uniform(15, 40)
    elif key in ("ball-height", "pull-time"):
        need = DICE.uniform(9, 25)
    elif key == "floor":
        need = DICE.uniform(30, 70)
    elif key == "air":
        need = DICE.uniform(4, 10)
    else:
        need = DICE.uniform(2.2, 8)
    return need * rate + DICE.uniform(1, 5)


def paced(manner):
    """Milliseconds from the answer before, for each step in order."""
    rate = {"quick": 0.75, "hasty": 0.6, "helped": 0.65}.get(manner, DICE.uniform(0.95, 1.3))
    took, waits, half = [], 0.0, 0
    order = steps()
    for at, key in enumerate(order):
        if key == "|":
            waits = 0.0
            if manner in ("sections", "hand"):
                section = order[at + 1:]
                section = section[:section.index("|")] if "|" in section else section
                waits = sum(honest_seconds(one, 1.0) for one in section)
            continue
        half += 1
        from_cab = manner == "seat" or (manner == "half" and half > 14) or manner in ("sections", "hand")
        if from_cab:
            seconds = DICE.uniform(0.7, 1.7) + waits
        elif manner in ("slow-typist", "lent"):
            seconds = DICE.uniform(1.8, 4.5)
        elif manner == "afterwards":
            seconds = DICE.uniform(1.5, 6)
        elif manner == "paper":
            seconds = DICE.uniform(1.5, 5)
        elif manner == "block" and key.startswith("tire-cold"):
            last = key.endswith("lf")
            seconds = sum(honest_seconds(key, rate) for _ in range(4)) if last else DICE.uniform(1.5, 3)
        elif manner == "glances" and key in ("lamp-right", "lamp-tail", "chain-hooks", "pin"):
            seconds = DICE.uniform(0.9, 1.8)
        else:
            seconds = honest_seconds(key, rate)
        if manner == "interrupted" and DICE.random() < 0.06:
            seconds += DICE.uniform(60, 900)
        waits = 0.0
        took.append((key, round(seconds * 1000)))
    return took


def main():
    lines = [json.dumps({"about": __doc__.split("\n\n")[1].replace("\n", " "),
                         "read": {key: [kind, mark] for key, kind, mark, _ in READ}})]
    start = datetime.datetime(2026, 1, 5, 7, 0)
    for number in range(10):
        season = {"psi": {at: 66 + DICE.uniform(-0.4, 0.4) for at in ("lf", "lr", "rf", "rr")},
                  "leak": {at: DICE.uniform(0.5, 1.2) for at in ("lf", "lr", "rf", "rr")}, "filled": 0}
        day, before, air = 0, None, 50.0
        for trip in range(36):
            day += DICE.randint(1, 9)
            if day - season["filled"] > 40:
                season["filled"] = day
            air += DICE.gauss(0, 7) + (58 - air) * 0.2
            manner = DICE.choice(DISHONEST if before and DICE.random() < 0.25 else HONEST)
            who, helper = DICE.sample(PEOPLE, 2)
            at = start + datetime.timedelta(days=day, minutes=DICE.randint(0, 300))
            values = truly(season, day, air)
            if manner == "filled":
                for one in values:
                    if one.startswith("tire-cold"):
                        values[one] = f"{DICE.choice((65, 66, 66, 66))} psi"
            if manner == "patient":
                near = lambda text: (float(text.split()[0]), text.split()[1])
                for one in values:
                    number_then, unit = near(before[one])
                    digits = len(before[one].split()[0].partition(".")[2])
                    by = DICE.choice((-1, 0, 1)) * 10 ** -digits if one != "ball-height" else 0
                    values[one] = f"{number_then + by:.{digits}f} {unit}"
            if manner in ("copied", "copied-air"):
                own = values["air"]
                values = dict(before)
                if manner == "copied-air":
                    values["air"] = own
            acts = [[key, took] + ([values[key]] if key in values else [])
                    for key, took in paced("steady" if manner.startswith("copied") or manner == "patient" else manner)]
            told = {"season": number, "at": at.isoformat() + "-05:00", "list": "hitch",
                    "device": "laptop-a", "who": who,
                    "doer": helper if manner == "helped" else who, "paper": manner == "paper",
                    "how": manner, "honest": manner in HONEST, "acts": acts}
            if manner == "afterwards":
                on_the_way = dict(told, list="departure", at=(at - datetime.timedelta(minutes=40)).isoformat() + "-05:00",
                                  how="steady", honest=True, acts=[["doors", 9000], ["chocks-away", 12000], ["plug", 8000]])
                lines.append(json.dumps(on_the_way, separators=(",", ":")))
            if manner == "lent":
                other = dict(told, season=f"{number}-other", list="stop", device="laptop-b", how="steady", honest=True,
                             acts=[[key, took] for key, took in paced("steady") if key in LOOKS])
                lines.append(json.dumps(other, separators=(",", ":")))
            lines.append(json.dumps(told, separators=(",", ":")))
            back = at + datetime.timedelta(hours=DICE.randint(3, 9))
            lines.append(json.dumps(dict(told, list="unhitch", at=back.isoformat() + "-05:00", device="laptop-a",
                                         how="steady", honest=True, paper=False, doer=who,
                                         acts=[["chocks-away", 9000], ["jack-up", 30000], ["lanyard", 9000], ["latch", 14000]]),
                                    separators=(",", ":")))
            before = values
    pathlib.Path(__file__).with_name("traces.jsonl").write_text("\n".join(lines) + "\n")


main()
