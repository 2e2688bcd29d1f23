/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/listing.h"
#include <gtk/gtk.h>

/* One value of the rule set, whole: what it is, where it is from, and fields to change it for the job. Signal "change" (string id,
 * string value or NULL to take the change back, string source, int SwConfidence). */
#define SW_TYPE_RULE_DETAIL (sw_rule_detail_get_type ())
G_DECLARE_FINAL_TYPE (SwRuleDetail, sw_rule_detail, SW, RULE_DETAIL, GtkWidget)

/* Only read now; NULL empties it. `used` says what rests on it. */
void sw_rule_detail_show (SwRuleDetail *detail, const SwRuleEntry *entry, const char *used);
void sw_rule_detail_set_writable (SwRuleDetail *detail, gboolean writable);
