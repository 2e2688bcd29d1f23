/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/checks.h"
#include "support.h"
#include <math.h>

/* Tiny jobs for the checks. Each has a profile "p" (pitch 600, mouth 500, crown 400, depth 250, topping 75, no tendons, no
 * plates) and a bay "B" of 6.0 × 4.8 m over the origin with voids along x, unless the text brings its own. Void 1 lies at
 * y 50 to 550 at the soffit and 100 to 500 at the crown, its closures at x 150 and 5850; rib 2 at y 550 to 650. */

typedef struct
{
  const char *name;
  const char *rule, *variant; /* variant NULL: no such snag */
  SwSeverity severity;
  guint n;                    /* how many */
  double missing;             /* of the first; NaN: not looked at */
  const char *records;        /* members of the job's object, quotes written as ' */
} TinyCase;

#define TINY_NONE(name, rule, records) { name, rule, NULL, SW_SEVERITY_NOTE, 0, NAN, records }
#define TINY_STOP(name, rule, variant, missing, records) { name, rule, variant, SW_SEVERITY_STOP, 1, missing, records }
#define TINY_FIX(name, rule, variant, missing, records) { name, rule, variant, SW_SEVERITY_FIX, 1, missing, records }
#define TINY_NOTE(name, rule, variant, missing, records) { name, rule, variant, SW_SEVERITY_NOTE, 1, missing, records }

/* The example job. */
SwJob *tiny_example (void);
SwJob *tiny_job (const char *records);
/* South African rules. */
SwSpace *tiny_space (SwJob *job);
/* `only`: one rule, or NULL. */
SwSnags *tiny_check (const char *records, const char *only);
/* Registers a test for each case below `path`; the cases have to stay. */
void tiny_add_cases (const char *path, const TinyCase *cases, gsize n);
#define TINY_ADD(path, cases) tiny_add_cases (path, cases, G_N_ELEMENTS (cases))
