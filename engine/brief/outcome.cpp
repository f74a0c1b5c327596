#include "engine/brief/outcome.h"

namespace hummock {

const char* to_string(Outcome outcome) {
  switch (outcome) {
    case Outcome::proven:
      return "proven";
    case Outcome::bounded:
      return "bounded";
    case Outcome::incomplete:
      return "incomplete";
    case Outcome::not_run:
      return "not_run";
  }
  return "";
}

const char* to_string(NotRun why) {
  switch (why) {
    case NotRun::not_asked:
      return "not asked for";
    case NotRun::no_place:
      return "the site has no [place]";
    case NotRun::no_gate:
      return "the site draws no gate and no house door";
    case NotRun::no_viewing:
      return "the site draws no viewing place";
    case NotRun::no_house:
      return "the site draws no house and names no climate";
  }
  return "";
}

}  // namespace hummock
