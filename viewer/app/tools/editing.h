// Editing: what is dragged or typed becomes a proposal at once (drawn and answered live) and, when
// let go, a change of the site's text: one undo step.
#pragma once

#include <string>

#include "viewer/app/session.h"

namespace hummock::viewer {

// The document's site, in its own coordinates. Null before the first text that can be read.
const Site* site_read(const Session& session);
// The chosen object as it now stands, pose included; null when none is chosen.
std::optional<Object> chosen_object(const Session& session);

// Draws and answers for `value` without changing the document.
void propose_object(Session& session, int object, const Object& value);
// Ends the proposal and changes the text. `gesture`: see Document::change.
void commit_object(Session& session, int object, const Object& value, const std::string& what,
                   const std::string& gesture = "");
void drop_proposal(Session& session);

// Kinds offered when adding: boulder, log, tree, box, post, platform.
const std::vector<std::string>& addable_kinds();
// Adds one of a kind at the middle of the view (or the yard), with plain measures, and chooses it.
void add_object(Session& session, const std::string& kind);
void duplicate_chosen(Session& session);
void delete_chosen(Session& session);

void propose_corner(Session& session, int corner, Vec2 at);
void commit_corner(Session& session, int corner, Vec2 at);
// The same for anything of the site, from its fields: the keys that differ are set.
void propose_site(Session& session, const Site& value);
void commit_site(Session& session, const Site& value, const std::string& what);
// Takes a key out of the table at `table`.
void take_out_key(Session& session, const std::string& table, const std::string& key);

// The ground forms a stroke of the brush stands for, site coordinates. Raise: a mound for a dab, a
// ridge along a stroke. Lower: hollows along it, half as deep at half the radius apart, which sum
// to an even trough (raised cosines at half their radius add up to a constant). Smooth and flatten:
// a form over the ground the brush passed.
std::vector<GroundForm> forms_of(const Brush& brush, Vec2 origin);
void propose_stroke(Session& session);
void commit_stroke(Session& session);

// What moves an object drawn at `shown` to `pose`, for its triangles; local coordinates.
Matrix4 carry(const Model& model, const Object& shown, const Object& pose);
// Puts pose and chosen into the drawing's `moved`.
void update_moved(Session& session);

}  // namespace hummock::viewer
