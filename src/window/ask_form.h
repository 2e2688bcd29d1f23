/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"
#include <gtk/gtk.h>

/* The values that a question wants, each in a field with its unit. Signal "changed" when one was typed or chosen. */
#define SW_TYPE_ASK_FORM (sw_ask_form_get_type ())
G_DECLARE_FINAL_TYPE (SwAskForm, sw_ask_form, SW, ASK_FORM, GtkWidget)

/* What was given for the question before is there again. */
void sw_ask_form_set_question (SwAskForm *form, const SwQuestion *question);
/* key → text, for sw_question_ask; the caller's reference. */
GHashTable *sw_ask_form_given (SwAskForm *form);
/* "the pipe's outside diameter, the fall": what has still to be given; NULL when nothing. Free with g_free. */
char *sw_ask_form_missing (SwAskForm *form);
/* Marks the field that an error's message begins with; NULL: none is wrong. The message with the field's label instead of its key;
 * free with g_free. */
char *sw_ask_form_show_fault (SwAskForm *form, const char *message);
