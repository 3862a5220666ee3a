/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The help window. */
#include "fl-help-window.h"

struct _FlHelpWindow
{
  GtkWindow parent_instance;
};

G_DEFINE_FINAL_TYPE (FlHelpWindow, fl_help_window, GTK_TYPE_WINDOW)

#define KEY "fl-help-window"

static void
forget_help (GtkWidget *help, GtkWindow *parent)
{
  (void) help;
  g_object_set_data (G_OBJECT (parent), KEY, NULL);
}

GtkWidget *
fl_help_window_new (GtkWindow *parent)
{
  GtkWidget *help = g_object_get_data (G_OBJECT (parent), KEY);

  if (help == NULL)
    {
      help = g_object_new (FL_TYPE_HELP_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      g_object_set_data (G_OBJECT (parent), KEY, help);
      g_signal_connect_object (help, "destroy", G_CALLBACK (forget_help), parent, 0);
    }
  return help;
}

static gboolean
fl_help_window_key_press (GtkWidget *widget, GdkEventKey *event)
{
  if (event->keyval == GDK_KEY_Escape)
    {
      gtk_window_close (GTK_WINDOW (widget));
      return GDK_EVENT_STOP;
    }
  return GTK_WIDGET_CLASS (fl_help_window_parent_class)->key_press_event (widget, event);
}

static void
fl_help_window_class_init (FlHelpWindowClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  widget->key_press_event = fl_help_window_key_press;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-help-window.ui");
}

static void
fl_help_window_init (FlHelpWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
}
