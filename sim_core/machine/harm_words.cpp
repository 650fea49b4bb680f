#include <array>
#include <vector>

#include "sim_core/machine/number_words.h"
#include "sim_core/machine/state.h"
#include "sim_core/product/burns.h"

// What each harm is called, what would have happened, why, and what to do instead. Plain and without gore.
namespace stirbench::machine {

namespace {

struct HarmWords {
  std::string_view key;
  bool injury;
  std::string_view sign;  // ISO 7010
  std::string_view title;
  std::string_view happened;
  std::string_view why;
  std::string_view instead;
};

constexpr std::array<HarmWords, harm_count> words{{
    {"moving_agitator", true, "W024", "A hand caught by the agitator",
     "The turning agitator would have caught and crushed fingers.",
     "The machine could still turn, or was started, while a hand was in the vat.",
     "Press Stop, isolator off, own padlock on, try to start it, and see that the shaft stands still. Only "
     "then reach in."},
    {"hot_product", true, "W017", "Skin burnt by hot product",
     "Hot product would have burnt skin. It is sticky and goes on burning until it is rinsed off.",
     "Product is hotter than skin stands for the time it clings.",
     "Let it cool, open the draw valve slowly, hang a hose into the pail, and wear heat-proof gloves, an "
     "apron and eye protection."},
    {"hot_wall", true, "W017", "A hand burnt on hot metal", "A bare hand would have been burnt on the metal.",
     "Walls, well and valve stay hot long after the heat is off, and hot metal looks like cold metal.",
     "Let it cool, or wear heat-proof gloves and use the handles."},
    {"hot_steam", true, "W017", "Hands or face scalded by steam",
     "Hot steam and splashes would have come out of the opening and scalded hands and face.",
     "Steam over very hot product has nowhere to go until the lid opens, and a turning agitator throws "
     "product.",
     "Press Stop, let the agitator come to rest, open the lid away from you, and keep back until the steam "
     "has gone."},
    {"live_terminals", true, "W012", "An electric shock",
     "Current would have gone through hands and chest. It can stop the heart.",
     "The parts behind the panel were still live, became live again, or a capacitor still held its charge.",
     "Isolate, own lock and tag on, wait the time on the label, prove the meter, measure, prove it again. "
     "Only licensed people "
     "work inside the panel."},
    {"slipped", true, "W011", "A fall on a wet floor", "Somebody would have slipped and fallen on the floor.",
     "Spilt mix is as slippery as oil, and it was left where people walk.",
     "Stop, put up the sign, wipe and rinse the floor at once, and wear shoes that grip."},
    {"chemical_gas", true, "W001", "Poison gas from mixed chemicals",
     "Chlorine gas would have come out of the bucket and hurt eyes and lungs of everybody in the room.",
     "Acid and a chlorine sanitiser met in one bucket.",
     "One chemical at a time. Empty and rinse the bucket in between. If it happens: leave, close the door, "
     "call for help."},
    {"chemical_burn", true, "W023", "Skin or eyes burnt by a chemical",
     "The chemical would have burnt skin or an eye.",
     "It was stronger than skin and eyes stand, or it splashed, and gloves or goggles were missing.",
     "Water first, then the chemical, measured as the label says. Wear goggles and chemical gloves. Rinse a "
     "splash for 15 minutes."},
    {"hose_pressure", true, "W001", "Sprayed by a hose under pressure",
     "The hose would have whipped and sprayed product into face and eyes.",
     "The hose still held pressure when its clamp was opened.",
     "Stop the pump, shut the valve, let the pressure out into a pail, and only then open the clamp."},
    {"valve_spring", true, "W001", "Hit by the valve's spring",
     "The spring would have flown out of the draw valve into hands or face.",
     "The spring was still under load when the valve was taken apart.",
     "Ease the spring first, keep your face out of its line, and wear eye protection."},
    {"refrigerant", true, "W021", "Hurt by refrigerant",
     "The liquid would have frozen skin at once, and the gas burns if it finds a spark.",
     "The refrigerant circuit was opened. It is under pressure even when the machine is off.",
     "Leave it shut. Only licensed people open it. A hiss or an oily spot: air the room, keep flames away, "
     "call them."},
    {"colleague_hurt", true, "W001", "A colleague hurt",
     "A colleague who was still working on the machine would have been hurt when the power came back.",
     "Their padlock was not yours to take off, or nobody looked whether they had finished.",
     "Each person takes off the own lock. Ask, look, wait. If somebody has gone home with a lock on, the "
     "person in charge "
     "follows the site's procedure."},
    {"bushing_worn", false, "W001", "A bushing worn out",
     "A bushing is worn beyond its limit. The agitator wobbles and rubs, and plastic or metal can get into "
     "the product.",
     "It ran dry, hot or too long.",
     "Stop using the machine and have the bushing replaced; never let the agitator turn in an empty vat."},
    {"product_scorched", false, "W017", "Product burnt on",
     "Product burnt on to the heated wall. It tastes burnt and the layer slows the heating.",
     "The wall was hotter than the product could carry away.",
     "Keep the agitator turning and the well covered whenever the heat is on."},
    {"product_curdled", false, "W001", "The egg curdled",
     "The egg set into lumps. The batch is grainy and blocks the draw valve.",
     "It got hotter than its egg can take.",
     "Keep custard below the temperature its recipe names and keep it stirred."},
    {"boil_over", false, "W011", "Boiled over",
     "Product boiled and foamed over the brim. It scalds whoever stands near and makes the floor slippery.",
     "It was heated past boiling with no room to rise.",
     "Turn the heat off in time, and fill no higher than the working mark."},
    {"vanes_torn", false, "W001", "The pump's vanes torn",
     "The circulation pump's vanes are torn. Hardly half of the circulation is left, it pulses, and pieces "
     "of "
     "rubber are in the product.",
     "The pump turned dry until its vanes burnt, or they were far beyond their hours.",
     "Stop, throw the batch away, have new vanes put in and count the pieces; never let the shaft turn in an "
     "empty well."},
}};

const HarmWords& words_of(HarmId harm) { return words[static_cast<std::size_t>(harm)]; }

std::string seconds_words(double time_s) {
  if (time_s < 1.5) return "about 1 s";
  return time_s < 90.0 ? with_unit(time_s, 0, "s") : with_unit(time_s / 60.0, 0, "min");
}

std::string number_words(double value, const char* unit) { return with_unit(value, 0, unit); }

std::string skin_words(double degC) {
  using product::BurnSeverity;
  const double full_s = product::burn_time_s(degC, BurnSeverity::full);
  if (full_s <= 0.0) return "At " + number_words(degC, "°C") + " wet skin burns to its full depth at once.";
  if (!(full_s < 4.0 * 3600.0)) return {};
  return "At " + number_words(degC, "°C") + " wet skin burns to its full depth in " + seconds_words(full_s) +
         ".";
}

}  // namespace

std::string_view harm_key(HarmId harm) { return words_of(harm).key; }
std::string_view harm_title(HarmId harm) { return words_of(harm).title; }
std::string_view harm_happened(HarmId harm) { return words_of(harm).happened; }
std::string_view harm_why(HarmId harm) { return words_of(harm).why; }
std::string_view harm_instead(HarmId harm) { return words_of(harm).instead; }
std::string_view harm_sign(HarmId harm) { return words_of(harm).sign; }
bool harm_is_injury(HarmId harm) { return words_of(harm).injury; }

std::string_view harm_text(HarmId harm) {
  static const std::vector<std::string> whole = [] {
    std::vector<std::string> list;
    list.reserve(std::size(words));
    for (const HarmWords& one : words) {
      list.push_back(std::string(one.happened) + " " + std::string(one.why) + " " + std::string(one.instead));
    }
    return list;
  }();
  return whole[static_cast<std::size_t>(harm)];
}

std::string harm_detail(HarmId harm, double severity) {
  switch (harm) {
    case HarmId::moving_agitator: return "It turned at " + number_words(severity, "rpm") + ".";
    case HarmId::hot_product: return skin_words(severity);
    case HarmId::hot_steam: return "Below the lid it was " + number_words(severity, "°C") + ".";
    case HarmId::hot_wall: {
      const double time_s = product::touch_time_s(product::Surface::bare_metal, severity);
      return "Metal at " + number_words(severity, "°C") + " burns a bare hand in " +
             (time_s < 1.0 ? std::string("less than 1 s") : seconds_words(time_s)) + ".";
    }
    case HarmId::live_terminals:
      return "There were " + number_words(severity, "V") + "; 50 V can be too much.";
    case HarmId::chemical_gas:
      return "About " + number_words(severity, "ppm") + " in a small kitchen; 10 ppm is dangerous at once.";
    case HarmId::hose_pressure: return "The hose held " + with_unit(severity, 1, "bar") + ".";
    default: return {};
  }
}

}  // namespace stirbench::machine
