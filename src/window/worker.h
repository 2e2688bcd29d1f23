/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"

/* One thread that works pictures out. Asking again cancels what is under way; a result that is older than one handed over is
 * dropped. Each state comes twice: as soon as it can be drawn, and once more with its snags. Drafts come in between. */
typedef struct _SwWorker SwWorker;

/* Called on the main thread with a picture (borrowed) that is newer than the last one. */
typedef void (*SwWorkerDone) (SwPicture *picture, gpointer data);

SwWorker *sw_worker_new (SwWorkerDone done, gpointer data);
/* Returns at once; the thread ends by itself and hands nothing over any more. */
void sw_worker_free (SwWorker *worker);
void sw_worker_ask (SwWorker *worker, SwJob *job, guint64 generation);
/* The snags that these records (referenced) would have in the job asked for last: handed over as a draft picture when that
 * job's own check is through. A draft that is under way is finished before the latest one is begun, so that something comes
 * while the pointer keeps moving; those between are never begun. */
void sw_worker_ask_draft (SwWorker *worker, const GPtrArray *records);
/* No draft is handed over any more; asking for a job does the same. */
void sw_worker_drop_draft (SwWorker *worker);
gboolean sw_worker_is_busy (SwWorker *worker);
