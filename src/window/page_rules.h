/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* The rule set in use: every table, every value with its source and confidence, what the job changed, and what rests on it. */
#define SW_TYPE_PAGE_RULES (sw_page_rules_get_type ())
G_DECLARE_FINAL_TYPE (SwPageRules, sw_page_rules, SW, PAGE_RULES, GtkWindow)

/* Of a document's job; without one (NULL) the given rules, which then cannot be changed. */
SwPageRules *sw_page_rules_new (GtkWindow *parent, SwDocument *document, SwRules *rules);
/* Chooses the value that a result names; the nearest in its table when it was found between rows. */
void sw_page_rules_show (SwPageRules *page, const char *rule_id);
