#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The command line as its users meet it: exit codes, messages, papers, pictures, stores, and no network.

usage: command_line_test.py PROGRAM
"""
import copy
import csv
import io
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time
import unittest

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
CASES = ROOT / "sample_data" / "cases"
WORKED = CASES / "worked-clonazepam.json"
LIQUID = CASES / "diazepam-liquid.json"
DIARY = CASES / "erratic-lorazepam.json"
PROGRAM = ""

DONE, INPUT_WRONG, COMMAND_WRONG, STORE_REFUSES = 0, 1, 2, 3


def run(*words, given=None, **more):
    environment = {key: value for key, value in os.environ.items() if not key.startswith("QT_")}
    environment.pop("DISPLAY", None)
    environment.pop("WAYLAND_DISPLAY", None)
    return subprocess.run([PROGRAM, *map(str, words)], input=given, capture_output=True, text=True,
                          timeout=120, env=environment, check=False, **more)


def complaints(result):
    """The lines that the program itself said, without what a library says beside them."""
    return [line[len("evenfall: "):] for line in result.stderr.splitlines() if line.startswith("evenfall: ")]


def reader(*words):
    return subprocess.run(list(map(str, words)), capture_output=True, text=True, timeout=60, check=True).stdout


class InAFolder(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="evenfall-test-"))
        self.addCleanup(shutil.rmtree, self.folder, ignore_errors=True)

    def write(self, name, content):
        path = self.folder / name
        path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return path

    def leaves(self, result, exit_code):
        self.assertEqual(result.returncode, exit_code, result.stdout[-2000:] + result.stderr[-2000:])
        return result


def worked():
    return json.loads(WORKED.read_text(encoding="utf-8"))


REVIEWED = {"case": 1, "as_of": "2026-12-21T09:00", "timezone": "America/New_York",
            "regimen": [{"drug": "diazepam", "at": "08:00", "amount_mg": "10"}],
            "schedule": [{"starts": "2027-01-04", "doses": [{"at": "08:00", "drug": "diazepam", "amount_mg": "10"}]},
                         {"starts": "2027-01-18", "doses": [{"at": "08:00", "drug": "diazepam", "amount_mg": "5"}]}]}
SCORED = {"case": 1, "as_of": "2026-12-21T09:00", "timezone": "America/New_York",
          "scales": [{"scale": "PHQ-9", "on": "2026-12-08", "items": [1, 1, 0, 2, 0, 1, 0, 0, 0]}]}


class Compute(InAFolder):
    def answer(self, kind, case):
        result = self.leaves(run("compute", kind, case), DONE)
        return json.loads(result.stdout)

    def test_equivalence_of_the_worked_case(self):
        agent, = self.answer("equivalence", WORKED)["agents"]
        self.assertEqual((agent["drug"], agent["daily_mg"]), ("clonazepam", "2.5"))
        self.assertTrue(all(each["source"] for each in agent["published"]))

    def test_taper_begins_with_the_smallest_cut_that_the_pieces_make(self):
        steps = self.answer("taper", WORKED)["steps"]
        # 8 % of 2.5 mg is 0.2 mg; pieces of 0.125 mg make 0.125 mg (5 %) or 0.25 mg (10 %).
        self.assertEqual([(s["number"], s["starts"], s["daily_mg"], s["percent_of_last"], s["status"])
                          for s in steps[:2]],
                         [(1, "2027-01-04", "2.375", "5.0", "committed"), (2, "2027-01-18", "2.25", "5.3", "committed")])
        self.assertEqual(steps[-1]["daily_mg"], "0")
        self.assertEqual(steps[-1]["doses"], [])
        self.assertIsNone(steps[-1]["days"])
        for step in steps:
            for dose in step["doses"]:
                self.assertEqual(amount_of(dose), thousandths(dose["amount_mg"]), dose)

    def test_taper_says_its_floor_in_words(self):
        floor = self.answer("taper", WORKED)["floor"]
        self.assertIn("cap", json.dumps(floor))

    def test_levels_as_rows_and_as_a_table(self):
        answer = self.answer("levels", LIQUID)
        table = list(csv.reader(io.StringIO(self.leaves(run("compute", "levels", LIQUID, "--csv"), DONE).stdout)))
        self.assertEqual(table[0], answer["columns"])
        self.assertEqual([[float(cell) for cell in row] for row in table[1:]], answer["rows"])
        self.assertEqual(answer["columns"][0], "time_h")

    def test_stabilization_and_response_of_a_diary(self):
        answer = self.answer("stabilization", DIARY)
        self.assertIn(answer["verdict"], ("steady", "uneven", "erratic", "too little to say"))
        self.assertTrue(all(flag["rule"] and flag["text"] for flag in answer["flags"]))
        self.assertTrue(all(each["because"] for each in self.answer("response", DIARY)["suggestions"]))

    def test_supply(self):
        answer = self.answer("supply", LIQUID)
        self.assertTrue(answer["fills"])
        self.assertRegex(answer["fills"][0]["from"], r"^\d{4}-\d\d-\d\d$")

    def test_review_finds_a_cut_over_the_cap(self):
        answer = self.answer("review", self.write("review.json", REVIEWED))
        self.assertFalse(answer["keeps_the_cap"])
        self.assertIn("cut-over-cap", [finding["rule"] for finding in answer["findings"]])
        self.assertEqual([step["number"] for step in answer["steps"]], [0, 1])

    def test_scales(self):
        score, = self.answer("scales", self.write("scales.json", SCORED))["scales"]
        self.assertEqual((score["scale"], score["total"]), ("PHQ-9", 5))  # 1+1+0+2+0+1+0+0+0

    def test_standard_input_answers_as_the_file_does(self):
        piped = self.leaves(run("compute", "taper", "-", given=WORKED.read_text(encoding="utf-8")), DONE)
        self.assertEqual(piped.stdout, run("compute", "taper", WORKED).stdout)

    def test_the_same_case_gives_the_same_bytes(self):
        self.assertEqual(run("compute", "stabilization", DIARY).stdout, run("compute", "stabilization", DIARY).stdout)


def thousandths(text):
    whole, _, rest = text.partition(".")
    return int(whole) * 1000 + int((rest + "000")[:3])


def amount_of(dose):
    """The sum of a dose's pieces in micrograms, from their names."""
    total = 0
    for piece in dose["pieces"]:
        strength = thousandths(re.search(r"([0-9.]+) mg", piece["product"]).group(1))
        parts = {"whole": 1, "half": 2, "quarter": 4}[piece["cut"]]
        total += strength * int(piece["count"]) // parts
    return total


