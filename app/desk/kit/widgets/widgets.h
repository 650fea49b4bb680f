#pragma once

// The controls all screens are made of. Include this one file.
//
// HOW TO USE
//   Each control takes the Ui, a stable dotted id ("panel.key.stop"; unique in the frame), and the words
//   (already through tr()). Controls are placed at the layout cursor, one below the other; same_line(ui) puts
//   the next one to the right; at(ui, x, y) moves the cursor anywhere; `Place{.w = ...}` gives a width (0
//   natural, < 0 = fill up to the right edge, > 0 pixels already scaled with ui.px()), `Place{.h = ...}` a
//   height (0 = standard). Regions are rectangles cut with Rect::take_left/columns/rows; a panel draws one
//   and sets the cursor inside. Lengths: ui.px(16) (grows with the display), ui.em(120) (grows with the text
//   size too). Colours: ui.colour(Token::ink). A control that does not fit after same_line() starts a new
//   line by itself. A disabled control carries the reason: {.enabled = false, .reason = tr("Close the lid
//   first.")}.
//
// CATALOGUE
//   REGIONS      PanelScope p(ui, "id", rect, {.caption=..., .title=..., .ground=Token::panel});       //
//                scrolls when too long CardScope (same, clickable): CardScope c(ui, "id", rect, label); if
//                (c.pressed()) ... ScrollScope s(ui, "id", size); DialogScope d(ui, "id", title); if
//                (d.open()) { ...; if (d.dismissed()) ... } RowScope-free rows: same_line(ui), gap(ui, 8),
//                separator(ui)
//   TEXT         text(ui, words, {.type=Type::body, .colour=Token::ink, .wrap=0}); caption(), title(),
//                step_text(), value_text() text_at(ui, pos, words, style, align) and text_size(ui, words,
//                style) for drawings label_line(ui, anchor, label_pos, words, words2): leader line with label
//                in a drawing
//   ACTIONS      button(ui, id, label, {.kind=ButtonKind::primary, .icon=Icon::arrow_left, .enabled, .reason,
//                .selected, .place}) chip(ui, id, label, selected)   link(ui, id, label)   icon_button(ui,
//                                                                    id, Icon, label)
//                menu_button(ui, id, label, items) -> index or -1
//   INPUT        text_field(ui, id, label, std::string&, {.hint, .error, .multiline...})
//                number_field(ui, id, label, double& shown, {.unit, .min, .max, .step, .decimals, .error})
//                quantity_field(ui, id, label, Quantity, double& si, {.min_si, .max_si, .step_shown})
//                slider(ui, id, label, double&, {.min, .max, .step, .unit})  checkbox(ui, id, label, bool&)
//                radio_row(ui, id, {labels}, int&)  (ids "id.0", "id.1", ...)   choice(ui, id, label,
//                                                   {labels}, int&)
//   LISTS        list_row(ui, id, {.title, .detail, .right, .icon, .selected}) -> clicked
//                TableScope t(ui, "id", {{heading, weight, align}, ...}); t.header(); t.row("id", {cells},
//                selected) -> clicked
//   FEEDBACK     state_mark(ui, State, words)  progress_bar(ui, share, words)  beads(ui, id, {labels},
//                current, rect) caution_box(ui, id, words, Sign)   notice(ui, State, words)   toast:
//                                                                  ui.host.toast(...)   tooltip(ui, words)
//   LARGE GROUND fill_ground(draw, rect, colour, corner) instead of AddRectFilled: several times cheaper on
//   the software renderer
//   DRAWINGS     spot(ui, id, label, rect, {...}) invisible, focusable, clickable, draggable control over a
//                drawing icon(draw, Icon, rect, colour)  sign(draw, Sign, rect)
//
// All controls: hover feedback, focus ring from the keyboard, at least 34 px high, registered in ui.registry
// under their id.

#include "app/desk/kit/theme/fill.h"
#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/dialog.h"
#include "app/desk/kit/widgets/feedback.h"
#include "app/desk/kit/widgets/field.h"
#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/list.h"
#include "app/desk/kit/widgets/panel.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/kit/widgets/toggle.h"
#include "app/desk/kit/widgets/ui.h"
