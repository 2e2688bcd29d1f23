/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/checks.h"

/* Gives a text in the user's language, as gettext does; NULL stands for English. Static strings in and out. */
typedef const char *(*SwTranslate) (const char *english);

/* What a foreman reads, lengths as the job shows them. "Waste 50 (R12) hits rib 7 by 12 mm." "Bay B, void 7, 340 past plate 3, 1.84 m from grid C."
 * "Move it 13 mm north." */
typedef struct
{
  char *title;    /* short: "Service in a rib" */
  char *what;     /* one sentence */
  char *where;    /* address, without a full stop */
  char *todo;     /* one or two sentences; "" when there is nothing to do */
  char *rule;     /* "checks.clearances.rib_mm = 10 mm (trade practice; from memory)"; "" when there is no number */
  char *sentence; /* what, where and what to do in one line */
} SwSnagText;

SwSnagText *sw_snag_text (const SwSnags *snags, const SwSnag *snag, SwTranslate translate);
void sw_snag_text_free (SwSnagText *text);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSnagText, sw_snag_text_free)

/* "Waste 50 (R12)", "Downlight L4", "rib 7": how people call a record or a part of one. Free with g_free. */
char *sw_snag_thing (const SwSnags *snags, SwId owner, SwBodyKind kind, int part, SwTranslate translate);
/* An address in words. Free with g_free. */
char *sw_snag_where (const SwAddress *address, SwLengths lengths, SwTranslate translate);
/* "13 mm north", "4 mm down", "13 mm north and 4 mm up": rounded up to whole mm or sixteenths of an inch. Free with g_free. */
char *sw_snag_move (SwPoint3 direction, double distance, SwLengths lengths, SwTranslate translate);

/* English, to be translated. Static. */
const char *sw_severity_label (SwSeverity severity);
const char *sw_trade_label (SwTrade trade);
const char *sw_confidence_label (SwConfidence confidence);
/* A rule's value as it has it; lengths in feet and inches where the job has those. Free with g_free. */
char *sw_rule_figure (const SwRuleValue *value, SwLengths lengths);
