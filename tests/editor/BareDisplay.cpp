#include "BareDisplay.h"

#include <X11/Xlib.h>

#include <initializer_list>

void nameWhatWindowManagersName()
{
    // Left open: a server without clients forgets its names.
    auto* display = XOpenDisplay (nullptr);
    if (display == nullptr)
        return;
    for (const char* name :
         { "WM_PROTOCOLS", "WM_TAKE_FOCUS", "WM_DELETE_WINDOW", "_NET_WM_PING", "WM_CHANGE_STATE", "WM_STATE",
           "_NET_WM_WINDOW_TYPE", "_NET_WM_WINDOW_TYPE_NORMAL", "_NET_WM_WINDOW_TYPE_COMBO", "_NET_WM_STATE",
           "_NET_WM_STATE_HIDDEN", "_NET_WM_STATE_FULLSCREEN", "_KDE_NET_WM_WINDOW_TYPE_OVERRIDE", "_MOTIF_WM_HINTS",
           "_NET_FRAME_EXTENTS", "_NET_WM_ALLOWED_ACTIONS", "_NET_WORKAREA", "_WIN_HINTS", "KWM_WIN_DECORATION" })
        XInternAtom (display, name, False);
    XSync (display, False);
}
