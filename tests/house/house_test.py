#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the tree against the house: which rooms may know which, what core and ui may include, which hazards have living
tests, and whether every sentence and rule that the code names stands in the resources, in every language."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CODE = (".cpp", ".h")
TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "app", "core", "ui", "resources", "tests", "sample_data", "packaging"}


def files(folder):
    return sorted(p for p in (ROOT / folder).rglob("*") if p.suffix in CODE)


def includes(path):
    return re.findall(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', path.read_text(), re.M)


def rooms():
    """Room to the rooms that it may know, by what core/CMakeLists.txt links, taken to its end."""
    needs = {}
    for name, rest in re.findall(r"evenfall_room\((\w+)([^)]*)\)", (ROOT / "core/CMakeLists.txt").read_text()):
        part = re.search(r"NEEDS ([a-z_ ]+)", rest)
        needs[name] = set(part.group(1).split()) if part else set()

    def closed(name):
        known = {name}
        for need in needs[name]:
            known |= closed(need)
        return known

    return {name: closed(name) for name in needs}


def test_names():
    names = set()
    for path in files("tests"):
        text = path.read_text()
        for kind, suite, name in re.findall(r"\b(TEST|TEST_F|TEST_P|RC_GTEST_PROP|RC_GTEST_FIXTURE_PROP)\(\s*(\w+),\s*(\w+)", text):
            names.add(f"{suite}.{name}")
    for path in (ROOT / "tests").rglob("*.py"):
        names |= {f"{path.stem}.{name}" for name in re.findall(r"def (test_\w+)", path.read_text())}
    return names


class House(unittest.TestCase):
    def test_top_level_is_what_was_agreed(self):
        entries = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")}
        self.assertLessEqual(entries - {"compile_commands.json"}, TOP)

    def test_arrows_go_down_only(self):
        known = rooms()
        for path in files("core"):
            room = path.relative_to(ROOT / "core").parts[0]
            for name in includes(path):
                target = name.split("/")[0]
                if "/" in name and target in known:
                    self.assertIn(target, known[room], f"{path} includes {name}")

    def test_core_knows_no_qt_and_no_ui(self):
        for path in files("core"):
            for name in includes(path):
                self.assertIsNone(re.match(r"Q[A-Z]", name), f"{path} includes {name}")

    def test_no_network_code_anywhere(self):
        for folder in ("core", "ui", "app"):
            for path in files(folder):
                for name in includes(path):
                    self.assertIsNone(re.match(r"(QNetwork|QTcp|QUdp|QLocalS|sys/socket|netinet|curl)", name), f"{path} includes {name}")

    def test_core_never_asks_for_the_time(self):
        # Only the store's default clock reads the machine's; it is an argument everywhere.
        for path in files("core"):
            if path.parent.name == "store":
                continue
            self.assertNotIn("system_clock::now", path.read_text(), path)

    def test_every_source_says_its_licence(self):
        for folder in ("app", "core", "ui", "tests", "sample_data"):
            for path in files(folder):
                self.assertTrue(path.read_text().startswith("// SPDX-License-Identifier: GPL-3.0-or-later"), path)


class Hazards(unittest.TestCase):
    def setUp(self):
        self.hazards = json.loads((ROOT / "tests/hazards.json").read_text())["hazards"]

    def test_every_hazard_names_living_tests(self):
        living = test_names()
        for hazard in self.hazards:
            self.assertTrue(hazard["tests"], hazard["id"])
            for name in hazard["tests"]:
                self.assertIn(name, living, hazard["id"])

    def test_the_table_for_readers_is_the_one_that_the_file_makes(self):
        made = subprocess.run([sys.executable, ROOT / "packaging/hazards"], capture_output=True, text=True, check=True)
        self.assertEqual((ROOT / "packaging/hazards.md").read_text(), made.stdout,
                         "run packaging/hazards > packaging/hazards.md")

    def test_every_hazard_is_told_in_full(self):
        ids = [hazard["id"] for hazard in self.hazards]
        self.assertEqual(len(ids), len(set(ids)))
        for hazard in self.hazards:
            for field in ("what", "cause", "harm", "severity", "control", "remains"):
                self.assertTrue(hazard.get(field), f'{hazard["id"]}: {field}')


class Sentences(unittest.TestCase):
    def texts(self, language):
        merged = {}
        for path in (ROOT / "resources/texts" / language).glob("*.json"):
            merged.update(json.loads(path.read_text()))
        return merged

    def test_both_languages_have_the_same_sentences_with_the_same_names(self):
        english, spanish = self.texts("en"), self.texts("es")
        self.assertEqual(set(english) ^ set(spanish), set())
        for key in english:
            names = lambda text: sorted(set(re.findall(r"\{([a-z_.]+)\}", text)))
            self.assertEqual(names(english[key]), names(spanish[key]), key)

    def test_every_fault_and_sentence_that_the_code_names_stands_in_the_texts(self):
        english = self.texts("en")
        named = r'\b(?:\w*[Ff]ault\w*|failure|say|Message|at_group|too_fine)\s*[({]\s*"([a-z0-9]+(?:-[a-z0-9]+)+)"'
        found = 0
        for folder in ("core", "app", "ui"):
            for path in files(folder):
                for name in re.findall(named, path.read_text()):
                    self.assertTrue(name in english, f"{path}: {name}")
                    found += 1
        self.assertGreater(found, 400)


if __name__ == "__main__":
    sys.exit(unittest.main(verbosity=1))
