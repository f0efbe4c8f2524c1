// SPDX-License-Identifier: GPL-3.0-or-later
// The invented people of tests/papers, for this program too.
#include "papers/hard_people.cpp"  // NOLINT
#include "papers/sample.cpp"       // NOLINT: a folder of tests is one program
