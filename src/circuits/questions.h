/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/question.h"

/* The electrician's calculations, each to be asked by itself: conduits and what is drawn into them, and circuits. */
extern const SwQuestion sw_circuits_questions[], sw_circuits_circuit_questions[];
extern const guint sw_circuits_n_questions, sw_circuits_n_circuit_questions;
extern const SwQuestion sw_circuits_turn_questions[];
extern const guint sw_circuits_n_turn_questions;
