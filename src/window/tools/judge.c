/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A draft's bodies are made as the job's are, and asked for what is nearer than it may be: concrete and steel may be touched
 * but not cut, services keep the clearance that either wants. What the draft holds on to (the box that it ends at, the run
 * that a fitting sits on) and what the draft replaces do not count. The worst of each pair is kept. Cost: a neighbour
 * search a body. Rules that need more than geometry (falls, reach, releases to come) are left to the checks. */
#include "window/tools/judge.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "job/records.h"

#define BIT(kind) (1u << (kind))
#define DECK_KINDS (BIT (SW_BODY_RIB) | BIT (SW_BODY_CROWN) | BIT (SW_BODY_CLOSURE) | BIT (SW_BODY_SOLID) | BIT (SW_BODY_PLATE) \
                    | BIT (SW_BODY_BEAM) | BIT (SW_BODY_COLUMN) | BIT (SW_BODY_MEMBER))
#define SERVICE_KINDS (BIT (SW_BODY_TUBE) | BIT (SW_BODY_SOCKET) | BIT (SW_BODY_FITTING) | BIT (SW_BODY_LIGHT) | BIT (SW_BODY_DRIVER) \
                       | BIT (SW_BODY_HEAT))

static const char *const labels[SW_N_BODIES] = {
  [SW_BODY_RIB] = N_("rib"),          [SW_BODY_CROWN] = N_("crown"),     [SW_BODY_CLOSURE] = N_("closure"),
  [SW_BODY_SOLID] = N_("solid zone"), [SW_BODY_PLATE] = N_("plate"),     [SW_BODY_BEAM] = N_("beam"),
  [SW_BODY_COLUMN] = N_("column"),    [SW_BODY_MEMBER] = N_("batten"),   [SW_BODY_BOARD] = N_("board"),
  [SW_BODY_WALL] = N_("wall"),        [SW_BODY_TUBE] = N_("run"),        [SW_BODY_SOCKET] = N_("socket"),
  [SW_BODY_FITTING] = N_("fitting"),  [SW_BODY_LIGHT] = N_("downlight"), [SW_BODY_HEAT] = N_("downlight's heat"),
  [SW_BODY_DRIVER] = N_("driver"),
};

const char *
sw_judge_kind_label (int kind)
{
  return kind >= 0 && kind < SW_N_BODIES ? labels[kind] : "";
}

typedef struct
{
  const SwPicture *picture;
  const GPtrArray *drafts;
  const SwRecord *draft;
  const SwBody *body;
  GArray *shortfalls;
} Judge;

static gboolean
is_draft (const GPtrArray *drafts, SwId id)
{
  for (guint i = 0; i < drafts->len; i++)
    if (((const SwRecord *) drafts->pdata[i])->id == id)
      return TRUE;
  return FALSE;
}

typedef struct { SwId wanted; gboolean found; } RefSearch;

static void
find_ref (const SwField *field, SwId *ref, gpointer data)
{
  RefSearch *search = data;
  if (*ref == search->wanted)
    search->found = TRUE;
}

/* One refers to the other, or a run begins where another has a vertex (a branch). */
static gboolean
holds_on (const SwPicture *picture, const SwRecord *draft, SwId other_id)
{
  const SwRecord *other = sw_job_get (sw_picture_job (picture), other_id);
  RefSearch search = { other_id, FALSE };
  sw_record_each_ref ((SwRecord *) draft, find_ref, &search);
  if (other == NULL || search.found)
    return search.found;
  search.wanted = draft->id;
  sw_record_each_ref ((SwRecord *) other, find_ref, &search);
  if (search.found || sw_record_table (draft) != SW_TABLE_RUN || sw_record_table (other) != SW_TABLE_RUN)
    return search.found;
  const SwRun *a = (const SwRun *) draft, *b = (const SwRun *) other;
  const SwPoint ends[2] = { SW_LIST_AT (a->vertices, SwVertex, 0).at, SW_LIST_AT (a->vertices, SwVertex, a->vertices.n - 1).at };
  for (guint i = 0; i < b->vertices.n; i++)
    for (int e = 0; e < 2; e++)
      if (sw_point_distance (SW_LIST_AT (b->vertices, SwVertex, i).at, ends[e]) < 1)
        return TRUE;
  return FALSE;
}

