/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* The plumber's calculations, each to be asked by itself: falls and flows, sizes, and water under pressure. */
extern const SwQuestion sw_drainage_questions[], sw_drainage_size_questions[], sw_drainage_water_questions[];
extern const guint sw_drainage_n_questions, sw_drainage_n_size_questions, sw_drainage_n_water_questions;
