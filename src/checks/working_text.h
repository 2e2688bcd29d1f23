/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag_text.h"
#include "rules/question.h"

/* A question and its working in words, for window, command and files. `translate` may be NULL: English. All free with g_free. */

/* "kg/m3" as people write it: "kg/m³". Free with g_free. */
char *sw_unit_text (const char *unit);
/* Four figures: "6420 mm", "1:60", "3.913 %"; "–" for nothing. Given values and rules are written as they stand.
 * Where the working says feet and inches, lengths have their mm behind them: 2 1/16" (52 mm). */
char *sw_working_value_text (const SwWorking *working, const SwWorkingLine *line);
/* The same for a cell of the table. */
char *sw_working_cell_text (const SwWorking *working, guint row, guint column);
/* "waste.sockets[110].socket_mm (source; from memory), changed by the user; stands in: note"; "" where the line quotes no rule. */
char *sw_working_rule_text (const SwWorkingLine *line, SwTranslate translate);
/* All of it: the answers, what was said, the working line by line, the table. */
char *sw_working_text (const SwWorking *working, SwTranslate translate);

/* "depth (mm, 20 to 2000; has to be given)": what an input asks for, without its label. */
char *sw_ask_input_text (const SwAskInput *input, SwTranslate translate);
