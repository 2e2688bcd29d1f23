/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
/* Marks text that the edge (window, command, sheets) translates when it shows it. */
#define N_(text) text
