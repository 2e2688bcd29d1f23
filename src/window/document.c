/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/document.h"
#include "window/worker.h"
#include "base/error.h"
#include "sheets/words.h"
#include "store/job_file.h"
#include "store/text_form.h"

struct _SwDocument
{
  GObject parent_instance;
  SwJobFile *job_file;
  GFile *file;
  gboolean in_own_folder;
  SwDesk *desk;
  SwBoard *board;
  SwWorker *worker;
  SwPicture *picture;
  SwPicture *draft;      /* with what is dragged or drawn; kept after its edit until that one's own check is there */
  guint draft_serial;    /* of the board's draft that was asked for; 0: none */
  guint draft_over_idle;
  guint64 draft_generation;
  char *fault, *read_only_text;
};

G_DEFINE_FINAL_TYPE (SwDocument, sw_document, G_TYPE_OBJECT)

enum { PROP_TITLE = 1, PROP_SUBTITLE, PROP_FAULT, PROP_READ_ONLY, PROP_READ_ONLY_TEXT, PROP_BUSY, PROP_UNDO_NAME, PROP_REDO_NAME, N_PROPS };
static GParamSpec *props[N_PROPS];
enum { SIGNAL_PICTURE, SIGNAL_CHANGED, SIGNAL_SNAGS, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
notify (SwDocument *document, int prop)
{
  g_object_notify_by_pspec (G_OBJECT (document), props[prop]);
}

static void
take_draft (SwDocument *document, SwPicture *picture)
{
  g_clear_pointer (&document->draft, sw_picture_unref);
  document->draft = picture != NULL ? sw_picture_ref (picture) : NULL;
  g_signal_emit (document, signals[SIGNAL_SNAGS], 0);
}

static void
on_picture (SwPicture *picture, gpointer data)
{
  SwDocument *document = data;
  if (picture->draft)
    {
      take_draft (document, picture);
      return;
    }
  sw_picture_ref (picture);
  g_clear_pointer (&document->picture, sw_picture_unref);
  document->picture = picture;
  sw_board_set_picture (document->board, picture);
  if (picture->checked || picture->space == NULL)
    g_clear_pointer (&document->draft, sw_picture_unref);
  if (picture->fault != NULL) /* without its rules a job has no section and no snags: say why */
    sw_document_set_fault (document, picture->fault->message);
  g_signal_emit (document, signals[SIGNAL_PICTURE], 0);
  g_signal_emit (document, signals[SIGNAL_SNAGS], 0);
  notify (document, PROP_BUSY);
}

static void
ask (SwDocument *document)
{
  sw_worker_ask (document->worker, sw_desk_job (document->desk), sw_desk_generation (document->desk) + 1);
  notify (document, PROP_BUSY);
}

/* Later, so that an edit may follow: then its own check takes the draft's place without a step back. */
static gboolean
draft_over (gpointer data)
{
  SwDocument *document = data;
  document->draft_over_idle = 0;
  document->draft_serial = 0;
  sw_worker_drop_draft (document->worker);
  if (document->draft != NULL && document->draft_generation == sw_desk_generation (document->desk))
    take_draft (document, NULL);
  return G_SOURCE_REMOVE;
}

static void
follow_draft (SwDocument *document)
{
  guint serial;
  const GPtrArray *draft = sw_board_draft_under_way (document->board, &serial);
  if (draft == NULL)
    {
      if (document->draft_serial != 0 && document->draft_over_idle == 0)
        document->draft_over_idle = g_idle_add_full (G_PRIORITY_DEFAULT, draft_over, document, NULL);
      return;
    }
  g_clear_handle_id (&document->draft_over_idle, g_source_remove);
  if (serial == document->draft_serial)
    return;
  document->draft_serial = serial;
  document->draft_generation = sw_desk_generation (document->desk);
  sw_worker_ask_draft (document->worker, draft);
}

static void
on_notice (SwDesk *desk, const SwNotice *notice, gpointer data)
{
  SwDocument *document = data;
  ask (document);
  sw_document_set_fault (document, NULL);
  notify (document, PROP_UNDO_NAME);
  notify (document, PROP_REDO_NAME);
  if ((notice->tables & (1u << SW_TABLE_JOB)) != 0)
    notify (document, PROP_TITLE);
  g_signal_emit (document, signals[SIGNAL_CHANGED], 0);
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & SW_BOARD_FAULT) != 0 && sw_board_fault (board) != NULL)
    sw_document_set_fault (data, sw_board_fault (board)->message);
  if ((changes & SW_BOARD_LIVE) != 0)
    follow_draft (data);
}

