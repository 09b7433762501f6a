"""Expected values of input.json beside it, from the FHIR text: value = point * factor + origin, marks are missing.

Decimal arithmetic, rounded to a double once at the end. Usage: python3 expect.py FOLDER
Bundle entries are taken as parts of one series, in order of their time.
"""
import json
import sys
from datetime import datetime
from decimal import Decimal

folder = sys.argv[1]
resource = json.load(open(f"{folder}/input.json"), parse_float=Decimal)
observations = [e["resource"] for e in resource["entry"]] if resource["resourceType"] == "Bundle" else [resource]
observations.sort(key=lambda o: datetime.fromisoformat(o["effectiveDateTime"].replace("Z", "+00:00")))
begin = datetime.fromisoformat(observations[0]["effectiveDateTime"].replace("Z", "+00:00"))
channels = []
for part in range(max(1, len(observations[0].get("component", [])))):
    rows = None
    for o in observations:
        s = (o["component"][part] if "component" in o else o)["valueSampledData"]
        d = int(s["dimensions"])
        rows = rows or [[] for _ in range(d)]
        late = (datetime.fromisoformat(o["effectiveDateTime"].replace("Z", "+00:00")) - begin).total_seconds()
        first = round(late * 1000 / float(s["period"]))
        points = s["data"].split()
        for n, row in enumerate(rows):
            row += [None] * (first - len(row))
            for p in points[n::d]:
                value = None if p in "EUL" else float(Decimal(p) * Decimal(s.get("factor", 1)) + Decimal(s["origin"]["value"]))
                row.append(value)
    channels += rows
json.dump({"channels": channels}, open(f"{folder}/expected.json", "w"))
