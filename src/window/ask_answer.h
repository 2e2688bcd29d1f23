/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"
#include <gtk/gtk.h>

/* An answer with its working line by line, the rules that it quotes, its table, and its picture where it has one. Signal "rule"
 * (string, its id) when one of the rules is to be shown. */
#define SW_TYPE_ASK_ANSWER (sw_ask_answer_get_type ())
G_DECLARE_FINAL_TYPE (SwAskAnswer, sw_ask_answer, SW, ASK_ANSWER, GtkWidget)

/* Only read now; NULL empties it. */
void sw_ask_answer_show (SwAskAnswer *answer, const SwQuestion *question, const SwWorking *working);
