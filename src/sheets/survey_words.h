/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"
#include "space/survey.h"

/* Words for what is measured, for sheets, plan and window. Texts are the caller's. */

/* "side 1, 1 to 2", "diagonal 1 to 3", "rib 4, low edge at the start", "P2", "void 3, plate 2". */
char *sw_survey_slot_name (const SwSurveySlot *slot);
/* The same of a key alone. */
char *sw_survey_key_name (const SwJob *job, const SwMeasureKey *key);
/* "+12", "-3", "+0", as the job shows lengths. */
char *sw_survey_shift_text (const SwJob *job, double by);
/* How the measures of a room close, and how far its outline is from them; what is still to be measured when nothing tells. */
char *sw_survey_closure_text (const SwJob *job, const SwRoom *room, const SwRules *rules);
/* The fitted distance of a slot; NULL when it was not measured. Borrowed. */
const SwSurveyDistance *sw_survey_distance_of (const SwSurveyRoom *survey, const SwSurveySlot *slot);