class WrongInput(InAFolder):
    def refused(self, case, *places, kind="taper"):
        result = self.leaves(run("compute", kind, case), INPUT_WRONG)
        lines = complaints(result)
        self.assertEqual(result.stdout, "")
        self.assertEqual(len(lines), len(places), lines)
        for place in places:
            self.assertTrue(any(line.startswith(place + ":") for line in lines), f"{place} in {lines}")
        for line in lines:
            self.assertNotRegex(line, r"[{}]", line)
        return lines

    def test_a_file_that_is_not_there(self):
        self.refused(self.folder / "none.json", "none.json")

    def test_broken_json(self):
        self.refused(self.write("broken.json", '{"case": 1,'), "broken.json")

    def test_every_fault_has_its_line_with_file_and_place(self):
        bad = {"case": 1, "timezone": "Mars/Olympus", "regimn": 1,
               "regimen": [{"drug": "lorazepan", "at": "25:00", "amount_mg": "1,5"}]}
        self.refused(self.write("bad.json", bad), "bad.json: timezone", "bad.json: regimn", "bad.json: regimen[0].drug",
                     "bad.json: regimen[0].at", "bad.json: regimen[0].amount_mg")

    def test_a_part_that_is_missing_is_named_with_the_file(self):
        needs = {"equivalence": "regimen", "levels": "levels", "stabilization": "diary", "taper": "plan",
                 "review": "schedule", "supply": "supply", "response": "diary", "scales": "scales"}
        case = self.write("empty.json", {"case": 1})
        for kind, part in needs.items():
            with self.subTest(kind=kind):
                result = self.leaves(run("compute", kind, case), INPUT_WRONG)
                lines = complaints(result)
                self.assertTrue(any(line.startswith(f"empty.json: {part}:") for line in lines), lines)
                self.assertTrue(all(line.startswith("empty.json: ") for line in lines), lines)

    def test_standard_input_is_named_as_such(self):
        result = self.leaves(run("compute", "taper", "-", given="[1, 2]"), INPUT_WRONG)
        self.assertTrue(complaints(result)[0].startswith("standard input:"), result.stderr)


