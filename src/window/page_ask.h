/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Calculations asked alone: a list of questions, the values that one wants, its answer and working, line by line. Signal "rule"
 * (string, its id) when a rule that was quoted is to be shown. */
#define SW_TYPE_PAGE_ASK (sw_page_ask_get_type ())
G_DECLARE_FINAL_TYPE (SwPageAsk, sw_page_ask, SW, PAGE_ASK, GtkWindow)

/* `document` may be NULL: then a rule set is asked that no job has changed. */
SwPageAsk *sw_page_ask_new (GtkWindow *parent, SwDocument *document);
/* Those that were asked last; NULL before. Borrowed. */
SwRules *sw_page_ask_rules (SwPageAsk *page);
