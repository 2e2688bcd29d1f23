/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/space.h"

/* A snag is one thing that is not right: which rule, where, how much is missing. It holds numbers and ids; words are made
 * of it by snag_text.h. */

typedef enum
{
  SW_SEVERITY_STOP, /* cannot be built so, or must not go on without the engineer */
  SW_SEVERITY_FIX,  /* has to be changed before the ceiling closes */
  SW_SEVERITY_NOTE, /* to be known */
  SW_N_SEVERITIES
} SwSeverity;

typedef enum
{
  SW_TRADE_ELECTRICIAN,
  SW_TRADE_PLUMBER,
  SW_TRADE_CEILING,
  SW_TRADE_ARCHITECT,
  SW_TRADE_ENGINEER,
  SW_N_TRADES
} SwTrade;

#define SW_SNAG_PARAMS_MAX 4

/* A number that only this rule's message needs. */
typedef struct
{
  const char *name; /* static: "{name}" in the message */
  double value;
  SwUnit unit;
} SwSnagParam;

typedef struct
{
  const char *rule;    /* static: "rib-clearance" */
  const char *variant; /* static: which of the rule's messages, "hit" */
  guint order;         /* of the rule in the table of checks */
  SwSeverity severity;
  SwTrade trade;
  SwId subject;        /* the record whose own check found it; 0: a pair of bodies */
  SwId owners[2];      /* whose snag it is, and the other record; 0 for none */
  SwBodyKind kinds[2]; /* of the bodies that meet; SW_N_BODIES for none */
  int parts[2];        /* leg of a run; rib, void or plate of a bay (index); −1 for none */
  SwPoint3 place;
  SwBox3 box;          /* of all that belongs to it */
  SwAddress address;
  SwId room;           /* 0 outside all */
  double missing_mm;   /* NaN when it is not a length */
  double needed, found; /* NaN for none */
  SwUnit unit;         /* of both */
  SwRuleValue value;   /* the number behind it, or what the check rests on; rule_id NULL when the rule set has neither */
  SwPoint3 direction;  /* unit: way out of the first; zero when there is none */
  double distance;     /* along it, mm */
  SwSnagParam params[SW_SNAG_PARAMS_MAX];
  guint n_params;
  char *detail;        /* text that comes from below (a fault's message); NULL for none */
} SwSnag;

/* The snags of one job at one time: immutable, counted by reference, holding the space that they were found in. */
typedef struct _SwSnags SwSnags;

SwSnags *sw_snags_ref (SwSnags *snags);
void sw_snags_unref (SwSnags *snags);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSnags, sw_snags_unref)

SwSpace *sw_snags_space (const SwSnags *snags);
/* Sorted by severity, rule, place, then owners and parts: a total order. */
guint sw_snags_n (const SwSnags *snags);
const SwSnag *sw_snags_get (const SwSnags *snags, guint i);
guint sw_snags_count (const SwSnags *snags, SwSeverity severity);
/* Whether a record is one of its owners. */
gboolean sw_snag_concerns (const SwSnag *snag, SwId owner);
/* The same for the same snag in a later job, so that a selection can be kept. Free with g_free. */
char *sw_snag_key (const SwSnag *snag);
/* Index of the snag with this key, or of the one most like it (same rule and owners); −1 for none. */
int sw_snags_find (const SwSnags *snags, const char *key);

/* "stop", "fix", "note"; "electrician" …: for files. Static. */
const char *sw_severity_word (SwSeverity severity);
const char *sw_trade_word (SwTrade trade);
