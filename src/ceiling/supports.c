/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/lay.h"
#include "base/number.h"
#include "base/error.h"
#include "ceiling/cancel.h"
#include "base/tolerance.h"
#include <string.h>

/* Where members are held and what that means for them. A member is fixed wherever it crosses a rib, in the rib's middle or
 * as near to it as its own end and the fixing's distance from the rib's edge allow; battens under primaries rest where they
 * cross them; an end that butts against a ledger, trimmer or wall batten rests there. Spans lie between neighbours.
 * Members times ribs of the bays that their room meets. */

typedef struct
{
  double edge;    /* least distance of a fixing from the rib's edge */
  double mass;    /* kg/m² that hangs from the battens */
  double design, push;
  double packer_limit, hanger_limit;
  double divisor, strength;
  const char *strength_rule;
  SwBattenSection batten, primary;
} SupportRules;

/* ---- ribs ---- */

static gboolean
in_bay (const SwLay *lay, const SwDeckBay *bay, SwPoint p)
{
  const SwList *outline = &bay->bay->outline;
  if (!sw_outline_holds (outline->items, outline->n, p))
    return FALSE;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (lay->ceiling->deck), SW_TABLE_OPENING);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwOpening *opening = (const SwOpening *) record;
      if (sw_outline_holds (opening->outline.items, opening->outline.n, p))
        return FALSE;
    }
  return TRUE;
}

/* From and to of the member that lie over the rib, less the edge distance; FALSE when it does not reach that. */
static gboolean
reach_over_rib (const SwRib *rib, double edge, SwPoint a, SwPoint b, double *from, double *to)
{
  double middle = (rib->low + rib->high) / 2;
  double low = fmin (rib->low + edge, middle), high = fmax (rib->high - edge, middle);
  double rise = b.y - a.y, length = sw_point_distance (a, b);
  if (fabs (rise) < length * 0.05) /* along the rib, or nearly */
    return FALSE;
  double t0 = (low - a.y) / rise * length, t1 = (high - a.y) / rise * length;
  *from = fmax (fmin (t0, t1), 0);
  *to = fmin (fmax (t0, t1), length);
  return *from <= *to + SW_LAY_SLACK_MM;
}

static void
hold_at (const SwLay *lay, const SwDeckBay *bay, int rib, SwPoint from, SwPoint to, double along, GArray *out)
{
  const SwRib *r = &g_array_index (bay->ribs, SwRib, rib);
  SwPoint at = sw_point_lerp (from, to, along / sw_point_distance (from, to));
  double u = sw_deck_to_bay (bay, at).x;
  if (u < r->u_low - SW_TOUCH_MM || u > r->u_high + SW_TOUCH_MM || !in_bay (lay, bay, at))
    return;
  SwRibHold hold = { along, at, bay, rib };
  g_array_append_val (out, hold);
}

static int
compare_holds (gconstpointer pa, gconstpointer pb)
{
  const SwRibHold *a = pa, *b = pb;
  if (a->along != b->along)
    return a->along < b->along ? -1 : 1;
  return (a->rib > b->rib) - (a->rib < b->rib);
}

static double
edge_distance (const SwRules *rules)
{
  SwRuleValue value;
  return sw_rules_lookup (rules, "deck.edge_distance", "screw-anchor", "edge_mm", &value, NULL) ? value.value : 0;
}

