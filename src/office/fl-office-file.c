/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of people: read whole, written whole or not at all, and one line that says what stands in the way. */
#include "fl-office-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fl-json.h"

enum { READ_STEP = 1 << 16 };

/* ── reading ── */

static gboolean
unreadable (const char *path, GError **error, const char *what)
{
  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_UNREADABLE, "%s: %s", *path != '\0' ? path : "\"\"", what);
  return FALSE;
}

static gboolean
cannot_open (const char *path, int why, GError **error)
{
  g_autofree char *what = NULL;

  if (why == ENOENT || why == ENOTDIR)
    return unreadable (path, error, "there is no such file; check the name and the folder");
  if (why == EACCES || why == EPERM)
    return unreadable (path, error, "this user may not read it; ask its owner, or copy it to a place where you may");
  what = g_strdup_printf ("cannot be opened: %s", g_strerror (why));
  return unreadable (path, error, what);
}

/* A device may never end; a pipe does. */
static gboolean
is_document (int fd, const char *path, GError **error)
{
  struct stat about;

  if (fstat (fd, &about) != 0)
    return cannot_open (path, errno, error);
  if (S_ISDIR (about.st_mode))
    return unreadable (path, error, "is a folder; name the document in it");
  if (!S_ISREG (about.st_mode) && !S_ISFIFO (about.st_mode))
    return unreadable (path, error, "is a device, not a file; name a document");
  return TRUE;
}

static gboolean
read_all (int fd, const char *path, GByteArray *bytes, GError **error)
{
  g_autofree guint8 *step = g_malloc (READ_STEP);

  for (;;)
    {
      gssize n = read (fd, step, READ_STEP);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return cannot_open (path, errno, error);
      if (n == 0)
        return TRUE;
      g_byte_array_append (bytes, step, (guint) n);
      if (bytes->len > FL_JSON_MAX_BYTES)
        return unreadable (path, error, "is larger than 256 MiB, which no fleet needs; name the right document");
    }
}

GBytes *
fl_office_read_file (const char *path, GError **error)
{
  g_autoptr(GByteArray) bytes = g_byte_array_new ();
  int fd = g_open (path, O_RDONLY | O_CLOEXEC, 0);
  gboolean ok;

  if (fd < 0)
    {
      cannot_open (path, errno, error);
      return NULL;
    }
  ok = is_document (fd, path, error) && read_all (fd, path, bytes, error);
  close (fd);
  return ok ? g_byte_array_free_to_bytes (g_steal_pointer (&bytes)) : NULL;
}

/* ── writing ── */

static gboolean
unwritable (const char *path, GError **error, const char *what)
{
  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_WRITE, "%s: %s", *path != '\0' ? path : "\"\"", what);
  return FALSE;
}

gboolean
fl_office_may_write (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path), *what = NULL;
  struct stat about;

  if (*path == '\0' || g_str_has_suffix (path, "/"))
    return unwritable (path, error, "the name of a file is needed here");
  if (stat (path, &about) == 0 && S_ISDIR (about.st_mode))
    return unwritable (path, error, "is a folder; give the file a name in it");
  if (stat (path, &about) == 0 && !S_ISREG (about.st_mode))
    return unwritable (path, error, "is not a plain file and is left alone; give another name");
  if (g_file_test (folder, G_FILE_TEST_IS_DIR))
    return TRUE;
  what = g_strdup_printf ("cannot be written: the folder %s is missing; make it first", folder);
  return unwritable (path, error, what);
}

gboolean
fl_office_write_file (const char *path, GBytes *content, GError **error)
{
  g_autoptr(GError) why = NULL;
  g_autofree char *what = NULL;
  gsize length;
  const char *data = g_bytes_get_data (content, &length);

  if (!fl_office_may_write (path, error))
    return FALSE;
  if (g_file_set_contents_full (path, data, (gssize) length, G_FILE_SET_CONTENTS_CONSISTENT, 0666, &why))
    return TRUE;
  what = g_strdup_printf ("cannot be written, what was there is untouched: %s", why->message);
  return unwritable (path, error, what);
}

/* ── plans ── */

GPtrArray *
fl_office_parse_plans (const char *path, GBytes *text, FlProblems *problems, GError **error)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems != NULL ? problems : own;
  GPtrArray *plans = fl_plans_new_from_json (text, found);

  if (plans == NULL)
    fl_office_set_bad_document (path, found, "is no plan document", error);
  return plans;
}

GPtrArray *
fl_office_read_plans (const char *path, FlProblems *problems, GError **error)
{
  g_autoptr(GBytes) text = fl_office_read_file (path, error);

  return text != NULL ? fl_office_parse_plans (path, text, problems, error) : NULL;
}
