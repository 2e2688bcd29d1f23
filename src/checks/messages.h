/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What a rule says of a snag, and what to do about it: English, to be translated. Words in braces stand for numbers and
 * things: {first} {second} {needed} {found} {depth} {missing} {move} {detail} and the snag's own parameters. Inside the layer. */
typedef struct
{
  const char *rule, *variant;
  const char *what;
  const char *todo; /* "" when there is nothing to do */
} SwSnagMessage;

extern const SwSnagMessage sw_snag_messages[];
extern const unsigned sw_snag_n_messages;

/* NULL where there is none. */
const SwSnagMessage *sw_snag_message (const char *rule, const char *variant);