void
sw_lay_holds (const SwLay *lay, SwPoint from, SwPoint to, GArray *out)
{
  double edge = edge_distance (lay->ceiling->rules);
  guint first = out->len;
  SwBox box = sw_box_add (sw_box_add (SW_BOX_EMPTY, from), to);
  for (guint i = 0; i < sw_deck_n_bays (lay->ceiling->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (lay->ceiling->deck, i);
      if (!sw_box_meets (box, sw_record_box (&bay->bay->record)))
        continue;
      SwPoint a = sw_deck_to_bay (bay, from), b = sw_deck_to_bay (bay, to);
      for (guint k = 0; k < bay->ribs->len; k++)
        {
          double low, high;
          if (!reach_over_rib (&g_array_index (bay->ribs, SwRib, k), edge, a, b, &low, &high))
            continue;
          if (high - low > bay->profile->pitch / 2) /* broad concrete: held at both of its faces */
            {
              hold_at (lay, bay, k, from, to, low, out);
              hold_at (lay, bay, k, from, to, high, out);
            }
          else
            hold_at (lay, bay, k, from, to, (low + high) / 2, out);
        }
    }
  if (out->len > first)
    qsort (&g_array_index (out, SwRibHold, first), out->len - first, sizeof (SwRibHold), compare_holds);
}

/* ---- primaries and ends ---- */

static SwQuad
member_quad (const SwMember *member, double longer)
{
  SwPoint along = sw_point_sub (member->to, member->from);
  SwPoint step = sw_point_scale (along, longer / sw_point_length (along));
  return sw_quad_around (sw_point_sub (member->from, step), sw_point_add (member->to, step), member->width + 2 * longer);
}

/* Whether the end at `end` butts against a ledger, trimmer or wall batten. */
static gboolean
is_carried (const SwLay *lay, guint self, SwPoint end)
{
  const double gap = 5;
  const SwMember *member = &g_array_index (lay->ceiling->members, SwCeilingMember, self).member;
  SwPoint along = sw_point_sub (member->to, member->from);
  SwPoint side = sw_point_scale ((SwPoint){ -along.y, along.x }, member->width / 2 / sw_point_length (along));
  const GArray *members = lay->ceiling->members;
  for (guint i = 0; i < members->len; i++)
    {
      const SwCeilingMember *other = &g_array_index (members, SwCeilingMember, i);
      if (i == self || !sw_member_carries (other->member.kind, member->kind) || other->member.top != member->top)
        continue;
      SwPoint with = sw_point_sub (other->member.to, other->member.from);
      gboolean parallel = fabs (sw_point_cross (along, with)) < 1e-3 * sw_point_length (along) * sw_point_length (with);
      if (parallel && other->part != g_array_index (members, SwCeilingMember, self).part)
        continue; /* beyond a movement joint, end to end or side by side */
      SwQuad quad = member_quad (&other->member, gap);
      for (int k = -1; k <= 1; k++) /* any of the end's middle and corners */
        if (sw_outline_holds (quad.corner, 4, sw_point_add (end, sw_point_scale (side, k))))
          return TRUE;
    }
  return FALSE;
}

void
sw_lay_rests (const SwLay *lay, guint part, SwPoint from, SwPoint to, GArray *out)
{
  SwPoint along = sw_point_sub (to, from);
  double length = sw_point_length (along);
  for (guint i = 0; i < lay->ceiling->members->len; i++)
    {
      const SwCeilingMember *other = &g_array_index (lay->ceiling->members, SwCeilingMember, i);
      if (other->member.kind != SW_MEMBER_PRIMARY || other->part != part)
        continue;
      SwPoint b = sw_point_sub (other->member.to, other->member.from), way = sw_point_sub (other->member.from, from);
      double across = sw_point_cross (along, b);
      if (fabs (across) < SW_TOUCH_MM * length)
        continue;
      double t = sw_point_cross (way, b) / across, u = sw_point_cross (way, along) / across;
      double at = t * length;
      if (t >= 0 && t <= 1 && u >= 0 && u <= 1)
        g_array_append_val (out, at);
    }
}

/* ---- one member ---- */

static void
mark (SwLay *lay, SwCeilingMarkKind kind, const SwCeilingMember *member, double value, double limit, const char *rule)
{
  SwPoint at = sw_point_lerp (member->member.from, member->member.to, 0.5);
  SwCeilingMark mark = { kind, lay->ceiling->room->record.id, at, value, limit, rule };
  g_array_append_val (lay->ceiling->marks, mark);
}

/* kg/m² of the battens that hang below primaries. */
static double
battens_below (const SwLay *lay, const SupportRules *rules, const SwCeilingMember *member)
{
  const SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, member->part);
  gboolean carries_them = part->layered && member->member.kind == SW_MEMBER_PRIMARY && part->centres > 0;
  return carries_them ? rules->batten.mass / part->centres * 1e3 : 0;
}

/* Load in N/mm along a member, of what hangs from it and its own weight. Ledgers of primaries are as deep as these. */
static double
load_of (const SwLay *lay, const SupportRules *rules, const SwCeilingMember *member, const SwBattenSection **section)
{
  *section = member->member.depth == lay->ceiling->room->batten_depth ? &rules->batten : &rules->primary;
  return sw_span_load (*section, rules->mass + battens_below (lay, rules, member), member->centres);
}

