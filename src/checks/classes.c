/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/classes.h"
#include <math.h>
#include <string.h>

#define CLASSES_MOST 255
#define SLOTS        1024 /* a power of two, some times CLASSES_MOST */

typedef struct
{
  SwBodyKind kind;
  int what[4];
  double mm[2];
  const char *text;
} Key;

typedef struct
{
  const SwCheckRun *run;
  SwCheckClasses *classes;
  Key keys[CLASSES_MOST];
  guint8 slots[SLOTS]; /* class, 0: free */
  gboolean overflows;  /* some bodies had to go without a class */
} Maker;

static gboolean
is_measured (const SwCheckRun *run, const SwBody *body)
{
  const SwDeckBay *bay = body->bay < sw_deck_n_bays (run->deck) ? sw_deck_bay (run->deck, body->bay) : NULL;
  const GArray *list = bay == NULL ? NULL : body->kind == SW_BODY_RIB ? bay->ribs : bay->plates;
  if (list == NULL || (guint) body->part >= list->len)
    return FALSE;
  return body->kind == SW_BODY_RIB ? g_array_index (list, SwRib, body->part).measured : g_array_index (list, SwDeckPlate, body->part).measured;
}

static Key
key_of (const SwCheckRun *run, const SwBody *body)
{
  Key key = { .kind = body->kind, .text = "" };
  if (body->kind == SW_BODY_TUBE || body->kind == SW_BODY_SOCKET)
    {
      const SwRun *of = (const SwRun *) body->record;
      const SwCircuit *circuit = of->circuit != 0 && *of->contents != '\0' ? (const SwCircuit *) sw_job_get (run->job, of->circuit) : NULL;
      return (Key){ body->kind, { of->service, of->material, of->stage, circuit != NULL ? circuit->cores : -1 },
                    { of->clearance, of->insulation }, of->contents };
    }
  if (body->kind == SW_BODY_FITTING)
    {
      const SwFitting *fitting = (const SwFitting *) body->record;
      key.what[0] = fitting->kind;
      key.what[1] = fitting->level;
    }
  else if (body->kind == SW_BODY_LIGHT)
    key.mm[0] = ((const SwLight *) body->record)->cut_out - ((const SwLight *) body->record)->body;
  else if (body->kind == SW_BODY_WALL)
    key.what[0] = ((const SwWall *) body->record)->separating;
  else if (body->kind == SW_BODY_RIB || body->kind == SW_BODY_PLATE)
    key.what[0] = is_measured (run, body);
  return key;
}

static gboolean
same_key (const Key *a, const Key *b)
{
  return a->kind == b->kind && memcmp (a->what, b->what, sizeof a->what) == 0 && a->mm[0] == b->mm[0] && a->mm[1] == b->mm[1]
         && (a->text == b->text || strcmp (a->text, b->text) == 0);
}

static guint
hash_key (const Key *key)
{
  guint64 hash = (guint64) key->kind, bits;
  for (gsize i = 0; i < G_N_ELEMENTS (key->what); i++)
    hash = hash * 31 + (guint64) key->what[i];
  for (int i = 0; i < 2; i++)
    {
      memcpy (&bits, &key->mm[i], sizeof bits);
      hash = (hash ^ bits) * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);
    }
  for (const char *c = key->text; *c != '\0'; c++)
    hash = hash * 31 + (guchar) *c;
  return (guint) (hash * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15) >> 32);
}

static guint8
class_of (Maker *maker, const SwBody *body, guint32 number)
{
  Key key = key_of (maker->run, body);
  GArray *reps = maker->classes->reps;
  guint slot = hash_key (&key) % SLOTS;
  for (; maker->slots[slot] != 0; slot = (slot + 1) % SLOTS)
    if (same_key (&maker->keys[maker->slots[slot]], &key))
      return maker->slots[slot];
  if (sw_job_get (maker->run->job, body->record->id) != body->record) /* replaced by an edit: no search finds it */
    return 0;
  if (reps->len == CLASSES_MOST)
    {
      maker->overflows = TRUE;
      return 0;
    }
  maker->keys[reps->len] = key;
  maker->slots[slot] = (guint8) reps->len;
  g_array_append_val (reps, number);
  return maker->slots[slot];
}

/* A record's bodies stand side by side, and most are of one or two kinds. */
static void
sort_bodies (Maker *maker)
{
  guint n = sw_space_n_bodies (maker->run->space);
  const SwRecord *record = NULL;
  guint8 known[SW_N_BODIES] = { 0 };
  maker->classes->of = g_new (guint8, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    {
      const SwBody *body = sw_space_body (maker->run->space, i);
      gboolean by_part = body->kind == SW_BODY_RIB || body->kind == SW_BODY_PLATE;
      if (body->record != record)
        memset (known, 0, sizeof known);
      record = body->record;
      if (known[body->kind] == 0 || by_part)
        known[body->kind] = class_of (maker, body, i);
      maker->classes->of[i] = known[body->kind];
    }
}

static float
not_less (double mm)
{
  float f = (float) mm;
  return (double) f < mm ? nextafterf (f, INFINITY) : f;
}

static void
measure_reaches (Maker *maker, double widest, SwSpaceNeeded needed, gpointer data)
{
  const GArray *reps = maker->classes->reps;
  guint n = reps->len;
  float *reach = maker->classes->reach = g_new (float, (gsize) n * n);
  for (guint a = 0; a < n; a++)
    for (guint b = 0; b <= a; b++)
      {
        double most = maker->overflows ? widest : -1;
        if (a > 0 && b > 0)
          {
            const SwBody *p = sw_space_body (maker->run->space, g_array_index (reps, guint32, a));
            const SwBody *q = sw_space_body (maker->run->space, g_array_index (reps, guint32, b));
            most = fmax (needed (p, q, data), needed (q, p, data));
          }
        reach[a * n + b] = reach[b * n + a] = not_less (most);
      }
}

SwCheckClasses *
sw_check_classes_new (const SwCheckRun *run, double widest, SwSpaceNeeded needed, gpointer data)
{
  SwCheckClasses *classes = g_new0 (SwCheckClasses, 1);
  g_autofree Maker *maker = g_new0 (Maker, 1);
  guint32 none = G_MAXUINT32;
  maker->run = run;
  maker->classes = classes;
  classes->reps = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_array_append_val (classes->reps, none);
  sort_bodies (maker);
  measure_reaches (maker, widest, needed, data);
  return classes;
}

void
sw_check_classes_free (SwCheckClasses *classes)
{
  g_free (classes->of);
  g_array_unref (classes->reps);
  g_free (classes->reach);
  g_free (classes);
}
