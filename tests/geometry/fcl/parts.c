/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bodies that jobs are really made of, beside the independent collision library: tubes with their bends, sockets larger than the
 * pipe, tees, boxes and hangers, lights and their heat, against each other and against ribs, crowns, closures, plates, beams,
 * columns, walls, battens and boards: of the example and of jobs in which everything was moved about, half of it along or across
 * by whole steps of the grid, so that much touches or lies on one line. Bends are also held against the true arc, laid out
 * in capsules of a quarter degree: all of it is in ours, and ours stands out by 0.1 mm at most. */
#include "base/random.h"
#include "base/tolerance.h"
#include "bridge.h"
#include "job/edit.h"
#include "space/space.h"
#include "store/text_form.h"
#include "support.h"
#include <math.h>

#define MARGIN_MM 0.1
#define NEAR_MM   60.0
#define PAIRS     200000
#define BENDS     600
#define STEP_DEG  0.25

typedef struct
{
  guint judged, clashes, missed, false_ones, by_kind[SW_N_BODIES], overlooked;
} Score;

/* FALSE for what the library has no shape for: rounded corners, and what is flat. */
static gboolean
bridge_shape (const SwSolid *solid, BridgeShape *out)
{
  SwPoint3 far = sw_point3_add (solid->origin, solid->along);
  *out = (BridgeShape){ BRIDGE_CONVEX, .radius = solid->kind == SW_SOLID_CYLINDER ? solid->disc : solid->radius };
  if (solid->kind != SW_SOLID_PRISM)
    {
      out->kind = solid->kind == SW_SOLID_TUBE ? BRIDGE_CAPSULE : BRIDGE_CYLINDER;
      memcpy (out->from, &solid->origin, sizeof out->from);
      memcpy (out->to, &far, sizeof out->to);
      return solid->kind == SW_SOLID_TUBE || (solid->radius == 0 && sw_point3_length (solid->along) > 1);
    }
  out->n = (int) solid->n;
  for (guint i = 0; i < solid->n; i++)
    {
      SwPoint3 at = sw_point3_add (sw_point3_scale (solid->u, solid->section[i].x), sw_point3_scale (solid->v, solid->section[i].y));
      SwPoint3 ends[2] = { sw_point3_add (solid->origin, at), sw_point3_add (far, at) };
      memcpy (out->points[2 * i], &ends[0], sizeof out->points[0]);
      memcpy (out->points[2 * i + 1], &ends[1], sizeof out->points[0]);
    }
  return solid->radius == 0 && sw_point3_length (solid->along) > 0;
}

static SwSolid
ball (SwPoint3 at)
{
  return sw_solid_tube (at, at, 0);
}

/* A place that lies in both, by distances of a single point to each. */
static gboolean
share_a_place (const SwSolid *a, const SwSolid *b)
{
  SwClearance clearance;
  sw_solid_clearance (a, b, &clearance);
  SwSolid middle = ball (sw_point3_lerp (clearance.on_first, clearance.on_second, 0.5));
  return sw_solid_clearance (&middle, a, NULL) < 0 && sw_solid_clearance (&middle, b, NULL) < 0;
}

static void
judge (const SwBody *a, const SwBody *b, Score *score)
{
  BridgeShape p, q;
  if (!bridge_shape (&a->solid, &p) || !bridge_shape (&b->solid, &q))
    return;
  double mm = sw_solid_clearance (&a->solid, &b->solid, NULL);
  gboolean collide = bridge_collide (&p, &q);
  score->judged++;
  score->clashes += collide;
  score->by_kind[a->kind]++;
  score->by_kind[b->kind]++;
  gboolean missed = collide && mm > MARGIN_MM, false_one = !collide && mm < -MARGIN_MM;
  if (false_one && share_a_place (&a->solid, &b->solid))
    score->overlooked++;
  else if (missed || false_one)
    g_test_message ("kinds %d and %d: ours %.6f, the library %d", a->kind, b->kind, mm, collide);
  score->missed += missed;
  score->false_ones += false_one && !share_a_place (&a->solid, &b->solid);
}

/* What stays where it is meets the same in every job. */
static gboolean
is_fixed (const SwBody *body)
{
  return body->kind < SW_BODY_TUBE;
}

typedef struct
{
  const SwBody *body;
  Score *score;
} Asking;

static gboolean
take_near (const SwBody *other, gpointer data)
{
  Asking *asking = data;
  if (other > asking->body && other->record != asking->body->record && !(is_fixed (other) && is_fixed (asking->body)))
    judge (asking->body, other, asking->score);
  return asking->score->judged < PAIRS;
}

static SwSpace *
space_of (SwJob *job)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_assert_no_error (error);
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  SwSpace *space = sw_space_new (deck, rules, &error);
  g_assert_no_error (error);
  return space;
}