static void
add_fixing (SwLay *lay, const SupportRules *rules, guint member, const SwRibHold *hold, double carried)
{
  const SwCeilingMember *m = &g_array_index (lay->ceiling->members, SwCeilingMember, member);
  double packer = sw_grid_round (sw_deck_soffit (hold->bay, hold->at) - m->member.top);
  const SwBattenSection *section;
  double load = load_of (lay, rules, m, &section) * carried + rules->push;
  guint count = (guint) fmax (1, ceil (load / rules->design - 1e-6));
  SwCeilingFixing fixing = { { hold->at, fmax (packer, 0), hold->rib }, hold->bay->bay->record.id, member,
                             fmax (rules->design, load / count), count, packer > rules->packer_limit, packer > rules->hanger_limit };
  g_array_append_val (lay->ceiling->fixings, fixing);
  SwCeilingMark heavy = { SW_CEILING_FIXING, lay->ceiling->room->record.id, hold->at, load, rules->design, "brandering.fixing.design_n" };
  if (count > 1)
    g_array_append_val (lay->ceiling->marks, heavy);
  /* A bulkhead hangs: nobody needs to be told. */
  if (!fixing.long_fixing || g_array_index (lay->ceiling->parts, SwCeilingPart, m->part).bulkhead != 0)
    return;
  SwRuleValue limit = sw_rules_value (lay->ceiling->rules, "brandering.setout", fixing.hanger ? "hanger_mm" : "packer_mm");
  SwCeilingMark mark = { fixing.hanger ? SW_CEILING_HANGER : SW_CEILING_LONG_FIXING, lay->ceiling->room->record.id,
                         hold->at, packer, limit.value, limit.rule_id };
  g_array_append_val (lay->ceiling->marks, mark);
}

/* Half the way to each neighbour, all of the way to a free end. */
static double
length_carried (const GArray *supports, guint i, double length, gboolean low_carried, gboolean high_carried)
{
  double at = g_array_index (supports, double, i);
  double before = i > 0 ? (at - g_array_index (supports, double, i - 1)) / 2 : at * (low_carried ? 0.5 : 1);
  double after = i + 1 < supports->len ? (g_array_index (supports, double, i + 1) - at) / 2
                                       : (length - at) * (high_carried ? 0.5 : 1);
  return before + after;
}

/* Greatest span and cantilever between the supports and the ends. */
static void
measure_spans (SwCeilingMember *member, const GArray *supports, double length, gboolean low_carried, gboolean high_carried)
{
  member->n_supports = supports->len + low_carried + high_carried;
  if (supports->len == 0)
    {
      if (low_carried && high_carried)
        member->span = length;
      else
        member->cantilever = length;
      return;
    }
  double first = g_array_index (supports, double, 0);
  double last = length - g_array_index (supports, double, supports->len - 1);
  *(low_carried ? &member->span : &member->cantilever) = first;
  double *end = high_carried ? &member->span : &member->cantilever;
  *end = fmax (*end, last);
  for (guint i = 1; i < supports->len; i++)
    member->span = fmax (member->span, g_array_index (supports, double, i) - g_array_index (supports, double, i - 1));
}

static void
check_member (SwLay *lay, const SupportRules *rules, SwCeilingMember *member)
{
  const SwBattenSection *section;
  double load = load_of (lay, rules, member, &section);
  gboolean known = sw_span_is_known (section);
  member->check = known ? sw_span_check (section, load, member->span) : (SwSpanCheck){ .load = load };
  member->span_limit = known ? sw_span_greatest (section, load, rules->divisor) : INFINITY;
  if (member->published > 0)
    member->span_limit = fmin (member->span_limit, member->published);
  SwCeilingMember copy = *member;
  if (member->n_supports == 0)
    mark (lay, SW_CEILING_UNSUPPORTED, &copy, 0, 1, NULL);
  else if (member->cantilever > lay->cantilever + SW_LAY_SLACK_MM)
    mark (lay, SW_CEILING_CANTILEVER, &copy, member->cantilever, lay->cantilever, "brandering.setout.cantilever_mm");
  if (member->span > member->span_limit + SW_TOUCH_MM)
    mark (lay, SW_CEILING_SPAN, &copy, member->span, member->span_limit,
          member->published == member->span_limit ? member->span_rule : "timber.limits");
  if (!known)
    return;
  double end_stress = sw_span_check_cantilever (section, load, member->cantilever).stress;
  double stress = fmax (member->check.stress, end_stress);
  if (stress > rules->strength)
    mark (lay, SW_CEILING_STRESS, &copy, stress, rules->strength, rules->strength_rule);
}

