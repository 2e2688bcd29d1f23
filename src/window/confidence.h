/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* "published", "common practice", "derived", "from memory", in the user's language. Static. */
const char *sw_confidence_label (SwConfidence confidence);
