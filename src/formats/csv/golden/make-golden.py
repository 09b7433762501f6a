"""Writes the golden tables and, by reading them back with other programs' code, what is in them.

Inputs are written by hand-made string formatting below; `expected.json` comes from reading the input again with
Python's csv module, float() and datetime, told the dialect of each file.
"""
import csv, datetime, io, json, math, os

here = os.path.dirname(os.path.abspath(__file__))


def value(n, k):
    return round(1000 + 300 * math.sin(n / 5 + k) + 7 * k, 3)


def save(name, file, data, delimiter, encoding, decimal, columns, times, skip):
    folder = os.path.join(here, name)
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, file), "wb") as out:
        out.write(data)
    text = data.decode(encoding)
    rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True))[skip:]
    rows = [row for row in rows if row]

    def number(cell):
        cell = cell.strip().replace(decimal, ".")
        try:
            got = float(cell)
        except ValueError:
            return None
        return None if math.isnan(got) else got

    stamps = [times(row) for row in rows]
    first = stamps[0]
    seconds = [(s - first).total_seconds() if isinstance(s, datetime.datetime) else s - first for s in stamps]
    expected = {
        "file": file,
        "started": first.isoformat() if isinstance(first, datetime.datetime) else None,
        "seconds": [round(s, 9) for s in seconds],
        "channels": {title: [number(row[i]) if i < len(row) else None for row in rows] for title, i in columns.items()},
    }
    with open(os.path.join(folder, "expected.json"), "w") as out:
        json.dump(expected, out, separators=(",", ":"))
        out.write("\n")


N = 120
comma = lambda x: str(x).replace(".", ",")

lines = ['"Time (s)";"PLETH [mV]";"SpO2 [%]"'] + [f"{comma(round(n * 0.02, 2))};{comma(value(n, 0))};97,5" for n in range(N)]
save("semicolon-decimal-comma", "input.csv", ("\ufeff" + "\r\n".join(lines) + "\r\n").encode("utf-8"), ";", "utf-8-sig", ",",
     {"PLETH": 1, "SpO2": 2}, lambda row: float(row[0].replace(",", ".")), 1)

note = '"a ""quoted"" word, a comma\nand a second line"'
lines = ["time,II, PPG Finger ,note"] + [
    f'2024-03-01T10:00:{n * 0.04:06.3f}Z,"{value(n, 1)}",{value(n, 2)},{note if n in (3, 60) else ""}' for n in range(N)]
save("iso-times-quoted-cells", "input.csv", "\n".join(lines).encode("utf-8"), ",", "utf-8", ".",
     {"II": 1, "PPG Finger": 2}, lambda row: datetime.datetime.fromisoformat(row[0].replace("Z", "+00:00")), 1)

words = ["", "NaN", "NA", "-", "null", "n/a", "None", "?"]
lines = ["# made up for a test", "# Sampling Rate: see times", "millis\tir\tred"] + [
    f"{70000 + 10 * n}\t{words[n // 9 % 8] if n % 9 == 4 else value(n, 3)}\t{value(n, 4):.4e}" for n in range(N)]
save("tabs-utf16-missing-words", "input.tsv", b"\xff\xfe" + "\r".join(lines).encode("utf-16le"), "\t", "utf-16", ".",
     {"ir": 1, "red": 2}, lambda row: float(row[0]) / 1000, 3)

lines = ["Export of a monitor", "Bed;12", "", "Time;ABP;PLETH;", "hh:mm:ss.fff;mmHg;;"] + [
    (datetime.datetime(2024, 1, 1, 23, 59, 59) + datetime.timedelta(milliseconds=20 * n)).strftime("%H:%M:%S.%f")[:-3]
    + f";{value(n, 5)};{value(n, 6)};" for n in range(N)]


def clock(row):
    at = datetime.datetime.strptime(row[0], "%H:%M:%S.%f")
    return (at if at.hour > 12 else at + datetime.timedelta(days=1)).timestamp()


save("monitor-export-over-midnight", "input.txt", ("\r\n".join(lines) + "\r\n").encode("latin-1"), ";", "latin-1", ".",
     {"ABP": 1, "PLETH": 2}, clock, 5)

lines = [f" {n * 8:6d}   {value(n, 7):10.3f} {value(n, 8):10.3f}" for n in range(N)]
text = "% t_ms ppg_ir ppg_red\n" + "\n".join(lines) + "\n"
save("blanks-percent-comment", "input.txt", text.encode("ascii"), " ", "ascii", ".",
     {}, lambda row: 0.0, 1)
folder = os.path.join(here, "blanks-percent-comment")
rows = [line.split() for line in text.splitlines()[1:]]
with open(os.path.join(folder, "expected.json"), "w") as out:
    json.dump({"file": "input.txt", "started": None, "seconds": [int(r[0]) / 1000 for r in rows],
               "channels": {"ppg_ir": [float(r[1]) for r in rows], "ppg_red": [float(r[2]) for r in rows]}}, out, separators=(",", ":"))
    out.write("\n")
