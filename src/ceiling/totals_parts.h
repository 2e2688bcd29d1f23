/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/totals.h"

/* Inside the take-off. Adds a line unless its amount is 0. */
void sw_totals_add (SwTotals *totals, SwTotalKind kind, double a, double b, double length, double amount);
/* totals_timber.c */
gboolean sw_totals_timber (SwTotals *totals, const SwCeiling *ceiling, GCancellable *cancellable, GError **error);
/* totals_cornice.c */
void sw_totals_cornice (SwTotals *totals, const SwCeiling *ceiling);
