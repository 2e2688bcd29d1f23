/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* Where lights may be, by themselves. */
extern const SwQuestion sw_lighting_questions[];
extern const guint sw_lighting_n_questions;