/* A plate that the engineer released may be passed. */
static gboolean
is_passable (const Judge *judge, const SwBody *other)
{
  if (other->kind != SW_BODY_PLATE)
    return FALSE;
  const SwDeckBay *bay = other->bay < sw_deck_n_bays (judge->picture->deck) ? sw_deck_bay (judge->picture->deck, other->bay) : NULL;
  if (bay == NULL || other->part < 0 || other->part >= (int) bay->plates->len)
    return FALSE;
  const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, other->part);
  return plate->released || plate->out;
}

static void
keep_worst (GArray *shortfalls, const SwShortfall *found)
{
  for (guint i = 0; i < shortfalls->len; i++)
    {
      SwShortfall *known = &g_array_index (shortfalls, SwShortfall, i);
      if (known->draft == found->draft && known->with == found->with && known->kind == found->kind)
        {
          if (found->missing > known->missing)
            *known = *found;
          return;
        }
    }
  g_array_append_val (shortfalls, *found);
}

static gboolean
judge_pair (const SwBody *other, gpointer data)
{
  Judge *judge = data;
  gboolean service = (BIT (other->kind) & SERVICE_KINDS) != 0;
  if (service && (is_draft (judge->drafts, other->owner) || holds_on (judge->picture, judge->draft, other->owner)))
    return TRUE;
  if (is_passable (judge, other))
    return TRUE;
  SwClearance clearance;
  double needed = service ? MAX (judge->body->margin, other->margin) : 0;
  double missing = needed - sw_solid_clearance (&judge->body->solid, &other->solid, &clearance);
  if (missing > SW_TOUCH_MM)
    {
      SwShortfall found = { { clearance.on_first.x, clearance.on_first.y }, missing, judge->draft->id, other->owner, (int) other->kind };
      keep_worst (judge->shortfalls, &found);
    }
  return TRUE;
}

static int
compare_shortfalls (gconstpointer a, gconstpointer b)
{
  const SwShortfall *x = a, *y = b;
  if (x->missing != y->missing)
    return x->missing > y->missing ? -1 : 1;
  if (x->draft != y->draft)
    return x->draft < y->draft ? -1 : 1;
  if (x->with != y->with)
    return x->with < y->with ? -1 : 1;
  return (x->kind > y->kind) - (x->kind < y->kind);
}

void
sw_judge_drafts (const SwPicture *picture, const GPtrArray *drafts, GArray *shortfalls)
{
  g_autoptr (GArray) bodies = g_array_new (FALSE, FALSE, sizeof (SwBody));
  if (picture->space == NULL)
    return;
  for (guint i = 0; i < drafts->len; i++)
    {
      Judge judge = { picture, drafts, drafts->pdata[i], NULL, shortfalls };
      g_array_set_size (bodies, 0);
      if (!sw_space_bodies_for (picture->space, judge.draft, bodies, NULL))
        continue;
      for (guint b = 0; b < bodies->len; b++)
        {
          judge.body = &g_array_index (bodies, SwBody, b);
          guint32 kinds = judge.body->kind == SW_BODY_HEAT ? SERVICE_KINDS : DECK_KINDS | SERVICE_KINDS; /* concrete may be warm */
          if ((BIT (judge.body->kind) & SERVICE_KINDS) != 0)
            sw_space_query (picture->space, sw_box3_grow (judge.body->box, judge.body->margin), kinds, judge_pair, &judge);
        }
    }
  g_array_sort (shortfalls, compare_shortfalls);
}