static void
judge_job (SwJob *job, Score *score)
{
  g_autoptr (SwSpace) space = space_of (job);
  for (guint i = 0; i < sw_space_n_bodies (space) && score->judged < PAIRS; i++)
    {
      Asking asking = { sw_space_body (space, i), score };
      sw_space_query (space, sw_box3_grow (asking.body->box, NEAR_MM), ~0u, take_near, &asking);
    }
}

/* A hanger on every run, where the example has too few. */
static void
add_hangers (SwEdit *edit, SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwVertex *from = &SW_LIST_AT (((const SwRun *) record)->vertices, SwVertex, 0), *to = from + 1;
      SwFitting *hanger = (SwFitting *) sw_edit_create (edit, job, SW_TABLE_FITTING);
      hanger->kind = SW_FITTING_HANGER;
      hanger->at = sw_point_lerp (from->at, to->at, 0.5);
      hanger->z = from->z;
      sw_edit_put (edit, job, &hanger->record, NULL);
    }
}

/* Battens across a room and boards of one sheet each below them. */
static void
add_ceiling (SwEdit *edit, SwJob *job, const SwRecord *room)
{
  SwLayout *layout = (SwLayout *) sw_edit_create (edit, job, SW_TABLE_LAYOUT);
  SwBox box = sw_record_box (room);
  guint n = 0;
  layout->room = room->id;
  for (double x = box.low.x + 200; x < box.high.x; x += 400, n++)
    {
      SwMember *member = sw_list_insert (&layout->members, &sw_struct_member, layout->members.n);
      *member = (SwMember){ { x, box.low.y }, { x, box.high.y }, 38, 38, 0, SW_MEMBER_BATTEN };
      SwPoint corners[4] = { { x, box.low.y }, { x + 400, box.low.y }, { x + 400, box.high.y }, { x, box.high.y } };
      for (int k = 0; k < 4; k++)
        *(SwCorner *) sw_list_insert (&layout->corners, &sw_struct_corner, layout->corners.n) = (SwCorner){ (int) n, corners[k] };
    }
  GError *error = NULL;
  sw_edit_put (edit, job, &layout->record, &error);
  g_assert_no_error (error);
}

