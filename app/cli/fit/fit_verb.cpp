#include "app/cli/fit/fit_verb.h"

#include <memory>

#include "app/cli/asking.h"

namespace stirbench::cli {

void add_log_options(CLI::App& app, FitOptions& options) {
  app.add_option("--log", options.log,
                 "CSV of a logger: time and temperature, where known power, ambient, fill, events");
  app.add_option("--actions", options.actions,
                 "What was done (see: stirbench help actions); without it the log shows it");
  app.add_option("--product", options.ingredient, "Ingredient that is in the vat (default whole_milk)");
  app.add_option("--mass", options.mass_kg, "Weighed mass, kg: then the elements' power is found");
  app.add_option("--fill", options.fill_kg, "Mass that is only assumed, kg");
  app.add_option("--power", options.power_W, "Measured power of the elements, W: then the mass is found");
  app.add_option("--ambient", options.ambient_degC, "Room temperature, degC (default: the log's, else 22)");
  app.add_option("--from", options.from_s, "Seconds of the log to leave out at its beginning");
  app.add_option("--until", options.until_s, "Second of the log to stop at");
}

void add_fit_verb(CLI::App& app, CommonOptions& common, std::function<int()>& verb) {
  CLI::App* sub = app.add_subcommand(
      "fit", "Fit a machine to the log of one real batch; exit 1 when the log is not one of this machine");
  const auto o = std::make_shared<FitOptions>();
  add_common(*sub, common);
  sub->add_option("--machine", o->machine, "Machine, e.g. hm-45")->required();
  add_log_options(*sub, *o);
  sub->get_option("--log")->required();
  sub->add_flag("--clock", o->clock_unknown,
                "The log's clock and that of the actions may differ, up to 15 min");
  sub->add_flag("--causes", o->causes, "Rank faults that would explain the log even when it fits");
  sub->add_option("--write", o->write, "Write the fitted machine as one of the site's own, ID.json");
  sub->add_option("--id", o->id, "Its id (default: the file's name)");
  sub->add_option("--title", o->title, "Its name for people");
  sub->add_option("--svg", o->svg, "Write measured over simulated and the residuals as a picture");
  sub->callback([&common, &verb, o] { verb = [&common, o] { return fit(common, *o); }; });
}

}  // namespace stirbench::cli