static void
support_member (SwLay *lay, const SupportRules *rules, guint index)
{
  SwCeilingMember *member = &g_array_index (lay->ceiling->members, SwCeilingMember, index);
  const SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, member->part);
  if (member->on_wall || member->member.kind == SW_MEMBER_NOGGIN)
    return;
  SwPoint from = member->member.from, to = member->member.to;
  g_autoptr (GArray) supports = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) holds = g_array_new (FALSE, FALSE, sizeof (SwRibHold));
  if (part->layered && member->member.kind != SW_MEMBER_PRIMARY)
    sw_lay_rests (lay, member->part, from, to, supports);
  else if (!part->framed)
    sw_lay_holds (lay, from, to, holds);
  for (guint i = 0; i < holds->len; i++)
    g_array_append_val (supports, g_array_index (holds, SwRibHold, i).along);
  g_array_sort (supports, sw_compare_doubles);
  gboolean trimmer = member->member.kind == SW_MEMBER_TRIMMER;
  gboolean low = trimmer || is_carried (lay, index, from), high = trimmer || is_carried (lay, index, to);
  double length = sw_point_distance (from, to);
  for (guint i = 0; i < holds->len; i++)
    add_fixing (lay, rules, index, &g_array_index (holds, SwRibHold, i), length_carried (supports, i, length, low, high));
  measure_spans (member, supports, length, low, high);
  member->first_place = lay->ceiling->places->len;
  member->n_places = supports->len;
  g_array_append_vals (lay->ceiling->places, supports->data, supports->len);
  sw_ceiling_published_span (lay->ceiling->rules, lay->ceiling->room, member->member.width, member->member.depth,
                             &member->published, &member->span_rule);
  check_member (lay, rules, member);
}

/* A profile whose second moment is not known, once: the room's battens first. */
static void
mark_unknown (SwLay *lay, const SupportRules *rules)
{
  gboolean layered = FALSE;
  for (guint i = 0; i < lay->ceiling->parts->len; i++)
    layered = layered || g_array_index (lay->ceiling->parts, SwCeilingPart, i).layered;
  const SwRoom *room = lay->ceiling->room;
  gboolean batten = sw_span_is_known (&rules->batten);
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  SwCeilingMark unknown = { SW_CEILING_UNKNOWN_SECTION, room->record.id, at, batten ? room->primary_depth : room->batten_depth, 0, "steel.furring" };
  if (!batten || (layered && !sw_span_is_known (&rules->primary)))
    g_array_append_val (lay->ceiling->marks, unknown);
}

static double
wool_mass (const SwRules *rules, const SwRoom *room)
{
  SwRuleValue wool;
  gboolean known = room->insulation > 0 && sw_rules_lookup (rules, "material.density", "glass-wool", "density_kg_m3", &wool, NULL);
  return known ? wool.value * room->insulation / 1000 : 0;
}

gboolean
sw_lay_supports (SwLay *lay, GError **error)
{
  const SwRules *r = lay->ceiling->rules;
  const SwRoom *room = lay->ceiling->room;
  SupportRules rules = { .edge = edge_distance (r) };
  SwRuleValue mass;
  const char *row = sw_ceiling_board_row (r, "board.kinds", room, error);
  if (row == NULL || !sw_rules_lookup (r, "board.kinds", row, "mass_kg_m2", &mass, error)
      || !sw_ceiling_strength (r, room, &rules.strength, &rules.strength_rule, error)
      || !sw_ceiling_section (r, sw_deck_job (lay->ceiling->deck), room, room->batten_width, room->batten_depth, &rules.batten, error)
      || !sw_ceiling_section (r, sw_deck_job (lay->ceiling->deck), room, room->batten_width, room->primary_depth, &rules.primary, error))
    return FALSE;
  rules.mass = mass.value + wool_mass (r, room) + sw_rules_value (r, "brandering.fixing", "fittings_kg_m2").value;
  rules.design = sw_rules_value (r, "brandering.fixing", "design_n").value;
  rules.push = sw_rules_value (r, "brandering.fixing", "push_n").value;
  rules.packer_limit = sw_rules_value (r, "brandering.setout", "packer_mm").value;
  rules.hanger_limit = sw_rules_value (r, "brandering.setout", "hanger_mm").value;
  rules.divisor = sw_rules_value (r, "timber.limits", room->joints == SW_BOARD_JOINTS_SKIM ? "plastered_divisor" : "board_divisor").value;
  for (guint i = 0; i < lay->ceiling->members->len; i++)
    {
      if (sw_ceiling_is_cancelled (lay->cancellable, error))
        return FALSE;
      support_member (lay, &rules, i);
    }
  mark_unknown (lay, &rules);
  return TRUE;
}