static SwJob *
moved_about (SwJob *job, SwRandom *random)
{
  static const SwTable tables[] = { SW_TABLE_RUN, SW_TABLE_LIGHT, SW_TABLE_FITTING };
  GError *error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("Move");
  const SwRecord *record;
  for (gsize t = 0; t < G_N_ELEMENTS (tables); t++)
    for (SwJobIter i = sw_job_iter (job, tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
      {
        SwRecord *moved = sw_record_copy (record);
        gboolean steps = sw_random_int (random, 0, 1);
        double by = steps ? 25.0 * sw_random_int (random, -20, 20) : sw_random_double (random, -900, 900);
        sw_record_move (moved, sw_random_int (random, 0, 1) ? (SwPoint){ by, 0 } : (SwPoint){ 0, by });
        sw_edit_put (edit, job, moved, NULL);
      }
  SwJob *later = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  return later;
}

static SwJob *
example_with_hangers (void)
{
  GError *error = NULL;
  g_autofree char *path = sw_test_source_path ("examples/community-hall.json");
  g_autoptr (SwJob) job = sw_text_form_load (path, &error);
  g_assert_no_error (error);
  g_autoptr (SwEdit) edit = sw_edit_new ("Hang");
  add_hangers (edit, job);
  for (guint i = 0; i < sw_job_count (job, SW_TABLE_ROOM); i++)
    add_ceiling (edit, job, sw_job_nth (job, SW_TABLE_ROOM, i));
  SwJob *hung = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  return hung;
}

static void
test_parts (void)
{
  static const SwBodyKind wanted[] = { SW_BODY_RIB,  SW_BODY_CROWN,  SW_BODY_CLOSURE, SW_BODY_PLATE, SW_BODY_BEAM,  SW_BODY_WALL, SW_BODY_MEMBER,
                                       SW_BODY_BOARD, SW_BODY_TUBE, SW_BODY_SOCKET, SW_BODY_FITTING, SW_BODY_LIGHT, SW_BODY_HEAT };
  SwRandom random = { 5 };
  Score score = { 0 };
  g_autoptr (SwJob) example = example_with_hangers ();
  judge_job (example, &score);
  while (score.judged < PAIRS)
    {
      g_autoptr (SwJob) moved = moved_about (example, &random);
      judge_job (moved, &score);
    }
  g_test_message ("%u pairs, %u clash; missed %u, false %u; overlooked by the library %u", score.judged, score.clashes, score.missed, score.false_ones, score.overlooked);
  g_assert_cmpuint (score.missed, ==, 0);
  g_assert_cmpuint (score.false_ones, ==, 0);
  g_assert_cmpuint (score.overlooked, <, score.judged / 5000);
  g_assert_cmpuint (score.clashes, >, score.judged / 20);
  for (gsize i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      g_test_message ("kind %u: %u", wanted[i], score.by_kind[wanted[i]]);
      g_assert_cmpuint (score.by_kind[wanted[i]], >, 50);
    }
}

/* ---- bends */

static SwPoint3
random_place (SwRandom *random, double reach)
{
  SwPoint3 p;
  p.x = sw_random_double (random, -reach, reach);
  p.y = sw_random_double (random, -reach, reach);
  p.z = sw_random_double (random, -reach, reach);
  return p;
}

static gboolean
random_bend (SwRandom *random, SwArc *arc, double *tube)
{
  SwPoint3 a = random_place (random, 600), corner = { 0, 0, 0 }, b = random_place (random, 600);
  *tube = sw_random_double (random, 8, 80);
  return sw_arc_in_corner (a, corner, b, sw_random_double (random, 1, 5) * *tube, arc);
}

static SwSolid
random_other (SwRandom *random)
{
  SwPoint3 at = random_place (random, 350), along = random_place (random, 300);
  switch (sw_random_int (random, 0, 2))
    {
    case 0:
      return sw_solid_tube (at, sw_point3_add (at, along), sw_random_double (random, 5, 60));
    case 1:
      return sw_solid_cylinder (at, (SwPoint3){ at.x, at.y, at.z + sw_random_double (random, 20, 200) }, sw_random_double (random, 20, 90));
    default:
      return sw_solid_box (at, (SwPoint3){ along.x, along.y, 0 }, (SwPoint3){ -along.y / 9, along.x / 9, 0 }, (SwPoint3){ 0, 0, 60 });
    }
}

static double
least_of (const GArray *tubes, const SwSolid *other)
{
  double least = INFINITY;
  for (guint i = 0; i < tubes->len; i++)
    least = fmin (least, sw_solid_clearance (&g_array_index (tubes, SwSolid, i), other, NULL));
  return least;
}

/* Does the true arc, in capsules of a quarter degree on it, hit the other body? */
static gboolean
arc_collides (const SwArc *arc, double tube, const SwSolid *other)
{
  BridgeShape q;
  guint steps = (guint) ceil (fabs (arc->angle) * 180 / G_PI / STEP_DEG);
  if (!bridge_shape (other, &q))
    return FALSE;
  for (guint i = 0; i < steps; i++)
    {
      SwSolid piece = sw_solid_tube (sw_arc_point (arc, arc->angle * i / steps), sw_arc_point (arc, arc->angle * (i + 1) / steps), tube);
      BridgeShape p;
      if (bridge_shape (&piece, &p) && bridge_collide (&p, &q))
        return TRUE;
    }
  return FALSE;
}

/* Every second one is moved until it all but touches: 0.3 mm either way. */
static void
test_bends (void)
{
  SwRandom random = { 11 };
  guint judged = 0, clashes = 0, missed = 0, false_ones = 0;
  g_autoptr (GArray) tubes = g_array_new (FALSE, FALSE, sizeof (SwSolid));
  while (judged < BENDS)
    {
      SwArc arc;
      double tube;
      SwSolid other = random_other (&random);
      if (!random_bend (&random, &arc, &tube))
        continue;
      g_array_set_size (tubes, 0);
      sw_arc_tubes (&arc, tube, tubes);
      double mm = least_of (tubes, &other);
      if (judged % 2 == 0)
        {
          for (guint i = 0; i < tubes->len; i++)
            {
              SwClearance clearance;
              if (sw_solid_clearance (&g_array_index (tubes, SwSolid, i), &other, &clearance) != mm)
                continue;
              other = sw_solid_moved (&other, sw_point3_scale (clearance.away, mm - sw_random_double (&random, -0.3, 0.3)));
              break;
            }
          mm = least_of (tubes, &other);
        }
      gboolean collide = arc_collides (&arc, tube, &other);
      judged++;
      clashes += collide;
      missed += collide && mm > 0.01;             /* the tubes hold all of the arc */
      false_ones += !collide && mm < -MARGIN_MM - 0.01; /* and stand out by a tenth at most */
    }
  g_test_message ("%u bends, %u clash; missed %u, false %u", judged, clashes, missed, false_ones);
  g_assert_cmpuint (missed, ==, 0);
  g_assert_cmpuint (false_ones, ==, 0);
  g_assert_cmpuint (clashes, >, judged / 10);
  g_assert_cmpuint (clashes, <, judged * 9 / 10);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/fcl/parts", test_parts);
  g_test_add_func ("/geometry/fcl/bends", test_bends);
  return g_test_run ();
}