class WrongCommand(InAFolder):
    def test_what_is_no_command(self):
        for words in (["compute"], ["compute", "nonsense", WORKED], ["compute", "taper"], ["frobnicate"],
                      ["compute", "taper", WORKED, "--no-such-option"], ["papers", WORKED],
                      ["papers", WORKED, "--out", self.folder, "--paper", "poster"],
                      ["papers", WORKED, "--out", self.folder, "--size", "a3"],
                      ["picture", WORKED, "--view", "nonsense", "--out", self.folder / "x.png"],
                      ["picture", WORKED, "--view", "course", "--out", self.folder / "x.png", "--width", "1"],
                      ["store", "burn", self.folder / "x"]):
            with self.subTest(words=words):
                result = self.leaves(run(*words), COMMAND_WRONG)
                self.assertEqual(result.stdout, "")
                self.assertTrue(complaints(result), result.stderr)

    def test_help_and_version(self):
        self.assertRegex(self.leaves(run("--version"), DONE).stdout, r"^evenfall \d+\.\d+\.\d+\n$")
        for words in ([], ["compute"], ["papers"], ["picture"], ["store"]):
            self.assertIn("evenfall", self.leaves(run(*words, "--help"), DONE).stdout)

    def test_no_display_is_said_in_words(self):
        result = run("--demo")
        self.assertIn(result.returncode, (COMMAND_WRONG, 4), result.stderr)
        self.assertTrue(complaints(result), result.stderr)


