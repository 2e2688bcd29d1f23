/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* All calculations that can be asked for by themselves, those of the ceiling too: what the window and the command list. */
guint sw_calculations_n (void);
const SwQuestion *sw_calculations_get (guint i);
/* NULL where there is none. */
const SwQuestion *sw_calculations_find (const char *id);
