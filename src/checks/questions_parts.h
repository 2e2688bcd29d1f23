/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* Inside the layer: the tables of questions that are no single trade's. */
extern const SwQuestion sw_deck_questions[], sw_hanging_questions[];
extern const guint sw_deck_n_questions, sw_hanging_n_questions;
