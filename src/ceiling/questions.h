/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* The ceiling contractor's calculations, each to be asked by itself. */
extern const SwQuestion sw_ceiling_questions[];
extern const guint sw_ceiling_n_questions;
