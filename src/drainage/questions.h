/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* The plumber's calculations, each to be asked by itself. */
extern const SwQuestion sw_drainage_questions[];
extern const guint sw_drainage_n_questions;
