#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Papers of many people in one go, as the command line makes them.

usage: paper_batch_test.py PROGRAM
"""
import json
import os
import shutil
import sys
import unittest
from unittest import mock

import command_line_test as base
from command_line_test import (COMMAND_WRONG, DONE, INPUT_WRONG, LIQUID, ROOT, WORKED, InAFolder, complaints, reader,
                               run)


class Batch(InAFolder):
    def setUp(self):
        super().setUp()
        self.cases = self.folder / "cases"
        self.cases.mkdir()
        self.out = self.folder / "papers"

    def papers(self, *more):
        return run("papers", self.cases, "--out", self.out, *more)

    def summary(self, result):
        """What a batch says that it did. Its numbers add up whatever was refused."""
        summary = json.loads(result.stdout)
        refused = summary["not_made"]
        self.assertEqual(summary["people_asked"], summary["people"] + sum(each["made"] == 0 for each in refused))
        self.assertEqual(summary["papers_asked"], summary["papers"] + sum(len(each["papers"]) for each in refused))
        for each in refused:
            for fault in each["faults"]:
                self.assertEqual(set(fault), {"id", "place", "what"})
                self.assertIn(f"{fault['place']}: {fault['what']}", complaints(result))
        return summary

    def mute(self, *fields):
        """A case without these fields of its clinic."""
        case = base.worked()
        for field in fields:
            case["clinic"].pop(field)
        return case

    def test_a_folder_gives_everyones_papers_by_their_case_with_progress_and_a_summary(self):
        shutil.copy(WORKED, self.cases / "a.json")
        shutil.copy(LIQUID, self.cases / "b.json")
        result = self.leaves(self.papers("--paper", "caution,diary"), DONE)
        self.assertEqual(sorted(path.name for path in self.out.iterdir()),
                         ["a-caution.pdf", "a-diary.pdf", "b-caution.pdf", "b-diary.pdf"])
        self.assertEqual(self.summary(result), {"people_asked": 2, "people": 2, "papers_asked": 4, "papers": 4,
                                                "not_made": [], "passed_over": [], "older_not_replaced": []})
        self.assertIn("1 of 2: a, 2 papers", result.stderr)
        self.assertIn("2 of 2: b, 2 papers", result.stderr)

    def test_what_cannot_be_made_is_said_by_case_and_paper_and_the_rest_is_made(self):
        shutil.copy(WORKED, self.cases / "a.json")
        self.write("cases/mute.json", self.mute("crisis_number"))
        self.write("cases/broken.json", "{")
        result = self.leaves(self.papers("--paper", "caution,diary"), INPUT_WRONG)
        self.assertEqual(sorted(path.name for path in self.out.iterdir()),
                         ["a-caution.pdf", "a-diary.pdf", "mute-diary.pdf"])
        summary = self.summary(result)
        self.assertEqual([(each["of"], each["made"], each["papers"]) for each in summary["not_made"]],
                         [("broken", 0, ["caution", "diary"]), ("mute", 1, ["caution"])])
        self.assertEqual((summary["people_asked"], summary["people"]), (3, 2))
        self.assertTrue(any(line.startswith("mute: caution: clinic.crisis_number: ") for line in complaints(result)),
                        result.stderr)

    def test_the_summary_says_why_a_file_gave_nothing_and_every_file_is_counted(self):
        shutil.copy(WORKED, self.cases / "a.json")
        self.write("cases/broken.json", "{")
        self.write("cases/key.json", {"case": 1, "clinnic": {}})
        (self.cases / "lost.json").symlink_to(self.folder / "nowhere")
        other = base.worked()
        other["plan"]["drug"] = "diazepam"
        self.write("cases/other.json", other)
        result = self.leaves(self.papers(), INPUT_WRONG)
        summary = self.summary(result)
        self.assertEqual({each["of"]: [(fault["id"], fault["place"]) for fault in each["faults"]]
                          for each in summary["not_made"]},
                         {"broken": [("json-broken", "broken.json")],
                          "key": [("json-key-unknown", "key.json: clinnic")],
                          "lost": [("file-unreadable", "lost.json")],
                          "other": [("plan-drug-not-in-regimen", "other.json: plan.drug"),
                                    ("plan-no-product", "other.json: products")]})
        self.assertEqual((summary["people_asked"], summary["people"]), (5, 1))
        self.assertEqual([line for line in result.stderr.splitlines() if " of 5: " in line],
                         ["1 of 5: a, 7 papers", "2 of 5: broken, 0 papers", "3 of 5: key, 0 papers",
                          "4 of 5: lost, 0 papers", "5 of 5: other, 0 papers"])

    def test_numbers_that_are_missing_are_told_in_one_line_by_the_fields_of_the_case(self):
        case = self.write("case.json", self.mute("phone", "crisis_number"))
        result = self.leaves(run("papers", case, "--out", self.out), INPUT_WRONG)
        line, = complaints(result)
        self.assertIn("clinic.phone, clinic.crisis_number", line)
        self.assertNotIn("settings", line)
        for paper in ("schedule", "pharmacy", "card"):
            self.assertIn(paper, line)

    def test_an_older_file_of_a_paper_that_is_refused_is_named(self):
        shutil.copy(WORKED, self.cases / "mute.json")
        shutil.copy(WORKED, self.cases / "broken.json")
        self.leaves(self.papers("--paper", "caution,diary"), DONE)
        self.write("cases/mute.json", self.mute("crisis_number"))
        self.write("cases/broken.json", "{")
        result = self.leaves(self.papers("--paper", "caution,diary", "--replace"), INPUT_WRONG)
        older = [str(self.out / name) for name in ("broken-caution.pdf", "broken-diary.pdf", "mute-caution.pdf")]
        self.assertEqual(self.summary(result)["older_not_replaced"], older)
        for file in older:
            self.assertTrue(any(line.startswith(f"{file}: ") and "older" in line for line in complaints(result)),
                            result.stderr)

    def test_an_older_file_of_one_person_is_named_too(self):
        self.leaves(run("papers", WORKED, "--out", self.out, "--paper", "schedule"), DONE)
        for case in (self.write("mute.json", self.mute("phone")), self.write("broken.json", "{")):
            with self.subTest(case=case.name):
                result = self.leaves(run("papers", case, "--out", self.out, "--replace"), INPUT_WRONG)
                self.assertIn(f"{self.out / 'schedule.pdf'}: ", complaints(result)[-1])
                self.assertEqual(len(complaints(result)), 2, result.stderr)

    def test_a_store_that_is_named_without_a_person_is_told_how(self):
        store, key = self.folder / "clinic.evenfall", self.write("key", "four unrelated words here\n")
        self.leaves(run("store", "create", store, "--passphrase-file", key), DONE)
        for words in (("papers", store, "--out", self.out), ("compute", "taper", store)):
            with self.subTest(words=words[0]):
                line, = complaints(self.leaves(run(*words), INPUT_WRONG))
                self.assertIn(f"{store}#REFERENCE", line)
                self.assertIn(f"{store}#*", line)

    def test_a_file_that_is_there_stays_as_it_is_unless_replaced(self):
        shutil.copy(WORKED, self.cases / "a.json")
        self.out.mkdir()
        there = self.out / "a-caution.pdf"
        there.write_text("mine")
        result = self.leaves(self.papers("--paper", "caution,diary"), INPUT_WRONG)
        self.assertEqual(there.read_text(), "mine")
        self.assertTrue((self.out / "a-diary.pdf").exists())
        line, = complaints(result)
        self.assertTrue(line.startswith("a: caution: "), line)
        self.assertIn("--replace", line)
        self.assertEqual(self.summary(result)["older_not_replaced"], [str(there)])
        self.leaves(self.papers("--paper", "caution,diary", "--replace"), DONE)
        self.assertTrue(there.read_bytes().startswith(b"%PDF"))

    def test_an_empty_folder_and_an_unknown_language_are_refused(self):
        result = self.leaves(self.papers(), INPUT_WRONG)
        self.assertEqual(len(complaints(result)), 1)
        self.leaves(self.papers("--language", "xx"), COMMAND_WRONG)

    def test_the_name_stands_in_the_metadata_only_where_it_is_chosen(self):
        shutil.copy(WORKED, self.cases / "a.json")
        name = base.worked()["patient"]["name"]
        self.leaves(self.papers("--paper", "caution"), DONE)
        self.assertNotIn(name, reader("pdfinfo", self.out / "a-caution.pdf"))
        self.leaves(self.papers("--paper", "caution", "--replace", "--name-in-metadata"), DONE)
        self.assertIn(name, reader("pdfinfo", self.out / "a-caution.pdf"))

    def test_only_those_who_take_an_agent_whatever_case_it_is_written_in(self):
        shutil.copy(WORKED, self.cases / "a.json")
        shutil.copy(LIQUID, self.cases / "b.json")
        result = self.leaves(self.papers("--paper", "caution", "--agent", "Clonazepam"), DONE)
        self.assertEqual([path.name for path in self.out.iterdir()], ["a-caution.pdf"])
        summary = self.summary(result)
        self.assertEqual((summary["people_asked"], summary["papers"], summary["passed_over"]), (1, 1, ["b"]))

    def test_an_agent_that_nobody_takes_is_no_success_and_an_unknown_one_names_the_known(self):
        shutil.copy(WORKED, self.cases / "a.json")
        for case in (self.cases, WORKED):
            with self.subTest(case=case):
                result = self.leaves(run("papers", case, "--out", self.out, "--agent", "zolpidem"), INPUT_WRONG)
                self.assertEqual(len(complaints(result)), 1, result.stderr)
                self.assertIn("zolpidem", complaints(result)[0])
                self.assertEqual(list(self.out.iterdir()), [])
        result = self.leaves(self.papers("--agent", "clonazepan"), COMMAND_WRONG)
        for agent in json.loads((ROOT / "resources" / "formulary.json").read_text(encoding="utf-8"))["drugs"]:
            self.assertIn(agent, complaints(result)[0])

    def test_help_and_manual_say_where_nothing_is_noted(self):
        for told in (run("papers", "--help").stdout, (ROOT / "packaging" / "evenfall.1").read_text(encoding="utf-8")):
            words = " ".join(told.split())
            self.assertIn("noted in the record as gone out", words)
            self.assertIn("of case files nothing is noted", words)

    def test_a_reference_that_could_name_a_folder_names_none_in_the_demo(self):
        (self.folder / "sample_data").mkdir()
        (self.folder / "resources").symlink_to(ROOT / "resources")
        told = (ROOT / "sample_data" / "caseload.json").read_text(encoding="utf-8")
        self.assertIn('"HL-1022"', told)
        (self.folder / "sample_data" / "caseload.json").write_text(told.replace('"HL-1022"', '"HL/1022"'),
                                                                   encoding="utf-8")
        with mock.patch.dict(os.environ, EVENFALL_RESOURCES=str(self.folder / "resources")):
            self.leaves(run("demo", self.out), DONE)
        self.assertTrue((self.out / "HL_1022-schedule.pdf").exists())


if __name__ == "__main__":
    base.PROGRAM = sys.argv.pop(1)
    unittest.main(verbosity=1)
