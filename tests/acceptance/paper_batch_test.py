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

    def test_a_folder_gives_everyones_papers_by_their_case_with_progress_and_a_summary(self):
        shutil.copy(WORKED, self.cases / "a.json")
        shutil.copy(LIQUID, self.cases / "b.json")
        result = self.leaves(self.papers("--paper", "caution,diary"), DONE)
        self.assertEqual(sorted(path.name for path in self.out.iterdir()),
                         ["a-caution.pdf", "a-diary.pdf", "b-caution.pdf", "b-diary.pdf"])
        self.assertEqual(json.loads(result.stdout), {"people": 2, "papers": 4, "not_made": []})
        self.assertIn("1 of 2: a, 2 papers", result.stderr)
        self.assertIn("2 of 2: b, 2 papers", result.stderr)

    def test_what_cannot_be_made_is_said_by_case_and_paper_and_the_rest_is_made(self):
        shutil.copy(WORKED, self.cases / "a.json")
        mute = base.worked()
        mute["clinic"].pop("crisis_number")
        self.write("cases/mute.json", mute)
        self.write("cases/broken.json", "{")
        result = self.leaves(self.papers("--paper", "caution,diary"), INPUT_WRONG)
        self.assertEqual(sorted(path.name for path in self.out.iterdir()),
                         ["a-caution.pdf", "a-diary.pdf", "mute-diary.pdf"])
        summary = json.loads(result.stdout)
        self.assertEqual({each["of"] for each in summary["not_made"]}, {"mute", "broken"})
        self.assertTrue(any(line.startswith("mute: caution: clinic.crisis_number: ") for line in complaints(result)),
                        result.stderr)

    def test_a_file_that_is_there_stays_as_it_is_unless_replaced(self):
        shutil.copy(WORKED, self.cases / "a.json")
        self.out.mkdir()
        there = self.out / "a-caution.pdf"
        there.write_text("mine")
        result = self.leaves(self.papers("--paper", "caution,diary"), INPUT_WRONG)
        self.assertEqual(there.read_text(), "mine")
        self.assertTrue((self.out / "a-diary.pdf").exists())
        self.assertTrue(complaints(result)[0].startswith("a: caution: "), result.stderr)
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
        self.assertEqual(json.loads(result.stdout), {"people": 1, "papers": 1, "not_made": []})

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