static SwDocument *
document_new (SwJob *job, SwJournal *journal)
{
  SwDocument *document = g_object_new (SW_TYPE_DOCUMENT, NULL);
  document->desk = sw_desk_new (job, journal);
  document->board = sw_board_new (document->desk);
  document->worker = sw_worker_new (on_picture, document);
  sw_desk_watch (document->desk, on_notice, document);
  sw_board_watch (document->board, on_board, document);
  ask (document);
  return document;
}

char *
sw_document_own_folder (void)
{
  char *folder = g_build_filename (g_get_user_data_dir (), "soffitwright", "jobs", NULL);
  g_mkdir_with_parents (folder, 0700);
  return folder;
}

static gboolean
is_in_own_folder (const char *path)
{
  g_autofree char *folder = sw_document_own_folder (), *parent = g_path_get_dirname (path);
  return g_str_equal (folder, parent);
}

static SwDocument *
document_of_file (SwJobFile *file)
{
  SwDocument *document = document_new (sw_job_file_job (file), sw_job_file_take_journal (file));
  document->job_file = file;
  document->file = g_file_new_for_path (sw_job_file_path (file));
  document->in_own_folder = is_in_own_folder (sw_job_file_path (file));
  document->read_only_text = sw_job_file_read_only_text (file);
  return document;
}

/* "New job.soffit", "New job 2.soffit" …: creating refuses a name that is taken, so two programs cannot take the same. */
SwDocument *
sw_document_new_from_job (SwJob *job, GError **error)
{
  g_autofree char *folder = sw_document_own_folder (), *name = g_strdup (sw_job_info (job)->name);
  g_strdelimit (g_strstrip (name), "/\\:*?\"<>|", '-');
  for (int i = 1; i < 10000; i++)
    {
      g_autofree char *base = i == 1 ? g_strdup_printf ("%s.soffit", *name ? name : "job") : g_strdup_printf ("%s %d.soffit", *name ? name : "job", i);
      g_autofree char *path = g_build_filename (folder, base, NULL);
      if (g_file_test (path, G_FILE_TEST_EXISTS))
        continue;
      SwJobFile *file = sw_job_file_create (path, job, FALSE, error);
      return file != NULL ? document_of_file (file) : NULL;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, _("%s is full of jobs with this name: move some elsewhere."), folder);
  return NULL;
}

SwDocument *
sw_document_open (GFile *file, GError **error)
{
  g_autofree char *path = g_file_get_path (file);
  if (path == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("Only jobs on this computer can be opened: copy it here first."));
      return NULL;
    }
  if (!g_str_has_suffix (path, ".json"))
    {
      SwJobFile *job_file = sw_job_file_open (path, FALSE, error);
      return job_file != NULL ? document_of_file (job_file) : NULL;
    }
  g_autoptr (SwJob) job = sw_text_form_load (path, error);
  return job != NULL ? sw_document_new_from_job (job, error) : NULL;
}

SwDesk *
sw_document_desk (SwDocument *document)
{
  return document->desk;
}

SwBoard *
sw_document_board (SwDocument *document)
{
  return document->board;
}

SwJob *
sw_document_job (SwDocument *document)
{
  return sw_desk_job (document->desk);
}

const SwPicture *
sw_document_picture (SwDocument *document)
{
  return document->picture;
}

const SwPicture *
sw_document_snags_picture (SwDocument *document)
{
  return document->draft != NULL ? document->draft : document->picture;
}

GFile *
sw_document_file (SwDocument *document)
{
  return document->file;
}

gboolean
sw_document_is_read_only (SwDocument *document)
{
  return sw_desk_is_read_only (document->desk);
}

const char *
sw_document_read_only_text (SwDocument *document)
{
  return document->read_only_text;
}

/* Shows what failed; TRUE when nothing did. */
static gboolean
settle (SwDocument *document, gboolean done, GError *error)
{
  if (!done)
    sw_document_set_fault (document, error != NULL ? error->message : _("That did not work."));
  g_clear_error (&error);
  return done;
}

gboolean
sw_document_do (SwDocument *document, SwEdit *edit)
{
  g_autoptr (SwEdit) mine = edit;
  GError *error = NULL;
  return settle (document, sw_desk_do (document->desk, mine, &error), error);
}

gboolean
sw_document_undo (SwDocument *document)
{
  GError *error = NULL;
  return !sw_desk_can_undo (document->desk) || settle (document, sw_desk_undo (document->desk, &error), error);
}

