/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* All calculations that can be asked for by themselves: the deck's, the plumber's, the electrician's. */
guint sw_questions_n (void);
const SwQuestion *sw_questions_get (guint i);
/* NULL where there is none. */
const SwQuestion *sw_questions_find (const char *id);
/* What people read for a word that a question offers, for gettext; NULL where there is none. */
const char *sw_question_word (const char *word);