class Papers(InAFolder):
    ALL = ("schedule", "caution", "pharmacy", "letter", "diary", "call")

    def test_the_papers_say_the_doses_and_carry_their_typeface(self):
        out = self.folder / "papers"
        self.leaves(run("papers", WORKED, "--out", out), DONE)
        for name in self.ALL:
            fonts = reader("pdffonts", out / f"{name}.pdf").splitlines()[2:]
            self.assertTrue(fonts, name)
            for font in fonts:
                # "emb sub uni object-number object-generation" end each line.
                self.assertEqual(font.split()[-5], "yes", f"{name}: {font}")
            information = reader("pdfinfo", out / f"{name}.pdf")
            self.assertNotIn("Dlamini", information, "the metadata names no patient")
        words = " ".join(reader("pdftotext", "-layout", out / "schedule.pdf", "-").split())
        for says in ("Monday 4 January 2027 to Sunday 31 January 2027", "from 4 Jan 2027", "to 17 Jan 2027",
                     "to 31 Jan 2027", "2.375 mg in", "2.25 mg in", "Changed: was", "5 % less", "5.3 % less",
                     "Call us when you have", "911", "988", "555-0140", "555-0141", "R. Vantongeren", "HL-2214"):
            self.assertIn(says, words)
        self.assertNotIn("2.125", words, "the outlook is not agreed")
        self.assertNotRegex(words, r"\d\.\d*0 mg|(?<![\d.])\.\d", "no trailing zero, no naked point")

    def test_a_paper_that_is_there_is_kept_unless_it_may_be_replaced(self):
        out = self.folder / "papers"
        once = ("papers", WORKED, "--out", out, "--paper", "schedule")
        self.leaves(run(*once), DONE)
        before = reader("pdftotext", "-layout", out / "schedule.pdf", "-")
        (out / "schedule.pdf").write_bytes(b"mine")
        result = self.leaves(run(*once), INPUT_WRONG)
        self.assertEqual(len(complaints(result)), 1, result.stderr)
        self.assertIn("schedule", complaints(result)[0])
        self.assertEqual((out / "schedule.pdf").read_bytes(), b"mine")
        self.leaves(run(*once, "--replace"), DONE)
        self.assertEqual(reader("pdftotext", "-layout", out / "schedule.pdf", "-"), before)

    def test_spanish_large_letter(self):
        out = self.folder / "papers"
        self.leaves(run("papers", WORKED, "--out", out, "--paper", "schedule,caution", "--language", "es", "--size",
                        "letter", "--large-print"), DONE)
        self.assertEqual(sorted(path.name for path in out.iterdir()), ["caution.pdf", "schedule.pdf"])
        self.assertRegex(reader("pdfinfo", out / "schedule.pdf"), r"Page size:\s+612 x 792")
        self.assertIn("enero", reader("pdftotext", out / "schedule.pdf", "-"))

    def test_missing_numbers_are_asked_for_and_never_made_up(self):
        case = worked()
        del case["clinic"]["emergency_number"]
        out = self.folder / "papers"
        result = self.leaves(run("papers", self.write("case.json", case), "--out", out, "--paper", "schedule"),
                             INPUT_WRONG)
        self.assertIn("number", complaints(result)[0])
        self.assertFalse((out / "schedule.pdf").exists())