gboolean
sw_document_redo (SwDocument *document)
{
  GError *error = NULL;
  return !sw_desk_can_redo (document->desk) || settle (document, sw_desk_redo (document->desk, &error), error);
}

gboolean
sw_document_revert (SwDocument *document)
{
  GError *error = NULL;
  return settle (document, sw_desk_revert (document->desk, &error), error);
}

gboolean
sw_document_save_copy (SwDocument *document, GFile *to)
{
  GError *error = NULL;
  g_autofree char *path = g_file_get_path (to);
  if (path == NULL)
    return settle (document, FALSE, g_error_new_literal (SW_ERROR, SW_ERROR_IO, _("A copy can only be saved on this computer.")));
  if (g_str_has_suffix (path, ".json"))
    return settle (document, sw_text_form_save (sw_document_job (document), path, &error), error);
  return settle (document, sw_job_file_save_copy (document->job_file, path, &error), error);
}

const char *
sw_document_fault (SwDocument *document)
{
  return document->fault;
}

void
sw_document_set_fault (SwDocument *document, const char *fault)
{
  if (g_strcmp0 (document->fault, fault) == 0)
    return;
  g_free (document->fault);
  document->fault = g_strdup (fault);
  notify (document, PROP_FAULT);
}

static void
sw_document_init (SwDocument *document)
{
}

static void
document_finalize (GObject *object)
{
  SwDocument *document = SW_DOCUMENT (object);
  g_clear_handle_id (&document->draft_over_idle, g_source_remove);
  g_clear_pointer (&document->worker, sw_worker_free);
  g_clear_pointer (&document->board, sw_board_free);
  g_clear_pointer (&document->desk, sw_desk_free);
  g_clear_pointer (&document->job_file, sw_job_file_unref);
  g_clear_pointer (&document->picture, sw_picture_unref);
  g_clear_pointer (&document->draft, sw_picture_unref);
  g_clear_object (&document->file);
  g_free (document->fault);
  g_free (document->read_only_text);
  G_OBJECT_CLASS (sw_document_parent_class)->finalize (object);
}

/* The job's name; where it is kept. */
static void
get_names (SwDocument *document, guint id, GValue *value)
{
  const SwJobInfo *info = sw_job_info (sw_document_job (document));
  if (id == PROP_TITLE)
    g_value_set_string (value, *info->name ? info->name : _("Job without a name"));
  else if (!document->in_own_folder)
    g_value_take_string (value, g_file_get_basename (document->file));
  else
    g_value_set_string (value, _("kept in your folder of jobs"));
}

static void
document_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  SwDocument *document = SW_DOCUMENT (object);
  switch (id)
    {
    case PROP_TITLE:
    case PROP_SUBTITLE:
      get_names (document, id, value);
      break;
    case PROP_FAULT:
      g_value_set_string (value, document->fault);
      break;
    case PROP_READ_ONLY:
      g_value_set_boolean (value, sw_document_is_read_only (document));
      break;
    case PROP_READ_ONLY_TEXT:
      g_value_set_string (value, document->read_only_text);
      break;
    case PROP_BUSY:
      g_value_set_boolean (value, sw_worker_is_busy (document->worker));
      break;
    case PROP_UNDO_NAME:
      g_value_take_string (value, sw_desk_undo_name (document->desk));
      break;
    case PROP_REDO_NAME:
      g_value_take_string (value, sw_desk_redo_name (document->desk));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
    }
}

static void
sw_document_class_init (SwDocumentClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  const GParamFlags flags = G_PARAM_READABLE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;
  object_class->finalize = document_finalize;
  object_class->get_property = document_get_property;
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  props[PROP_SUBTITLE] = g_param_spec_string ("subtitle", NULL, NULL, NULL, flags);
  props[PROP_FAULT] = g_param_spec_string ("fault", NULL, NULL, NULL, flags);
  props[PROP_READ_ONLY] = g_param_spec_boolean ("read-only", NULL, NULL, FALSE, flags);
  props[PROP_READ_ONLY_TEXT] = g_param_spec_string ("read-only-text", NULL, NULL, NULL, flags);
  props[PROP_BUSY] = g_param_spec_boolean ("busy", NULL, NULL, FALSE, flags);
  props[PROP_UNDO_NAME] = g_param_spec_string ("undo-name", NULL, NULL, NULL, flags);
  props[PROP_REDO_NAME] = g_param_spec_string ("redo-name", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[SIGNAL_PICTURE] = g_signal_new ("picture", SW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", SW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_SNAGS] = g_signal_new ("snags", SW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
