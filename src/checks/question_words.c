/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words that a question offers to choose from, as people read them. The command takes the words themselves. */
#include "checks/questions.h"
#include "base/text.h"
#include <stdlib.h>
#include <string.h>

typedef struct
{
  const char *word, *label;
} Word;

/* By word, as strcmp orders them. */
static const Word words[] = {
  { "1", "1" },
  { "3", "3" },
  { "above-board", N_ ("flat cable above the boards") },
  { "above-board-thick", N_ ("flat cable above the boards, under thick insulation") },
  { "across", N_ ("across the voids") },
  { "along", N_ ("along the void") },
  { "anchor", N_ ("anchor") },
  { "armoured", N_ ("armoured") },
  { "basin-32", N_ ("basin, 32 mm") },
  { "bath-40", N_ ("bath, 40 mm") },
  { "bath-50", N_ ("bath, 50 mm") },
  { "boards", N_ ("boards with covered joints") },
  { "c16", N_ ("C16") },
  { "c24", N_ ("C24") },
  { "cable", N_ ("cables") },
  { "cast-iron", N_ ("cast iron") },
  { "category-5e-screened", N_ ("category 5e, screened") },
  { "category-5e-unscreened", N_ ("category 5e, unscreened") },
  { "category-6-screened", N_ ("category 6, screened") },
  { "category-6-unscreened", N_ ("category 6, unscreened") },
  { "category-7-screened", N_ ("category 7, screened") },
  { "clipped", N_ ("flat cable clipped") },
  { "colebrook", N_ ("Colebrook-White") },
  { "concrete", N_ ("concrete") },
  { "conduit", N_ ("singles in conduit") },
  { "conduit-pliable", N_ ("pliable conduit") },
  { "conduit-pvc", N_ ("PVC conduit") },
  { "conduit-steel", N_ ("steel conduit") },
  { "congested", N_ ("congested") },
  { "copper", N_ ("copper") },
  { "cpvc", N_ ("CPVC") },
  { "darcy", N_ ("Darcy-Weisbach") },
  { "data-fixed", N_ ("data cable that lies") },
  { "data-pulling", N_ ("data cable being pulled in") },
  { "dead-leg", N_ ("dead leg to one outlet") },
  { "diameter", N_ ("diameters") },
  { "dwellings-newer", N_ ("dwellings, newer curve") },
  { "dwellings-older", N_ ("dwellings, older curve") },
  { "eighth", N_ ("an eighth") },
  { "fibre-cement", N_ ("fibre-cement") },
  { "flat", N_ ("flat twin and earth, mm²") },
  { "frequent", N_ ("frequent") },
  { "ground", N_ ("in the ground") },
  { "gypsum", N_ ("gypsum") },
  { "half", N_ ("a half") },
  { "hazen", N_ ("Hazen-Williams") },
  { "inside", N_ ("inside the building") },
  { "insulated-wall", N_ ("flat cable in an insulated wall") },
  { "intermittent", N_ ("intermittent") },
  { "level", N_ ("level") },
  { "lighting", N_ ("lighting") },
  { "manning", N_ ("Manning") },
  { "multilayer", N_ ("multilayer") },
  { "nail", N_ ("smooth nail") },
  { "no", N_ ("no") },
  { "none", N_ ("nothing") },
  { "nothing", N_ ("nothing") },
  { "open", N_ ("open tray") },
  { "pe-x", N_ ("PE-X") },
  { "perforated", N_ ("perforated tray") },
  { "pipe", N_ ("the pipe") },
  { "polypropylene", N_ ("polypropylene") },
  { "power", N_ ("power") },
  { "pvc", N_ ("PVC") },
  { "quarter", N_ ("a quarter") },
  { "room", N_ ("room below") },
  { "rule", N_ ("as the rule set says") },
  { "s10", N_ ("S10") },
  { "s5", N_ ("S5") },
  { "s7", N_ ("S7") },
  { "screw", N_ ("screw") },
  { "shower-40", N_ ("shower, 40 mm") },
  { "shower-50", N_ ("shower, 50 mm") },
  { "sixteenth", N_ ("a sixteenth") },
  { "skimmed", N_ ("skimmed") },
  { "socket", N_ ("the socket") },
  { "solid", N_ ("solid") },
  { "special", N_ ("special") },
  { "square", N_ ("square") },
  { "steel", N_ ("steel") },
  { "stranded", N_ ("stranded") },
  { "swept", N_ ("swept") },
  { "tanks", N_ ("flushing tanks") },
  { "thermosetting", N_ ("thermosetting") },
  { "unknown", N_ ("unknown") },
  { "upright", N_ ("upright") },
  { "upvc", N_ ("UPVC") },
  { "valves", N_ ("flushing valves") },
  { "void", N_ ("void") },
  { "waste", N_ ("waste pipe") },
  { "water", N_ ("water") },
  { "wc", N_ ("the bend under a WC") },
  { "wc-100", N_ ("WC, 100 mm") },
  { "wc-group-100", N_ ("WC and its group, 100 mm") },
  { "yes", N_ ("yes") },
};

static int
compare (const void *word, const void *row)
{
  return strcmp (word, ((const Word *) row)->word);
}

const char *
sw_question_word (const char *word)
{
  const Word *found = bsearch (word, words, G_N_ELEMENTS (words), sizeof words[0], compare);
  return found != NULL ? found->label : NULL;
}