class Pictures(InAFolder):
    def test_every_view_as_png(self):
        views = re.search(r"VIEW: ([a-z, ]+)", run("picture", "--help").stdout.replace("\n", " ")).group(1)
        names = [name.strip() for name in views.split(",") if name.strip()]
        self.assertTrue({"course", "plan", "record", "papers", "caseload"} <= set(names), names)
        for name in names:
            with self.subTest(view=name):
                out = self.folder / f"{name}.png"
                self.leaves(run("picture", WORKED, "--view", name, "--out", out), DONE)
                head = out.read_bytes()[:24]
                self.assertEqual(head[:8], b"\x89PNG\r\n\x1a\n")
                self.assertEqual((int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")), (1440, 900))

    def test_svg_holds_vectors(self):
        out = self.folder / "course.svg"
        self.leaves(run("picture", WORKED, "--view", "course", "--out", out, "--theme", "dark"), DONE)
        self.assertIn("<path", out.read_text(encoding="utf-8"))

    def test_a_picture_that_is_there_is_kept_and_other_endings_are_refused(self):
        out = self.write("course.png", "mine")
        self.leaves(run("picture", WORKED, "--view", "course", "--out", out), INPUT_WRONG)
        self.assertEqual(out.read_text(encoding="utf-8"), "mine")
        result = run("picture", WORKED, "--view", "course", "--out", self.folder / "course.gif")
        self.assertIn(result.returncode, (INPUT_WRONG, COMMAND_WRONG))
        self.assertTrue(complaints(result))


class Stores(InAFolder):
    def setUp(self):
        super().setUp()
        self.store = self.folder / "clinic.evenfall"
        self.right = self.write("right", "four unrelated words here\n")
        self.wrong = self.write("wrong", "four unrelated words there\n")

    def test_create_check_and_refuse(self):
        made = self.leaves(run("store", "create", self.store, "--passphrase-file", self.right, "--user", "Mara Keel"), DONE)
        self.assertRegex(made.stdout, r"^([0-9A-Z]{5}-){6}[0-9A-Z]{5}\n$")
        self.assertEqual(self.store.stat().st_mode & 0o077, 0, "nobody else may read it")
        opened = ("store", "check", self.store, "--user", "Mara Keel", "--passphrase-file")
        self.assertIn("0 damaged", self.leaves(run(*opened, self.right), DONE).stdout)
        refused = self.leaves(run(*opened, self.wrong), STORE_REFUSES)
        self.assertEqual(len(complaints(refused)), 1)
        self.assertNotIn("unrelated", refused.stderr)
        self.leaves(run("store", "create", self.store, "--passphrase-file", self.right), STORE_REFUSES)
        self.leaves(run("store", "check", self.folder / "none", "--passphrase-file", self.right), STORE_REFUSES)

    def test_a_damaged_store_is_refused_in_words(self):
        self.leaves(run("store", "create", self.store, "--passphrase-file", self.right), DONE)
        content = bytearray(self.store.read_bytes())
        for at in range(4096, len(content), 512):
            content[at] ^= 0xFF
        self.store.write_bytes(content)
        result = self.leaves(run("store", "check", self.store, "--passphrase-file", self.right), STORE_REFUSES)
        self.assertTrue(complaints(result) or "damaged" in result.stdout, result.stderr)


    def make(self):
        self.leaves(run("store", "create", self.store, "--passphrase-file", self.right), DONE)

    def test_wrong_passphrases_slow_the_next_try(self):
        self.make()
        for _ in range(5):
            refused = self.leaves(run("store", "check", self.store, "--passphrase-file", self.wrong), STORE_REFUSES)
        self.assertRegex(refused.stderr, "(29|30) seconds")  # the machine may be slow
        waiting = self.leaves(run("store", "check", self.store, "--passphrase-file", self.right), STORE_REFUSES)
        self.assertRegex(waiting.stderr, "possible in [123]?[0-9] seconds")

    def test_back_up_into_a_folder_check_against_it_and_restore(self):
        self.make()
        stick = self.folder / "stick"
        stick.mkdir()
        made = self.leaves(run("store", "backup", self.store, stick, "--passphrase-file", self.right), DONE)
        backup = pathlib.Path(made.stdout.strip())
        self.assertEqual(backup.parent, stick)
        known = self.leaves(run("store", "check", self.store, backup, "--passphrase-file", self.right), DONE)
        self.assertIn("Compared with what is known", known.stdout)
        mark = re.search(r"Newest row: ([0-9a-f]{8}-[0-9]+-[0-9a-f]{16})", known.stdout).group(1)
        self.leaves(run("store", "check", self.store, "--mark", mark, "--passphrase-file", self.right), DONE)
        other = mark[:-1] + ("0" if mark[-1] != "0" else "1")
        lost = self.leaves(run("store", "check", self.store, "--mark", other, "--passphrase-file", self.right),
                           STORE_REFUSES)
        self.assertIn("older copy", lost.stdout)
        restore = ("store", "restore", self.store, backup, "--passphrase-file", self.right)
        unasked = self.leaves(run(*restore, given=""), INPUT_WRONG)
        self.assertIn("same entries", unasked.stdout)
        self.assertEqual([], list(self.folder.glob("*.before-*")), "nothing is done without being asked")
        self.leaves(run(*restore, "--replace"), DONE)
        self.assertEqual(1, len(list(self.folder.glob("clinic.evenfall.before-*"))))
        self.leaves(run("store", "check", self.store, "--mark", mark, "--passphrase-file", self.right), DONE)

    def test_two_laptops_meet_by_a_file(self):
        self.make()
        stick, other = self.folder / "stick", self.folder / "other.evenfall"
        access = ("--passphrase-file", self.right)
        self.leaves(run("store", "export", self.store, stick, *access), DONE)
        self.assertEqual(stick.stat().st_mode & 0o077, 0, "nobody else may read it")
        self.leaves(run("store", "export", self.store, stick, *access), STORE_REFUSES)
        self.leaves(run("store", "export", self.store, stick, "--replace", *access), DONE)
        refused = self.leaves(run("store", "create", other, "--join", stick, "--passphrase-file", self.wrong),
                              STORE_REFUSES)
        self.assertEqual(len(complaints(refused)), 1)
        self.assertFalse(other.exists(), "nothing is left of a joining that failed")
        self.assertIn("Joined", self.leaves(run("store", "create", other, "--join", stick, *access), DONE).stdout)
        for file in (self.store, other):
            taken = self.leaves(run("store", "import", file, stick, *access), DONE)
            self.assertIn("0 rows taken up", taken.stdout)
        self.leaves(run("store", "check", other, self.store, *access), DONE)
        self.leaves(run("store", "check", other, "--join", stick, *access), COMMAND_WRONG)

    def test_a_ruined_store_is_replaced_only_when_told_to(self):
        self.make()
        backup = self.folder / "copy"
        self.leaves(run("store", "backup", self.store, backup, "--passphrase-file", self.right), DONE)
        self.store.write_text("ruined", encoding="utf-8")
        restore = ("store", "restore", self.store, backup, "--passphrase-file", self.right)
        self.leaves(run(*restore), STORE_REFUSES)
        self.leaves(run(*restore, "--replace"), DONE)
        self.leaves(run("store", "check", self.store, "--passphrase-file", self.right), DONE)


def changed(change):
    case = worked()
    change(case)
    return case


# What is wrong with each is in its shape, so that a schema can say it too.
BAD_CASES = {
    "unknown key": lambda case: case.update(regimn=[]),
    "unknown key within": lambda case: case["plan"].update(target=8),
    "no version": lambda case: case.pop("case"),
    "another version": lambda case: case.update(case=2),
    "as_of is no time": lambda case: case.update(as_of="yesterday"),
    "weight below any": lambda case: case["patient"].update(weight_kg=0),
    "weight as words": lambda case: case["patient"].update(weight_kg="66"),
    "unknown language": lambda case: case["patient"].update(language="tlh"),
    "name too long": lambda case: case["patient"].update(name="x" * 10_000),
    "unknown risk": lambda case: case.update(risks=["bad luck"]),
    "amount with a comma": lambda case: case["regimen"][0].update(amount_mg="1,5"),
    "amount with a unit": lambda case: case["regimen"][0].update(amount_mg="1 mg"),
    "amount with an exponent": lambda case: case["regimen"][0].update(amount_mg="1e1"),
    "negative amount": lambda case: case["regimen"][0].update(amount_mg="-1"),
    "amount that is none": lambda case: case["regimen"][0].update(amount_mg=None),
    "time that is none": lambda case: case["regimen"][0].update(at="25:00"),
    "dose without a drug": lambda case: case["regimen"][0].pop("drug"),
    "more than 24 doses": lambda case: case.update(
        regimen=[{"drug": "clonazepam", "at": f"{n // 6:02}:{n % 6}0", "amount_mg": "0.5"} for n in range(25)]),
    "unknown form": lambda case: case["products"][0].update(form="pill"),
    "unknown cut": lambda case: case["products"][0].update(cuts="eighths"),
    "no days in a step": lambda case: case["plan"].update(days_per_step=0),
    "a step of years": lambda case: case["plan"].update(days_per_step=366),
    "unknown pace": lambda case: case["plan"].update(pace="brisk"),
    "severity over ten": lambda case: case.update(
        diary={"symptoms": [{"rated_at": "2026-12-01T13:00", "item": "anxiety", "severity": 11}]}),
    "regimen as words": lambda case: case.update(regimen="clonazepam"),
}


class Schema(InAFolder):
    @classmethod
    def setUpClass(cls):
        schema = json.loads((ROOT / "resources" / "case.schema.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        cls.validator = jsonschema.Draft202012Validator(schema)

    def test_what_the_loader_takes_the_schema_takes(self):
        for path in sorted(CASES.glob("*.json")):
            with self.subTest(case=path.name):
                self.assertEqual(list(self.validator.iter_errors(json.loads(path.read_text(encoding="utf-8")))), [])
        for case in (REVIEWED, SCORED, {"case": 1}):
            self.assertTrue(self.validator.is_valid(case))

    def test_what_the_loader_refuses_the_schema_refuses(self):
        for name, change in BAD_CASES.items():
            with self.subTest(bad=name):
                case = changed(change)
                result = run("compute", "taper", self.write("bad.json", case))
                self.leaves(result, INPUT_WRONG)
                self.assertTrue(complaints(result)[0].startswith("bad.json"), result.stderr)
                self.assertFalse(self.validator.is_valid(case), "the schema takes it")

    def test_the_changes_are_what_is_refused(self):
        self.assertTrue(self.validator.is_valid(copy.deepcopy(worked())))
        self.leaves(run("compute", "taper", self.write("good.json", worked())), DONE)


class NoNetwork(InAFolder):
    """Every socket call of the program and its children, by strace."""

    def families(self, *words):
        trace = self.folder / "trace"
        result = subprocess.run(["strace", "-f", "-qq", "-e", "trace=socket,execve", "-o", trace, PROGRAM,
                                 *map(str, words)], capture_output=True, text=True, timeout=300, check=False)
        self.leaves(result, DONE)
        calls = trace.read_text(encoding="utf-8", errors="replace")
        self.assertIn("execve(", calls, "nothing was traced")
        return set(re.findall(r"socket\((\w+)", calls))

    def test_no_internet_socket_is_opened(self):
        jobs = {"compute": ("compute", "taper", WORKED),
                "papers": ("papers", WORKED, "--out", self.folder / "papers"),
                "picture": ("picture", WORKED, "--view", "course", "--out", self.folder / "course.png")}
        for name, words in jobs.items():
            with self.subTest(job=name):
                self.assertLessEqual(self.families(*words), {"AF_UNIX", "AF_LOCAL"})


    def test_the_window_opens_no_internet_socket(self):
        trace = self.folder / "trace"
        environment = dict(os.environ, QT_QPA_PLATFORM="offscreen")
        window = subprocess.run(["strace", "-f", "-q", "-e", "trace=network", "-o", trace,
                                 "timeout", "-k", "5", "10", PROGRAM, "--demo"], env=environment,
                                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120, check=False)
        self.assertEqual(window.returncode, 124, "the window did not stay open until its time was up")
        calls = trace.read_text(encoding="utf-8", errors="replace")
        self.assertRegex(calls, "exited|killed", "nothing was traced")
        self.assertLessEqual(set(re.findall(r"socket\((\w+)", calls)), {"AF_UNIX", "AF_LOCAL"})


class NoDump(InAFolder):
    def test_a_crash_of_the_window_leaves_no_memory_behind(self):
        lifted = lambda: resource.setrlimit(resource.RLIMIT_CORE, (resource.getrlimit(resource.RLIMIT_CORE)[1],) * 2)
        window = subprocess.Popen([PROGRAM, "--demo"], env=dict(os.environ, QT_QPA_PLATFORM="offscreen"),
                                  stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                  preexec_fn=lifted)
        try:
            limits = pathlib.Path(f"/proc/{window.pid}/limits")
            core = lambda: re.search(r"Max core file size\s+(\S+)", limits.read_text()).group(1)
            end = time.monotonic() + 20
            while core() != "0" and time.monotonic() < end:
                time.sleep(0.05)
            self.assertEqual(core(), "0")
            self.assertEqual(int(pathlib.Path(f"/proc/{window.pid}/coredump_filter").read_text(), 16), 0)
        finally:
            window.kill()
            window.wait()


if __name__ == "__main__":
    PROGRAM = sys.argv.pop(1)
    unittest.main(verbosity=1)
