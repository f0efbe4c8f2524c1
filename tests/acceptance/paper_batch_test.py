#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Papers of many people in one go, as the command line makes them.

usage: paper_batch_test.py PROGRAM
"""
import json
import shutil
import sys
import unittest

import command_line_test as base
from command_line_test import COMMAND_WRONG, DONE, INPUT_WRONG, LIQUID, WORKED, InAFolder, complaints, reader, run


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


if __name__ == "__main__":
    base.PROGRAM = sys.argv.pop(1)
    unittest.main(verbosity=1)
